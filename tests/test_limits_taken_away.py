"""A place may delete any limit, or leave it to be set: no rule breaks off, over every case of every rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from sampled import long_save

from precheck import Check, House, Length, Limit, Limits, Space, reads, rule, testing
from precheck.checks import Outcome
from precheck.files.missing import Missing, Need
from precheck.files.record import read_record
from precheck.files.source import Block, Place, read_file, read_text
from precheck.project import project_from
from precheck.reports import words
from precheck.review.run import run
from precheck.rulesets.limit import Event, deleted, frozen

PLUGINS = Path(__file__).parents[1] / "plugins"
TOPICS = sorted(folder.parent.name for folder in PLUGINS.glob("*/cases"))
ORDINANCE = Event("deleted", "", "Ordinance 1", Place("", 1, 1))


def taken_away(limit: Limit[object]) -> list[Limit[object]]:
    """Return the limit as deleted, and as one that the place has yet to set."""
    unset = Missing(Need("the jurisdiction's ruleset", limit.measures))
    return [deleted(limit, ORDINANCE), replace(limit, value=unset)]


def houses(file: testing.CaseFile) -> Iterator[House]:
    """Yield the house of every case."""
    for case in file.cases:
        block = testing.overlay(file.base, case.given or Block((0, 0), "case"))
        block.setdefault("project", "case")
        yield House(project_from(block, testing.plugins().added))


@pytest.mark.parametrize("topic", long_save(TOPICS, "alarms", "doors", "escape", "separation", "stairs", "decay"))
def test_no_rule_breaks_off_where_one_of_its_limits_is_taken_away(topic: str) -> None:
    code, rules = testing.code("irc-2021"), {rule.name: rule for rule in testing.plugins().rules}
    for path in sorted((PLUGINS / topic / "cases").glob("*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        drawn, rule = list(houses(file)), rules[file.rule]
        for limit in [code.limits[name] for name in rule.limit_names]:
            for gone in taken_away(limit):
                local = replace(code, limits=frozen({**code.limits, limit.name: gone}))
                found = [finding for house in drawn for finding in run(rule, house, local)]
                assert [f.error for f in found if f.outcome is Outcome.ERROR] == [], limit.name
                assert all(words.full_message(finding) for finding in found)


class SlabLimits(Limits):
    """A limit that the 2021 edition does not have."""

    above_slab: Limit[Length] = reads("decay.post-base.above-slab")


@rule("broken.rule", existing="must comply")
def broken_rule(space: Space, limit: SlabLimits) -> Check:
    """Break off for a reason of its own."""
    raise TypeError("a fault of the rule")


def test_a_fault_of_a_rule_is_an_error_though_its_edition_lacks_a_limit_that_it_reads() -> None:
    code = testing.code("irc-2021")
    assert code.limits["decay.post-base.above-slab"].value is None
    fragment = read_text("project: P\nspaces: [{id: a, phase: new}]\n", "p.yaml")
    (found,) = run(broken_rule, House(project_from(fragment)), code)
    assert found.outcome is Outcome.ERROR
