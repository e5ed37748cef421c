"""A remedy that says which value becomes what clears its finding and breaks nothing else, over every case of every rule."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, changed, houses
from house_changes import written

from precheck import Length, testing
from precheck.checks import NewValue, Outcome
from precheck.files.record import Record, key_of
from precheck.files.source import Block
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import review

STOPS = (Outcome.ERROR, Outcome.FAIL)
Key = tuple[str, str]


def way_to(record: Record, below: Any, way: tuple[str | int, ...] = ()) -> tuple[str | int, ...] | None:
    """Return the keys and indices of a file that lead to `record` from what is `below`."""
    if below is record:
        return way
    if isinstance(below, Record):
        fields = ((field.alias or name, getattr(below, name)) for name, field in type(below).model_fields.items())
        return next((w for key, value in fields if (w := way_to(record, value, (*way, key))) is not None), None)
    if isinstance(below, tuple):
        return next((w for i, value in enumerate(below) if (w := way_to(record, value, (*way, i))) is not None), None)
    return None


def with_changes(fragment: Block, project: Project, changes: tuple[NewValue, ...]) -> Block:
    """Return the file with the values of a remedy in it."""
    block: Block = changed(fragment, Project, lambda *_: None)
    for one in changes:
        way = way_to(one.record, project)
        assert way is not None, f"{one.record.label} is no record of the project"
        at: Any = block
        for step in way:
            at = at[step] if isinstance(step, int) else at.setdefault(step, Block((0, 0), "case"))
        value = written(int(one.value.n)) if isinstance(one.value, Length) else str(one.value)
        at[key_of(type(one.record), one.field)] = {"True": "yes", "False": "no"}.get(value, value)
    return block


def found(project: Project) -> dict[Key, Finding]:
    """Return what all rules say of a project, by rule and by what the finding is about."""
    made = review(project, testing.code(EDITION), testing.plugins())
    return {(f.rule.name, str(getattr(f.subject, "label", ""))): f for f in made.findings}


def remedied(topic: str) -> Iterator[tuple[CaseHouse, Project, Key, dict[Key, Finding]]]:
    """Yield each finding of a case whose remedy is data, with all that was found of that house."""
    for house in houses(topic):
        if not any(finding.check.changes for finding in house.findings()):
            continue
        project = project_from(house.fragment, testing.plugins().added)
        before = found(project)
        for key, finding in before.items():
            if finding.rule.name == house.rule.name and finding.check.changes:
                yield house, project, key, before


@pytest.mark.parametrize("topic", TOPICS)
def test_a_remedy_clears_its_finding_and_brings_no_new_one(topic: str) -> None:
    wrong = []
    for house, project, key, before in remedied(topic):
        block = with_changes(house.fragment, project, before[key].check.changes)
        after = found(project_from(block, testing.plugins().added))
        open_before = (Outcome.NOT_SHOWN,) if before[key].check.needs else ()  # what was not shown before still is not
        if key in after and after[key].outcome in {*STOPS, Outcome.NOT_SHOWN} - {*open_before}:
            wrong.append(f"{house.case}: {before[key].check.remedy}: {key[0]} still {after[key].outcome.word}")
        for other, finding in after.items():
            was = before[other].outcome if other in before else Outcome.DOES_NOT_APPLY
            if other != key and finding.outcome in STOPS and was not in (*STOPS, Outcome.NOT_SHOWN):
                wrong.append(f"{house.case}: {before[key].check.remedy}: breaks {other[0]} of {other[1]}")
    assert wrong == []
