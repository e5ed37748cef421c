"""What a person does next: first what is drawn, then the answer that settles most of what is open."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.board.forms import key_of, needs_of
from precheck.reports.groups import Group
from precheck.reports.worklist import Item

Data = dict[str, Any]
TOOLS = {"rooms": "room", "doors": "door", "windows": "window"}


def next_step(plan: Data, items: Iterable[Item], later: frozenset[str]) -> Data:
    """Return the next thing to do, as a sentence with what the page does for it; `later` are needs that are left for later."""
    return _to_draw(plan) or _to_answer(items, later)


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


def _to_answer(items: Iterable[Item], later: frozenset[str]) -> Data:
    """Return the question that most findings wait for, of those that one can answer on the page."""
    asked = [item for item in items if item.group is Group.ADD]
    best = max(asked, key=lambda item: _settles(item, later), default=None)
    if best is None or not _settles(best, later):
        left = [item for item in items if item.group is Group.FIX]
        if left:
            return {"said": "Go through what to fix.", "item": key_of(left[0])}
        return {"said": "What is left needs someone else to say. Hand it out.", "handouts": True}
    return {"said": "Answer what most depends on:", "item": key_of(best)}


def _settles(item: Item, later: frozenset[str]) -> int:
    """Return how many findings wait for what a person can answer of an item."""
    open_ = {need for need in needs_of(item) if str(need) not in later}
    return len({id(f) for wanted in item.wanted if open_.intersection(wanted.needs) for f in wanted.findings})
