"""Points and outlines in plan, in meters."""

from __future__ import annotations

from itertools import pairwise

P2 = tuple[float, float]


def plan_area(outline: list[P2]) -> float:
    """Return the area inside `outline`."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*outline, outline[0]]))) / 2


def inside(point: P2, outline: list[P2]) -> bool:
    """Return whether `point` lies within `outline`."""
    x, y = point
    hits = 0
    for (x1, y1), (x2, y2) in pairwise([*outline, outline[0]]):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            hits += 1
    return hits % 2 == 1


__all__ = ["P2", "inside", "plan_area"]
