"""Plane geometry of room outlines: areas, shared walls and overlaps. Coordinates are those of `Length`, exact integers.

Rooms are drawn to the faces of their walls, so two rooms share a wall where edges run parallel no further apart than a
thick wall. Overlaps of outlines whose edges follow the axes are exact; for other outlines they are close.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import hypot

from precheck.project import on_wall
from precheck.units import Area, Exact, Length

Point = tuple[Exact, Exact]
Outline = tuple[Point, ...]

THICKEST_WALL = on_wall.THICKEST_WALL.n
SHORTEST_SHARED = Length.parse("6 in").n
KEPT = 2048  # answers about outlines, which the next review of the same house asks for again; a house has some hundred
PARALLEL = 0.01  # sine of the angle between two edges that still count as parallel


def area(outline: Outline) -> Area:
    """Return the area inside `outline`, whichever way round it is drawn."""
    twice: Exact = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in _edges(outline))
    return Area(abs(Fraction(twice)) / 2)


@lru_cache(maxsize=KEPT)
def shared_wall(one: Outline, other: Outline) -> Length:
    """Return the length along which the two outlines face each other across a wall, to 1/16 um."""
    return Length(round(sum(_facing(a, b) for a in _edges(one) for b in _edges(other))))


@lru_cache(maxsize=KEPT)
def overlap(one: Outline, other: Outline) -> Area:
    """Return the area that both outlines cover, as for a room and the one above it."""
    xs = sorted({x for x, _ in (*one, *other)})
    ys = sorted({y for _, y in (*one, *other)})
    doubled = [tuple((2 * x, 2 * y) for x, y in outline) for outline in (one, other)]  # so that middles stay whole
    total: Exact = 0
    for left, right in pairwise(xs):
        for low, high in pairwise(ys):
            if all(inside((left + right, low + high), outline) for outline in doubled):
                total += (right - left) * (high - low)
    return Area(total)


def inside(point: Point, outline: Outline) -> bool:
    """Return whether `point` lies within `outline`; one on an edge does not, whichever way the plan is turned."""
    x, y = point
    within = False
    x1, y1 = outline[-1]
    for x2, y2 in outline:
        if (y1 > y) != (y2 > y):
            side = (x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)  # multiplied out, so that ints stay ints
            if not side:
                return False
            within ^= side < 0 if y2 > y1 else side > 0
        elif y1 == y == y2 and min(x1, x2) <= x <= max(x1, x2):
            return False
        x1, y1 = x2, y2
    return within and point not in outline


def boxes_meet(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Return whether the boxes around two sets of points touch or overlap; where they do not, nothing within does."""
    return all(
        min(a) <= max(b) and min(b) <= max(a)
        for a, b in zip(zip(*one, strict=True), zip(*other, strict=True), strict=True)
    )


def is_rectangle(outline: Outline) -> bool:
    """Return whether `outline` is a rectangle whose sides follow the axes."""
    return len(outline) == 4 and len({x for x, _ in outline}) == 2 and len({y for _, y in outline}) == 2


def narrowest(outline: Outline) -> Length:
    """Return the smaller side of the box around `outline`, which is the least width of a rectangular room."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Length(min(max(xs) - min(xs), max(ys) - min(ys)))


def _edges(outline: Outline) -> list[tuple[Point, Point]]:
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def facing_gap(one: tuple[Point, Point], other: tuple[Point, Point]) -> Length | None:
    """Return how far apart two edges run that face each other over some length; None where they do not."""
    side = _beside(one, other)
    return Length(round(max(side[1]))) if side is not None and side[0] >= SHORTEST_SHARED else None


def _facing(one: tuple[Point, Point], other: tuple[Point, Point]) -> float:
    """Length over which `other` runs beside `one`, no further away than a thick wall, or 0."""
    side = _beside(one, other)
    if side is None or max(side[1]) > THICKEST_WALL:
        return 0.0
    return side[0] if side[0] >= SHORTEST_SHARED else 0.0


def _beside(one: tuple[Point, Point], other: tuple[Point, Point]) -> tuple[float, list[float]] | None:
    """Return the length over which `other` runs beside `one`, and how far away its ends are; None where it is not parallel."""
    (ax, ay), (bx, by) = ((float(x), float(y)) for x, y in one)
    length = hypot(bx - ax, by - ay)
    if not length:
        return None
    ux, uy = (bx - ax) / length, (by - ay) / length
    along, away = [], []
    for x, y in other:
        dx, dy = float(x) - ax, float(y) - ay
        along.append(dx * ux + dy * uy)
        away.append(abs(dy * ux - dx * uy))
    if abs(away[0] - away[1]) > PARALLEL * (hypot(along[0] - along[1], away[0] - away[1]) or 1):
        return None
    return min(length, max(along)) - max(0.0, min(along)), away
