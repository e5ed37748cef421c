"""The summary for the owner: on one page what is planned, where the plans stand, what is to decide, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.reports.groups import Group
from precheck.reports.opening import excluded
from precheck.reports.papers.marks import foot, head, plain
from precheck.reports.worklist import in_group, items_of
from precheck.review.finding import READY, Review

MOST = 8  # things of a group that are told one by one, so that it stays one page


def render(review: Review) -> str:
    """Return the summary for the owner of one project."""
    return "\n".join(_lines(review)) + "\n"


def _lines(review: Review) -> Iterator[str]:
    yield from head("Summary for the owner", review)
    items = items_of(review)
    fix, add, ask = (in_group(items, group) for group in (Group.FIX, Group.ADD, Group.ASK))
    yield "## Where the plans stand"
    yield ""
    if review.verdict == READY:
        yield "As far as this pre-check goes, the plans show what a plan reviewer asks for, and nothing is left to fix."
    else:
        yield (
            f"The plans are not ready for the building department yet: {_counted(len(fix), 'thing')} in the design "
            f"{'has' if len(fix) == 1 else 'have'} to change, and {_counted(len(add), 'thing')} "
            f"{'is' if len(add) == 1 else 'are'} still to be shown on the drawings."
        )
    yield ""
    yield from _section("What has to change", [f"{item.label}: {item.gist}" for item in fix])
    yield from _section("What the building department decides", [item.gist for item in ask])
    yield from _section("What is not part of this job", excluded(review))
    yield from foot()


def _section(title: str, lines: list[str]) -> Iterator[str]:
    if not lines:
        return
    yield f"## {title}"
    yield ""
    yield from (f"- {plain(line)}" for line in lines[:MOST])
    if len(lines) > MOST:
        yield f"- and {len(lines) - MOST} more, in the correction list"
    yield ""


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
