"""Where the heights of an opening and what else is in its wall leave no room for it."""

from __future__ import annotations

from math import hypot
from typing import Any

from precheck import (
    OUTSIDE,
    Door,
    House,
    Length,
    Missing,
    Opening,
    Space,
    Stretch,
    Window,
    is_missing,
    stretch_of,
    when_given,
)

SLACK = Length.parse("1 in")  # what openings drawn to the nearest inch may overlap, or reach past a ceiling
ONE_WALL = Length.parse("14 in")  # farther apart than this two lines are not of one wall


def sides_of(opening: Opening, house: House) -> list[Space]:
    """Return the rooms at which an opening is."""
    sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", OUTSIDE),)
    return [space for side in sides if (space := house.space(str(side))) is not None]


def heights_of(opening: Opening, house: House) -> tuple[Length, Length] | Missing:
    """Return how high an opening begins and ends above the floor, by the size of its unit."""
    start: Any = house.sill_height(opening) if isinstance(opening, Window) else Length(0)
    return when_given(lambda sill, unit: (sill, sill + unit.height), start, opening.unit_size)


def too_tall(opening: Opening, house: House) -> tuple[Length, Space, Length] | None:
    """Return the head of an opening, and the room and its flat ceiling that are lower; None where it fits or nobody knows."""
    heights = heights_of(opening, house)
    for room in sides_of(opening, house):
        ceiling = house.ceiling_height(room)
        if not is_missing(heights) and not is_missing(ceiling) and not room.has_slope and heights[1] - ceiling > SLACK:
            return heights[1], room, ceiling
    return None


def in_its_way(opening: Opening, house: House) -> Opening | None:
    """Return another opening of a room of this one that takes up the same wall, at heights that are known to be the same."""
    rooms, own, heights = house.once(_taken, opening)
    if is_missing(own) or is_missing(heights):
        return None
    others: tuple[Opening, ...] = (*house.subjects(Door), *house.subjects(Window))
    for other in others:
        beside, its, at = house.once(_taken, other)
        if other is opening or other.is_removed or rooms.isdisjoint(beside):
            continue
        if is_missing(its) or is_missing(at) or min(heights[1], at[1]) - max(heights[0], at[0]) <= SLACK:
            continue
        if _shared(own, its) > SLACK.n:
            return other
    return None


def _taken(opening: Opening, house: House) -> tuple[frozenset[str], Stretch | Missing, tuple[Length, Length] | Missing]:
    """Return the rooms at which an opening is, the stretch of wall that it takes up, and its heights."""
    rooms = frozenset(room.id for room in sides_of(opening, house))
    return rooms, stretch_of(opening, house), heights_of(opening, house)


def _shared(one: Stretch, other: Stretch) -> float:
    """Return the length that two stretches of one wall have in common."""
    (ax, ay), (bx, by) = one
    dx, dy, length = float(bx - ax), float(by - ay), hypot(bx - ax, by - ay)
    along = sorted((float(x - ax) * dx + float(y - ay) * dy) / length for x, y in other)
    away = [abs(dx * float(y - ay) - dy * float(x - ax)) / length for x, y in other]
    same_wall = max(away) <= ONE_WALL.n and max(away) - min(away) <= SLACK.n
    return min(length, along[1]) - max(0.0, along[0]) if same_wall else 0.0
