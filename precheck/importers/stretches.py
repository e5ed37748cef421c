"""Walls in plan by their middle lines, and the stretches along them between whose ends the same lies on both sides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import pairwise
from math import hypot
from typing import Any, NamedTuple

from precheck.immutable import fixed
from precheck.importers.plane import P2

REACHES = (0.02, 0.05, 0.15, 0.3)  # meters beyond a wall's face at which a space is looked for
SHORTEST = 0.1  # meters of wall that count as a stretch of their own
GAP = 0.7  # meters between two stretches that another wall may fill, and that then belong to both
ALONG = 0.05  # sine of the angle between walls that still run alongside each other
AWAY = 0.8  # meters beyond a wall's face within which corners of spaces cut it
SAME = 0.01  # meters between two cuts that count as one


@fixed
class WallLine:
    """The middle line of a straight wall, and its thickness, in meters."""

    start: P2
    end: P2
    thick: float

    @cached_property
    def long(self) -> float:
        """The length of the middle line."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @cached_property
    def along(self) -> P2:
        """The direction of the middle line."""
        return (self.end[0] - self.start[0]) / self.long, (self.end[1] - self.start[1]) / self.long

    @cached_property
    def left(self) -> P2:
        """The direction square to the middle line, to its left."""
        return -self.along[1], self.along[0]

    def at(self, distance: float, aside: float = 0.0) -> P2:
        """Return the point at a distance along the middle line, and some way to its left."""
        (ux, uy), (vx, vy) = self.along, self.left
        return self.start[0] + ux * distance + vx * aside, self.start[1] + uy * distance + vy * aside

    def seen(self, point: P2) -> P2:
        """Return how far along the middle line a point lies, and how far to its left."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        (ux, uy), (vx, vy) = self.along, self.left
        return dx * ux + dy * uy, dx * vx + dy * vy

    def runs_along(self, other: WallLine) -> bool:
        """Return whether both walls run the same way or the opposite one."""
        return abs(self.along[0] * other.along[1] - self.along[1] * other.along[0]) < ALONG


class Beyond(NamedTuple):
    """What lies on one side of a wall at one point, and the walls that line it there, nearest first."""

    side: str = ""
    told: str = ""
    linings: tuple[Any, ...] = ()
    lines: bool = False  # the wall only lines the one that stands there


class WallPiece(NamedTuple):
    """A piece of a wall from one distance along it to another, with what lies to its left and right."""

    start: float
    end: float
    left: Beyond
    right: Beyond

    @property
    def is_known(self) -> bool:
        """Whether it parts two spaces, or a space and the outside."""
        sides = {self.left.side, self.right.side}
        return len(sides - {""}) == 2 and not (self.left.lines or self.right.lines)

    def continues(self, other: WallPiece) -> bool:
        """Return whether `other` parts the same, built up the same way."""
        same = self.left.side == other.left.side and self.right.side == other.right.side
        return same and self.left.linings == other.left.linings and self.right.linings == other.right.linings


def cuts(wall: WallLine, points: Iterable[P2]) -> list[float]:
    """Return the distances along a wall at which `points` near it lie, with its two ends."""
    near = wall.thick / 2 + AWAY
    places = sorted(along for along, aside in map(wall.seen, points) if abs(aside) <= near and 0 < along < wall.long)
    found = [0.0]
    for place in places:
        if place - found[-1] > SAME and wall.long - place > SAME:
            found.append(place)
    return [*found, wall.long]


def closed_up(stretches: list[WallPiece], long: float) -> Iterator[WallPiece]:
    """Yield the known stretches, grown over what other walls fill between them and at the ends of the wall."""
    merged: list[WallPiece] = []
    for one in (s for s in stretches if s.is_known and s.end - s.start >= SHORTEST):
        if merged and one.start - merged[-1].end <= GAP:
            last = merged[-1]
            if last.continues(one):
                merged[-1] = last._replace(end=one.end)
                continue
            middle = (last.end + one.start) / 2
            merged[-1], one = last._replace(end=middle), one._replace(start=middle)
        merged.append(one)
    for index, one in enumerate(merged):
        start = 0.0 if not index and one.start <= GAP else one.start
        end = long if index == len(merged) - 1 and long - one.end <= GAP else one.end
        yield one._replace(start=start, end=end)


def crosses(start: P2, end: P2, outline: list[P2]) -> bool:
    """Return whether the straight way between two points crosses an edge of `outline`."""

    def turn(a: P2, b: P2, c: P2) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])

    edges = pairwise([*outline, outline[0]])
    return any(turn(start, end, a) * turn(start, end, b) < 0 > turn(a, b, start) * turn(a, b, end) for a, b in edges)


__all__ = ["GAP", "REACHES", "Beyond", "WallLine", "WallPiece", "closed_up", "crosses", "cuts"]
