"""Treads that turn, as those of winders and spiral stairs: how deep they are at the walkline, and at their narrow end.

A tread reaches from its own front edge to that of the next one above it; what lies under the next one is no part of it.
"""

from __future__ import annotations

from itertools import pairwise
from math import asin, degrees, hypot
from typing import Any, NamedTuple

import shapely

from precheck.importers.ifc.stair_statements import AGREES
from precheck.importers.plane import P2

WALKLINE = 0.3048  # meters (12 in) from the narrow side, where a tread that turns is measured
PARALLEL = 2.0  # degrees up to which two front edges bound a straight tread
LANDING_TURN = 60.0  # degrees from which what lies between two front edges is a landing
HALVINGS = 20  # by which the walkline is found on an edge
SHORTEST = 0.4  # meters of an edge that can be the front of a tread

Edge = tuple[P2, P2]


class TaperedTread(NamedTuple):
    """A tread that turns, in meters: its depth at the walkline and at its narrow end, and how far out the walkline is.

    `center` is where the lines of its two edges meet, `ends` how far from there its narrow and its wide end lie, and `turn`
    the degrees between the edges.
    """

    depth: float
    narrow_end: float
    radius: float
    center: P2
    ends: tuple[float, float]
    turn: float


def tapered_treads(outlines: list[list[P2]]) -> list[TaperedTread | None] | None:
    """Return the treads that turn among those of a flight, from the bottom up; None where their edges do not tell them.

    The last tread is None where others reach under the next one, for where the floor above begins is not told then.
    """
    sides = [_sides(outline) for outline in outlines]
    known = [pair for pair in sides if pair is not None]
    if len(known) < len(sides) or len(known) < 2:
        return None
    middles = [_middle(pair) for pair in known]
    before = [_mirrored(middles), *middles]
    fronts = [min(pair, key=lambda edge: _apart(edge, before[i])) for i, pair in enumerate(known)]
    backs = [max(pair, key=lambda edge: _apart(edge, before[i])) for i, pair in enumerate(known)]
    ways = [*pairwise(before), (before[-2], before[-1])]
    edges = [_from_left(edge, way) for edge, way in zip([*fronts, backs[-1]], ways, strict=True)]
    fronts, ends, sides_of_flight = edges[:-1], edges[1:], (_line(edges, 0), _line(edges, 1))
    overlap = any(_off(point, end) > AGREES for back, end in zip(backs[:-1], ends, strict=False) for point in back)
    found = [
        _between(a, b, sides_of_flight)
        for a, b in zip(fronts, ends, strict=True)
        if PARALLEL < _turn(a, b) < LANDING_TURN
    ]
    last_turns = PARALLEL < _turn(fronts[-1], ends[-1]) < LANDING_TURN
    return [*found[:-1], None] if overlap and last_turns else [*found]


def path_turns(middles: list[P2]) -> bool:
    """Return whether the way over the middles of treads turns, other than on a landing."""
    ways = list(pairwise(middles))
    return any(PARALLEL < _turn(a, b) < LANDING_TURN for a, b in pairwise(ways))


def _sides(outline: list[P2]) -> tuple[Edge, Edge] | None:
    """Return the two long edges of a tread."""
    edges = sorted(pairwise([*outline, *outline[:1]]), key=lambda edge: -_long(edge))[:2]
    if len(edges) < 2 or _long(edges[1]) < SHORTEST:
        return None
    return edges[0], edges[1]


def _between(front: Edge, back: Edge, sides: tuple[Any, Any]) -> TaperedTread:
    """Return the tread between two front edges that are not parallel; the smaller depth of the two ways to measure."""
    inner = 0 if _far(front[0], back[0]) < _far(front[1], back[1]) else 1
    here, there = (_walked(edge[inner], edge[1 - inner], sides[inner]) for edge in (front, back))
    depth = min(_off(here, back), _off(there, front))
    center = _meeting(front, back)
    radius, narrow = max(_far(here, center), _far(there, center)), _far(front[inner], back[inner])
    ends = (_far(front[inner], center), _far(front[1 - inner], center))
    return TaperedTread(depth, narrow, radius, center, ends, _turn(front, back))


def _from_left(edge: Edge, way: Edge) -> Edge:
    """Return a front edge from its left end to its right one, as seen on the way up."""
    (dx, dy), (ex, ey) = _along(way), _along(edge)
    return edge if dx * ey - dy * ex < 0 else (edge[1], edge[0])


def _line(edges: list[Edge], side: int) -> Any:
    return shapely.LineString([edge[side] for edge in edges])


def _walked(near: P2, far: P2, side: Any) -> P2:
    """Return where the walkline crosses a front edge: the first point so far from the inner `side` of the flight."""
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        share = (low + high) / 2
        at = near[0] + (far[0] - near[0]) * share, near[1] + (far[1] - near[1]) * share
        low, high = (share, high) if side.distance(shapely.Point(at)) < WALKLINE else (low, share)
    return near[0] + (far[0] - near[0]) * low, near[1] + (far[1] - near[1]) * low


def _meeting(one: Edge, other: Edge) -> P2:
    (x, y), (dx, dy) = one[0], _along(one)
    (p, q), (ex, ey) = other[0], _along(other)
    share = ((p - x) * ey - (q - y) * ex) / (dx * ey - dy * ex)
    return x + dx * share, y + dy * share


def _turn(one: Edge, other: Edge) -> float:
    """Return the degrees, up to 90, between two edges."""
    (dx, dy), (ex, ey) = _along(one), _along(other)
    return degrees(asin(min(1.0, abs(dx * ey - dy * ex) / (_long(one) * _long(other)))))


def _off(point: P2, edge: Edge) -> float:
    dx, dy = _along(edge)
    return abs((point[0] - edge[0][0]) * dy - (point[1] - edge[0][1]) * dx) / _long(edge)


def _apart(edge: Edge, point: P2) -> float:
    (ax, ay), (bx, by) = edge
    return _far(((ax + bx) / 2, (ay + by) / 2), point)


def _middle(pair: tuple[Edge, Edge]) -> P2:
    points = [point for edge in pair for point in edge]
    return sum(x for x, _ in points) / 4, sum(y for _, y in points) / 4


def _mirrored(middles: list[P2]) -> P2:
    """Return where a tread below the first one would lie."""
    (x, y), (p, q) = middles[0], middles[1]
    return 2 * x - p, 2 * y - q


def _along(edge: Edge) -> P2:
    return edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]


def _long(edge: Edge) -> float:
    return _far(*edge)


def _far(one: P2, other: P2) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


__all__ = ["TaperedTread", "path_turns", "tapered_treads"]
