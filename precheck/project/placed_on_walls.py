"""The lists of parts that may have their place on a wall, each settled in its way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precheck.files.source import Problem
from precheck.project.framing import Member
from precheck.project.members_on_walls import settle_members, settle_spans
from precheck.project.on_wall import settle_places
from precheck.project.opening import Door, Window
from precheck.project.part import Part

PLACED_ON_WALLS = ("doors", "windows", "receptacles", "panels", "alarms", "lights", "members")
"""The lists of parts that may have their place on a wall."""


def settle(lists: Iterable[tuple[Part, ...]], by_id: dict[str, Part]) -> Iterator[Problem]:
    """Work out the points of the parts of `lists` that may be placed on walls; yield what of it cannot be."""
    for parts in lists:
        if members := tuple(part for part in parts if isinstance(part, Member)):
            yield from settle_members(members, by_id)
            settle_spans(members)
        elif parts:
            yield from settle_places(parts, by_id, "middle" if isinstance(parts[0], Door | Window) else "at")
