"""Rooms under low or sloped ceilings: what is judged, which are converted, and how much floor has what height."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from precheck import Area, Ceiling, Exact, Fact, Floor, House, Length, Missing, Space, fact, is_missing, when_given

BATHS = frozenset(("bathroom", "toilet room", "laundry"))


@fact
class RoomHeight(Fact):
    """The height of one room: its ceiling over its floor. An old ceiling over a floor that is built up is judged anew."""

    space: Space
    floor: Floor | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomHeight]:
        """Yield that of every space."""
        yield from (cls(space, space, house.floor(space)) for space in house.subjects(Space))


def is_regulated(space: Space) -> bool:
    """Return whether the code sets a ceiling height for the use of `space`, or its use is not given."""
    return space.is_habitable or space.use in BATHS or space.use == "hall" or is_missing(space.use)


def has_slope(space: Space) -> bool:
    """Return whether the ceiling is drawn as sloped: as stated, by a profile, or by the areas under it."""
    ceiling = space.ceiling
    if not isinstance(ceiling, Ceiling):
        return False
    areas = not is_missing(ceiling.area_at_full_height) or not is_missing(ceiling.area_above_lowest)
    return bool(ceiling.profile) or ceiling.sloped is True or areas


def is_converted(space: Space, house: House) -> bool | Missing:
    """Return whether `space` is made in an existing basement or attic, or parted off from what stood there."""
    there = space.phase in ("altered", "existing") or not is_missing(space.was)
    return when_given(lambda level: there and level in ("basement", "attic"), house.story_level(space))


def lowest_point(space: Space) -> Length | Missing:
    """Return the lowest height of the profile of the ceiling."""
    ceiling = space.ceiling
    points = () if is_missing(ceiling) else ceiling.profile
    return min(point.height for point in points) if points else space.absent("ceiling profile")


def area_at_least(space: Space, floor_area: Area | Missing, height: Length | Missing) -> Area | Missing:
    """Return the floor area over which the ceiling is at least `height` above the floor.

    The profile runs across the room and holds along its whole length, which is the floor area over the width.
    """
    ceiling = space.ceiling
    points = () if is_missing(ceiling) else ceiling.profile
    if len(points) < 2:
        return space.absent("ceiling profile (heights across the room)")
    width = points[-1].across.n - points[0].across.n
    if is_missing(floor_area) or is_missing(height) or not width:
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
