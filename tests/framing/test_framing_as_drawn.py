"""Members as a project draws them: what comes down on them, and the calculation that reports and `explain` print."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st
from precheck_plugins.framing.drawn.load_path import loading_of, reactions_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD, LIVE, Piece
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting
from precheck_plugins.framing.members.patterns import Reach
from precheck_plugins.framing.timber.steps import given as given_step

from precheck import Member, is_missing
from precheck import cli as command_line
from precheck.checks import Outcome
from precheck.files.source import read_text
from precheck.project import Project, project_from
from precheck.testing import code, findings

HOUSE = """
project: case
jurisdiction: irc-2021
design criteria: {{ground snow load: 30 psf}}
members:
  - {{id: J1, phase: new, role: floor joist, size: 2x10, species: Hem-fir, grade: No.2, spacing: 16 in, span: {span},
     overhang: {past}, carries: [{{use: other room, live: 40 psf, dead: 10 psf}}],
     bears on: [{{onto: foundation wall}}, {{on: B1}}]}}
  - {{id: R1, phase: new, role: rafter, size: 2x6, species: Hem-fir, grade: No.2, spacing: 24 in, span: 12 ft, slope: "4:12",
     carries: [{{use: roof, dead: 10 psf}}], bears on: [{{on: B1}}, {{onto: ridge}}]}}
  - {{id: B1, phase: new, role: beam, size: 2x12, plies: 3, species: Hem-fir, grade: No.2, span: 10 ft,
     bears on: [{{on: P1}}, {{onto: footing}}]}}
  - {{id: P1, phase: new, role: post, size: 4x4, species: Hem-fir, grade: No.1, height: 8 ft, bears on: [{{onto: footing}}]}}
"""


def drawn(span: str = "12 ft", past: str = "1 in") -> Project:
    return project_from(read_text(HOUSE.format(span=span, past=past), "case"))


def setting(project: Project) -> Setting:
    limits = code("irc-2021").limits
    named = {field: limits[default.name] for field, default in DesignLimits._field_defaults.items()}
    return Setting(project, DesignLimits(**named))


def total(project: Project, member: str, kind: str) -> float:
    found = loading_of(part(project, member), setting(project))
    assert not is_missing(found)
    return found.total(kind)


def part(project: Project, name: str) -> Member:
    found = project.by_id[name]
    assert isinstance(found, Member)
    return found


def test_a_beam_gets_half_the_joists_and_all_of_the_rafters_that_lean_on_a_ridge_board() -> None:
    # By hand: joists 12 ft + 1 in at 16 in, moments about the wall: 10 psf x 12.083^2 / (2 x 12) = 60.8 plf; the rafters
    # of a ridge board put their whole 12 ft on the plate: 10 psf x 12 = 120 plf dead, 30 x 12 = 360 plf snow.
    # Three plies of Hem-fir 2x12 weigh 29.8 pcf x 50.6 in2 / 144 themselves.
    project = drawn()
    own = 62.4 * 0.43 / (1 + 0.009 * 0.43 * 19) * 1.19 * 3 * 1.5 * 11.25 / 144
    assert total(project, "B1", "dead") == pytest.approx(10 * (12 + 1 / 12) ** 2 / 24 + 120 + own)
    assert total(project, "B1", "live") == pytest.approx(40 * (12 + 1 / 12) ** 2 / 24)
    assert total(project, "B1", "snow") == pytest.approx(360)
    assert total(project, "B1", "roof live") == pytest.approx(16 * 12)


def test_a_post_gets_the_end_of_its_beam() -> None:
    project = drawn()
    assert total(project, "P1", "snow") == pytest.approx(360 * 10 / 2)


@settings(deadline=None, max_examples=60)
@given(st.integers(24, 300), st.integers(1, 60))
def test_no_load_is_lost_on_the_way_down(span: int, past: int) -> None:
    project = drawn(f"{span} in", f"{past} in")
    for name in ("J1", "B1"):
        member, where = part(project, name), setting(project)
        loading, reactions = loading_of(member, where), reactions_of(member, where)
        assert not is_missing(loading)
        assert not is_missing(reactions)
        for kind, ends in reactions.items():
            whole = loading.total(kind) * (loading.span_in + loading.overhang_in) / 12
            greatest, least = (sum(getattr(end, side) for end in ends) for side in ("greatest", "least"))
            assert greatest >= whole * (1 - 1e-9)
            assert least == pytest.approx(whole) if kind == "dead" else least <= 0
            if kind == "dead" or not loading.overhang_in:
                assert greatest == pytest.approx(whole)


def found_in(fragment: str, rule: str = "framing.strength") -> Any:
    return findings(rule, read_text(fragment, "case"), "irc-2021")[0]


JOIST = """members: [{{id: J1, phase: new, role: floor joist, size: {size}, species: Hem-fir, grade: No.2, spacing: {apart} in,
  span: {span} in, carries: [{{use: other room, live: {live} psf, dead: 10 psf}}]}}]"""


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(["2x6", "2x8", "2x10"]), st.integers(60, 260), st.integers(8, 24), st.integers(40, 90))
def test_what_fails_as_drawn_fails_under_more_and_its_remedy_passes(
    size: str, span: int, apart: int, live: int
) -> None:
    failed = found_in(JOIST.format(size=size, span=span, apart=apart, live=live))
    heavier = found_in(JOIST.format(size=size, span=span, apart=apart, live=live + 5))
    assert failed.outcome is not Outcome.FAIL or heavier.outcome is Outcome.FAIL
    remedy = failed.check.remedy
    if failed.outcome is Outcome.FAIL and remedy.startswith("2x"):
        larger = found_in(JOIST.format(size=remedy.split()[0], span=span, apart=apart, live=live))
        assert larger.outcome in (Outcome.PASS, Outcome.WARN)


def test_a_finding_carries_its_calculation_and_each_step_its_source() -> None:
    check = found_in(JOIST.format(size="2x8", span=190, apart=16, live=40)).check
    assert check.outcome is Outcome.FAIL
    assert {"w", "M", "Fb'", "D/C"} <= {step.symbol for step in check.work}
    assert all(step.source for step in check.work)
    moment = next(step for step in check.work if step.symbol == "M")
    # By hand: 50 psf at 16 in is 5.556 lb/in; times 190^2 / 8.
    assert moment.value == pytest.approx(50 * 16 / 144 * 190**2 / 8)


def explain(folder: Path, *words: str) -> Result:
    file = folder / "house.yaml"
    file.write_text(HOUSE.format(span="20 ft", past="1 in"))
    return CliRunner().invoke(command_line.cli, ["explain", *words, "--project", str(file)])


def test_explain_prints_the_calculation_of_one_part(tmp_path: Path) -> None:
    text = explain(tmp_path, "framing.strength", "--part", "J1").output
    assert "member J1: fail" in text
    assert "CALCULATION" in text
    assert "Fb = 850 psi" in text
    assert "loads.live.other-room" not in text  # the load is drawn, and as great as the code's
    assert "member B1" not in text
    assert "building department has the final say" in " ".join(text.split())


def test_explain_says_which_parts_a_rule_is_about(tmp_path: Path) -> None:
    result = explain(tmp_path, "framing.strength", "--part", "J2")
    assert result.exit_code == 2
    assert "J1" in result.output


def test_a_rule_without_a_calculation_says_so(tmp_path: Path) -> None:
    assert "No calculation" in explain(tmp_path, "loads.live", "--part", "J1").output


def test_the_report_for_machines_holds_the_calculation(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_text(HOUSE.format(span="20 ft", past="1 in"))
    result = CliRunner().invoke(command_line.cli, ["check", str(file), "--topic", "framing", "--report", "json"])
    report = json.loads(result.stdout)
    joist = next(f for f in report["findings"] if f["rule"] == "framing.strength" and f["subject"]["id"] == "J1")
    assert joist["work"][0]["source"] == "as drawn"
    assert {"symbol", "meaning", "expression", "value", "unit", "source"} == set(joist["work"][0])


def test_a_post_hands_down_all_that_lies_on_it_and_what_may_lift_it() -> None:
    step = given_step("P", "load", 1, "lb")
    post = Loading((), 0, (Piece(DEAD, 300, step), Piece(LIVE, 100, step, least=-40)))
    assert [post.reaches(kind) for kind in (DEAD, LIVE)] == [(Reach(300, 300),), (Reach(100, -40),)]
