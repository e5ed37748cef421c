"""What passages lead to and what they were: the ends of a stair by their floors, a removed door as an overhead door."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Space, Stair
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
