"""The findings of a review as a numbered list of what to do, in the order in which it stops the job.

Every report and paper takes items, order and counts from here, so that a heading, its section and the verdict agree.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import count

from precheck.checks import Outcome
from precheck.immutable import fixed
from precheck.project import Part
from precheck.reports import words
from precheck.reports.groups import Group, group_of
from precheck.reports.rank import rank_of
from precheck.reports.together import together
from precheck.reports.wanted import PROJECT, Request, Wanted, requests_of
from precheck.review.finding import Finding, Review
from precheck.survey import part_of

FIRST_TOPIC = "zoning"
TEN = 10  # things that a report begins with


@fixed
class Item:
    """One numbered thing to do about one part, about several alike, or (with no part) about the whole project."""

    number: int
    group: Group
    label: str
    parts: tuple[Part, ...]
    findings: tuple[Finding, ...]
    wanted: tuple[Wanted, ...] = ()  # the values to show before all of this can be decided

    @property
    def part(self) -> Part | None:
        """The part that it is about, or the first of several."""
        return self.parts[0] if self.parts else None

    @property
    def outcome(self) -> Outcome:
        """What its findings came to, which are all alike."""
        return self.findings[0].outcome

    @property
    def line(self) -> int:
        """The line of the project file where its subject stands; of what is not shown, where the part does."""
        lacks = self.outcome is Outcome.NOT_SHOWN and self.part is not None
        return self.part.place.line if lacks and self.part is not None else self.findings[0].place.line

    @property
    def sheets(self) -> tuple[str, ...]:
        """The sheets that show the parts, or on which one looks for what they lack."""
        looked_for = [words.show_on(finding) for finding in self.findings]
        if all(looked_for):
            return tuple(dict.fromkeys(looked_for))
        return tuple(dict.fromkeys(sheet for part in self.parts for sheet in part.sheets))

    @property
    def wants(self) -> tuple[str, ...]:
        """The values to show, without what they are of."""
        texts = (one.text_for(one.need.owner if len(self.parts) > 1 else self.label) for one in self.wanted)
        return tuple(dict.fromkeys(texts))  # what several parts lack alike is said once

    @property
    def gist(self) -> str:
        """The item in one line, without what it is about."""
        if self.group is Group.ASK:
            return words.question(self.findings[0], self.wanted[0].need if self.wanted else None)
        if self.outcome is Outcome.NOT_SHOWN:
            return ", ".join(self.wants)
        return "; ".join(words.lines_of(self.findings[0]))

    @property
    def brief(self) -> str:
        """The item as a list of ten holds it: what it is about, and the first thing said of it."""
        if self.group is Group.ASK:
            return self.gist
        said = self.gist if self.outcome is Outcome.NOT_SHOWN else words.lines_of(self.findings[0])[0]
        return self.about(said)

    def about(self, said: str) -> str:
        """Return `said` after what the item is about; what is wanted of the project as a whole says so by itself."""
        return said if self.group is Group.ADD and self.label == PROJECT else f"{self.label}: {said}"

    @property
    def remedies(self) -> tuple[str, ...]:
        """What would meet the limit, for each of its parts where they differ."""
        return tuple(dict.fromkeys(fix for finding in self.findings if (fix := finding.check.remedy)))


def items_of(review: Review) -> tuple[Item, ...]:
    """Return everything to do about `review`, numbered in the order in which it stops the job."""
    parts = {part.label: part for part in review.project.parts}
    of_outcome = {outcome: [f for f in review.findings if _is_open(f, outcome)] for outcome in Outcome}
    drawn, of_town = requests_of(of_outcome[Outcome.NOT_SHOWN], parts)
    told = [*of_outcome[Outcome.ERROR], *of_outcome[Outcome.FAIL], *of_outcome[Outcome.WARN]]
    found = [*_told(told, parts), *_asked(Group.ADD, drawn), *_asked(Group.ASK, of_town)]
    ranked = sorted(found, key=_rank)
    return tuple(replace(item, number=number) for number, item in zip(count(1), ranked, strict=False))


def counts_of(items: Iterable[Item]) -> dict[Group, int]:
    """Return how many of `items` are in each group."""
    counted = Counter(item.group for item in items)
    return {group: counted[group] for group in Group}


def in_group(items: Iterable[Item], group: Group) -> list[Item]:
    """Return those of `items` that are in `group`."""
    return [item for item in items if item.group is group]


def in_work_order(findings: Iterable[Finding]) -> list[Finding]:
    """Return `findings` with those of zoning first and the rest as they came."""
    return sorted(findings, key=lambda finding: finding.rule.topic != FIRST_TOPIC)


def _is_open(finding: Finding, outcome: Outcome) -> bool:
    return finding.accepted is None and finding.outcome is outcome


def _rank(item: Item) -> tuple[bool, int, int, bool, int]:
    """Return the rank of an item: its first finding's, errors and what is to fix before what is to add, then the file's order."""
    later = item.group not in (Group.ERRORS, Group.FIX)
    return (*min(map(rank_of, item.findings)), later, item.part.place.line if item.part is not None else 0)


def _asked(group: Group, requests: list[Request]) -> Iterator[Item]:
    return (Item(0, group, one.label, one.parts, one.findings, one.wanted) for one in requests)


def _told(findings: list[Finding], parts: dict[str, Part]) -> Iterator[Item]:
    """Yield an item for what findings say, one for parts of a kind of which the same is said."""
    alike: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        alike.setdefault(_same(finding), []).append(finding)
    for found in alike.values():
        about = tuple(part for finding in found if (part := part_of(finding.subject)) is not None)
        label = together(about, parts.values()) if len(about) > 1 else words.label(found[0])
        needs = {str(need): Wanted((need,), (finding,)) for finding in found for need in finding.check.needs}
        group = group_of(found[0])
        assert group is not None
        yield Item(0, group, label, about, tuple(found), tuple(needs.values()))


def _same(finding: Finding) -> tuple[object, ...]:
    """Return what two findings share that are one item: a rule that says the same of two parts of a kind."""
    part = part_of(finding.subject)
    if group_of(finding) is Group.ASK and finding.check.why:
        return finding.rule.name, finding.check.why
    if part is None or words.label(finding) != part.label:
        return (id(finding),)
    return finding.rule.name, part.kind, finding.outcome, tuple(words.lines_of(finding))
