"""Strokes that lie side by side, one after another, as the bands that they fill: thousands of strokes become a few shapes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import product
from math import floor
from typing import Any

import shapely

from precheck.importers.drawn.plane_lines import cross, direction, less, long
from precheck.importers.plane import P2

BESIDE = 1.2  # line widths between strokes whose ink meets
STEP = 2.0  # line widths from the end of a stroke to that of the next, which lies aslant where a face does
STRAIGHT = 0.3  # line widths by which the ends of a band's strokes may lie off its straight sides
FEWEST = 8  # strokes of a band
ASLANT = 0.15  # sine of the angle between strokes side by side

Stroke = tuple[P2, P2]


class StrokeBands:
    """Joins the strokes of one line width to bands, in the order in which they were plotted."""

    def __init__(self, strokes: list[Stroke], width: float) -> None:
        self._width = width
        self._bands: list[list[Stroke]] = []
        self._last: dict[tuple[int, int], set[int]] = defaultdict(set)
        for stroke in strokes:
            self._take(stroke)

    def shapes(self) -> Iterator[Any]:
        """Yield four-sided shapes that the bands come to."""
        for band in self._bands:
            if len(band) >= FEWEST:
                yield from (shapely.MultiPoint([*one, *other]).convex_hull for one, other in self._pieces(band))

    def _take(self, stroke: Stroke) -> None:
        found = self._beside(stroke)
        if found is None:
            self._bands.append([])
            number = len(self._bands) - 1
        else:
            number, stroke = found
            self._last[self._cell(self._bands[number][-1][0])].discard(number)
        self._bands[number].append(stroke)
        self._last[self._cell(stroke[0])].add(number)

    def _beside(self, stroke: Stroke) -> tuple[int, Stroke] | None:
        """Return the band whose last stroke lies beside this one, and this one drawn the same way round."""
        best: tuple[float, int, Stroke] | None = None
        for way in (stroke, (stroke[1], stroke[0])):
            column, row = self._cell(way[0])
            for cell in product(range(column - 1, column + 2), range(row - 1, row + 2)):
                for number in self._last.get(cell, ()):
                    far = self._far(self._bands[number][-1], way)
                    if far is not None and (best is None or far < best[0]):
                        best = far, number, way
        return best[1:] if best else None

    def _far(self, last: Stroke, stroke: Stroke) -> float | None:
        """Return how far the ends of two strokes lie apart; nothing where they do not lie side by side."""
        ends = long((last[0], stroke[0])), long((last[1], stroke[1]))
        if max(ends) > STEP * self._width:
            return None
        longer = max(last, stroke, key=long)
        way = direction(*longer)
        apart = abs(cross(way, less(stroke[0], last[0])))
        aslant = abs(cross(way, direction(*min(last, stroke, key=long))))
        parallel = aslant <= ASLANT or long(stroke) <= STEP * self._width
        return sum(ends) if parallel and apart <= BESIDE * self._width else None

    def _cell(self, point: P2) -> tuple[int, int]:
        size = STEP * self._width
        return floor(point[0] / size), floor(point[1] / size)

    def _pieces(self, band: list[Stroke]) -> Iterator[tuple[Stroke, Stroke]]:
        """Yield first and last of the longest runs of strokes whose ends lie on two straight sides."""
        first = 0
        while first < len(band) - 1:
            reach, last = 1, first + 1
            while last + reach < len(band) and self._is_straight(band, first, last + reach):
                last, reach = last + reach, 2 * reach
            while reach:
                if last + reach < len(band) and self._is_straight(band, first, last + reach):
                    last += reach
                reach //= 2
            yield band[first], band[last]
            first = last

    def _is_straight(self, band: list[Stroke], first: int, last: int) -> bool:
        sides = [(band[first][end], band[last][end]) for end in (0, 1)]
        return all(
            abs(cross(direction(*side), less(band[i][end], side[0]))) <= STRAIGHT * self._width
            for end, side in enumerate(sides)
            for i in range(first + 1, last)
        )


__all__ = ["StrokeBands"]
