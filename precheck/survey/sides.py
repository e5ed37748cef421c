"""What lies on the sides of a wall, a door, a stair or a ramp: rooms, or the open."""

from __future__ import annotations

from precheck.project import OUTSIDE, Door, Wall
from precheck.project.space import OUTDOOR
from precheck.survey.house import House


def is_outdoors(side: str, house: House) -> bool:
    """Return whether `side` lies in the open: the outside, or a porch, deck or carport."""
    space = house.space(side)
    return side == OUTSIDE or (space is not None and space.use in OUTDOOR)


def faces_out(part: Wall | Door, house: House) -> bool:
    """Return whether a wall or door parts the inside from the open."""
    return sum(is_outdoors(side, house) for side in part.between) == 1
