"""Where a door or window stands in plan: the wall nearest to its middle, which way that wall runs, how thick it is."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

from precheck.files.missing import is_missing
from precheck.immutable import fixed
from precheck.project import Door, Opening, Space, Window
from precheck.reports.drawings.svg import Point, coordinate, inches
from precheck.survey import House

OUTER_WALL = 6.0  # inches that a wall to the outside is drawn thick; the project does not say
FARTHEST = 18.0  # inches from a wall beyond which a middle is taken for a slip


@fixed
class PlacedOpening:
    """An opening in its wall: the middle on the face toward `inner`, the ways along the wall and out of the room."""

    opening: Opening
    inner: Space
    middle: Point
    along: Point
    out: Point
    thickness: float
    width: float | None

    def point(self, along: float, out: float) -> Point:
        """Return the point so far along the wall from the middle, and so far out of the room."""
        return (
            self.middle[0] + self.along[0] * along + self.out[0] * out,
            self.middle[1] + self.along[1] * along + self.out[1] * out,
        )


def outline_in_inches(house: House, space: Space) -> list[Point]:
    """Return the outline of `space` in inches, or nothing where it is not drawn."""
    outline = house.outline(space)
    return [(coordinate(x), coordinate(y)) for x, y in outline] if outline else []


def spaces_of(opening: Opening, house: House) -> list[Space]:
    """Return the spaces that `opening` belongs to."""
    if isinstance(opening, Door):
        return [space for space in house.sides(opening) if space is not None]
    space = house.space(opening.space) if isinstance(opening, Window) else None
    return [space] if space is not None else []


def place(opening: Opening, house: House) -> PlacedOpening | None:
    """Return where `opening` stands in plan, or None where it is not placed or no wall is near."""
    middle = opening.middle
    if is_missing(middle):
        return None
    at = (inches(middle[0]), inches(middle[1]))
    drawn = [(space, outline_in_inches(house, space)) for space in spaces_of(opening, house)]
    drawn = [(space, outline) for space, outline in drawn if outline]
    if not drawn:
        return None
    (space, outline), others = drawn[0], drawn[1:]
    distance, foot, along = _nearest_edge(at, outline)
    if distance > FARTHEST:
        return None
    out = _outward(along, foot, outline)
    thickness = _nearest_edge(foot, others[0][1])[0] if others else OUTER_WALL
    width = None if is_missing(opening.unit_size) else inches(opening.unit_size.width)
    return PlacedOpening(
        opening, space, foot, along, out, max(thickness, 2.0) if thickness < FARTHEST else OUTER_WALL, width
    )


def _nearest_edge(at: Point, outline: list[Point]) -> tuple[float, Point, Point]:
    found = []
    for (ax, ay), (bx, by) in pairwise([*outline, outline[0]]):
        length = hypot(bx - ax, by - ay)
        if not length:
            continue
        ux, uy = (bx - ax) / length, (by - ay) / length
        t = min(max((at[0] - ax) * ux + (at[1] - ay) * uy, 0.0), length)
        foot = (ax + t * ux, ay + t * uy)
        found.append((hypot(at[0] - foot[0], at[1] - foot[1]), foot, (ux, uy)))
    return min(found)


def _outward(along: Point, foot: Point, outline: list[Point]) -> Point:
    normal = (-along[1], along[0])
    probe = (foot[0] + normal[0] * 0.5, foot[1] + normal[1] * 0.5)
    return (-normal[0], -normal[1]) if inside(probe, outline) else normal


def inside(point: Point, outline: list[Point]) -> bool:
    """Return whether `point` lies within `outline`."""
    x, y = point
    hits = 0
    for (x1, y1), (x2, y2) in pairwise([*outline, outline[0]]):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            hits += 1
    return hits % 2 == 1
