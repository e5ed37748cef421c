"""In which order a person is asked: the work first, then part by part, and of a part its outline before its details."""

from __future__ import annotations

from typing import NamedTuple

from precheck.checks import Outcome
from precheck.files.missing import Need
from precheck.project import Part
from precheck.reports.rank import rank_of
from precheck.reports.wanted import PROJECT, Wanted, owner_of, turn_of
from precheck.review.finding import Finding, Review
from precheck.survey import NoWork

WORK = Need(PROJECT, "work")
"""What is being done, which is asked for before all else where a file shows no work."""

Waiting = list[tuple[Need, list[Finding]]]


class _Place(NamedTuple):
    """Where a value stands in the order: the rank of what lacks it, what that is, the value's turn, and its weight."""

    rank: tuple[bool, int, int]
    line: int
    owner: str
    turn: int
    weight: float


def in_turn(review: Review) -> Waiting:
    """Return each value that checks wait for, with those checks, in the order in which to ask."""
    parts = {part.label: part for part in review.project.parts}
    waiting: dict[Need, list[Finding]] = {}
    owners: dict[Need, str] = {}
    for finding in review.findings:
        if finding.outcome is Outcome.NOT_SHOWN and finding.accepted is None:
            for need in finding.check.needs:
                waiting.setdefault(need, []).append(finding)
                owners.setdefault(need, owner_of(need, finding, parts))
    ranks: dict[str, tuple[bool, int, int]] = {}
    for need, findings in waiting.items():
        name = _group(need, owners[need], parts)
        ranks[name] = min(ranks.get(name, (True, 99, 99)), *map(rank_of, findings))
    places = {need: _place(need, found, owners[need], parts, ranks) for need, found in waiting.items()}
    asked = sorted(waiting.items(), key=lambda item: places[item[0]])
    if review.works:
        return asked
    of_work = [one for one in asked if any(isinstance(finding.subject, NoWork) for finding in one[1])]
    return [(WORK, [f for _, found in of_work for f in found]), *(one for one in asked if one not in of_work)]


def told(need: Need) -> str:
    """Return a value as it is asked for: ``window W1: sill height``."""
    name = Wanted((need,), ()).text_for(need.owner)
    return name if need.owner in ("", PROJECT) else f"{need.owner}: {name}"


def _group(need: Need, owner: str, parts: dict[str, Part]) -> str:
    """Return what is asked together: all of one part; of the project each thing by itself."""
    return owner if owner in parts else f"{owner}: {need.key}"


def _place(
    need: Need, findings: list[Finding], owner: str, parts: dict[str, Part], ranks: dict[str, tuple[bool, int, int]]
) -> _Place:
    name, part = _group(need, owner, parts), parts.get(owner)
    share = sum(1 / len(finding.check.needs) for finding in findings)
    turn = turn_of(part, need.key) if part is not None else 0
    return _Place(ranks[name], part.place.line if part is not None else 0, name, turn, -share)
