"""A place may delete any limit, or leave it to be set: no rule breaks off, over every case of every rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from precheck import House, testing
from precheck.checks import Outcome
from precheck.files.missing import Missing, Need
from precheck.files.record import read_record
from precheck.files.source import Block, Place, read_file
from precheck.project import project_from
from precheck.reports import words
from precheck.review.run import run
from precheck.rulesets.limit import Event, Limit, deleted, frozen

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
        yield House(project_from(block, testing.plugins().sections))


@pytest.mark.parametrize("topic", TOPICS)
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
