"""Doors that are drawn by their swing: which of the two legs is the closed leaf, and what is only the open one."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import pairwise, product
from math import cos, floor, radians, sin
from typing import NamedTuple

import shapely

from precheck.importers.drawn.plane_lines import Line, LineNetwork, along, cross, direction, dot, less, long
from precheck.importers.drawn.sheet import SwingArc
from precheck.importers.plane import P2

RADIUS = (0.4, 1.4)  # meters of leaf
NEAR = 0.35  # meters from either end of a closed leaf at which a wall goes on
ASIDE = 0.3  # meters beside it
CELL = 0.1  # meters from one cell of hinges to the next, which is more than a leaf is drawn off its hinge
PIECES = 12  # of an arc that is no swing


class DoorSwing(NamedTuple):
    """A hinge, the width of the leaf, and its closed and open legs from the hinge, in meters; closed where walls tell."""

    hinge: P2
    width: float
    closed: Line | None
    opened: Line | None
    handle: str

    def closes_along(self, gap: Line) -> bool:
        """Return whether the closed leaf lies along a gap, or may."""
        return self.closed is None or abs(cross(direction(*self.closed), direction(*gap))) < 0.2


def door_swings(arcs: Iterable[SwingArc], walls: LineNetwork) -> Iterator[DoorSwing]:
    """Yield the arcs that are swings of doors by their size, each with its closed leg where walls tell which it is."""
    seen: set[tuple[int, int, int]] = set()
    for arc in arcs:
        legs = [_leg(arc, angle) for angle in (arc.begins, arc.ends)]
        key = (round(arc.center[0] * 50), round(arc.center[1] * 50), round(arc.radius * 50) * 1000 + round(arc.begins))
        if not RADIUS[0] <= arc.radius <= RADIUS[1] or key in seen:
            continue
        seen.add(key)
        marks = [_marks(leg, walls) for leg in legs]
        if marks[0] == marks[1]:
            yield DoorSwing(arc.center, arc.radius, None, None, arc.handle)
        else:
            best = marks.index(max(marks))
            yield DoorSwing(arc.center, arc.radius, legs[best], legs[1 - best], arc.handle)


def curved_lines(arcs: Iterable[SwingArc]) -> Iterator[Line]:
    """Yield the pieces of arcs that are too small or too large for doors, such as those of curved walls."""
    for arc in arcs:
        if not RADIUS[0] <= arc.radius <= RADIUS[1]:
            sweep = (arc.ends - arc.begins) % 360
            yield from pairwise(_leg(arc, arc.begins + sweep * n / PIECES)[1] for n in range(PIECES + 1))


def without_leaves(lines: Iterable[Line], swings: Iterable[DoorSwing]) -> list[Line]:
    """Return lines without those of open leaves: from a hinge, as long as the leaf, along the open leg."""
    hung: dict[tuple[int, int], list[DoorSwing]] = defaultdict(list)
    for swing in swings:
        if swing.opened:
            hung[_cell(swing.hinge)].append(swing)
    return [line for line in lines if not any(_is_leaf(line, swing) for end in line for swing in _hung_near(end, hung))]


def _hung_near(point: P2, hung: dict[tuple[int, int], list[DoorSwing]]) -> Iterator[DoorSwing]:
    column, row = _cell(point)
    for cell in product(range(column - 1, column + 2), range(row - 1, row + 2)):
        yield from hung.get(cell, ())


def _cell(point: P2) -> tuple[int, int]:
    return floor(point[0] / CELL), floor(point[1] / CELL)


def _is_leaf(line: Line, swing: DoorSwing) -> bool:
    if swing.opened is None or abs(long(line) - swing.width) > 0.08 * swing.width:
        return False
    near, far = sorted(line, key=lambda end: long((swing.hinge, end)))
    return long((near, swing.hinge)) <= 0.08 and long((far, swing.opened[1])) <= 0.12


def _leg(arc: SwingArc, angle: float) -> Line:
    far = (arc.center[0] + arc.radius * cos(radians(angle)), arc.center[1] + arc.radius * sin(radians(angle)))
    return arc.center, far


def _marks(leg: Line, walls: LineNetwork) -> int:
    """Return how much tells that a leg is the closed leaf: walls in line with it that end where it does, or run behind it.

    A wall that goes on from its latch tells more than one that runs along all of it, as one beside an open leaf may.
    """
    way, size = direction(*leg), long(leg)
    near = walls.near(shapely.LineString((along(leg[0], way, -NEAR), along(leg[1], way, NEAR))).buffer(ASIDE))
    found = {"hinge": False, "latch": False, "across": False, "cap": False}
    for start, end in near:
        offs = [less(p, leg[0]) for p in (start, end)]
        low, high = sorted(dot(way, off) for off in offs)
        aside = max(abs(cross(way, off)) for off in offs)
        if abs(cross(way, direction(start, end))) < 0.05 and aside <= ASIDE:
            found["hinge"] |= -NEAR <= high <= 0.12
            found["latch"] |= size - 0.12 <= low <= size + NEAR
            found["across"] |= low <= 0.1 and high >= size - 0.1 and aside <= ASIDE / 2
        elif aside <= ASIDE and low >= size - 0.1 and high <= size + 0.2:
            found["cap"] = True
    if found["latch"]:
        return 5 if found["hinge"] else 4
    return 3 if found["across"] else int(found["hinge"] or found["cap"])


__all__ = ["DoorSwing", "door_swings", "without_leaves"]
