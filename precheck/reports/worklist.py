"""The findings of a review as a numbered list of what to do: shared by the page, the PDF and the papers.

What is to be fixed, asked or reviewed is an item of its own. What is not shown is gathered by the part that lacks it,
whichever part waits for it, because one value often settles several checks. Zoning stands first, for it ends a job
before any code check does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from precheck.checks import Outcome
from precheck.files.missing import Need
from precheck.project import Part
from precheck.reports import words
from precheck.reports.groups import Group, in_group
from precheck.review.finding import Finding, Review
from precheck.survey import part_of

FIRST_TOPIC = "zoning"
PROJECT = "the project"


@dataclass(frozen=True)
class Wanted:
    """One value to show, and the findings that wait for it."""

    need: Need
    findings: tuple[Finding, ...]

    def text_for(self, owner: str) -> str:
        """Return the value's name, without `owner` where that is already said."""
        return self.need.text(owner)

    @property
    def rules(self) -> tuple[str, ...]:
        """The rules that wait."""
        return tuple(dict.fromkeys(finding.rule.name for finding in self.findings))

    def waiting(self, owner: str, called: Callable[[Finding], str]) -> list[str]:
        """Return what waits, as `called`: with the part where it is not `owner`, and why it is due here."""
        told: dict[str, list[str]] = {}
        for finding in self.findings:
            why, part = finding.check.why, part_of(finding.subject)
            elsewhere = part is not None and part.label != owner and part.label not in why
            reason = ", ".join(text for text in (part.label if elsewhere and part else "", why) if text)
            told.setdefault(reason, []).append(called(finding))
        named = [(", ".join(dict.fromkeys(names)), reason) for reason, names in told.items()]
        return [f"{names}: {reason}" if reason else names for names, reason in named]


@dataclass(frozen=True)
class Item:
    """One numbered thing to do about one part (or, with no part, about the whole project)."""

    number: int
    group: Group
    label: str
    part: Part | None
    findings: tuple[Finding, ...]
    wanted: tuple[Wanted, ...] = ()  # the values to show before all of this can be decided

    @property
    def outcome(self) -> Outcome:
        """What its findings came to, which are all alike."""
        return self.findings[0].outcome

    @property
    def line(self) -> int:
        """The line of the project file where its subject stands; of what is not shown, where the part does."""
        lacks = self.group is Group.ADD and self.part is not None
        return self.part.place.line if lacks and self.part is not None else self.findings[0].place.line

    @property
    def sheets(self) -> tuple[str, ...]:
        """The sheets that show the part."""
        return self.part.sheets if self.part is not None else ()

    @property
    def gist(self) -> str:
        """The item in one line."""
        if self.group is Group.ADD:
            return f"show {', '.join(w.text_for(self.label) for w in self.wanted)}"
        return "; ".join(words.lines_of(self.findings[0]))


def items_of(review: Review) -> tuple[Item, ...]:
    """Return everything to do about `review`, numbered in the order in which to do it."""
    parts = {part.label: part for part in review.project.parts}
    rows = [row for group in Group for row in _rows(group, in_work_order(in_group(review.findings, group)), parts)]
    return tuple(Item(number, *row) for number, row in enumerate(rows, 1))


def in_work_order(findings: Iterable[Finding]) -> list[Finding]:
    """Return `findings` with those of zoning first and the rest as they came."""
    return sorted(findings, key=lambda finding: finding.rule.topic != FIRST_TOPIC)


Row = tuple[Group, str, Part | None, tuple[Finding, ...], tuple[Wanted, ...]]


def _rows(group: Group, findings: list[Finding], parts: dict[str, Part]) -> list[Row]:
    if group is Group.ADD:
        return _lacking(findings, parts)
    return [(group, words.label(f), part_of(f.subject), (f,), tuple(_wanted([(n, f) for n in f.check.needs], "")))
            for f in findings]  # fmt: skip


def _lacking(findings: list[Finding], parts: dict[str, Part]) -> list[Row]:
    """Return what is not shown, part by part as they stand in the file."""
    waiting: dict[str, list[tuple[Need, Finding]]] = {}
    for finding in findings:
        for need in finding.check.needs or (Need("", finding.rule.summary),):
            waiting.setdefault(_owner(str(need), finding, parts), []).append((need, finding))
    rows = [
        (Group.ADD, label, parts.get(label), tuple({id(f): f for _, f in found}.values()), tuple(_wanted(found, label)))
        for label, found in waiting.items()
    ]
    return sorted(
        rows, key=lambda row: (all(f.rule.topic != FIRST_TOPIC for f in row[3]), row[2].place.line if row[2] else 0)
    )


def _wanted(waiting: list[tuple[Need, Finding]], owner: str) -> Iterable[Wanted]:
    found: dict[str, tuple[Need, list[Finding]]] = {}
    for need, finding in waiting:
        found.setdefault(need.text(owner), (need, []))[1].append(finding)
    return (Wanted(need, tuple(findings)) for need, findings in found.values())


def _owner(need: str, finding: Finding, parts: dict[str, Part]) -> str:
    """Return the part that lacks the value: the one that the need names, else the one that the finding is about."""
    tails = need.split(" of ")[1:]
    named = (tail for n in range(len(tails)) if (tail := " of ".join(tails[n:])) in parts or tail == PROJECT)
    part = part_of(finding.subject)
    return next(named, part.label if part else PROJECT)
