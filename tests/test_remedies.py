"""A remedy that says which value becomes what clears its finding and breaks nothing else, over every case of every rule."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, houses, listed, way_to, with_value
from house_changes import as_text

from precheck import testing
from precheck.checks import NewValue, Outcome
from precheck.files.source import Block
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import review

STOPS = (Outcome.ERROR, Outcome.FAIL)
Key = tuple[str, str]


def with_changes(fragment: Block, project: Project, changes: tuple[NewValue, ...]) -> Block:
    """Return the file with the values of a remedy in it."""
    block = fragment
    for one in changes:
        way = way_to(one.record, project)
        assert way is not None, f"{one.record.label} is no record of the project"
        new = listed([as_text(each) for each in one.value]) if type(one.value) is tuple else as_text(one.value)
        block = with_value(block, way, type(one.record), one.field, new)
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
