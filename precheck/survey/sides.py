"""What lies on the sides of a wall, a door, a stair or a ramp: rooms, or the open."""

from __future__ import annotations

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
