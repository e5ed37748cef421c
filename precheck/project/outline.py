"""Outlines of rooms, held to what an outline is: a line around a floor that nowhere crosses itself."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate, combinations, pairwise
from typing import Any

Corner = tuple[Any, Any]  # of measures as given, of whole numbers in between
Side = tuple[Corner, Corner]
FEWEST = 3
IN_ORDER = "write the corners in order around the room"


def closes(outline: tuple[Corner, ...]) -> tuple[Corner, ...]:
    """Return `outline`, corners as x and y. Raises `ValueError` where it has no area, or two of its sides cross."""
    corners = [(x.n, y.n) for x, y in outline]
    if not corners:
        return outline
    if len(corners) < FEWEST:
        raise ValueError("an outline has three corners or more; write them in order around the room")
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    touches = False
    for (one, (a, b)), (other, (c, d)) in combinations(enumerate(sides), 2):
        turns = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
        if other - one in (1, len(sides) - 1):  # these two meet at a corner anyhow
            touches = touches or not any(turns)
            continue
        across = max(turns[0] * turns[1], turns[2] * turns[3])
        if across < 0:
            what = f"the side from corner {one + 1} crosses the one from corner {other + 1}"
            raise ValueError(f"{what}; {IN_ORDER}")
        touches = touches or across == 0
    if not sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides):
        raise ValueError(f"the outline encloses nothing; {IN_ORDER}")
    if touches and not _goes_round_once(sides):
        raise ValueError(f"the outline crosses itself at a corner, or goes round the same floor twice; {IN_ORDER}")
    return outline


def _goes_round_once(sides: list[Side]) -> bool:
    """Return whether all that the sides go round, they go round once and the same way; they may touch each other.

    Between the heights of two corners no side ends or crosses another, so that one level line tells it of all in between.
    """
    heights = sorted({y for (_, y), _ in sides})
    rounds = {turns for low, high in pairwise(heights) for turns in _rounds_on(sides, Fraction(low + high, 2))}
    return rounds <= {0, 1} or rounds <= {0, -1}


def _rounds_on(sides: list[Side], height: Fraction) -> Iterator[int]:
    """Yield how often the sides go round what lies between them on a level line, from west to east."""
    met: dict[Fraction, int] = defaultdict(int)
    for (x1, y1), (x2, y2) in sides:
        if min(y1, y2) < height < max(y1, y2):
            met[x1 + (height - y1) * (x2 - x1) / (y2 - y1)] += 1 if y2 > y1 else -1
    return accumulate(met[x] for x in sorted(met))


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """Return on which side of the line from `a` to `b` the corner `c` lies: above zero on the left, zero on it."""
    across = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return int(across > 0) - int(across < 0)
