"""The largest rectangle of a room in which nothing stands, where its name goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from precheck.files.missing import is_missing
from precheck.project import Space
from precheck.reports.drawings.placed import inside
from precheck.reports.drawings.svg import Point, inches
from precheck.survey import House

BOXES = ("fixtures", "wet_areas", "appliances")
POINTS = ("alarms", "lights", "receptacles", "exhausts", "panels", "appliances", "members")
MARK = 9.0  # inches of house around a point that its mark takes
_Corners = tuple[Point, Point]


def largest_free(house: House, space: Space, outline: list[Point]) -> tuple[Point, Point]:
    """Return middle and size of the room, or of the best rectangle in it where it has corners, or things stand in it."""
    boxes = list(_standing_in(house, space))
    xs, ys = (sorted({p[axis] for p in (*outline, *(c for box in boxes for c in box))}) for axis in (0, 1))

    def is_free(point: Point) -> bool:
        taken = any(low[0] < point[0] < high[0] and low[1] < point[1] < high[1] for low, high in boxes)
        return not taken and inside(point, outline)

    rows = [[is_free((sum(x) / 2, sum(y) / 2)) for x in pairwise(xs)] for y in pairwise(ys)]
    best = max(_free_in(rows, xs, ys), key=lambda r: min(r[1] - r[0], 1.5 * (r[3] - r[2])), default=None)
    left, right, low, high = best or _around(outline)
    return ((left + right) / 2, (low + high) / 2), (right - left, high - low)


def _free_in(
    rows: list[list[bool]], xs: Sequence[float], ys: Sequence[float]
) -> Iterator[tuple[float, float, float, float]]:
    """Yield free rectangles, among them each that cannot be made larger, from the ways in which the room is cut up."""
    deep = [0] * (len(xs) - 1)  # how many rows are free below the lower edge of this one, way by way
    for top, row in enumerate(rows, start=1):
        deep = [deep[at] + 1 if free else 0 for at, free in enumerate(row)]
        for left in range(len(deep)):
            least = len(rows)
            for right in range(left, len(deep)):
                least = min(least, deep[right])
                if not least:
                    break
                yield xs[left], xs[right + 1], ys[top - least], ys[top]


def _around(outline: list[Point]) -> tuple[float, float, float, float]:
    xs, ys = zip(*outline, strict=True)
    return min(xs), max(xs), min(ys), max(ys)


def _standing_in(house: House, space: Space) -> Iterator[_Corners]:
    """Yield what stands in a room, each as two corners in inches: stairs, fixtures, and the marks of what is at a point."""
    project = house.project
    named = [
        part for section in BOXES for part in getattr(project, section) if getattr(part, "space", None) == space.id
    ]
    for part in (*(one for one in project.stairs if one.between[0] == space.id), *named):
        box = getattr(part, "rectangle", None)
        if not part.is_removed and box is not None and not is_missing(box):
            x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
            yield (x, y), (x + width, y + depth)
    for section in POINTS:
        for part in getattr(project, section):
            at = getattr(part, "at", None)
            if not part.is_removed and isinstance(at, tuple) and len(at) == 2 and not any(map(is_missing, at)):
                x, y = map(inches, at)
                yield (x - MARK, y - MARK), (x + MARK, y + MARK)
