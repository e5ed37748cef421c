"""The correction list: numbered, by sheet, in the words of a plan reviewer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.papers.marks import called_in, citation, foot, head, plain
from precheck.reports.worklist import Item, items_of
from precheck.review.finding import Review

NO_SHEET = "No sheet named"
AFTER = (Group.ASK, Group.REVIEW)  # which stop nothing


def render(review: Review) -> str:
    """Return the correction list of one project."""
    return "\n".join(_lines(review)) + "\n"


def _lines(review: Review) -> Iterator[str]:
    items = items_of(review)
    listed = [item for item in items if item.group not in AFTER]
    yield from head("Correction list", review)
    if not listed:
        yield "Nothing to fix or add."
    for sheet, mine in _by_sheet(review, listed).items():
        yield ""
        yield f"## {plain(sheet)} ({len(mine)})"
        yield ""
        for item in mine:
            yield f"- **{item.number}.** {_under_its_sheet(item, review)}"
    for group in AFTER:
        yield from _of_group(group, items)
    yield from foot()


def _of_group(group: Group, items: tuple[Item, ...]) -> Iterator[str]:
    mine = [item for item in items if item.group is group]
    if mine:
        yield from ("", f"## {group.title} before you submit ({len(mine)})", "")
    for item in mine:
        yield f"- **{item.number}.** {comment_on(item)}"


def _by_sheet(review: Review, items: list[Item]) -> dict[str, list[Item]]:
    titles = {sheet.id: sheet.title for sheet in review.project.sheets}
    found: dict[str, list[Item]] = {}
    for item in sorted(items, key=lambda item: (not item.sheets, item.sheets[:1], item.number)):
        found.setdefault(_titled(item.sheets[0], titles) if item.sheets else NO_SHEET, []).append(item)
    return found


def _titled(sheet: str, titles: dict[str, str]) -> str:
    """Return what to call a sheet of the project, or one that an office looks for."""
    if sheet not in titles:
        return sheet[:1].upper() + sheet[1:]
    return f"Sheet {sheet}{', ' + titles[sheet] if titles[sheet] else ''}"


def _under_its_sheet(item: Item, review: Review) -> str:
    """Return the comment on an item without the sheets to look on, which the heading names, and the other ones after it."""
    ours = {sheet.id for sheet in review.project.sheets}
    others = [f"sheet {sheet}" if sheet in ours else f"the {sheet}" for sheet in item.sheets[1:]]
    looked_on = f" [on the {', '.join(item.sheets)}]"
    wanted = [want.removesuffix(looked_on) for want in item.wants] if item.sheets else list(item.wants)
    also = f" See also {plain(', '.join(others))}." if others else ""
    return f"{_said(item, wanted)}{also}"


def comment_on(item: Item) -> str:
    """Return an item as a reviewer would write it: what to show, or what does not comply and what would."""
    also = f" See also sheet {plain(', '.join(item.sheets[1:]))}." if len(item.sheets) > 1 else ""
    return f"{_said(item, item.wants)}{also}"


def _said(item: Item, wants: Sequence[str]) -> str:
    if item.group is Group.ASK:
        return plain(item.gist)
    if item.group is Group.ADD:
        wanted = plain("; ".join(wants))
        return f"**{called_in(item)}**: show {wanted}." if item.part else f"Show {wanted}."
    finding = item.findings[0]
    told = "; ".join(words.lines_of(finding))
    fix = f" Revise: {plain('; '.join(item.remedies))}." if item.remedies else ""
    return f"**{called_in(item)}**: {plain(told)}.{fix}{citation(item)}"
