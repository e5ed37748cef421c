"""Where openings stand in plan: the stretch of wall that each takes up, and how far things are from it.

An opening is placed by the middle of its width; the wall it is in is the edge of its room that runs closest by. For
walls that follow the axes every distance is exact, for others it is rounded to 1/16 um.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache
from math import hypot, sqrt
from typing import NamedTuple

from precheck.files.missing import Missing, is_missing
from precheck.project import OUTSIDE, Door, Opening, Wall, Window
from precheck.project.space import Rectangle
from precheck.survey.geometry import KEPT, PARALLEL, THICKEST_WALL, Outline, Point, inside
from precheck.survey.house import House
from precheck.units import Exact, Length
from precheck.units.measure import exact


class Stretch(NamedTuple):
    """A straight piece of plan from `start` to `end`, such as a door from jamb to jamb."""

    start: Point
    end: Point


def stretch_of(opening: Opening, house: House) -> Stretch | Missing:
    """Return the stretch of wall that `opening` takes up; what its place in plan lacks where it cannot be told."""
    return house.once(_stretch, opening)


def _stretch(opening: Opening, house: House) -> Stretch | Missing:
    width = _width(opening)
    if is_missing(opening.middle) or is_missing(width):
        return opening.middle if is_missing(opening.middle) else opening.absent("unit size")
    middle = (opening.middle[0].n, opening.middle[1].n)
    walls = [edge for outline in _outlines(opening, house) for edge in edges(outline)]
    if not walls:
        return opening.absent("the outline of its room")
    wall = min(walls, key=lambda edge: from_point(middle, edge))
    if from_point(middle, wall).n > THICKEST_WALL:
        return opening.absent("a middle that lies on a wall of its room")
    return _centerd(middle, wall, width.n)


def wall_of(opening: Opening, house: House) -> Wall | None:
    """Return the wall that `opening` is in; None if unknown.

    It is the one that the file names, else the one nearest to its middle of those that part the same, else the only one
    between two rooms that is not drawn elsewhere.
    """
    return house.once(_wall, opening)


def _wall(opening: Opening, house: House) -> Wall | None:
    named = None if is_missing(opening.wall) else house.project.by_id.get(opening.wall)
    if isinstance(named, Wall):
        return named
    same = _walls_beside(opening, house)
    if not is_missing(opening.middle):
        middle = (opening.middle[0].n, opening.middle[1].n)
        near = [(from_point(middle, line), wall) for wall in same if (line := line_of(wall))]
        found = [(away, wall) for away, wall in near if away.n <= THICKEST_WALL]
        if found:
            return min(found, key=lambda one: one[0])[1]
        same = [wall for wall in same if line_of(wall) is None]
    inside = isinstance(opening, Door) and OUTSIDE not in opening.between
    return same[0] if len(same) == 1 and inside else None


def _walls_beside(opening: Opening, house: House) -> list[Wall]:
    sides = set(opening.between) if isinstance(opening, Door) else {getattr(opening, "space", ""), OUTSIDE}
    return [wall for wall in house.project.walls if set(wall.between) == sides]


def line_of(wall: Wall) -> Stretch | None:
    """Return the middle line of `wall` in plan; None where its two ends are not given."""
    if is_missing(wall.from_) or is_missing(wall.to):
        return None
    return Stretch((wall.from_[0].n, wall.from_[1].n), (wall.to[0].n, wall.to[1].n))


def outline_of(rectangle: Rectangle) -> Outline:
    """Return the outline of a rectangle as drawn, from its corner nearest the origin."""
    (x, y), (w, d) = (corner.n for corner in rectangle.at), (rectangle.width.n, rectangle.depth.n)
    return ((x, y), (x + w, y), (x + w, y + d), (x, y + d))


def edges(outline: Outline) -> list[Stretch]:
    """Return the edges of `outline`, in order."""
    return [Stretch(a, b) for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)]


@lru_cache(maxsize=4 * KEPT)
def from_point(point: Point, stretch: Stretch) -> Length:
    """Return the distance from `point` to the nearest point of `stretch`."""
    return Length(_from_point(point, stretch))


@lru_cache(maxsize=KEPT)
def apart(one: Stretch, other: Stretch) -> Length:
    """Return the least distance in plan between two stretches that do not cross."""
    return Length(_apart(one, other))


@lru_cache(maxsize=KEPT)
def to_outline(stretch: Stretch, outline: Outline) -> Length:
    """Return the distance from `stretch` to what `outline` covers; nothing where it reaches inside."""
    if any(inside(point, outline) for point in stretch):
        return Length(0)
    return Length(min(_apart(stretch, edge) for edge in edges(outline)))


@lru_cache(maxsize=KEPT)
def in_one_plane(one: Stretch, other: Stretch) -> bool:
    """Return whether both stretches lie in the same wall, or in walls that continue each other."""
    skew, away = _skew(one, other), _away(one, other)
    return skew <= PARALLEL and away <= THICKEST_WALL


@lru_cache(maxsize=KEPT)
def at_right_angle(one: Stretch, other: Stretch) -> bool:
    """Return whether two stretches lie in walls square to each other."""
    return _skew(one, other) >= sqrt(1 - PARALLEL * PARALLEL)


@lru_cache(maxsize=KEPT)
def gap_between(one: Stretch, other: Stretch) -> Length:
    """Return the gap between two stretches measured along `one`, as for a door and a window in the same wall."""
    mine, others = _along(one, one), _along(one, other)
    return Length(max(0, max(mine[0], others[0]) - min(mine[1], others[1])))


def uncovered(line: Stretch, by: Iterable[Stretch]) -> Length:
    """Return how much of `line` none of the stretches `by` covers that lie in the same wall, or in line with it."""
    start, end = _along(line, line)
    runs = sorted(_along(line, other) for other in by if in_one_plane(line, other))
    open_length: Exact = 0
    reached = start
    for low, high in runs:
        open_length += max(0, min(low, end) - reached)
        reached = max(reached, min(high, end))
    return Length(open_length + max(0, end - reached))


def stands_before(stretch: Stretch, outline: Outline) -> bool:
    """Return whether what `outline` covers lies straight in front of some of `stretch`."""
    mine = _along(stretch, stretch)
    reaches = [value for edge in edges(outline) for value in _along(stretch, edge)]
    return bool(min(max(reaches), mine[1]) > max(min(reaches), mine[0]))


def width_along(stretch: Stretch, outline: Outline) -> Length:
    """Return how far `outline` runs along `stretch`, as a porch along the wall of its door."""
    reaches = [value for edge in edges(outline) for value in _along(stretch, edge)]
    return Length(round(max(reaches) - min(reaches)))


def depth_from(stretch: Stretch, outline: Outline) -> Length:
    """Return how deep `outline` reaches, measured square to `stretch`, as a closet behind its door."""
    (ax, ay), (bx, by) = stretch
    square = Stretch((ax, ay), (ax - (by - ay), ay + (bx - ax)))
    reaches = [value for edge in edges(outline) for value in _along(square, edge)]
    return Length(max(reaches) - min(reaches))


def _width(opening: Opening) -> Length | Missing:
    if not is_missing(opening.unit_size):
        return opening.unit_size.width
    return opening.clear_width if isinstance(opening, Door) else opening.unit_size


def _outlines(opening: Opening, house: House) -> list[Outline]:
    sides = opening.between if isinstance(opening, Door) else (opening.space,) if isinstance(opening, Window) else ()
    spaces = [space for side in sides if (space := house.space(side)) is not None]
    return [outline for space in spaces if (outline := house.outline(space)) is not None]


def _centerd(middle: Point, wall: Stretch, width: Exact) -> Stretch:
    (ax, ay), (bx, by) = wall
    half = exact(Fraction(width, 2))
    dx: Exact
    dy: Exact
    if ay == by or ax == bx:
        dx, dy = (half, 0) if ay == by else (0, half)
    else:
        length = hypot(float(bx - ax), float(by - ay))
        dx, dy = (round(float(half) * float(d) / length) for d in (bx - ax, by - ay))
    x, y = middle
    return Stretch((x - dx, y - dy), (x + dx, y + dy))


def _apart(one: Stretch, other: Stretch) -> Exact:
    return min(
        _from_point(one[0], other), _from_point(one[1], other), _from_point(other[0], one), _from_point(other[1], one)
    )


def _from_point(point: Point, stretch: Stretch) -> Exact:
    (x, y), ((ax, ay), (bx, by)) = point, stretch
    if ax == bx or ay == by:  # as most walls: along an axis nothing need be divided
        return _distance(_between(x, ax, bx) - x, _between(y, ay, by) - y)
    dx, dy = bx - ax, by - ay
    along, whole = (x - ax) * dx + (y - ay) * dy, dx * dx + dy * dy
    if along <= 0 or along >= whole:  # nearest to one of its ends
        return _distance(ax - x, ay - y) if along <= 0 else _distance(bx - x, by - y)
    share = Fraction(along) / whole
    return _distance(ax + share * dx - x, ay + share * dy - y)


def _between(value: Exact, one: Exact, other: Exact) -> Exact:
    """Return the nearest to `value` of what lies between `one` and `other`."""
    low, high = (one, other) if one <= other else (other, one)
    return low if value < low else min(value, high)


def _distance(dx: Exact, dy: Exact) -> Exact:
    if not dx or not dy:
        return max(dx + dy, -dx - dy)  # one of them is nothing
    return round(hypot(float(dx), float(dy)))


def _direction(stretch: Stretch) -> tuple[float, float]:
    dx, dy = (float(b - a) for a, b in zip(*stretch, strict=True))
    length = hypot(dx, dy) or 1.0
    return dx / length, dy / length


def _skew(one: Stretch, other: Stretch) -> float:
    (ux, uy), (vx, vy) = _direction(one), _direction(other)
    return abs(ux * vy - uy * vx)


def _away(one: Stretch, other: Stretch) -> float:
    ux, uy = _direction(one)
    return max(abs(float(y - one.start[1]) * ux - float(x - one.start[0]) * uy) for x, y in other)


def _along(line: Stretch, other: Stretch) -> tuple[Exact, Exact]:
    """Return where `other` begins and ends, measured along `line` from its start."""
    (ax, ay), (bx, by) = line
    if ay == by or ax == bx:
        axis, sign = (0, 1 if bx > ax else -1) if ay == by else (1, 1 if by > ay else -1)
        values = [sign * (point[axis] - line.start[axis]) for point in other]
    else:
        ux, uy = _direction(line)
        values = [round(float(x - ax) * ux + float(y - ay) * uy) for x, y in other]
    return min(values), max(values)
