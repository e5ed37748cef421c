"""Lines that close the openings between the ends of walls, each with why it is there and what proves that it is an opening."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.plane_lines import (
    SQUARE,
    STRAIGHT,
    Line,
    LineNetwork,
    LooseEnd,
    along,
    cross,
    direction,
    dot,
    less,
    long,
    middle,
)  # fmt: skip
from precheck.importers.drawn.swings import DoorSwing
from precheck.importers.plane import P2

TOUCH = 0.17  # meters that a line may stop short of another by mistake
ALIGNED = 0.03  # meters between lines that still are in one line
GAP = 2.8  # meters of an opening that is closed without proof
WIDE_GAP = 8.0  # and with proof, or where the other face of the wall has the same gap
SQUARE_GAP = (0.55, 1.15)  # meters from the end of a wall to another across, closed without proof
HINGE = 0.35  # meters from the end of a wall at which a leaf that closes the gap is hung
LEAF = 0.25  # meters by which leaf and gap may differ, for jambs and stops
ON_WALL = 0.06  # meters from a wall at which the line of an opening still ends on it
TWIN = (0.06, 0.5)  # meters from a gap to the same gap in the other face of the wall
TWIN_ALONG = 0.1  # meters by which their middles may be shifted along it
OPENING = (0.35, 8.0)  # meters that the line of an opening is long


class ClosingLine(NamedTuple):
    """A line that closes a gap, why it was drawn, and whether a swing or the lines of an opening prove it."""

    line: Line
    why: str
    proven: bool


class Proofs:
    """What shows that a gap is an opening: swings, and the lines and blocks of doors and windows."""

    def __init__(self, swings: Iterable[DoorSwing], lines: Iterable[Line], boxes: Iterable[Any]) -> None:
        self.swings = list(swings)
        self.lines = [shapely.LineString(line) for line in lines]
        self._shapes = [*self.lines, *boxes]
        self._tree: Any = shapely.STRtree(self._shapes)
        self._beside: dict[int, Any] = {}
        self._hinges: Any = shapely.STRtree([shapely.Point(swing.hinge) for swing in self.swings])

    def covered(self, gap: Line) -> float:
        """Return the share of a gap beside which lines or blocks of openings lie."""
        line = shapely.LineString(gap)
        along_it = [i for i in self._tree.query(line.buffer(0.35)) if self._lies_along(self._shapes[i], gap)]
        if not along_it:
            return 0.0
        beside = shapely.unary_union([self._place(i) for i in along_it])
        return float(line.intersection(beside).length / line.length) if line.length else 0.0

    def _place(self, index: int) -> Any:
        """Return where the line or block of an opening proves one, which is asked of the same ones again and again."""
        if index not in self._beside:
            shape = self._shapes[index]
            flat = shape if shape.geom_type == "Polygon" else shape.buffer(0.3, cap_style="flat")
            self._beside[index] = flat
        return self._beside[index]

    def swing_fits(self, gap: Line) -> bool:
        """Return whether a leaf, or a pair of them, closes the gap."""
        size = long(gap)
        leaves = [[swing.width for swing in self._hung_at(end) if swing.closes_along(gap)] for end in gap]
        if any(abs(width - size) <= LEAF for widths in leaves for width in widths):
            return True
        return any(abs(one + other - size) <= LEAF for one in leaves[0] for other in leaves[1])

    def _hung_at(self, end: P2) -> list[DoorSwing]:
        near = self._hinges.query(shapely.Point(end), predicate="dwithin", distance=HINGE)
        return [self.swings[i] for i in near]

    def prove(self, gap: Line, share: float) -> bool:
        """Return whether a gap is shown to be an opening."""
        return self.swing_fits(gap) or self.covered(gap) >= share

    def _lies_along(self, shape: Any, gap: Line) -> bool:
        if shape.geom_type == "Polygon":
            return True
        start, end = shape.coords[0], shape.coords[-1]
        return abs(cross(direction(start, end), direction(*gap))) < 0.1


class Closing:
    """Closes the gaps of a network of wall lines."""

    def __init__(self, walls: LineNetwork, proofs: Proofs) -> None:
        self.walls, self.proofs = walls, proofs
        self._done: set[tuple[P2, P2]] = set()
        ends = walls.loose_ends
        self._points: Any = shapely.STRtree([shapely.Point(end.at) for end in ends])

    def lines(self) -> list[ClosingLine]:
        """Return all closing lines."""
        return [
            *self._touching(), *self._facing(), *self._square(), *self._swung(), *self._drawn(),
        ]  # fmt: skip

    def _touching(self) -> Iterator[ClosingLine]:
        """Lines that stop just short of another, and corners that do not quite meet."""
        for end in self.walls.loose_ends:
            if not end.free:
                continue
            reach = (end.at, along(end.at, end.way, TOUCH))
            hit = self._first_hit(reach)
            if hit is not None:
                self._done.add((end.at, end.way))
                yield ClosingLine((end.at, hit), "a line that stops short of another", True)
            elif other := self._corner(end):
                yield ClosingLine((end.at, other), "a corner that does not quite meet", True)

    def _corner(self, end: LooseEnd) -> P2 | None:
        for i in self._points.query(shapely.Point(end.at).buffer(TOUCH * 1.5)):
            other = self.walls.loose_ends[i]
            turn = cross(end.way, other.way)
            if other.free and other.at != end.at and abs(turn) > 0.5:
                gap = less(other.at, end.at)
                far, back = cross(gap, other.way) / turn, cross(gap, end.way) / turn
                if 0 <= far <= TOUCH and 0 <= back <= TOUCH:
                    return along(end.at, end.way, far)
        return None

    def _facing(self) -> Iterator[ClosingLine]:
        """Ends of walls that face each other in one line."""
        ends = self.walls.loose_ends
        found = []
        for index, end in enumerate(ends):
            reach = shapely.LineString((end.at, along(end.at, end.way, WIDE_GAP))).buffer(ALIGNED)
            for i in self._points.query(reach):
                other, gap = ends[i], less(ends[i].at, end.at)
                in_line = dot(end.way, other.way) < -STRAIGHT and abs(cross(end.way, gap)) <= ALIGNED
                if i > index and in_line and 0 < dot(end.way, gap) <= WIDE_GAP and self._is_open((end.at, other.at)):
                    found.append((dot(end.way, gap), end, other))
        twins = _Twins([(one.at, other.at) for _, one, other in found])
        for size, one, other in sorted(found, key=lambda f: f[0]):
            keys = {(one.at, one.way), (other.at, other.way)}
            if keys & self._done:
                continue
            line = (one.at, other.at)
            proven = size <= TOUCH or self.proofs.prove(line, 0.6)
            if proven or size <= GAP or twins.has(line):
                self._done |= keys
                yield ClosingLine(line, "ends of walls that face each other", proven)

    def _square(self) -> Iterator[ClosingLine]:
        """The end of a wall, and another wall across."""
        found: list[Line] = []
        short: set[Line] = set()
        for end in self.walls.loose_ends:
            if (end.at, end.way) not in self._done:
                hit = self._first_hit((end.at, along(end.at, end.way, GAP)), square=True)
                if hit is not None and long((end.at, hit)) >= 0.2:
                    found.append((end.at, hit))
                    short |= {(end.at, hit)} if end.free and end.short else set()
        twins = _Twins(found)
        for line in found:
            proven = self.proofs.prove(line, 0.45)
            usual = SQUARE_GAP[0] <= long(line) <= SQUARE_GAP[1] or twins.has(line)
            if proven or (usual and line not in short):
                yield ClosingLine(line, "the end of a wall and a wall across", proven)

    def _swung(self) -> Iterator[ClosingLine]:
        for swing in self.proofs.swings:
            if swing.closed is not None:
                start, end = swing.closed
                way = direction(start, end)
                yield ClosingLine((along(start, way, -0.14), along(end, way, 0.14)), "a door that is closed", True)

    def _drawn(self) -> Iterator[ClosingLine]:
        for line in self.proofs.lines:
            if OPENING[0] <= line.length <= OPENING[1]:
                start, end = line.coords[0], line.coords[-1]
                way = direction(start, end)
                if all(self._is_on_wall(point) for point in (start, end)) and self._is_open((start, end)):
                    far = along(start, way, -ON_WALL), along(end, way, ON_WALL)
                    yield ClosingLine(far, "the line of an opening", True)

    def _is_on_wall(self, point: P2) -> bool:
        return bool(len(self.walls.tree.query(shapely.Point(point), predicate="dwithin", distance=ON_WALL)))

    def _is_open(self, gap: Line) -> bool:
        """Return whether no wall stands between the ends of a gap."""
        way, size = direction(*gap), long(gap)
        inner = shapely.LineString((along(gap[0], way, min(0.01, size / 4)), along(gap[1], way, -min(0.01, size / 4))))
        return not len(self.walls.tree.query(inner, predicate="intersects"))

    def _first_hit(self, reach: Line, square: bool = False) -> P2 | None:
        """Return where a way from the end of a wall first meets another wall; with `square`, one at right angles."""
        way = direction(*reach)
        shot = shapely.LineString((along(reach[0], way, 0.004), reach[1]))
        best: tuple[float, bool] | None = None
        for start, end in self.walls.within(shot, 0.003):
            turn = cross(way, direction(start, end))
            if abs(turn) < 0.3:
                continue
            far = cross(less(start, reach[0]), direction(start, end)) / turn
            if best is None or far < best[0]:
                best = far, abs(dot(way, direction(start, end))) < SQUARE
        return along(reach[0], way, best[0]) if best and (best[1] or not square) else None


class _Twins:
    """Gaps, of which it is asked whether the other face of the wall has the same."""

    def __init__(self, gaps: list[Line]) -> None:
        self.gaps = gaps
        self._middles: Any = shapely.STRtree([shapely.Point(middle(gap)) for gap in gaps])

    def has(self, line: Line) -> bool:
        """Return whether another gap of the same length lies beside a line, as far off as a wall is thick."""
        way, here = direction(*line), middle(line)
        near = self._middles.query(shapely.Point(here), predicate="dwithin", distance=TWIN[1] + 2 * TWIN_ALONG)
        return any(self._is_twin(self.gaps[i], line, way, here) for i in near)

    def _is_twin(self, gap: Line, line: Line, way: P2, here: P2) -> bool:
        off = less(middle(gap), here)
        beside = TWIN[0] <= abs(cross(way, off)) <= TWIN[1] and abs(dot(way, off)) <= TWIN_ALONG
        alike = abs(dot(way, direction(*gap))) > STRAIGHT and abs(long(gap) - long(line)) <= 0.2
        return gap != line and beside and alike


__all__ = ["Closing", "ClosingLine", "Proofs"]
