"""The walls of a room along the floor line as drawn, unbroken stretches between doors, and the receptacles in them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate, pairwise
from math import hypot
from typing import Any, NamedTuple

from precheck import (
    Exact,
    Fact,
    House,
    Length,
    Missing,
    Receptacle,
    Space,
    Stretch,
    WallBreak,
    edges,
    fact,
    from_point,
    missing_of,
    stretch_of,
)

Outline = tuple[tuple[Exact, Exact], ...]
THICKEST_WALL = Length.parse("14 in")


class WallSpace(NamedTuple):
    """A stretch of wall that nothing breaks along the floor, and where its receptacles are, from its left end.

    `names` are the ids of those that the work may move, in the same order, with nothing for one that stands. `start` is
    where its left end is along all walls of the room.
    """

    length: Length
    receptacles: tuple[Length, ...]
    after: str
    names: tuple[str, ...] = ()
    start: Exact = 0

    @property
    def farthest(self) -> Length:
        """Greatest distance along the floor line from a point of the stretch to a receptacle in it."""
        if not self.receptacles:
            return self.length
        between = [(b - a) / 2 for a, b in pairwise(self.receptacles)]
        return max([self.receptacles[0], self.length - self.receptacles[-1], *between])


@fact
class RoomWalls(Fact):
    """A living, sleeping, eating or cooking room: its walls have receptacles all along."""

    space: Space
    outline: Outline | None
    breaks: tuple[tuple[str, Stretch | Missing], ...]
    outlets: tuple[Receptacle, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomWalls]:
        """Yield every habitable room."""
        for space in house.subjects(Space):
            if space.is_habitable:
                outlets = tuple(r for r in house.subjects(Receptacle) if r.space == space.id and not r.is_removed)
                yield cls(space, space, house.outline(space), tuple(_breaks(space, house)), outlets)

    @property
    def phase(self) -> Any:
        """The phase of the room; one that is given a new use must comply as a new one.

        One that is altered and keeps its use stands as it is where the work brings no receptacle there.
        """
        if self.space.keeps_its_use and not any(outlet.phase != "existing" for outlet in self.outlets):
            return "existing"
        return "altered" if self.space.changes_use else self.space.phase

    def wall_spaces(self, narrowest: Length, counted: tuple[Receptacle, ...], off_wall: Length) -> Any:
        """Return the stretches of wall at least `narrowest` wide with the `counted` receptacles, or what is missing."""
        if self.outline is None:
            return self.space.absent("outline")
        lacks = missing_of(*(stretch for _, stretch in self.breaks), *(r.at for r in counted))
        if lacks is not None:
            return lacks
        line = FloorLine(self.outline)
        drawn = [(line.place(_point(r), off_wall if r.in_floor is True else THICKEST_WALL), r) for r in counted]
        places = [(place, "" if r.is_existing else r.id) for place, r in drawn if place is not None]
        found = line.stretches([(label, line.taken(stretch)) for label, stretch in self.breaks], places)
        return tuple(stretch for stretch in found if stretch.length >= narrowest)


class FloorLine:
    """The outline of a room unrolled to one line; places are distances along it from the first corner."""

    def __init__(self, outline: Outline) -> None:
        self.edges = edges(outline)
        self.starts: list[Exact] = [0, *accumulate(_length(edge) for edge in self.edges)]

    @property
    def total(self) -> Exact:
        """The length of all walls."""
        return self.starts[-1]

    def place(self, point: tuple[Exact, Exact], reach: Length) -> Exact | None:
        """Return the place of `point` on the line; None where it is farther than `reach` from every wall."""
        index = min(range(len(self.edges)), key=lambda i: from_point(point, self.edges[i]))
        if from_point(point, self.edges[index]) > reach:
            return None
        return self.starts[index] + _along(self.edges[index], point)

    def point(self, place: Exact) -> tuple[Length, Length]:
        """Return the point in plan at a `place` on the line, which may go on past its end."""
        around = Fraction(place) % self.total
        index = max(i for i, start in enumerate(self.starts[:-1]) if start <= around)
        (ax, ay), (bx, by) = self.edges[index]
        share = (around - self.starts[index]) / _length(self.edges[index])
        return Length(ax + (bx - ax) * share), Length(ay + (by - ay) * share)

    def taken(self, stretch: Any) -> tuple[Exact, Exact]:
        """Return the part of the line that a door or the like takes up."""
        (ax, ay), (bx, by) = stretch
        middle = (Fraction(ax + bx) / 2, Fraction(ay + by) / 2)
        index = min(range(len(self.edges)), key=lambda i: from_point(middle, self.edges[i]))
        along = sorted(_along(self.edges[index], point) for point in stretch)
        return self.starts[index] + along[0], self.starts[index] + along[1]

    def stretches(
        self, breaks: list[tuple[str, tuple[Exact, Exact]]], places: list[tuple[Exact, str]]
    ) -> list[WallSpace]:
        """Return what the `breaks` leave of the line, with the receptacles that fall into each stretch."""
        on_wall = sorted(places)
        if not breaks:
            ring = [*((p - on_wall[0][0]) % self.total for p, _ in on_wall), *([self.total] if on_wall else [])]
            return [WallSpace(Length(self.total), tuple(Length(p) for p in ring), "all around the room")]
        merged = _merged(sorted(breaks, key=lambda item: item[1][0]))
        found = []
        for (label, (_, end)), (_, (start, _)) in zip(merged, [*merged[1:], merged[0]], strict=True):
            length = (start - end) % self.total
            inside = sorted(((p - end) % self.total, name) for p, name in on_wall if (p - end) % self.total <= length)
            at, names = tuple(Length(p) for p, _ in inside), tuple(name for _, name in inside)
            found.append(WallSpace(Length(length), at, f"next to {label}", names, end))
        return found


def _breaks(space: Space, house: House) -> Iterator[tuple[str, Stretch | Missing]]:
    for door in house.project.doors:
        if space.id in door.between and not door.is_removed:
            yield door.label, stretch_of(door, house)
    for thing in house.subjects(WallBreak):
        if thing.space == space.id and not thing.is_removed:
            yield f"the {thing.what}", _across(thing, house.outline(space))


def _across(thing: WallBreak, outline: Outline | None) -> Stretch | Missing:
    if outline is None:
        return thing.absent("the outline of its room")
    middle = (thing.at[0].n, thing.at[1].n)
    (ax, ay), (bx, by) = min(edges(outline), key=lambda edge: from_point(middle, edge))
    length = _length(Stretch((ax, ay), (bx, by)))
    dx, dy = (Fraction(thing.width.n * (b - a)) / (2 * length) for a, b in ((ax, bx), (ay, by)))
    return Stretch((middle[0] - dx, middle[1] - dy), (middle[0] + dx, middle[1] + dy))


def _merged(breaks: list[tuple[str, tuple[Exact, Exact]]]) -> list[tuple[str, tuple[Exact, Exact]]]:
    merged = [breaks[0]]
    for label, (start, end) in breaks[1:]:
        _, (first, last) = merged[-1]
        if start <= last:
            merged[-1] = (label, (first, max(end, last)))
        else:
            merged.append((label, (start, end)))
    return merged


def _length(edge: Stretch) -> Exact:
    (ax, ay), (bx, by) = edge
    dx, dy = bx - ax, by - ay
    square = max(dx + dy, -(dx + dy))
    return square if not dx or not dy else round(hypot(float(dx), float(dy)))


def _along(edge: Stretch, point: tuple[Exact, Exact]) -> Exact:
    (ax, ay), (bx, by) = edge
    length = _length(edge)
    dot = Fraction((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay))
    return sorted((Fraction(0), dot / length, Fraction(length)))[1] if length else 0


def _point(receptacle: Receptacle) -> tuple[Exact, Exact]:
    x, y = receptacle.at  # type: ignore[misc]  # its absence is told before
    return x.n, y.n
