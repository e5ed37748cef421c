"""Rooms told by the size that is written in them: upright boxes of that size whose sides lie on faces of walls.

Where furniture, dimension lines or columns lie on the pen of the walls, or a wide opening leads to the next room, no face
closes as the room does. A name with a size then says what to look for, on lines of any layer: four faces of walls around the
name, as far apart as is written. Two such boxes, or none, and a person has to say.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import product
from typing import NamedTuple

from precheck.importers.drawn.plane_lines import Line
from precheck.importers.drawn.sizes import WrittenSize
from precheck.importers.plane import P2

LEVEL = 0.004  # meters by which a line may leave its axis
SAME = 0.012  # meters aside at which pieces of one face still are in one line
CELL = 0.004  # meters to which the places of lines are rounded
WALL = (0.06, 0.42)  # meters from one face of a wall to the other
IN_WALL = 0.3  # meters from a face of a wall within which a door or window in it is closed
SIDE, ALL = 0.4, 0.65  # shares of each side and of all sides that are drawn
BACKED = 0.5  # share of what is drawn of a side behind which the other face of its wall lies
INSIDE, ACROSS = 0.02, 0.3  # meters from a side, and share of the box, of a line of a wall that stands in it
EXACT = 0.06  # meters by which a size and the box may differ
ANOTHER = 0.08  # meters from one box to another that would be a second answer
NEARLY = 0.1  # of the share of walls drawn by which a second answer may be worse

Spans = list[tuple[float, float]]


class SizedBox(NamedTuple):
    """A box as low and high corner in meters, the share of its outline that is drawn, and the longest stretch that is not."""

    low: P2
    high: P2
    drawn: float
    bare: float


class _Side(NamedTuple):
    """A line that may be a side of a room: where it lies across an axis, and its spans along it."""

    place: float
    spans: Spans


class UprightLines:
    """The lines of a plan that lie along its axes, by where they lie across."""

    def __init__(self, lines: Iterable[Line], shut: UprightLines | None = None) -> None:
        """Take the lines of a plan; `shut` are those that close its doors and windows."""
        self._shut = shut
        found: tuple[dict[int, Spans], dict[int, Spans]] = defaultdict(list), defaultdict(list)
        self._exact: tuple[dict[int, float], dict[int, float]] = {}, {}
        for start, end in lines:
            for axis in (0, 1):
                if abs(start[axis] - end[axis]) <= LEVEL and start != end:
                    place = (start[axis] + end[axis]) / 2
                    key = round(place / CELL)
                    found[axis][key].append((min(start[1 - axis], end[1 - axis]), max(start[1 - axis], end[1 - axis])))
                    self._exact[axis].setdefault(key, place)
        self._at = [{key: _joined(spans) for key, spans in by_place.items()} for by_place in found]
        self._keys = [sorted(by_place) for by_place in self._at]

    def places(self, axis: int, low: float, high: float) -> Iterator[tuple[float, Spans]]:
        """Yield each place across an axis from `low` to `high` at which lines lie, with their spans along it."""
        keys = self._keys[axis]
        for key in keys[bisect_left(keys, round(low / CELL)) : bisect_right(keys, round(high / CELL))]:
            yield self._exact[axis][key], self._at[axis][key]

    def spans(self, axis: int, low: float, high: float) -> Spans:
        """Return the spans, joined, of all lines that lie across an axis from `low` to `high`."""
        return _joined(span for _, spans in self.places(axis, low, high) for span in spans)

    def box(self, around: P2, size: WrittenSize) -> SizedBox | None:
        """Return the one box of a size around a point whose sides are faces of walls; None where there is none or are two."""
        ways = dict.fromkeys(((size.first, size.second), (size.second, size.first)))
        found = sorted((one for way in ways for one in self._boxes(around, way)), key=lambda one: -one[0])
        if not found:
            return None
        best = found[0]
        others = (box for score, box in found if score >= best[0] - NEARLY)
        return best[1] if all(_far(best[1], other) <= ANOTHER for other in others) else None

    def _boxes(self, around: P2, size: tuple[float, float]) -> Iterator[tuple[float, SizedBox]]:
        """Yield boxes with sides as long as a size says, each with how much speaks for it."""
        across = [self._pairs(axis, around, size) for axis in (0, 1)]
        for (left, right), (low, high) in product(*across):
            ends = (left.place, right.place), (low.place, high.place)
            drawn = [
                spans
                for axis, sides in enumerate(((left, right), (low, high)))
                for side, sign in zip(sides, (-1, 1), strict=True)
                if (spans := self._drawn(axis, side, ends[1 - axis], sign))
            ]
            if len(drawn) == 4:
                wide, deep = (end[1] - end[0] for end in ends)
                share = sum(map(_length, drawn)) / (2 * (wide + deep))
                places = (side.place for side in (left, right, low, high))
                bare = max(
                    self._bare(n // 2, at, spans, ends[1 - n // 2])
                    for n, (at, spans) in enumerate(zip(places, drawn, strict=True))
                )
                off = abs(wide - size[0]) + abs(deep - size[1])
                if share >= ALL:
                    yield share - off, SizedBox((ends[0][0], ends[1][0]), (ends[0][1], ends[1][1]), share, bare)

    def _pairs(self, axis: int, around: P2, size: tuple[float, float]) -> list[tuple[_Side, _Side]]:
        """Return pairs of lines across an axis on both sides of a point, as far apart as a size says."""
        here, there, span, other = around[axis], around[1 - axis], size[axis], size[1 - axis]
        window = there - other, there + other
        sides = [
            _Side(place, clipped)
            for place, spans in self.places(axis, here - span - EXACT, here + span + EXACT)
            if _length(clipped := _clipped(spans, *window)) >= 0.25 * other
        ]
        before, after = [s for s in sides if s.place < here], [s for s in sides if s.place > here]
        return [(a, b) for a in before for b in after if abs(b.place - a.place - span) <= EXACT]

    def _drawn(self, axis: int, side: _Side, ends: tuple[float, float], sign: int) -> Spans:
        """Return what is drawn of a side as the face of a wall that lies on its outer side; nothing where that is too little."""
        drawn = _clipped(self.spans(axis, side.place - SAME, side.place + SAME), *ends)
        if _length(drawn) < SIDE * (ends[1] - ends[0]):
            return []
        beyond, within = (
            _common(
                drawn, self.spans(axis, *sorted((side.place + s * sign * WALL[0], side.place + s * sign * WALL[1])))
            )
            for s in (1, -1)
        )
        far_face = within >= BACKED * _length(
            drawn
        )  # the wall lies in the box, as where a size is to the middles of walls
        return [] if beyond < BACKED * _length(drawn) or far_face else drawn

    def parts(self, box: SizedBox) -> bool:
        """Return whether two lines as far apart as the faces of a wall run far across a box."""
        for axis in (0, 1):
            (low, high), (first, last) = ((box.low[n], box.high[n]) for n in (axis, 1 - axis))
            across = [
                place
                for place, spans in self.places(axis, low + INSIDE, high - INSIDE)
                if _length(_clipped(spans, first, last)) >= ACROSS * (last - first)
            ]
            if any(WALL[0] <= other - one <= WALL[1] for one in across for other in across):
                return True
        return False

    def _bare(self, axis: int, place: float, drawn: Spans, ends: tuple[float, float]) -> float:
        """Return the longest stretch of a side that is neither drawn nor closed by a door or window."""
        shut = self._shut.spans(axis, place - IN_WALL, place + IN_WALL) if self._shut else []
        return _gap(_clipped(_joined([*drawn, *shut]), *ends), *ends)


def _joined(spans: Iterable[tuple[float, float]]) -> Spans:
    found: Spans = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = found[-1][0], max(high, found[-1][1])
        else:
            found.append((low, high))
    return found


def _clipped(spans: Spans, low: float, high: float) -> Spans:
    return [(max(a, low), min(b, high)) for a, b in spans if min(b, high) > max(a, low)]


def _length(spans: Spans) -> float:
    return sum(high - low for low, high in spans)


def _gap(spans: Spans, low: float, high: float) -> float:
    """Return the longest stretch from `low` to `high` that no span covers."""
    ends = [low, *(end for _, end in spans)]
    return max(begin - end for end, begin in zip(ends, [*(begin for begin, _ in spans), high], strict=True))


def _common(one: Spans, other: Spans) -> float:
    """Return the length that lies in both."""
    return sum(_length(_clipped(other, low, high)) for low, high in one)


def _far(one: SizedBox, other: SizedBox) -> float:
    return max(abs(a - b) for p, q in zip(one[:2], other[:2], strict=True) for a, b in zip(p, q, strict=True))


__all__ = ["SizedBox", "UprightLines"]
