"""Straight lines in plan as a network: its pieces between nodes, and the ends that no line goes on from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import cached_property
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any, NamedTuple

import shapely

from precheck.importers.plane import P2

GRID = 0.002  # meters to which corners are drawn together
STRAIGHT = 0.999  # cosine of the angle between lines that still go on as one
SQUARE = 0.05  # cosine of the angle between lines that still stand at right angles
CAP = 0.5  # meters that the end of a wall is wide at most
OVERSHOOT = 0.25  # meters that a line may be drawn beyond a crossing by mistake

Line = tuple[P2, P2]


class LooseEnd(NamedTuple):
    """An end of a line at `at`, from which it would go on along `way`; `free` where no other line touches it there.

    `short` is an end of a straight line that is no longer than the cap of a wall.
    """

    at: P2
    way: P2
    free: bool
    short: bool


class LineNetwork:
    """Lines in meters, cut where they meet."""

    def __init__(self, lines: Iterable[Line]) -> None:
        self.given = [line for line in lines if long(line) > GRID]
        given = [shapely.LineString(line) for line in self.given]
        self._given_tree: Any = shapely.STRtree(given)
        self.shape: Any = shapely.unary_union(given, grid_size=GRID) if given else shapely.LineString()
        self.pieces: list[Line] = [
            (coordinates[i], coordinates[i + 1])
            for part in shapely.get_parts(self.shape)
            if part.geom_type == "LineString"
            for coordinates in (list(part.coords),)
            for i in range(len(coordinates) - 1)
        ]
        self.tree: Any = shapely.STRtree(shapely.linestrings(self.pieces) if self.pieces else [])
        self._at: dict[P2, list[P2]] = defaultdict(list)
        for start, end in self.pieces:
            self._at[start].append(end)
            self._at[end].append(start)

    def near(self, shape: Any) -> list[Line]:
        """Return the pieces whose boxes meet that of `shape`."""
        return [self.pieces[i] for i in self.tree.query(shape)]

    def within(self, shape: Any, distance: float) -> list[Line]:
        """Return the pieces that come within meters of `shape`."""
        return [self.pieces[i] for i in self.tree.query(shape, predicate="dwithin", distance=distance)]

    def exact(self, outline: list[P2]) -> list[P2]:
        """Return an outline with its corners where the lines that it follows meet as drawn, before they were drawn together."""
        edges = [self._as_drawn((start, end)) for start, end in zip(outline, [*outline[1:], outline[0]], strict=True)]
        return [meeting(edges[i - 1], edges[i], corner, 5 * GRID) for i, corner in enumerate(outline)]

    def _as_drawn(self, edge: Line) -> Line:
        way, found = direction(*edge), [edge]
        for i in self._given_tree.query(shapely.LineString(edge).buffer(2 * GRID)):
            line = self.given[i]
            beside = [abs(cross(way, less(point, edge[0]))) for point in line]
            if abs(cross(way, direction(*line))) < 0.01 and min(beside) <= 2 * GRID:
                found.append(line)
        return max(found[1:], key=long, default=edge)

    @cached_property
    def loose_ends(self) -> list[LooseEnd]:
        """The ends of lines that may be at an opening: free, or closed by the cap of a wall's end."""
        found = []
        for node, others in self._at.items():
            for other in others:
                way = direction(other, node)
                if self._is_loose(node, other, way):
                    found.append(LooseEnd(node, way, len(others) == 1, self._run(node, other) <= CAP))
        return found

    def _is_loose(self, node: P2, other: P2, way: P2) -> bool:
        across = [end for end in self._at[node] if end != other]
        if any(dot(way, direction(node, end)) > STRAIGHT for end in across):
            return False
        if not across:
            return not self._overshoots(node, other, way)
        straight = sum(self._run(node, end) for end in across)
        return straight <= CAP and all(abs(dot(way, direction(node, end))) < 0.3 for end in across)

    def _overshoots(self, node: P2, other: P2, way: P2) -> bool:
        if long((node, other)) > OVERSHOOT:
            return False
        beyond = [end for end in self._at[other] if end != node]
        goes_on = any(dot(way, direction(end, other)) > STRAIGHT for end in beyond)
        return goes_on and len(beyond) > 1

    def _run(self, node: P2, end: P2) -> float:
        """Return how long the straight line is that goes from `node` over `end`."""
        way, total, seen = direction(node, end), long((node, end)), {node}
        while total <= CAP:
            seen.add(end)
            on = [n for n in self._at[end] if n not in seen and dot(way, direction(end, n)) > STRAIGHT]
            if not on:
                break
            total, end = total + long((end, on[0])), on[0]
        return total


def long(line: Line) -> float:
    """Return the length of a line."""
    return hypot(line[1][0] - line[0][0], line[1][1] - line[0][1])


def direction(start: P2, end: P2) -> P2:
    """Return the unit vector from one point to another."""
    size = long((start, end)) or 1.0
    return (end[0] - start[0]) / size, (end[1] - start[1]) / size


def dot(one: P2, other: P2) -> float:
    """Return the inner product."""
    return one[0] * other[0] + one[1] * other[1]


def cross(one: P2, other: P2) -> float:
    """Return the outer product."""
    return one[0] * other[1] - one[1] * other[0]


def less(one: P2, other: P2) -> P2:
    """Return the way from `other` to `one`."""
    return one[0] - other[0], one[1] - other[1]


def along(start: P2, way: P2, far: float, aside: float = 0.0) -> P2:
    """Return the point `far` along a unit vector from `start`, and so far to its left."""
    return start[0] + way[0] * far - way[1] * aside, start[1] + way[1] * far + way[0] * aside


def middle(line: Line) -> P2:
    """Return the middle of a line."""
    return (line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2


def turned(point: P2, angle: float) -> P2:
    """Return a point turned about the origin by degrees counterclockwise."""
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def meeting(one: Line, other: Line, near: P2, within: float) -> P2:
    """Return where two lines meet, if that is so near a point, else that point."""
    way, beyond = direction(*one), direction(*other)
    turn = cross(way, beyond)
    if abs(turn) < 0.05:
        return near
    found = along(one[0], way, cross(less(other[0], one[0]), beyond) / turn)
    return found if long((found, near)) <= within else near


def main_direction(lines: Iterable[Line]) -> float:
    """Return by how many degrees, from -45 to 45, the most of the length of some lines is turned from the axes."""
    weights: dict[int, float] = defaultdict(float)
    all_lines = [(degrees(atan2(b[1] - a[1], b[0] - a[0])) % 90, long((a, b))) for a, b in lines]
    for angle, size in all_lines:
        weights[round(angle) % 90] += size
    if not weights:
        return 0.0
    beside = {a: (weights.get((a + 1) % 90, 0.0) + weights.get((a - 1) % 90, 0.0)) / 2 for a in weights}
    best = max(weights, key=lambda a: weights[a] + beside[a])
    near = [((angle - best + 45) % 90 - 45, size) for angle, size in all_lines]
    near = [(off, size) for off, size in near if abs(off) <= 1.0]
    total = sum(size for _, size in near)
    found = best + (sum(off * size for off, size in near) / total if total else 0.0)
    return found - 90 if found > 45 else found


__all__ = [
    "GRID", "SQUARE", "STRAIGHT", "Line", "LineNetwork", "LooseEnd", "along", "cross", "direction", "dot", "less", "long",
    "main_direction", "meeting", "middle", "turned",
]  # fmt: skip
