"""What a limit says of its sense, and how rules hold what is measured against it, over all case files."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from precheck import testing
from precheck.checks import Check, Outcome
from precheck.checks.evidence import in_words
from precheck.checks.margin import EXACT, SPARE
from precheck.checks.relation import RELATIONS
from precheck.files.record import read_record
from precheck.files.source import Block, read_file
from precheck.review.finding import Finding
from precheck.rulesets.limit import Limit

pytestmark = pytest.mark.long
PLUGINS = Path(__file__).parents[1] / "plugins"


@cache
def comparisons() -> list[Check]:
    """Return every comparison that the findings of all cases rest on."""
    return [leaf for finding in findings() for leaf in finding.check.leaves() if leaf.relation is not None]


def findings() -> Iterator[Finding]:
    for path in sorted(PLUGINS.glob("*/cases/*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        empty = Block((0, 0), str(path))
        for case in file.cases:
            code = case.code if isinstance(case.code, str) else testing.editions()[-1]
            yield from testing.findings(file.rule, testing.overlay(file.base or empty, case.given or empty), code)


@cache
def used() -> dict[tuple[str, str], set[str]]:
    """Return the relations in which each limit is used, by its name and the sense that it, or a part of it, gives."""
    found: dict[tuple[str, str], set[str]] = {}
    for leaf in comparisons():
        if leaf.relation is not None and isinstance(leaf.bound, Limit):
            found.setdefault((leaf.bound.name, leaf.bound.sense), set()).add(leaf.relation.word)
    return found


def test_a_limit_that_gives_its_sense_is_used_in_no_other():
    others = {name: (sense, words) for (name, sense), words in used().items() if sense and words - {sense}}
    assert others == {}


def test_every_sense_that_can_be_compared_is_the_word_of_a_relation_and_the_cases_use_most_limits():
    assert {"minimum", "maximum", "under", "over", "one of", "required"} <= RELATIONS.keys()
    assert len(used()) > 800


def test_the_margin_that_is_told_of_a_comparison_agrees_with_its_outcome():
    told = [(leaf.outcome, in_words(leaf)) for leaf in comparisons() if leaf.missing is None]
    met = [one.sentence for outcome, one in told if outcome is Outcome.PASS and not _is_to_spare(one.margin)]
    missed = [one.sentence for outcome, one in told if outcome is Outcome.FAIL and one.margin.endswith(SPARE)]
    assert (met, missed) == ([], [])
    assert sum(1 for _, one in told if one.margin) > 3000


def _is_to_spare(margin: str) -> bool:
    return margin in ("", EXACT) or margin.endswith(SPARE)
