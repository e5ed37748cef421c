"""What is to do, as the page lists it: by group, each thing with what it is about, what it says and what would settle it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from precheck.board.forms import called, key_of, needs_of
from precheck.board.later import TO_FIND_OUT, Whose
from precheck.board.values import remedy_of
from precheck.checks import Outcome
from precheck.checks.outcome import capital
from precheck.files.edit import Gone
from precheck.project import Part, Story
from precheck.reports import words
from precheck.reports.changes import CORRECTED, GONE, NEW, changes
from precheck.reports.groups import LABELS, LOOKS, Group
from precheck.reports.opening import verdict_line, works_told
from precheck.reports.wanted import PROJECT
from precheck.reports.worklist import Item
from precheck.review.finding import READY, Review

Data = dict[str, Any]
NOT_DRAWN = ("the rooms", "the doors", "the windows")  # what a story is asked for till all of it is drawn
MOST_WANTS = 3  # named of one item, before it is opened
_FOR_PAPER = re.compile(r"(, for [^\[\]]*)?( \[on [^\]]*\])?$")  # for which line of a work, and on which sheet
THE_JOB = "The job"
MOST_CHANGES = 6  # told one by one after a change


def todo_of(review: Review, items: tuple[Item, ...], left: Mapping[str, Whose]) -> Data:
    """Return the verdict and all that is to do, in the order in which it stops the job; what is `left` for later is marked."""
    return {
        "verdict": verdict_line(review, items),
        "ready": review.verdict == READY,
        "code": words.code_line(review),
        "caveat": words.code_warning(review),
        "works": [{"name": one.name, "count": one.counted} for one in works_told(review)],
        "groups": [
            {"key": group.key, "title": group.title, "lead": group.lead, "count": count}
            for group in Group
            if (count := sum(item.group is group for item in items))
        ],
        "items": [{**todo_item(item), "left": _left(item, left)} for item in items],
        "reminder": words.REMINDER,
    }


def todo_item(item: Item) -> Data:
    """Return one thing to do as the page lists it: of what it is, what it says, what would settle it, and who."""
    first = item.findings[0]
    return {
        "key": key_of(item),
        "group": item.group.key,
        "label": label_of(item),
        "parts": [part.id for part in item.parts],
        "said": _said(item),
        "wants": list(item.wants),
        "fix": capital("; ".join(item.remedies)) if item.group is Group.FIX else "",
        "look": [LOOKS[look] for look in first.look] or _settled_by(item),
        "source": "; ".join(dict.fromkeys(s for f in item.findings for s in f.sections)),
        "line": item.line,
    }


def _settled_by(item: Item) -> list[str]:
    """Return who settles what is wrong with the job as a whole, of which no part can be opened."""
    if item.parts or item.group not in (Group.FIX, Group.REVIEW):
        return []
    return ["Whoever draws settles it: on the plans, and in the file."]


def _left(item: Item, left: Mapping[str, Whose]) -> str:
    """Return to whom all of an item is left, in words; empty where some of it is open."""
    whose = {left.get(str(need), "") for need in needs_of(item)} if item.group is Group.ADD else {""}
    if "" in whose or not whose:
        return ""
    return "to find out" if TO_FIND_OUT in whose else "for the drafter"


def label_of(item: Item) -> str:
    """Return what an item is about, by the name that a person gave it where it has one."""
    if len(item.parts) == 1 and isinstance(item.part, Part):
        return str(getattr(item.part, "name", "")) or capital(item.label)
    return THE_JOB if item.label == PROJECT else capital(item.label)


def _said(item: Item) -> str:
    """Return what is said of an item; of a story that is not all drawn, without the words of the file."""
    if isinstance(item.part, Story) and all(need.key in NOT_DRAWN for wanted in item.wanted for need in wanted.needs):
        kinds = [need.key.removeprefix("the ") for wanted in item.wanted for need in wanted.needs]
        return f"All {', '.join(dict.fromkeys(kinds))} to be drawn; tick it when they are"
    if item.group is not Group.ADD:
        return capital(item.gist)
    wants = list(map(without_marks, item.wants))
    more = len(wants) - MOST_WANTS
    return capital(", ".join([*wants[:MOST_WANTS], *([f"and {more} more"] if more > 0 else [])]))


def without_marks(want: str) -> str:
    """Return what is asked without the work that it is asked for, and the sheet on which one looks for it."""
    return _FOR_PAPER.sub("", want)


def remedy_told(item: Item) -> str:
    """Return in words what the remedy's button changes in the file; nothing where it is no change of values."""
    if item.group is not Group.FIX:
        return ""
    told = [f"{change.path[-1]}: {change.value}" for change in remedy_of(item) if not isinstance(change.value, Gone)]
    return ", ".join(told) if len(told) <= MOST_CHANGES else ""


def counts_by_part(items: tuple[Item, ...]) -> dict[str, dict[str, int]]:
    """Return how many things are to do about each part, by group."""
    found: dict[str, dict[str, int]] = {}
    for item in items:
        for part in item.parts:
            mine = found.setdefault(part.id, {})
            mine[item.group.key] = mine.get(item.group.key, 0) + 1
    return found


def changed(old: Review, new: Review) -> list[str]:
    """Return in sentences what a change did to the findings, the most telling first; what is now to be shown is in the list."""
    found = [change for change in changes(old, new) if change.kind in (CORRECTED, GONE, NEW)]
    counted = ((kind, sum(change.kind == kind for change in found)) for kind in (CORRECTED, NEW, GONE))
    head = ", ".join(f"{count} {kind}" for kind, count in counted if count)
    told = [
        f"{change.part}: {LABELS[change.known.outcome]}: {'; '.join(words.lines_of(change.known)[:1])}"
        for change in sorted(found, key=lambda one: one.kind != NEW)
        if change.known.outcome not in (Outcome.NOT_SHOWN, Outcome.DOES_NOT_APPLY)
    ]
    more = len(told) - MOST_CHANGES
    return [capital(head), *told[:MOST_CHANGES], *([f"and {more} more"] if more > 0 else [])] if found else []


def parts_of(review: Review, items: tuple[Item, ...]) -> dict[str, Data]:
    """Return every part by its id: what it is called, where it stands in the file, and what is to do about it."""
    counts = counts_by_part(items)
    return {part.id: _part(part, counts.get(part.id, {})) for part in review.project.parts}


def _part(part: Part, counts: dict[str, int]) -> Data:
    found = {"label": called(part), "kind": part.kind, "line": part.place.line, "counts": counts}
    space = getattr(part, "space", None)
    return {**found, "room": space} if isinstance(space, str) else found
