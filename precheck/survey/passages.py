"""What passages lead to and what they were: the ends of a stair by their floors, a removed door as an overhead door."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Stair
from precheck.project.space import VEHICLE
from precheck.units import Length

if TYPE_CHECKING:
    from precheck.survey.house import House

NARROWEST_FOR_CARS = Length.parse("7 ft")


def ends(house: House, stair: Stair) -> tuple[str, str]:
    """Return what lies at the foot and at the top of `stair`: by the floors there, else by the stories, else as listed."""
    first, second = (house.space(side) for side in stair.between)
    if first is None or second is None:
        return stair.between
    levels: list[Any] = [house.finished_floor(first), house.finished_floor(second)]
    if any(is_missing(level) for level in levels) or levels[0] == levels[1]:
        levels = [house.story_order.rank(first.story), house.story_order.rank(second.story)]
    return (second.id, first.id) if None not in levels and levels[1] < levels[0] else stair.between


def was_overhead(house: House, door: Door) -> bool:
    """Return whether `door` goes and was one for vehicles: as said, else one out of a garage that is not too narrow."""
    if not door.is_removed or not is_missing(door.operation):
        return door.is_removed and door.operation == "vehicle"
    narrow = not is_missing(door.unit_size) and door.unit_size.width < NARROWEST_FOR_CARS
    rooms = (space for space in house.sides(door) if space is not None)
    return OUTSIDE in door.between and not narrow and any(s.is_vehicle or s.was in VEHICLE for s in rooms)
