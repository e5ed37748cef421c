"""What every report opens with: the verdict, the works that it understood with what of each is shown, and what is ruled out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from precheck.project import Part
from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.together import listed
from precheck.reports.worklist import Item, counts_of, items_of
from precheck.review.finding import READY, Review, WorkState

NO_WORK = "The file shows no work. List it under `work`, as a permit application does, or give the parts a phase."


class WorkLine(NamedTuple):
    """Works of one kind: what they are, on which parts, how many of their lines are shown, and what is told beside."""

    work: str
    where: str
    shown: int
    of: int
    works: tuple[WorkState, ...]

    @property
    def name(self) -> str:
        """The work and where it is done: ``opening made (D2 and D3)``."""
        return f"{self.work} ({self.where})" if self.where else self.work

    @property
    def counted(self) -> str:
        """How much of it is shown: ``12 of 20 shown``."""
        return f"{self.shown} of {self.of} shown" if self.of else "no list of what it takes"


def works_told(review: Review) -> list[WorkLine]:
    """Return the works of a review, those of a kind together, in the order of the file."""
    kinds: dict[str, list[WorkState]] = {}
    for one in review.works:
        kinds.setdefault(one.work.kind, []).append(one)
    return [
        WorkLine(kind, _where(found), sum(w.shown for w in found), sum(w.of for w in found), tuple(found))
        for kind, found in kinds.items()
    ]


def _where(found: Iterable[WorkState]) -> str:
    parts = [one.work.about for one in found if one.work.parts]
    return listed([part.id for part in parts if isinstance(part, Part)]) if parts else ""


def excluded(review: Review) -> list[str]:
    """Return what the project says is not in this job, each with why."""
    return [f"{one.what}: {one.why}" for one in review.project.not_in_this_job]


def outside(review: Review) -> list[str]:
    """Return the lines of the works that nothing here can tell, each with why."""
    told = {
        f"{line.line}: {line.by}": None for one in review.works for line in one.lines if line.state == "not checked"
    }
    return list(told)


def verdict_line(review: Review, items: Sequence[Item] | None = None) -> str:
    """Return the verdict with its counts, in one line. `items` are the review's, where they are at hand."""
    counts = counts_of(items_of(review) if items is None else items)
    parts = [group.counted(count) for group, count in counts.items()]
    if not review.works:
        parts.insert(0, "the file shows no work")
    said = ", ".join(filter(None, parts))
    many = len(review.accepted)
    accepted = f" {many} item{'' if many == 1 else 's'} accepted." if many else ""
    if review.verdict != READY:
        return f"NOT READY to submit: {said}.{accepted}"
    met = ", ".join(filter(None, ("nothing to fix or add in what was checked", said)))
    return f"READY{words.limited(review) or ' to submit, as far as this check goes'}: {met}.{accepted}"


def first_of(items: Sequence[Item], most: int) -> tuple[str, tuple[Item, ...]]:
    """Return the heading for the things to do first, and these: at most `most` of them."""
    first = tuple(items[:most])
    stops = [item for item in items if item.group not in (Group.ASK, Group.REVIEW)]
    heading = "What to do first" if stops else "To ask or review"
    return (f"{heading} ({len(first)} of {len(items)})" if len(items) > most else heading), first
