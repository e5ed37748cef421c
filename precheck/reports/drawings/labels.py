"""Room for lettering: a label with its marks goes where it covers no other and as little of the lines as can be."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot

from precheck.reports.drawings.area import PaperArea
from precheck.reports.drawings.marks import Mark
from precheck.reports.drawings.svg import BADGE, CHARACTER, IN_A_ROW, LONGEST_TEXT, Pen, Point

LINE = 13.0  # pixels from one line of a label to the next
BOLD = 1.3  # times the width of plain lettering that a name takes
GAP = 6.0  # pixels between a label and what it names
CELL = 100.0  # pixels of the squares by which lines near a label are found
STEP = 8.0  # pixels of a line that are kept free as one
LATER = 0.5  # square pixels covered that a spot is worse than the one before it
ON_LABEL = 20.0  # times as bad as on a line that lettering on other lettering is


class Labels:
    """What is lettered on a drawing so far, and the lines that had better stay free."""

    def __init__(self, pen: Pen) -> None:
        self.pen = pen
        self._taken: dict[tuple[int, int], list[tuple[PaperArea, float]]] = {}  # by the squares of CELL that they touch

    def keep_free(self, start: Point, end: Point, weight: float = 1.0, around: float = 2.0) -> None:
        """Keep a line that is drawn as free as can be; `weight` is how much it matters."""
        (ax, ay), (bx, by) = self._at(start), self._at(end)
        count = max(1, int(hypot(bx - ax, by - ay) / STEP))
        for n in range(count):
            xs, ys = ((a + (b - a) * n / count, a + (b - a) * (n + 1) / count) for a, b in ((ax, bx), (ay, by)))
            area = PaperArea(min(xs) - around, min(ys) - around, max(xs) + around, max(ys) + around)
            self._take(area, weight)

    def beside(self, spots: Iterable[tuple[Point, Point]], lines: list[str], marks: tuple[Mark, ...]) -> None:
        """Letter `lines`, with `marks` beneath, at the best of `spots`: points, each with the way to stand off from it."""
        wide, high = _size(lines, marks)
        best, least = None, float("inf")
        for number, (point, way) in enumerate(spots):
            area = self._standing_off(point, way, wide, high)
            worth = self._worth(area) + number * LATER
            if worth < least:
                best, least = area, worth
            if worth == number * LATER:
                break  # it covers nothing, and what follows is farther off
        if best is not None:
            self._letter(best, lines, marks)

    def where_free(self, spots: Iterable[Point], text: str, inside: PaperArea, kind: str) -> None:
        """Letter `text` at the first of `spots` where it lies `inside` and covers nothing; else not at all."""
        wide, high = len(text) * CHARACTER, LINE
        for point in spots:
            area = self._standing_off(point, (0.0, 0.0), wide, high)
            if area.within(inside) and not self._worth(area):
                self._take(area, ON_LABEL)
                self.pen.text(point, text, kind, dy=4)
                return

    def area(self, points: Iterable[Point]) -> PaperArea:
        """Return the rectangle around `points`."""
        placed = [self._at(point) for point in points]
        xs, ys = [x for x, _ in placed], [y for _, y in placed]
        return PaperArea(min(xs), min(ys), max(xs), max(ys))

    def _at(self, point: Point) -> Point:
        factor = self.pen.scale.factor
        return point[0] * factor, -point[1] * factor

    def _standing_off(self, point: Point, way: Point, wide: float, high: float) -> PaperArea:
        x, y = self._at(point)
        off = abs(way[0]) * wide / 2 + abs(way[1]) * high / 2 + (GAP if any(way) else 0)
        x, y = x + way[0] * off, y - way[1] * off
        return PaperArea(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)

    def _worth(self, area: PaperArea) -> float:
        near = dict.fromkeys(other for cell in _cells(area) for other in self._taken.get(cell, ()))
        return sum(area.shared(other) * weight for other, weight in near)

    def _take(self, area: PaperArea, weight: float) -> None:
        for cell in _cells(area):
            self._taken.setdefault(cell, []).append((area, weight))

    def _letter(self, area: PaperArea, lines: list[str], marks: tuple[Mark, ...]) -> None:
        self._take(area, ON_LABEL)
        factor = self.pen.scale.factor
        top = ((area.left + area.right) / 2 / factor, -area.top / factor)
        for number, line in enumerate(lines):
            self.pen.text(top, line, "small" if number else "name", dy=LINE * (number + 1) - 2)
        rows = -(-len(marks) // IN_A_ROW)
        self.pen.badges(top, marks, dy=LINE * len(lines) + BADGE * rows - BADGE / 2 + 2)


def _cells(area: PaperArea) -> list[tuple[int, int]]:
    left, top, right, bottom = (int(side // CELL) for side in area)
    return [(x, y) for x in range(left, right + 1) for y in range(top, bottom + 1)]


def _size(lines: list[str], marks: tuple[Mark, ...]) -> tuple[float, float]:
    """Return width and height of a label."""
    lengths = (min(len(line), LONGEST_TEXT) * (1.0 if number else BOLD) for number, line in enumerate(lines))
    rows = -(-len(marks) // IN_A_ROW)
    wide = max(max(lengths) * CHARACTER, min(len(marks), IN_A_ROW) * BADGE)
    return wide, LINE * len(lines) + BADGE * rows + 3
