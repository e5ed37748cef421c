"""The summary for the owner: on one page what is planned, where the plans stand, what is to decide, in plain words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from precheck.reports.groups import Group
from precheck.reports.papers.marks import called_in, foot, head, plain
from precheck.reports.worklist import Item, in_group, items_of
from precheck.review.finding import READY, Review

_ON_SHEET = re.compile(r" \[on the [^\]]*\]")
MOST = 5  # things of a group that are told one by one, so that it stays one page


def render(review: Review) -> str:
    """Return the summary for the owner of one project."""
    return "\n".join(_lines(review)) + "\n"


def _lines(review: Review) -> Iterator[str]:
    yield from head("Summary for the owner", review)
    items = items_of(review)
    fix, add, ask, look = (in_group(items, group) for group in (Group.FIX, Group.ADD, Group.ASK, Group.REVIEW))
    yield "## Where the plans stand"
    yield ""
    if review.verdict == READY:
        yield "As far as this pre-check goes, the plans show what a plan reviewer asks for, and nothing is left to fix."
    else:
        yield f"The plans are not ready for the building department yet. {_left(len(fix), len(add))}"
    yield ""
    yield from _section("What has to change", [_told(item) for item in fix])
    yield from _section("What the drawings still have to show", [_told(item) for item in add])
    yield from _section("What the building department decides", [plain(item.gist) for item in ask])
    yield from _section("What to look at before the plans go in", [_told(item) for item in look])
    yield from foot()


def _left(fix: int, add: int) -> str:
    """Return in a sentence what is left to do before the plans can go in."""
    change = f"{_counted(fix, 'thing')} in the design {'has' if fix == 1 else 'have'} to change"
    show = f"{_counted(add, 'thing')} {'is' if add == 1 else 'are'} still to be shown on the drawings"
    if fix and add:
        return f"{change}, and {show}."
    if add:
        return f"Nothing in the design has to change; {show}."
    return f"{change}." if fix else "What was to run did not run to its end."


def _told(item: Item) -> str:
    """Return an item in the words of its first line, after what it is about, without the sheets to look on."""
    about = called_in(item)
    said = plain(_ON_SHEET.sub("", item.brief.removeprefix(f"{item.label}: ")))
    return said if item.part is None else f"{about}: {said}"


def _section(title: str, lines: list[str]) -> Iterator[str]:
    if not lines:
        return
    yield f"## {title}"
    yield ""
    yield from (f"- {line}" for line in lines[:MOST])
    if len(lines) > MOST:
        yield f"- and {len(lines) - MOST} more, in the correction list"
    yield ""


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"
