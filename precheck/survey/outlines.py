"""Outlines of rooms: as drawn, and as they stood before the work moved their walls."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.files.missing import Missing, is_missing, when_given
from precheck.project import FramedOpening, Space
from precheck.project.on_wall import corners_of
from precheck.project.space import OUTDOOR, UNFINISHED
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


def openings_in_floor(space: Space, openings: Iterable[FramedOpening]) -> list[FramedOpening]:
    """Return those of `openings` that are drawn in the floor of `space`; one that is removed is floor again."""
    return [
        one
        for one in openings
        if one.space == space.id and one.through == "floor" and not one.is_removed and not is_missing(one.rectangle)
    ]


def drawn_open(space: Space, openings: Iterable[FramedOpening], outline: geometry.Outline | None) -> Area | Missing:
    """Return what of the floor of `space` the `openings` drawn in it take; an absence where none is."""
    own = openings_in_floor(space, openings)
    if outline is None or not own:
        return space.absent("open to below")
    return sum((geometry.overlap(outline, opening_outline(one)) for one in own), Area(0))


def opening_outline(opening: FramedOpening) -> geometry.Outline:
    """Return the outline in plan of an opening; none of one that is not drawn."""
    box = opening.rectangle
    if is_missing(box):
        return ()
    (x, y), (w, d) = (corner.n for corner in box.at), (box.width.n, box.depth.n)
    return ((x, y), (x + w, y), (x + w, y + d), (x, y + d))


def open_below(space: Space, openings: Iterable[FramedOpening], outline: geometry.Outline | None) -> Area | Missing:
    """Return what of `space` has no floor: as stated or as openings are drawn, whichever is more; an absence where neither."""
    drawn = drawn_open(space, openings, outline)
    if is_missing(space.open_to_below) or is_missing(drawn):
        return drawn if is_missing(space.open_to_below) else space.open_to_below
    return max(space.open_to_below, drawn)


def drawn_area(space: Space, outline: geometry.Outline | None, gone: Area | Missing) -> Area | Missing:
    """Return the floor area inside the outline of `space`, less what is `gone` of it to below, which must be smaller."""
    if outline is None:
        return space.absent("outline")
    whole = geometry.area(outline)
    if is_missing(gone):
        return whole
    return whole - gone if gone < whole else space.absent("open to below (it is given larger than the outline)")


def joined_with(space: Space, house: Any) -> Area:
    """Return the floor of rooms that are there today, and go, which is drawn within `space`: two rooms made one.

    Nothing is counted where either has a slanted wall or is not drawn, nor a garage, a porch or an attic: that is gained.
    """
    now, found = house.outline(space), Area(0)
    if now is None or not _is_square(now):
        return found
    for old in house.project.spaces:
        there = house.outline(old) if old.is_removed and _is_room_inside(old) and _on_story_of(space, old) else None
        if there is not None and _is_square(there):
            found = found + geometry.overlap(now, there)
    return found


def _is_room_inside(space: Space) -> bool:
    return not space.is_vehicle and not is_missing(space.use) and space.use not in OUTDOOR | UNFINISHED


def _on_story_of(one: Space, other: Space) -> bool:
    return one.story == other.story or (is_missing(one.story) and is_missing(other.story))


def _is_square(outline: geometry.Outline) -> bool:
    return all(a[0] == b[0] or a[1] == b[1] for a, b in zip(outline, (*outline[1:], outline[0]), strict=True))


def area_gained(space: Space, area: Area | Missing, inside_today: Area) -> Area | Missing:
    """Return the floor that the work adds to `space`, which has `area`: all of a new one; of another what it gains.

    What was `inside_today` in rooms that the work joins with it is no floor that is added.
    """
    if space.phase == "new":
        return area
    before = None if is_missing(space.before) else outline_before(space)
    if before is None or space.phase != "altered":
        return Area(0)
    return when_given(lambda now: max(now - geometry.area(before) - inside_today, Area(0)), area)
