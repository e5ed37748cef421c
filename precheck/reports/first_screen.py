"""The first screen of a terminal, 24 lines: the verdict, the works, and the ten things to do first, a line each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from precheck.files.inert import shown_name
from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.opening import NO_WORK, WorkLine, first_of, verdict_line, works_told
from precheck.reports.width import WIDTH, cut, wrapped
from precheck.reports.worklist import TEN, Item
from precheck.review.finding import Review

SCREEN = 24  # lines
FEWEST_ROWS = 2  # of works, however long the rest is
GAP = 2
_VERBS = {Group.ERRORS: "error", Group.FIX: "fix", Group.ADD: "add", Group.ASK: "ask", Group.REVIEW: "review"}


def first_screen(review: Review, items: Sequence[Item], bold: Callable[[str], str] = str) -> Iterator[str]:
    """Yield the lines of the first screen, and below them what does not fit: that a ruleset is partial."""
    head = _head(review, items, bold)
    excluded = _excluded(review)
    first = _first(items, bold)
    room = SCREEN - len(head) - len(excluded) - len(first) - 2  # two blank lines
    yield from head
    yield ""
    yield from _works(review, max(room, FEWEST_ROWS + 1), bold)
    yield from excluded
    if first:
        yield ""
    yield from first
    if partial := words.code_warning(review):
        yield ""
        yield from wrapped(partial)


def _head(review: Review, items: Sequence[Item], bold: Callable[[str], str]) -> list[str]:
    where = wrapped(f"{shown_name(review.project.place.file)}. Code: {words.code_line(review)}")
    read = wrapped(review.understood) if review.understood else []
    return [bold(cut(review.project.project)), *map(bold, wrapped(verdict_line(review, items))), *where, *read]


def _excluded(review: Review) -> list[str]:
    named = ", ".join(one.what for one in review.project.not_in_this_job)
    return [cut(f"Not in this job: {named}")] if named else []


def _works(review: Review, room: int, bold: Callable[[str], str]) -> Iterator[str]:
    told = works_told(review)
    if not told:
        yield from wrapped(NO_WORK)
        return
    shown, of = sum(one.shown for one in told), sum(one.of for one in told)
    yield bold(f"THE WORK, as read from the file{f': {shown} of {of} things that it takes are shown' if of else ''}")
    rows = room - 1
    if len(told) <= rows:
        yield from (_cell(one, WIDTH) for one in told)
        return
    cells = [_cell(one, (WIDTH - GAP) // 2) for one in told]
    if len(cells) > 2 * rows:
        kept = 2 * rows - 1
        cells = [*cells[:kept], f"  and {len(cells) - kept} more, listed with --all"]
    deep = (len(cells) + 1) // 2
    for left, right in zip(cells[:deep], [*cells[deep:], ""], strict=False):
        yield f"{left:<{(WIDTH - GAP) // 2}}{' ' * GAP}{right}".rstrip()


def _cell(one: WorkLine, width: int) -> str:
    count = f"{one.shown} of {one.of}" if one.of else "no list"
    return f"  {cut(one.name, width - len(count) - 3):<{width - len(count) - 3}} {count}"


def _first(items: Sequence[Item], bold: Callable[[str], str]) -> list[str]:
    if not items:
        return []
    heading, first = first_of(items, TEN)
    return [bold(heading.upper()), *(cut_line(item) for item in first)]


def cut_line(item: Item) -> str:
    """Return an item as one line: number, what to do, about what, and the beginning of the rest."""
    return f"{item.number:>3} {_VERBS[item.group]:<6} {cut(item.brief, WIDTH - 11)}"
