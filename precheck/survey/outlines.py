"""Outlines of rooms: as drawn, and as they stood before the work moved their walls."""

from __future__ import annotations

from typing import Any

from precheck.files.missing import Missing, is_missing, when_given
from precheck.project import Space
from precheck.project.on_wall import corners_of
from precheck.survey import geometry
from precheck.units import Area


def outline_drawn(space: Space, _: Any) -> geometry.Outline | None:
    """Return the outline of `space` as it will be, or None where it is not drawn; whose house it is makes no difference."""
    return corners_of(space) or None


def outline_before(space: Space) -> geometry.Outline | None:
    """Return the outline of `space` before the work: as given, else as drawn where it is not new; None if it has none."""
    if not is_missing(space.before):
        return corners_of(space.before) or None
    return None if space.phase == "new" else corners_of(space) or None


def drawn_area(space: Space, outline: geometry.Outline | None) -> Area | Missing:
    """Return the floor area inside the outline of `space`, less what is open to below, which must be smaller."""
    if outline is None:
        return space.absent("outline")
    whole, gone = geometry.area(outline), space.open_to_below
    if is_missing(gone):
        return whole
    return whole - gone if gone < whole else space.absent("open to below (it is given larger than the outline)")


def area_gained(space: Space, area: Area | Missing) -> Area | Missing:
    """Return the floor that the work adds to `space`, which has `area`: all of a new one; of another what it gains."""
    if space.phase == "new":
        return area
    before = None if is_missing(space.before) else outline_before(space)
    if before is None or space.phase != "altered":
        return Area(0)
    return when_given(lambda now: max(now - geometry.area(before), Area(0)), area)
