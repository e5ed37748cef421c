"""Each kind of remedy that a rule gives as data, by the fields that it changes, is held to its values by a case."""

from __future__ import annotations

import pytest
from case_houses import EDITION, PLUGINS, TOPICS

from precheck import testing
from precheck.files.record import read_record
from precheck.files.source import Block, read_file
from precheck.review.finding import Finding

SAMPLE = ("guards", "plumbing")


def kinds_of(found: list[Finding]) -> frozenset[str]:
    """Return the fields that the remedies of the worst findings change."""
    worst = min((finding.outcome for finding in found), default=None)
    return frozenset(c.field for finding in found if finding.outcome is worst for c in finding.check.changes)


def unheld(file: testing.CaseFile) -> dict[frozenset[str], str]:
    """Return the kinds of remedy that come of a file's cases and that none of them holds, each with such a case."""
    held, found = set(), {}
    for case in file.cases:
        code = case.code if isinstance(case.code, str) else EDITION
        nothing = Block((0, 0), "case")
        fragment = testing.overlay(file.base or nothing, case.given or nothing)
        if kinds := kinds_of(testing.findings(file.rule, fragment, code)):
            found.setdefault(kinds, case.case)
            if case.changes is not None:
                held.add(kinds)
    return {kinds: case for kinds, case in found.items() if kinds not in held}


@pytest.mark.parametrize("topic", [t if t in SAMPLE else pytest.param(t, marks=pytest.mark.long) for t in TOPICS])
def test_each_kind_of_remedy_as_data_is_held_by_a_case(topic: str) -> None:
    files = (read_record(testing.CaseFile, read_file(path)) for path in sorted((PLUGINS / topic / "cases").glob("*")))
    assert {file.rule: lacking for file in files if (lacking := unheld(file))} == {}
