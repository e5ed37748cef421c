"""Floors of rooms whose walls follow the axes, as cells between their coordinates: cut, put together and outlined again."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from precheck.board.sketch import SIXTEENTH, Footprint, Point
from precheck.reports.drawings.placed import inside

Edge = tuple[Point, Point]
SLANTED = "has a slanted wall; change it by its corners in the file"
CORNERS = 4  # of a rectangle


def edges_of(outline: list[Point]) -> list[Edge]:
    """Return the walls of an outline in order."""
    return list(zip(outline, [*outline[1:], outline[0]], strict=True))


def follows_axes(outline: list[Point]) -> bool:
    """Return whether every wall of an outline runs along the page or up it."""
    return all(a[0] == b[0] or a[1] == b[1] for a, b in edges_of(outline))


def counterclockwise(outline: list[Point]) -> bool:
    """Return whether the corners of an outline run against the clock."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in edges_of(outline)) > 0


def straightened(outline: list[Point]) -> list[Point]:
    """Return an outline without corners at which nothing turns, and without walls of no length."""
    found = [p for n, p in enumerate(outline) if p != outline[n - 1]]
    while True:
        kept = [p for n, p in enumerate(found) if _turns(found[n - 1], p, found[(n + 1) % len(found)])]
        if len(kept) == len(found) or len(kept) < CORNERS:
            return kept
        found = kept


def _turns(a: Point, b: Point, c: Point) -> bool:
    return abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) > SIXTEENTH


def as_box(outline: list[Point]) -> Footprint | None:
    """Return an outline as a rectangle; None where it is none."""
    if len(outline) != CORNERS or not follows_axes(outline):
        return None
    xs, ys = zip(*outline, strict=True)
    return Footprint(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def corners_of(box: Footprint) -> list[Point]:
    """Return the corners of a rectangle against the clock, from the one nearest the origin."""
    (x, y, width, depth) = box
    return [(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)]


def joined(outlines: list[list[Point]]) -> list[list[Point]]:
    """Return the outlines of all that the given ones cover together."""
    return _outlined(lambda at: any(inside(at, outline) for outline in outlines), outlines)


def cut(outline: list[Point], axis: int, low: float, high: float) -> list[list[Point]]:
    """Return the outlines of what of a floor lies between two coordinates along an axis."""
    ends = [(low, low), (high, high)]
    return _outlined(lambda at: inside(at, outline) and low < at[axis] < high, [outline, ends])


def _outlined(is_floor: Callable[[Point], bool], given: list[list[Point]]) -> list[list[Point]]:
    """Return the outlines, against the clock, around the cells whose middles are floor. Raises ValueError where two meet at a corner."""
    xs, ys = ([*sorted({p[axis] for outline in given for p in outline})] for axis in (0, 1))
    follows: dict[Point, Point] = {}
    for (x1, x2), (y1, y2) in ((x, y) for x in pairwise(xs) for y in pairwise(ys)):
        if not is_floor(((x1 + x2) / 2, (y1 + y2) / 2)):
            continue
        middle = ((x1 + x2) / 2, (y1 + y2) / 2)
        for start, end, out in (((x1, y1), (x2, y1), (0, -1)), ((x2, y1), (x2, y2), (1, 0)),
                                ((x2, y2), (x1, y2), (0, 1)), ((x1, y2), (x1, y1), (-1, 0))):  # fmt: skip
            beyond = _next(middle, out, xs, ys)
            if beyond is None or not is_floor(beyond):
                if start in follows:
                    raise ValueError("two parts of it would meet at a corner only")
                follows[start] = end
    return _loops(follows)


def _next(middle: Point, out: tuple[int, int], xs: list[float], ys: list[float]) -> Point | None:
    """Return the middle of the next cell that way; None at the edge."""
    axis = 0 if out[0] else 1
    cells = [*pairwise((xs, ys)[axis])]
    at = next(n for n, (low, high) in enumerate(cells) if low < middle[axis] < high) + out[axis]
    if not 0 <= at < len(cells):
        return None
    value = sum(cells[at]) / 2
    return (value, middle[1]) if axis == 0 else (middle[0], value)


def _loops(follows: dict[Point, Point]) -> list[list[Point]]:
    found = []
    while follows:
        start = min(follows)
        loop, at = [start], follows.pop(start)
        while at != start:
            loop.append(at)
            at = follows.pop(at)
        found.append(straightened(loop))
    return found
