"""The findings of a review as a numbered list of what to do: shared by the page, the PDF and the papers.

A correction or a thing to look at is an item of its own. What is not shown is gathered part by part, because one value
often settles several checks. Zoning stands first, for it ends a job before any code check does.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from precheck.checks import Outcome
from precheck.missing import Need
from precheck.project import Part
from precheck.reports import words
from precheck.review import Finding, Review
from precheck.survey import part_of

FIRST_TOPIC = "zoning"
GROUPS = (Outcome.ERROR, Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN)
TITLES = {
    Outcome.ERROR: "Checks that broke off",
    Outcome.FAIL: "Corrections",
    Outcome.NOT_SHOWN: "Not shown",
    Outcome.WARN: "Look at",
    Outcome.PASS: "OK as shown",
    Outcome.DOES_NOT_APPLY: "Does not apply",
}
LABELS = {
    Outcome.ERROR: "Broke off",
    Outcome.FAIL: "Correction",
    Outcome.NOT_SHOWN: "Not shown",
    Outcome.WARN: "Look at",
    Outcome.PASS: "OK as shown",
    Outcome.DOES_NOT_APPLY: "Does not apply",
}


@dataclass(frozen=True)
class Wanted:
    """One value to show, and the findings that wait for it."""

    need: Need
    findings: tuple[Finding, ...]

    def text_for(self, owner: str) -> str:
        """Return the value's name, without `owner` where that is already said."""
        return self.need.told(owner)

    @property
    def rules(self) -> tuple[str, ...]:
        """The rules that wait."""
        return tuple(dict.fromkeys(finding.rule.name for finding in self.findings))


@dataclass(frozen=True)
class Item:
    """One numbered thing to do about one part (or, with no part, about the whole project)."""

    number: int
    outcome: Outcome
    label: str
    part: Part | None
    findings: tuple[Finding, ...]

    @property
    def line(self) -> int:
        """The line of the project file where its subject stands."""
        return self.findings[0].place.line

    @property
    def sheets(self) -> tuple[str, ...]:
        """The sheets that show the part."""
        return self.part.sheets if self.part is not None else ()

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """The values to show before all of this can be decided."""
        waiting: dict[Need, list[Finding]] = {}
        for finding in self.findings:
            for need in finding.check.needs:
                waiting.setdefault(need, []).append(finding)
        return tuple(Wanted(need, tuple(found)) for need, found in waiting.items())

    @property
    def gist(self) -> str:
        """The item in one line."""
        if self.outcome is Outcome.NOT_SHOWN:
            return f"show {', '.join(w.text_for(self.label) for w in self.wanted)}"
        return "; ".join(words.told(self.findings[0]))


def items_of(review: Review) -> tuple[Item, ...]:
    """Return everything to do about `review`, numbered in the order in which to do it."""
    rows = [row for outcome in GROUPS for row in _rows(outcome, _with(review, outcome))]
    return tuple(Item(number, *row) for number, row in enumerate(rows, 1))


def in_work_order(findings: Iterable[Finding]) -> list[Finding]:
    """Return `findings` with those of zoning first and the rest as they came."""
    return sorted(findings, key=lambda finding: finding.rule.topic != FIRST_TOPIC)


def _with(review: Review, outcome: Outcome) -> list[Finding]:
    return in_work_order(f for f in review.findings if f.outcome is outcome and f.accepted is None)


Row = tuple[Outcome, str, Part | None, tuple[Finding, ...]]


def _rows(outcome: Outcome, findings: list[Finding]) -> list[Row]:
    if outcome is not Outcome.NOT_SHOWN:
        return [(outcome, words.label(f), part_of(f.subject), (f,)) for f in findings]
    by_part: dict[Any, list[Finding]] = {}
    for finding in findings:
        part = part_of(finding.subject)
        by_part.setdefault((finding.rule.topic == FIRST_TOPIC, part.id if part else None), []).append(finding)
    return [(outcome, _owner(found[0]), part_of(found[0].subject), tuple(found)) for found in by_part.values()]


def _owner(finding: Finding) -> str:
    part = part_of(finding.subject)
    return part.label if part is not None else "the project"
