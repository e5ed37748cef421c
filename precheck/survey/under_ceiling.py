"""How much of a room has a ceiling of so much height: floor area, and width, under what slopes and what hangs down."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from precheck.files.missing import Missing, is_missing
from precheck.project import Ceiling, Space
from precheck.survey import geometry
from precheck.units import Area, Exact, Length

FURRED = frozenset(("duct", "other"))  # beams may hang lower; what is boxed in lowers the ceiling
_UNDRAWN = "ceiling profile (heights across the room)"
Stretch = tuple[Fraction, Fraction]


def area_under_slope(
    space: Space, floor_area: Area | Missing, open_below: Area | Missing, height: Length
) -> Area | Missing:
    """Return the floor area over which a sloped ceiling is at least `height` above the floor.

    The profile runs across the room and holds along its whole length, which is the floor area over the width. What is
    open to below is taken to lie where the ceiling is high, for no project file says where it does.
    """
    stretches, width = _stretches(space, height), _across(space)
    if is_missing(stretches) or is_missing(width):
        return space.absent(_UNDRAWN)
    if is_missing(floor_area) or not width:
        return space.absent("area")
    gone = _gone(open_below)
    high = (floor_area + gone) * (sum((end - start for start, end in stretches), Fraction(0)) / width)
    return max(high - gone, Area(0))


def _gone(open_below: Area | Missing) -> Area:
    """Return what is open to below; none is where none is drawn."""
    return Area(0) if is_missing(open_below) else open_below


def area_at(
    space: Space,
    floor_area: Area | Missing,
    open_below: Area | Missing,
    ceiling_height: Length | Missing,
    height: Length,
) -> Area | Missing:
    """Return the floor area with `height` or more above it, under a slope or a flat ceiling, less what is under low ducts."""
    if space.has_slope:
        under = area_under_slope(space, floor_area, open_below, height)
    else:
        under = (
            floor_area if is_missing(floor_area) or is_missing(ceiling_height) or ceiling_height >= height else Area(0)
        )
        under = ceiling_height if is_missing(ceiling_height) else under
    ceiling = space.ceiling
    for drop in ceiling.drops if isinstance(ceiling, Ceiling) else ():
        if drop.what in FURRED and (is_missing(drop.clear_height) or drop.clear_height < height):
            under = under - (drop.clear_height if is_missing(drop.clear_height) else drop.floor_under)
    return under if is_missing(under) else max(under, Area(0))


def width_of(space: Space, outline: geometry.Outline | None) -> Length | Missing:
    """Return the smaller plan dimension of `space`: as stated, or of a rectangle as drawn, the smaller where both are given."""
    if outline is None or not geometry.is_rectangle(outline):
        return space.least_width
    drawn = geometry.narrowest(outline)
    return drawn if is_missing(space.least_width) else min(space.least_width, drawn)


def width_at(
    space: Space, width: Length | Missing, whole_area: Area | Missing, ceiling_height: Length | Missing, height: Length
) -> Length | Missing:
    """Return the smaller plan dimension of the floor with `height` or more above it; `width` is that of the whole room.

    `whole_area` counts what is open to below.

    Under a slope that is the longest stretch across, or the length of the room where that is less.
    """
    if not space.has_slope:
        if is_missing(ceiling_height):
            return ceiling_height
        return width if is_missing(width) or ceiling_height >= height else Length(0)
    stretches, across = _stretches(space, height), _across(space)
    if is_missing(stretches) or is_missing(across):
        return space.absent(_UNDRAWN)
    if is_missing(whole_area) or not across:
        return space.absent("area")
    widest = max((end - start for start, end in stretches), default=Fraction(0))
    return Length(min(widest, whole_area.n / across))


def _across(space: Space) -> Fraction | Missing:
    """Return the width over which the profile of the ceiling runs."""
    points = _points(space)
    return points if is_missing(points) else points[-1][0] - points[0][0]


def _stretches(space: Space, height: Length) -> list[Stretch] | Missing:
    """Return where across the room the ceiling is at least `height`, in stretches that do not touch."""
    points = _points(space)
    if is_missing(points):
        return points
    found: list[Stretch] = []
    for (x1, h1), (x2, h2) in pairwise(points):
        one = _tall(x1, h1, x2, h2, height.n)
        if one is not None and found and found[-1][1] == one[0]:
            found[-1] = (found[-1][0], one[1])
        elif one is not None:
            found.append(one)
    return found


def _points(space: Space) -> list[tuple[Fraction, Exact]] | Missing:
    ceiling = space.ceiling
    points = ceiling.profile if isinstance(ceiling, Ceiling) else ()
    return [(Fraction(p.across.n), p.height.n) for p in points] if len(points) > 1 else space.absent(_UNDRAWN)


def _tall(x1: Fraction, h1: Exact, x2: Fraction, h2: Exact, least: Exact) -> Stretch | None:
    """Return the stretch between x1 and x2 on which the straight line from h1 to h2 is at or above `least`."""
    if max(h1, h2) < least:
        return None
    if min(h1, h2) >= least:
        return x1, x2
    met = x1 + (x2 - x1) * (Fraction(least) - h1) / (Fraction(h2) - h1)
    return (x1, met) if h1 >= least else (met, x2)
