"""What lies just outside a window: the room, garage, porch or deck that it opens into or looks under, stated or drawn."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import hypot

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Opening, Space
from precheck.project.space import OUTDOOR
from precheck.survey import geometry
from precheck.survey.geometry import KEPT, THICKEST_WALL, Outline, Point
from precheck.survey.house import House
from precheck.survey.openings import Stretch, edges, from_point
from precheck.units import Exact, Length

STEP = int(Length.parse("2 in").n)  # how finely one looks out, through the wall and as far again


def outlook_of(opening: Opening, room: Space, house: House) -> tuple[Space, ...]:
    """Return the spaces that `opening` of `room` looks into or under: as stated, across its door, and as drawn.

    Of another story only what lies open above counts, as a deck over a basement window. What the plan does not place is
    not looked for.
    """
    return house.once(_outlook, opening, room)


def _outlook(opening: Opening, room: Space, house: House) -> tuple[Space, ...]:
    stated = () if is_missing(opening.looks_under) else (str(opening.looks_under),)
    sides = tuple(str(side) for side in opening.between) if isinstance(opening, Door) else ()
    named = [space for side in (*stated, *sides) if side != OUTSIDE and (space := house.space(side)) is not None]
    found = (*named, *_drawn(opening, room, house))
    return tuple(dict.fromkeys(space for space in found if space is not room and not space.is_removed))


def is_under(space: Space, room: Space, opening: Opening, house: House) -> bool:
    """Return whether `opening` of `room` lies under `space`, a porch or deck: as stated, or on a story above."""
    ranks = house.story_order.rank(space.story), house.story_order.rank(room.story)
    above = ranks[0] is not None and ranks[1] is not None and ranks[0] > ranks[1]
    return opening.looks_under == space.id or above


def _drawn(opening: Opening, room: Space, house: House) -> Iterator[Space]:
    points = _points_outside(opening, room, house)
    for space in house.spaces if points else ():
        outline = house.outline(space)
        if space is room or outline is None or not _may_be_before(space, room, house):
            continue
        if _reach(points, outline):
            yield space


@lru_cache(maxsize=KEPT)
def _reach(points: tuple[Point, ...], outline: Outline) -> bool:
    return geometry.boxes_meet(points, outline) and any(geometry.inside(point, outline) for point in points)


def _may_be_before(space: Space, room: Space, house: House) -> bool:
    if is_missing(space.story) or is_missing(room.story) or space.story == room.story:
        return True
    ranks = house.story_order.rank(space.story), house.story_order.rank(room.story)
    return space.use in OUTDOOR and ranks[0] is not None and ranks[1] is not None and ranks[0] > ranks[1]


def _points_outside(opening: Opening, room: Space, house: House) -> tuple[Point, ...]:
    """Return points square to the wall of `opening`, out through a wall of any thickness and a little beyond it."""
    outline = house.outline(room)
    if is_missing(opening.middle) or outline is None:
        return ()
    return _points_from((opening.middle[0].n, opening.middle[1].n), outline)


@lru_cache(maxsize=KEPT)
def _points_from(middle: Point, outline: Outline) -> tuple[Point, ...]:
    wall = min(edges(outline), key=lambda edge: from_point(middle, edge))
    if from_point(middle, wall).n > THICKEST_WALL:
        return ()
    on_wall, out = _foot(middle, wall), _outward(wall, outline)
    steps = range(STEP, 2 * int(THICKEST_WALL) + 1, STEP)
    return tuple((on_wall[0] + round(out[0] * away), on_wall[1] + round(out[1] * away)) for away in steps)


def _foot(point: Point, wall: Stretch) -> tuple[Exact, Exact]:
    (ax, ay), (bx, by) = wall
    dx, dy = float(bx - ax), float(by - ay)
    share = (float(point[0] - ax) * dx + float(point[1] - ay) * dy) / (dx * dx + dy * dy)
    return ax + round(share * dx), ay + round(share * dy)


def _outward(wall: Stretch, outline: Outline) -> tuple[float, float]:
    (ax, ay), (bx, by) = wall
    dx, dy = float(bx - ax), float(by - ay)
    length = hypot(dx, dy)
    normal = (dy / length, -dx / length)
    middle = ((ax + bx) // 2, (ay + by) // 2)
    within = geometry.inside((middle[0] + round(normal[0] * STEP), middle[1] + round(normal[1] * STEP)), outline)
    return (-normal[0], -normal[1]) if within else normal
