"""What passages join, lead to and were: rooms beside each other, the ends of a stair, a removed door as an overhead door."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Project, Space, Stair, Wall
from precheck.project.space import VEHICLE
from precheck.units import Length

NARROWEST_FOR_CARS = Length.parse("7 ft")


def ends(
    stair: Stair, sides: Iterable[Space | None], floor: Callable[[Space], Any], rank: Callable[[Any], int | None]
) -> tuple[str, str]:
    """Return what lies at the foot and at the top of `stair`: by the floors there, else by the stories, else as listed.

    `floor` gives the level of a room's finished floor, `rank` that of a story among the others.
    """
    first, second = sides
    if first is None or second is None:
        return stair.between
    levels: list[Any] = [floor(first), floor(second)]
    if any(is_missing(level) for level in levels) or levels[0] == levels[1]:
        levels = [rank(first.story), rank(second.story)]
    return (second.id, first.id) if None not in levels and levels[1] < levels[0] else stair.between


def was_overhead(door: Door, sides: Iterable[Space | None]) -> bool:
    """Return whether `door` goes and was one for vehicles: as said, else one out of a garage that is not too narrow."""
    if not door.is_removed or not is_missing(door.operation):
        return door.is_removed and door.operation == "vehicle"
    narrow = not is_missing(door.unit_size) and door.unit_size.width < NARROWEST_FOR_CARS
    rooms = (space for space in sides if space is not None)
    return OUTSIDE in door.between and not narrow and any(s.is_vehicle or s.was in VEHICLE for s in rooms)


def joined(project: Project, outline: Callable[[Space], Any]) -> Iterator[frozenset[str]]:
    """Yield each two spaces that a wall or door is said to stand between.

    One that goes tells it too, unless both have an `outline`, so that the plan shows whether they still meet.
    """
    drawn = {space.id for space in project.spaces if outline(space) is not None}
    parts: Iterable[Wall | Door] = (*project.walls, *project.doors)
    for part in parts:
        known = not part.is_removed or not drawn.issuperset(part.between)
        if known and OUTSIDE not in part.between:
            yield frozenset(part.between)
