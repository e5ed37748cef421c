"""Doors out of swings and windows out of the lines that bridge a wall, between the faces on both sides; call-outs as a check."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from statistics import median
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.faces import PlanFace
from precheck.importers.drawn.plane_lines import Line, along, cross, direction, dot, less, long, middle
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.drawn.sizes import is_opening_size, opening_code, sizes_in
from precheck.importers.drawn.swings import DoorSwing
from precheck.importers.plane import P2

REACHES = (0.1, 0.2, 0.3, 0.45, 0.6)  # meters from the middle of an opening at which a face is looked for
OPEN_AIR = 0.9  # meters from it at which nothing of the plan is left where it leads outside
CALLED = 0.6  # meters from an opening within which its call-out stands
SAME = 0.03  # meters by which a call-out and the drawn width may differ
WIDTHS = (0.3, 6.0)  # meters of a window
PAIRED = 0.1  # meters between the ends of two lines of one window, or of two leaves of one door

OUTSIDE, UNKNOWN = -1, -2


class Called(NamedTuple):
    """What a call-out beside an opening says, in meters, and how it is written."""

    width: float
    height: float
    text: str


@dataclass
class PlanOpening:
    """A door or window in the turned plan: where it closes, how wide, and which faces, by their numbers, lie on its sides.

    The first side is that which a door swings into. `called` is a call-out that agrees, `against` one that does not.
    """

    line: Line
    width: float
    sides: tuple[int, int]
    handle: str
    swings: bool
    called: Called | None = None
    against: Called | None = None


class OpeningFinder:
    """Finds doors and windows on a plan with known faces."""

    def __init__(self, faces: list[PlanFace], texts: Iterable[DrawnText], walls: Iterable[Line]) -> None:
        self.faces = faces
        self._tree: Any = shapely.STRtree([face.shape for face in faces])
        built = [face.shape for face in faces] + [shapely.LineString(line) for line in walls]
        self._built: Any = shapely.union_all(shapely.buffer(built, 0.05)) if built else shapely.Polygon()
        self._calls = [(text.at, size) for text in texts for size in _calls(text)]

    def doors(self, swings: Iterable[DoorSwing]) -> Iterator[PlanOpening]:
        """Yield the doors of swings that close an opening; two leaves that meet are one."""
        closing = [swing for swing in swings if swing.closed]
        paired: set[int] = set()
        for index, swing in enumerate(closing):
            if index in paired or swing.closed is None or swing.opened is None:
                continue
            line, width = swing.closed, swing.width
            for other in range(index + 1, len(closing)):
                second = closing[other]
                if second.closed and _meet(swing.closed, second.closed):
                    paired.add(other)
                    line, width = (swing.closed[0], second.closed[0]), swing.width + second.width
                    break
            toward = less(swing.opened[1], swing.hinge)
            yield self._opening(line, width, swing.handle, toward)

    def windows(
        self, lines: Iterable[Line], boxes: Iterable[tuple[Any, str]], handles: dict[Line, str]
    ) -> Iterator[PlanOpening]:
        """Yield the windows of two or more lines that run side by side, and those of blocks."""
        found: list[Line] = []
        for group in _groups([line for line in lines if WIDTHS[0] <= long(line) <= WIDTHS[1]]):
            axis = _middle_line(group)
            found.append(axis)
            yield self._opening(axis, median(map(long, group)), handles.get(group[0], ""), None)
        for box, handle in boxes:
            if not any(box.buffer(0.1).intersects(shapely.LineString(line)) for line in found):
                axis = _long_axis(box)
                if WIDTHS[0] <= long(axis) <= WIDTHS[1]:
                    yield self._opening(axis, long(axis), handle, None)

    def _opening(self, line: Line, width: float, handle: str, toward: P2 | None) -> PlanOpening:
        way, center = direction(*line), middle(line)
        left = (-way[1], way[0])
        first = 1 if toward is None or dot(left, toward) >= 0 else -1
        sides = (self._beyond(center, way, first), self._beyond(center, way, -first))
        called, against = self._call_out(center, width)
        return PlanOpening(line, width, sides, handle, toward is not None, called, against)

    def _beyond(self, center: P2, way: P2, sign: int) -> int:
        """Return the number of the face on one side, `OUTSIDE` where nothing of the plan is there, else `UNKNOWN`."""
        for reach in REACHES:
            at = shapely.Point(along(center, way, 0.0, sign * reach))
            around = [int(i) for i in self._tree.query(at, predicate="within")]
            if around:
                return min(around, key=lambda i: self.faces[i].area)
        far = shapely.LineString([along(center, way, 0.0, sign * OPEN_AIR), along(center, way, 0.0, sign * 60.0)])
        return UNKNOWN if far.intersects(self._built) else OUTSIDE

    def _call_out(self, center: P2, width: float) -> tuple[Called | None, Called | None]:
        near = sorted(
            (long((at, center)), size) for at, size in self._calls if long((at, center)) <= CALLED + width / 2
        )
        agreeing = next((size for _, size in near if abs(size.width - width) <= SAME), None)
        return agreeing, None if agreeing or not near else near[0][1]


def _calls(text: DrawnText) -> Iterator[Called]:
    code = opening_code(text.text)
    if code:
        yield Called(*code, text.text)
    for size in sizes_in(text.text):
        if is_opening_size(size) or (size.second <= 2.0 and size.first <= 3.7):
            yield Called(size.first, size.second, size.text)


def _meet(one: Line, other: Line) -> bool:
    """Return whether two closed leaves meet in the middle of one opening."""
    return long((one[1], other[1])) <= PAIRED and abs(cross(direction(*one), direction(*other))) < 0.05


def _groups(lines: list[Line]) -> Iterator[list[Line]]:
    """Yield two or more lines that run side by side from end to end."""
    tree: Any = shapely.STRtree([shapely.LineString(line) for line in lines])
    done: set[int] = set()
    for index, line in enumerate(lines):
        if index in done:
            continue
        near = tree.query(shapely.LineString(line).buffer(0.45, cap_style="flat"))
        group = [int(i) for i in near if int(i) not in done and _side_by_side(line, lines[i])]
        done.update(group)
        if len(group) >= 2:
            yield [lines[i] for i in group]


def _side_by_side(one: Line, other: Line) -> bool:
    way = direction(*one)
    if abs(cross(way, direction(*other))) > 0.05:
        return False
    places = sorted(dot(way, less(end, one[0])) for end in other)
    return abs(places[0]) <= PAIRED and abs(places[1] - long(one)) <= PAIRED


def _middle_line(group: list[Line]) -> Line:
    way, start = direction(*group[0]), group[0][0]
    asides = [cross(way, less(line[0], start)) for line in group]
    aside = (min(asides) + max(asides)) / 2
    return along(start, way, 0.0, aside), along(start, way, long(group[0]), aside)


def _long_axis(box: Any) -> Line:
    low_x, low_y, high_x, high_y = box.bounds
    if high_x - low_x >= high_y - low_y:
        return (low_x, (low_y + high_y) / 2), (high_x, (low_y + high_y) / 2)
    return ((low_x + high_x) / 2, low_y), ((low_x + high_x) / 2, high_y)


__all__ = ["OUTSIDE", "UNKNOWN", "Called", "OpeningFinder", "PlanOpening"]
