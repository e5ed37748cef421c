"""The report for a terminal on several projects: a line each. What they come to together is in `summary`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from precheck.files.inert import shown_name
from precheck.files.source import Problem
from precheck.reports.opening import verdict_line
from precheck.review.finding import Review


def render(reviews: list[Review]) -> str:
    """Return a line for each project."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the line of one project: file, code, verdict and counts."""
    partial = " (partial)" if review.code.partial else ""
    return f"{shown_name(review.project.place.file)} [{review.code.name}{partial}] {verdict_line(review)}\n"


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the line of a file that cannot be used; its problems are told by the command."""
    count = len(problems)
    return f"{shown_name(file)} CANNOT BE USED: {count} problem{'s' if count != 1 else ''}.\n"


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield all lines."""
    yield from pieces
