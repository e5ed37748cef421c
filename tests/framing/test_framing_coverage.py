"""The page of what is calculated says what the rules do, and leaves out no kind of member and no comparison."""

from __future__ import annotations

import json
from typing import get_args

import pytest
from click.testing import CliRunner
from precheck_plugins.framing.coverage.modes import Mode, by_member, modes
from precheck_plugins.framing.members.beams import overhanging_beam
from precheck_plugins.framing.members.capacity import SizedMember, check_member
from precheck_plugins.framing.members.demands import loaded_beam
from precheck_plugins.framing.members.statics import UniformLoad
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.lumber import published_values
from precheck_plugins.framing.timber.sections import dressed_section

from precheck import cli as command_line
from precheck.project.framing import Role
from precheck.rules.plugins import load_plugins

ROLE_IS = {
    "floor joist": "joists and rafters", "ceiling joist": "joists and rafters", "rafter": "joists and rafters",
    "deck joist": "joists and rafters", "beam": "beams, girders and trimmers", "trimmer": "beams, girders and trimmers",
    "header": "headers in bearing walls", "ridge beam": "ridge beams, hips and valleys",
    "hip or valley": "ridge beams, hips and valleys", "ridge board": "rafters against a ridge board", "post": "posts",
}  # fmt: skip
BENDING = {name for role, name in ROLE_IS.items() if role not in ("ridge board", "post")}


def rows(member: str) -> tuple[Mode, ...]:
    return dict(by_member())[member]


def test_every_role_of_a_member_has_its_rows() -> None:
    assert set(ROLE_IS) == set(get_args(Role))
    assert set(ROLE_IS.values()) <= {name for name, _ in by_member()}


def test_every_rule_that_the_page_names_exists_and_nothing_for_the_engineer_names_one() -> None:
    known = {rule.name for rule in load_plugins().rules}
    for mode in modes():
        assert set(mode.rules) <= known, mode
        assert bool(mode.rules) == (mode.way != "engineer"), mode


def test_every_rule_that_calculates_stands_on_the_page() -> None:
    named = {name for mode in modes() for name in mode.rules}
    calculating = {"framing.strength", "framing.deflection", "framing.bearing", "framing.post-strength", "framing.hold-down",
                   "framing.notched-end", "framing.guard-post", "framing.footing-load-agrees", "roof-framing.thrust",
                   "roof-framing.tie-strength", "bracing.amount", "foundations.wall-thickness", "decks.ledger-load"}  # fmt: skip
    assert calculating <= named


@pytest.mark.parametrize("member", sorted(BENDING))
def test_what_a_member_is_compared_in_stands_on_the_page_of_its_kind(member: str) -> None:
    section = dressed_section("2-2x10")
    wood = SizedMember(section, published_values("Hem-fir", "No.2", section), Conditions(unbraced_below_in=24))
    beam = overhanging_beam(120, 0, 24, (), [UniformLoad(0, 144, 5)])
    compared = {c.what for c in check_member(wood, loaded_beam(beam, beam).demand()).comparisons}
    calculated = " ".join(mode.mode for mode in rows(member) if mode.way == "calculated")
    for what in compared:
        word = {"bearing": "bearing across the grain", "live": "deflection under live load"}.get(
            what.split()[0], what.split()[0]
        )
        assert word in calculated, what


def test_no_row_stands_twice() -> None:
    keys = [(mode.member, mode.mode) for mode in modes()]
    assert len(keys) == len(set(keys))
    assert len(keys) >= 70


def run(*words: str) -> str:
    result = CliRunner().invoke(command_line.cli, ["calculated", *words])
    assert result.exit_code == 0, result.output
    return result.output


def test_the_command_prints_the_page() -> None:
    text = run()
    assert all(len(line) <= 80 for line in text.splitlines())
    for name, _ in by_member():
        assert name.upper() in text
    assert "for the engineer" in text


def test_the_command_prints_one_kind_of_member_and_for_machines() -> None:
    found = json.loads(run("--member", "posts", "--report", "json"))
    assert {row["member"] for row in found} == {"posts", "guard posts"}
    assert {"member", "mode", "way", "rules", "note"} == set(found[0])


def test_an_unknown_kind_is_told_which_there_are() -> None:
    result = CliRunner().invoke(command_line.cli, ["calculated", "--member", "arches"])
    assert result.exit_code == 2
    assert "posts" in result.output
