"""Lines on the pen of the walls that only measure: each is as long as the dimension that stands at its middle says.

Many plots, and drawings whose dimensions were taken apart, have no pen or layer of their own for them; one across a room would
cut it in two. A line beside which another runs at the thickness of a wall stays, for a wall may be as long as is written on it.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin
from typing import Any

import shapely

from precheck.importers.drawn.pdf_scale import lengths_in
from precheck.importers.drawn.plane_lines import cross, direction, dot, less, long, middle
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet, DrawnText

SAME = 0.005  # of its length, by which a line and what is written on it may differ
MIDDLE = 0.1  # of its length by which the text may stand off its middle
ASIDE = 2.5  # heights of letters between a text and its line
PARALLEL = 0.05  # sine of the angle between them
WALL = 0.42  # meters within which the other face of a wall runs


def without_dimension_lines(lines: list[DrawnLine], sheet: DrawnSheet, meter: float) -> list[DrawnLine]:
    """Return lines without those that measure, where one unit of the sheet is `meter` meters."""
    if not lines:
        return []
    tree: Any = shapely.STRtree(shapely.linestrings([[one.start, one.end] for one in lines]))
    measuring = {
        number
        for text in sheet.texts
        for number in _under(text, lines, tree, meter)
        if not _has_another_face(number, lines, tree, WALL / meter)
    }
    return [line for number, line in enumerate(lines) if number not in measuring]


def _under(text: DrawnText, lines: list[DrawnLine], tree: Any, meter: float) -> Iterator[int]:
    """Yield the lines that are as long as a text says which stands at their middle."""
    said = [one.meters / meter for one in lengths_in(text.text)]
    way = cos(radians(text.angle)), sin(radians(text.angle))
    for number in tree.query(shapely.Point(text.at).buffer(ASIDE * text.height)) if said else ():
        line = lines[number]
        off, size = less(middle((line.start, line.end)), text.at), long((line.start, line.end))
        close = abs(cross(way, off)) <= ASIDE * text.height and abs(dot(way, off)) <= MIDDLE * size
        parallel = abs(cross(way, direction(line.start, line.end))) <= PARALLEL
        if close and parallel and any(abs(size - one) <= SAME * one for one in said):
            yield int(number)


def _has_another_face(number: int, lines: list[DrawnLine], tree: Any, far: float) -> bool:
    """Return whether another line runs along most of a line, as near as the other face of a wall."""
    start, end = lines[number].start, lines[number].end
    way, size = direction(start, end), long((start, end))
    beside = 0.0
    for i in tree.query(shapely.LineString((start, end)).buffer(far, cap_style="flat")):
        other = lines[i]
        aside = abs(cross(way, less(other.start, start)))
        if i != number and abs(cross(way, direction(other.start, other.end))) <= PARALLEL and far / 10 < aside <= far:
            low, high = sorted(dot(way, less(point, start)) for point in (other.start, other.end))
            beside += max(min(high, size) - max(low, 0.0), 0.0)
    return beside >= size / 2


__all__ = ["without_dimension_lines"]
