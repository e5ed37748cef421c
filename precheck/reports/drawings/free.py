"""The largest rectangle of a room in which nothing stands, where its name goes."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise, product

from precheck.files.missing import is_missing
from precheck.project import Space, Stair
from precheck.reports.drawings.placed import inside
from precheck.reports.drawings.svg import Point, inches
from precheck.survey import House

MOST_LINES = 12  # ways in x or y that a room's corners may stand in for its best rectangle to be looked for


def largest_free(house: House, space: Space, outline: list[Point]) -> tuple[Point, Point]:
    """Return middle and size of the room, or of the best rectangle within it where it has corners or stairs in it."""
    boxes = [_box(part) for part in house.project.stairs if _stands_in(part, space)]
    xs, ys = (sorted({p[axis] for p in (*outline, *(c for box in boxes for c in box))}) for axis in (0, 1))
    if max(len(xs), len(ys)) > MOST_LINES:
        return ((xs[0] + xs[-1]) / 2, (ys[0] + ys[-1]) / 2), (xs[-1] - xs[0], ys[-1] - ys[0])

    def is_free(point: Point) -> bool:
        taken = any(low[0] < point[0] < high[0] and low[1] < point[1] < high[1] for low, high in boxes)
        return not taken and inside(point, outline)

    free = {(x, y) for x in pairwise(xs) for y in pairwise(ys) if is_free((sum(x) / 2, sum(y) / 2))}
    whole = (
        (x1, x2, y1, y2)
        for (x1, x2), (y1, y2) in product(combinations(xs, 2), combinations(ys, 2))
        if all((x, y) in free for x in _between(xs, x1, x2) for y in _between(ys, y1, y2))
    )
    best = max(whole, key=lambda r: min(r[1] - r[0], 1.5 * (r[3] - r[2])), default=(xs[0], xs[-1], ys[0], ys[-1]))
    left, right, low, high = best
    return ((left + right) / 2, (low + high) / 2), (right - left, high - low)


def _between(ends: list[float], first: float, last: float) -> Iterator[tuple[float, float]]:
    return (pair for pair in pairwise(ends) if first <= pair[0] and pair[1] <= last)


def _stands_in(part: Stair, space: Space) -> bool:
    return not part.is_removed and not is_missing(part.rectangle) and space.id == part.between[0]


def _box(part: Stair) -> tuple[Point, Point]:
    box = part.rectangle
    assert not is_missing(box)
    x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
    return (x, y), (x + width, y + depth)
