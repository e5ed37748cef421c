"""Areas under a sloped ceiling, from the profile across the room."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from precheck import Area, Ceiling, Exact, Length, Missing, Space, is_missing


def area_at_least(space: Space, ceiling: Ceiling, floor_area: Area | Missing, height: Length) -> Area | Missing:
    """Return the floor area over which the ceiling is at least `height` above the floor.

    The profile runs across the room and holds along its whole length, which is the floor area over the width.
    """
    points = ceiling.profile
    if len(points) < 2:
        return ceiling.absent("profile (ceiling heights across the room)")
    width = points[-1].across.n - points[0].across.n
    if is_missing(floor_area) or not width:
        return space.absent("area")
    tall = sum(
        (_run_above(a.across.n, a.height.n, b.across.n, b.height.n, height.n) for a, b in pairwise(points)), Fraction(0)
    )
    return floor_area * (tall / width)


def _run_above(x1: Exact, h1: Exact, x2: Exact, h2: Exact, least: Exact) -> Fraction:
    """Return how much of the way from x1 to x2 the straight line from h1 to h2 is at or above `least`."""
    run = Fraction(x2 - x1)
    low, high = min(h1, h2), max(h1, h2)
    if low >= least:
        return run
    return Fraction(0) if high < least else run * (high - least) / (high - low)
