"""Treads that turn, as those of winders and spiral stairs: how deep they are at the walkline, and at their narrow end.

A tread reaches from its own front edge to that of the next one above it; what lies under the next one is no part of it.
"""

from __future__ import annotations

from itertools import pairwise
from math import asin, degrees, hypot
from typing import NamedTuple

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.stair_statements import AGREES
from precheck.importers.ifc.treads import Treads
from precheck.importers.plane import P2

WALKLINE = 0.3048  # meters (12 in) from the narrow side, where a tread that turns is measured
PARALLEL = 2.0  # degrees up to which two front edges bound a straight tread
LANDING_TURN = 60.0  # degrees from which what lies between two front edges is a landing
SHORTEST = 0.4  # meters of an edge that can be the front of a tread

Edge = tuple[P2, P2]


class TaperedTread(NamedTuple):
    """A tread that turns, in meters: its depth at the walkline and at its narrow end, and how far out the walkline is."""

    depth: float
    narrow_end: float
    radius: float


def turning_treads(plan: Plan, treads: Treads, spiral: bool, part: str) -> Entry:
    """Return what a flight says of its treads that turn: winders, or the treads of a spiral stair; nothing of another one.

    Where they turn and their edges do not tell them, winders of no known number ask for what is not taken.
    """
    if treads.going is not None or len(treads.levels) < 2:
        return {}
    found = tapered_treads(treads.outlines)
    if found is None and _path_turns(treads.middles):
        told = "its treads turn, and their edges do not tell their depth at the walkline: not taken from the body"
        plan.model.draft.doubt(told, part)
        return {} if spiral else {"winders": {"count": Value("", "not told by the body")}}
    if not found:
        return {}
    plan.model.draft.doubt("its treads turn: they are measured 12 in from their narrow side, as modeled", part)
    if not spiral and len(found) == len(treads.levels):
        plan.model.draft.doubt(
            "all of its treads turn, and it is not said to be a spiral stair: taken for winders", part
        )
    known = [tread for tread in found if tread is not None]
    told = "between the front edges of the treads as modeled, 12 in from the narrow side"
    depths = {"tread depths" if spiral else "depths at walkline":
              Value(f"[{', '.join(plan.length(tread.depth) for tread in known)}]", told)} if known else {}  # fmt: skip
    if spiral:
        radius = max((tread.radius for tread in known), default=None)
        return depths | ({"walkline radius": Value(plan.length(radius), told)} if radius else {})
    turn: Entry = {"count": Value(str(len(found)), "treads of the body that turn"), **depths}
    if known:
        turn["narrow end"] = Value(plan.length(min(tread.narrow_end for tread in known)), "the smallest, as modeled")
    return {"winders": turn}


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
    ends = [*fronts[1:], backs[-1]]
    overlap = any(_off(point, end) > AGREES for back, end in zip(backs[:-1], ends, strict=False) for point in back)
    found = [_between(a, b) for a, b in zip(fronts, ends, strict=True) if PARALLEL < _turn(a, b) < LANDING_TURN]
    last_turns = PARALLEL < _turn(fronts[-1], ends[-1]) < LANDING_TURN
    return [*found[:-1], None] if overlap and last_turns else [*found]


def _path_turns(middles: list[P2]) -> bool:
    """Return whether the way over the middles of treads turns, other than on a landing."""
    ways = list(pairwise(middles))
    return any(PARALLEL < _turn(a, b) < LANDING_TURN for a, b in pairwise(ways))


def _sides(outline: list[P2]) -> tuple[Edge, Edge] | None:
    """Return the two long edges of a tread."""
    edges = sorted(pairwise([*outline, *outline[:1]]), key=lambda edge: -_long(edge))[:2]
    if len(edges) < 2 or _long(edges[1]) < SHORTEST:
        return None
    return edges[0], edges[1]


def _between(front: Edge, back: Edge) -> TaperedTread:
    """Return the tread between two front edges that are not parallel; the smaller depth of the two ways to measure."""
    center = _meeting(front, back)
    (near, far), (behind, beyond) = (sorted(edge, key=lambda p: _far(p, center)) for edge in (front, back))
    here, there = _out(near, far), _out(behind, beyond)
    depth = min(_off(there, front), _off(here, back))
    return TaperedTread(depth, _far(near, behind), max(_far(here, center), _far(there, center)))


def _out(near: P2, far: P2) -> P2:
    share = WALKLINE / _far(near, far)
    return near[0] + (far[0] - near[0]) * share, near[1] + (far[1] - near[1]) * share


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


__all__ = ["TaperedTread", "tapered_treads", "turning_treads"]
