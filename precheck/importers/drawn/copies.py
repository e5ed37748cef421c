"""A plan that is drawn more than once on a sheet, as for its floor and its wiring; and plans that lie beside each other."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations
from typing import Any

import shapely

from precheck.importers.drawn.plane_lines import Line
from precheck.importers.drawn.rooms import PlanRoom

SAME = 0.02  # meters by which two copies of a room may differ
APART = 0.5  # meters of half the way between plans that are two
ENOUGH = 3  # rooms, or a third of all, that lie at the same way from one of the same name and shape


def without_copies(rooms: list[PlanRoom]) -> tuple[list[PlanRoom], list[PlanRoom]]:
    """Return rooms without the copies of rooms that lie at one and the same way off, and those copies."""
    shifts: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    for (i, one), (j, other) in combinations(enumerate(rooms), 2):
        if _alike(one, other):
            (x1, y1), (x2, y2) = _corner(one), _corner(other)
            shifts[round((x2 - x1) / (5 * SAME)), round((y2 - y1) / (5 * SAME))].append((i, j))
    dropped: set[int] = set()
    for pairs in shifts.values():
        if len(pairs) >= min(ENOUGH, max(len(rooms) / 3, 2)):
            dropped |= {j if rooms[i].grade <= rooms[j].grade else i for i, j in pairs}
    kept = [room for i, room in enumerate(rooms) if i not in dropped]
    return kept, [room for i, room in enumerate(rooms) if i in dropped]


def plans_of(rooms: list[PlanRoom], walls: list[Line]) -> list[int]:
    """Return for each room the number, from 0, of the plan that it lies in: what no walls connect is another plan."""
    if not walls:
        return [0] * len(rooms)
    grown: Any = shapely.buffer(
        shapely.linestrings(walls), APART
    )  # each, for to grow them as one takes ten times as long
    parts = shapely.get_parts(shapely.union_all(grown))
    numbers: dict[int, int] = {}
    found = []
    for room in rooms:
        place = min(range(len(parts)), key=lambda i: parts[i].distance(room.face.shape.exterior))
        found.append(numbers.setdefault(place, len(numbers)))
    return found


def _corner(room: PlanRoom) -> tuple[float, float]:
    return min(x for x, _ in room.face.outline), min(y for _, y in room.face.outline)


def _alike(one: PlanRoom, other: PlanRoom) -> bool:
    same = abs(one.face.area - other.face.area) <= 0.005 * one.face.area
    sides = zip(one.face.sides, other.face.sides, strict=True)
    return one.called == other.called and same and all(abs(a - b) <= SAME for a, b in sides)


__all__ = ["plans_of", "without_copies"]
