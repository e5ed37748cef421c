"""What a drawing gives may be stated too: the equal value changes no outcome, and another one makes none better."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from case_houses import TOPICS, CaseHouse, listed, sample, way_to, with_value
from house_changes import as_text
from test_facts_left_out import better, open_findings, worse
from twice_stated import Twice, drawn_too

from precheck import House, testing
from precheck.checks import Outcome
from precheck.files.record import key_of
from precheck.files.source import Block, Unusable
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.rules.line import Line

pytestmark = pytest.mark.long

OTHER = (Fraction(1, 2), Fraction(2))


def stated(house: CaseHouse, project: Project, twice: Twice, value: Any) -> Block | None:
    """Return the file of the house with the value stated; None where the record is not one that the file gives."""
    way = way_to(twice.record, project)
    if way is None or twice.record.block is None:
        return None
    if twice.entry is None:
        return with_value(house.fragment, way, type(twice.record), twice.field, as_text(value))
    entry = Block((0, 0), "case")
    entry.update(twice.entry, distance=as_text(value))
    entries = listed([*(twice.record.block.get(key_of(type(twice.record), twice.field)) or ()), entry])
    return with_value(house.fragment, way, type(twice.record), twice.field, entries)


def twice_in(house: CaseHouse) -> Iterator[tuple[Project, Twice]]:
    """Yield what the house gives by its drawing alone."""
    project = project_from(house.fragment, testing.plugins().added)
    for twice in drawn_too(House(project)):
        yield project, twice


def unlike(house: CaseHouse) -> Iterator[str]:
    """Yield each field that states what is drawn, and changes an outcome; that the two agree is no change."""
    before = house.outcomes()
    for project, twice in twice_in(house):
        fragment = stated(house, project, twice, twice.drawn)
        if fragment is None:
            continue
        after = [f for f in house._replace(fragment=fragment).findings() if not only_agrees(f)]
        if Counter(f.outcome.word for f in after) - before:
            yield f"{twice.field} of {twice.record.label} {as_text(twice.drawn)}"


def only_agrees(finding: Finding) -> bool:
    """Return whether a finding passes for two statements that agree; the rules that hold them together are called so."""
    return finding.outcome is Outcome.PASS and finding.rule.name.endswith(("agree", "agrees"))


def improved(house: CaseHouse) -> Iterator[str]:
    """Yield each field that states another value than is drawn, whereby what is open passes and nothing tells."""
    before = house.findings()
    for project, twice in twice_in(house):
        for factor in OTHER:
            value = int(twice.drawn * factor) if isinstance(twice.drawn, int) else twice.drawn * factor
            fragment = stated(house, project, twice, value)
            if fragment is None or isinstance(house.rule, Line):
                continue
            try:
                after = house._replace(fragment=fragment).findings()
            except Unusable:
                continue
            if better(before, after) and not worse(open_findings(fragment), open_findings(house.fragment)):
                yield f"{twice.field} of {twice.record.label} {as_text(value)} for {as_text(twice.drawn)}"


@pytest.mark.parametrize("topic", TOPICS)
def test_stating_what_is_drawn_changes_no_outcome(topic: str) -> None:
    wrong = [f"{house.rule.name}, {house.case}: {what}" for house in sample(topic) for what in unlike(house)]
    assert wrong == []


@pytest.mark.parametrize("topic", TOPICS)
def test_stating_another_value_than_is_drawn_makes_no_outcome_better(topic: str) -> None:
    wrong = [f"{house.rule.name}, {house.case}: {what}" for house in sample(topic) for what in improved(house)]
    assert wrong == []
