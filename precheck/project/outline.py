"""Outlines of rooms, held to what an outline is: a line around a floor that nowhere crosses itself."""

from __future__ import annotations

from itertools import combinations
from typing import Any

Corner = tuple[Any, Any]  # of measures as given, of whole numbers in between
FEWEST = 3


def closes(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
    """Return `outline`, corners as x and y. Raises `ValueError` where it has no area, or two of its sides cross."""
    corners = [(x.n, y.n) for x, y in outline]
    if not corners:
        return outline
    if len(corners) < FEWEST:
        raise ValueError("an outline has three corners or more; write them in order around the room")
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    for (one, (a, b)), (other, (c, d)) in combinations(enumerate(sides), 2):
        beside = other - one in (1, len(sides) - 1)
        if not beside and _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0:
            what = f"the side from corner {one + 1} crosses the one from corner {other + 1}"
            raise ValueError(f"{what}; write the corners in order around the room")
    if not sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides):
        raise ValueError("the outline encloses nothing; write the corners in order around the room")
    return outline


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """Return on which side of the line from `a` to `b` the corner `c` lies: above zero on the left, zero on it."""
    across = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return int(across > 0) - int(across < 0)
