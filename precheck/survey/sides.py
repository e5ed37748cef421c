"""What lies on the sides of a wall, a door, a stair or a ramp: rooms, or the open."""

from __future__ import annotations

from typing import Any

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Wall
from precheck.project.space import OUTDOOR
from precheck.survey.house import House


def is_outdoors(side: str, house: House) -> bool:
    """Return whether `side` lies in the open: the outside, or a porch, deck or carport."""
    space = house.space(side)
    return side == OUTSIDE or (space is not None and space.use in OUTDOOR)


def is_exit(door: Door, house: House) -> bool:
    """Return whether people leave the house through `door`: out of a room that is no garage, and into the open."""
    inner = [house.space(side) for side in door.between if not is_outdoors(side, house)]
    walked = door.operation not in ("vehicle", "hatch")
    return walked and len(inner) == 1 and inner[0] is not None and inner[0].use != "garage"


def faces_out(part: Wall | Door, house: House) -> bool:
    """Return whether a wall or door parts the inside from the open."""
    return sum(is_outdoors(side, house) for side in part.between) == 1


def carried_load(wall: Wall) -> Any:
    """Return what `wall` carries, such as ``one floor and roof``, or the need for it in words."""
    carries = wall.framing.carries
    return wall.absent("carried load (nothing, or floors and roof)") if is_missing(carries) else carries


def is_furring(wall: Wall, house: House) -> bool:
    """Return whether a wall to the outside only lines one that stands: it bears nothing, and its room was closed in before.

    A wall that closes an opening is none.
    """
    if wall.framing.carries != "nothing" or not is_missing(wall.opening_filled) or _closes_door(wall, house):
        return False
    rooms = [space for side in wall.between if (space := house.space(side)) is not None and space.use not in OUTDOOR]
    stood = ("existing", "altered")
    return any(space.was not in OUTDOOR and (space.phase in stood or not is_missing(space.was)) for space in rooms)


def _closes_door(wall: Wall, house: House) -> bool:
    gone = (door for door in house.project.doors if house.was_overhead(door))
    return any(set(door.between) == set(wall.between) for door in gone)
