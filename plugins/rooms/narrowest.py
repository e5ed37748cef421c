"""How narrow a room with square corners is anywhere, wall to wall across its floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

Point: TypeAlias = tuple[Fraction | int, Fraction | int]


def narrowest(outline: Sequence[Point]) -> Fraction | int | None:
    """Return the shortest way from wall to wall, in inches, along or across the walls of an outline in plan.

    None where a wall is slanted: what counts as the width is then for a person to say.
    """
    sides = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    if any(x1 != x2 and y1 != y2 for (x1, y1), (x2, y2) in sides):
        return None
    turned = [((y1, x1), (y2, x2)) for (x1, y1), (x2, y2) in sides]
    return min((*_ways(sides), *_ways(turned)), default=None)


def _ways(sides: Sequence[tuple[Point, Point]]) -> Iterator[Fraction | int]:
    """Yield the ways across in the direction of x, between each two heights at which a wall begins or ends."""
    upright = [(x1, min(y1, y2), max(y1, y2)) for (x1, y1), (x2, y2) in sides if x1 == x2]
    for low, high in pairwise(sorted({y for _, *ends in upright for y in ends})):
        walls = sorted(x for x, bottom, top in upright if bottom <= low and top >= high)
        yield from (right - left for left, right in zip(walls[::2], walls[1::2], strict=True))
