"""What the rules for lot lines are about: each side of the work that faces a lot line, with its distance."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import isqrt, sqrt
from typing import Any

from precheck import Exact, Fact, House, Length, LotLine, Missing, Setback, Space, fact, is_missing

Point = tuple[Exact, Exact]
Span = tuple[Exact, Exact]

OPEN = frozenset(("porch", "deck"))
CHANGED = ("new", "altered")
WAYS = frozenset(("street", "alley", "public way"))
ALL_SIDES = 4  # of a carport without a wall
THICKEST_WALL = Length.parse("14 in")
LONGEST_EAVE = Length.parse("6 ft")  # eaves end well within it; a longer roof is a porch or carport, and drawn as one


@fact
class FacingLine(Fact):
    """One side of a space that faces a lot line: as dimensioned (`stated`), as drawn (`drawn`), or both."""

    space: Space
    line: LotLine
    stated: Setback | None
    drawn: Length | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[FacingLine]:
        """Yield every dimensioned side, and every exposed side of new or altered space, or toward a new lot line.

        An attic is left to the walls under it, which carry its roof.
        """
        seen = set()
        for stated in house.subjects(Setback):
            space, line = house.space(stated.of), house.project.by_id[stated.line]
            if space is not None and isinstance(line, LotLine) and not space.is_removed and not line.is_removed:
                seen.add((space.id, line.id))
                yield cls(stated, space, line, stated, exposed(house, space, line))
        for space in (space for space in house.spaces if house.story_level(space) != "attic"):
            for line in house.subjects(LotLine):
                due = (space.id, line.id) not in seen and not line.is_removed
                away = exposed(house, space, line) if due and _is_changed(space, line) else None
                if away is not None:
                    yield cls(space, space, line, None, away)

    @property
    def label(self) -> str:
        """The space and the line that it faces."""
        return f"{self.space.label} toward lot line {self.line.id}"

    @property
    def phase(self) -> Any:
        """The phase of the space: an existing wall of a space that is altered must serve what it becomes.

        A lot line that is drawn anew makes the old walls that face it new work.
        """
        return self.space.phase_where(self.line.phase in CHANGED)

    @property
    def distance(self) -> Length | Missing:
        """Wall or post to the lot line: as dimensioned, else as drawn."""
        if self.stated is not None and not is_missing(self.stated.distance):
            return self.stated.distance
        return self.drawn if self.drawn is not None else self.of("distance")

    @property
    def edge_distance(self) -> Length | Missing:
        """The outermost edge of the roof to the lot line."""
        edge: Length | Missing = self.distance - self.of("overhang")
        return edge

    @property
    def to_middle(self) -> Length | Missing:
        """What fire separation distance gains over the distance to the line: half of a street or alley beyond it."""
        beyond, line = self.line.beyond, self.line
        if is_missing(beyond):
            return beyond if line.side in ("front", "street side") else Length(0)
        return line.width_beyond / 2 if beyond in WAYS else Length(0)

    @property
    def fire_distance(self) -> Length | Missing:
        """Wall to the lot line, or to the middle of the street, alley or public way beyond it."""
        return self.distance + self.to_middle

    def is_beyond_eaves(self, kept_clear: Length | Missing | None) -> bool:
        """Return whether the wall is so far from what is kept clear that an eave which is not drawn cannot matter."""
        distance = self.distance
        if is_missing(distance) or kept_clear is None or is_missing(kept_clear):
            return False
        return distance >= kept_clear + LONGEST_EAVE

    @property
    def is_square(self) -> bool:
        """Whether the wall runs square to the line, so that it does not face it."""
        return self.stated is not None and self.stated.square_to_line

    @property
    def is_open(self) -> bool | Missing:
        """Whether this side has no wall."""
        if self.stated is not None and self.stated.open_side:
            return True
        if self.space.use in OPEN or (self.space.use == "carport" and self.space.open_sides == ALL_SIDES):
            return True
        return self.of("open side") if self.stated is None and self.space.use == "carport" else False

    def of(self, key: str) -> Any:
        """Return what the drawings say of this side under `key`, or its absence."""
        if self.stated is not None:
            return getattr(self.stated, key.replace(" ", "_"))
        return self.space.absent(f"{key} (in a setback toward lot line {self.line.id})")


def _is_changed(space: Space, line: LotLine) -> bool:
    return space.phase in CHANGED or (space.is_existing and line.phase in CHANGED)


def exposed(house: House, space: Space, line: LotLine) -> Length | None:
    """Return how far `space` as drawn is from `line`; None where one is not drawn, or other spaces stand between.

    Rooms are drawn to the faces of their walls: what shows between two of them is the wall between them.
    """
    mine = _away(house, space, line)
    if mine is None:
        return None
    others = (_away(house, other, line) for other in house.spaces if other is not space and _level(other, space))
    before = sorted(theirs[1] for theirs in others if theirs and theirs[0] < mine[0])
    wall = THICKEST_WALL.n * _root(_square(line))
    seen, end = mine[1]
    for first, last in before:
        if first - seen <= wall:
            seen = max(seen, last)
    return None if end - seen <= (wall if before else 0) else Length(mine[0])


def _square(line: LotLine) -> Exact:
    (ax, ay), (bx, by) = line.from_, line.to  # type: ignore[misc]  # asked only of a line that is drawn
    return (bx.n - ax.n) ** 2 + (by.n - ay.n) ** 2


def _level(one: Space, other: Space) -> bool:
    return is_missing(one.story) or is_missing(other.story) or one.story == other.story


def _away(house: House, space: Space, line: LotLine) -> tuple[Exact, Span] | None:
    outline = house.outline(space)
    if outline is None or is_missing(line.from_) or is_missing(line.to):
        return None
    start, end = ((x.n, y.n) for x, y in (line.from_, line.to))
    return least_distance((*outline, outline[0]), start, end)


@lru_cache(maxsize=2048)
def least_distance(path: tuple[Point, ...], start: Point, end: Point) -> tuple[Exact, Span] | None:
    """Return the least distance at right angles from `path` to the segment, and the stretch of it that `path` faces.

    The stretch is in the measure of the segment's squared length. None where no part of the path lies square to it.
    """
    ux, uy = end[0] - start[0], end[1] - start[1]
    square = ux * ux + uy * uy
    along = [(x - start[0]) * ux + (y - start[1]) * uy for x, y in path]
    aside = [(x - start[0]) * uy - (y - start[1]) * ux for x, y in path]
    across = [max(n, -n) for n in aside]
    corners = list(zip(along, across, strict=True))
    ends = [point for a, b in pairwise(corners) for point in _clipped(a, b, square)]
    if not ends or not square:
        return None
    stretch = [t for t, _ in ends]
    return Fraction(min(d for _, d in ends)) / _root(square), (min(stretch), max(stretch))


def _clipped(a: Span, b: Span, far: Exact) -> list[Span]:
    (t1, d1), (t2, d2) = sorted((a, b))
    if t2 <= 0 or t1 >= far:
        return []
    if t1 == t2:
        return [(t1, d1), (t2, d2)]

    def at(t: Exact) -> Span:
        return t, d1 + Fraction((d2 - d1) * (t - t1)) / (t2 - t1)

    return [(t1, d1) if t1 >= 0 else at(0), (t2, d2) if t2 <= far else at(far)]


def _root(square: Exact) -> Exact:
    whole = isqrt(int(square))
    return whole if whole * whole == square else Fraction(sqrt(square))
