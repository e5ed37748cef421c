"""What a person does next: first what is drawn, then the answer that settles most of what is open."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from precheck.board.forms import SHEETS, key_of, needs_of
from precheck.board.later import DRAFTERS, Whose
from precheck.board.todo import THE_JOB, label_of, without_marks
from precheck.checks.outcome import capital
from precheck.files.record import fields_of
from precheck.project import Part
from precheck.questions.question import plain_key
from precheck.reports.groups import Group
from precheck.reports.worklist import Item

Data = dict[str, Any]
SAID = ("whether ", "how ", "what ", "that ", "which ", "where ")
YES_OR_NO = " (yes or no)"
WITH_ARTICLE = ("a ", "an ", "its ", "the ", "no ")
_ASIDE = re.compile(r" \([^)]*\)")
TOOLS = {"rooms": "room", "doors": "door", "windows": "window"}


def next_step(plan: Data, items: Iterable[Item], later: Mapping[str, Whose]) -> Data:
    """Return the next thing to do, as a sentence with what the page does for it; `later` are needs that are left for later."""
    return _to_draw(plan) or _to_answer(items, later)


def open_needs(items: Iterable[Item], later: Mapping[str, Whose]) -> list[str]:
    """Return what the plans have yet to show and nobody has left for later, by what a check calls it."""
    needs = (str(need) for item in items if item.group is Group.ADD for need in needs_of(item))
    return [need for need in dict.fromkeys(needs) if need not in later]


def _to_draw(plan: Data) -> Data:
    """Return what the plan lacks first; nothing where all is drawn."""
    for one in plan["loose"]:
        if one["lacks"] == "rectangle":
            more = "" if plan["rooms"] else "; only what lies next to the work, not the whole house"
            return {"said": f"Type the size of {one['name']}{more}.", "choose": one["id"]}
    for one in plan["loose"]:
        if one["lacks"] == "middle":
            return {"said": f"Put {one['name']} in its wall.", "choose": one["id"]}
    for story in plan["stories"]:
        for what in TOOLS:
            if story["drawn"] is not None and what not in story["drawn"]:
                where = f"the {what} of the {story['label'].lower()}"
                said = f"Draw {where}, those that stand and the new ones. When all are there, tick all {what}."
                return {"said": said, "tool": TOOLS[what], "story": story["id"]}
    return {}


def _to_answer(items: Iterable[Item], later: Mapping[str, Whose]) -> Data:
    """Return the question that most findings wait for, of those that one can answer on the page."""
    asked = [item for item in items if item.group is Group.ADD]
    best = max(asked, key=lambda item: (not _only_sheets(item, later), _settles(item, later)), default=None)
    if best is None or not _settles(best, later):
        left = [item for item in items if item.group is Group.FIX]
        if left:
            return {"said": f"Go through what to fix, {label_of(left[0])} first.", "item": key_of(left[0])}
        return {
            "said": f"Hand it out: {_for_whom(asked, later)}.",
            "handouts": True,
            "given": DRAFTERS in later.values(),
        }
    first = next(number for number, need in enumerate(needs_of(best)) if str(need) not in later)
    of = best.part.id if isinstance(best.part, Part) else ""
    rest = len(open_needs(asked, later))
    return {"said": _asked(best, later), "item": key_of(best), "need": first, "of": of, "rest": rest}


def _for_whom(items: Iterable[Item], later: Mapping[str, Whose]) -> str:
    """Return how much of what is left is whose, such as ``9 things are for the drafter to show, 2 to find out on site``."""
    whose = [
        later[need] for need in dict.fromkeys(str(need) for item in items for need in needs_of(item)) if need in later
    ]
    drafters, on_site = whose.count(DRAFTERS), len(whose) - whose.count(DRAFTERS)
    told = [(drafters, "for the drafter to show"), (on_site, "to find out on site")]
    return ", ".join(f"{count} {what}" for count, what in told if count) or "what is left needs someone else to say"


def _asked(item: Item, later: Mapping[str, Whose]) -> str:
    """Return the first thing that is asked of an item in a sentence, such as ``Window W1: say how it opens.`` of a window."""
    open_ones = [wanted for wanted in item.wanted if any(str(need) not in later for need in wanted.needs)]
    wanted = open_ones[0] if open_ones else item.wanted[0]
    told = _told(item.wants[item.wanted.index(wanted)], wanted.need.key, item)
    more = len(open_ones) - 1
    said = f"{told}{f', and {more} more' if more else ''}."
    return capital(said) if label_of(item) == THE_JOB else f"{label_of(item)}: {said}"


def _told(want: str, key: str, item: Item) -> str:
    """Return one request with its verb, without what it says of the file; of what a sheet shows, the sheet is asked for."""
    bare = without_marks(want)
    asked = _ASIDE.sub("", bare).partition(";")[0]
    if plain_key(key) in SHEETS:
        return f"say which sheet shows {asked if asked.startswith(WITH_ARTICLE) else f'the {asked}'}"
    record, colon, asked = asked.rpartition(": ")
    if asked.startswith(SAID):
        return f"{record}{colon}say {asked}"
    if bare.endswith(YES_OR_NO):
        return f"answer yes or no: {asked}"
    of_part = item.part is not None and (key in _keys(item.part) or colon or " of " in asked)
    the = "the " if of_part and not asked.startswith(WITH_ARTICLE) else ""
    told = asked if len(item.parts) < 2 else re.sub("^its ", "their ", asked)
    return f"{record}{colon}show {the}{told}"


def _keys(part: Part) -> set[str]:
    return {field.key for field in fields_of(type(part)).values()}


def _only_sheets(item: Item, later: Mapping[str, Whose]) -> bool:
    """Return whether all that is open of an item is which sheet shows something, or nothing is: asked last of all."""
    return all(plain_key(need.key) in SHEETS for need in needs_of(item) if str(need) not in later)


def _settles(item: Item, later: Mapping[str, Whose]) -> int:
    """Return how many findings wait for what a person can answer of an item."""
    open_ = {need for need in needs_of(item) if str(need) not in later}
    return len({id(f) for wanted in item.wanted if open_.intersection(wanted.needs) for f in wanted.findings})
