"""What is drawn on the page, as changes of the project file: rooms and where they stand, doors and windows in their walls.

Lengths are inches of house as whole sixteenths; they are written as on drawings. Rooms are drawn to their finished faces, so
that what lies between two of them is the wall.
"""

from __future__ import annotations

from fractions import Fraction
from math import hypot
from typing import NamedTuple

from precheck.files.missing import is_missing
from precheck.project import Opening, Space
from precheck.project.space import OUTDOOR
from precheck.reports.drawings.placed import inside, outline_in_inches, place
from precheck.survey import House

INNER_WALL, OUTER_WALL = 4.5, 6.5  # inches: a 2x4 with board on both sides; a 2x6 with board and sheathing
SIDES = ("east", "north", "west", "south")
_SIXTEENTHS = 16
SIXTEENTH = 1 / _SIXTEENTHS  # of an inch: what is less apart is the same place
Point = tuple[float, float]


class Footprint(NamedTuple):
    """A rectangle in plan, in inches: the corner nearest to the origin, and the sizes along x and y."""

    x: float
    y: float
    width: float
    depth: float


def drawn_as(value: float) -> str:
    """Return a length in inches as drawings write it, to the sixteenth: ``12'-6 1/2"``, ``12 ft``, ``-8 in``."""
    sixteenths = round(value * _SIXTEENTHS)
    sign, rest = ("-" if sixteenths < 0 else ""), abs(sixteenths)
    feet, rest = divmod(rest, 12 * _SIXTEENTHS)
    whole, part = divmod(rest, _SIXTEENTHS)
    fraction = f" {Fraction(part, _SIXTEENTHS)}" if part else ""
    if feet and not whole and not part:
        return f"{sign}{feet} ft"
    if feet:
        return f"{sign}{feet}'-{whole}{fraction}\""
    told = f"{whole}{fraction}" if whole or not part else str(Fraction(part, _SIXTEENTHS))
    return f"{sign}{told} in"


def rectangle(box: Footprint) -> str:
    """Return a rectangle as the file holds it."""
    return f"{{at: {point((box.x, box.y))}, width: {drawn_as(box.width)}, depth: {drawn_as(box.depth)}}}"


def point(at: Point) -> str:
    """Return a point as the file holds it."""
    return f"[{drawn_as(at[0])}, {drawn_as(at[1])}]"


def beside(neighbor: Footprint, side: str, width: float, depth: float, gap: float) -> Footprint:
    """Return where a room of that size stands on one side of its `neighbor`, a wall of `gap` between, corners in line."""
    x = {"east": neighbor.x + neighbor.width + gap, "west": neighbor.x - gap - width}.get(side, neighbor.x)
    y = {"north": neighbor.y + neighbor.depth + gap, "south": neighbor.y - gap - depth}.get(side, neighbor.y)
    return Footprint(x, y, width, depth)


def wall_between(one: str, other: str) -> float:
    """Return how thick a wall is drawn between spaces of two uses: one between rooms, or one to the open."""
    return OUTER_WALL if one in OUTDOOR or other in OUTDOOR else INNER_WALL


def box_of(house: House, space: Space) -> Footprint | None:
    """Return the rectangle around `space` as drawn; None where it is not drawn."""
    outline = outline_in_inches(house, space)
    if not outline:
        return None
    xs, ys = zip(*outline, strict=True)
    return Footprint(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


class OnSide(NamedTuple):
    """A place on a wall of a room: the number of the wall in its outline, and how far along it, in inches, from where it begins."""

    wall: int
    along: float


def middle_on(outline: list[Point], wall: int, distance: float, width: float, from_end: bool) -> OnSide:
    """Return where the middle of an opening of `width` is whose nearer jamb is `distance` from a corner of a wall.

    Raises ValueError where the wall is too short for it.
    """
    start, end = _wall(outline, wall)
    length = hypot(end[0] - start[0], end[1] - start[1])
    along = distance + width / 2
    if along + width / 2 > length + SIXTEENTH or distance < 0:
        raise ValueError(
            f"the wall is {drawn_as(length)} long, so {drawn_as(width)} at {drawn_as(distance)} does not fit in it"
        )
    return OnSide(wall, length - along if from_end else along)


def nearest_wall(outline: list[Point], at: Point) -> OnSide:
    """Return the place on the walls of `outline` that is nearest to a point of the plan."""
    found = []
    for wall in range(len(outline)):
        start, end = _wall(outline, wall)
        length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
        along = ((at[0] - start[0]) * (end[0] - start[0]) + (at[1] - start[1]) * (end[1] - start[1])) / length
        along = min(max(along, 0.0), length)
        foot = point_on(outline, OnSide(wall, along))
        found.append((hypot(at[0] - foot[0], at[1] - foot[1]), OnSide(wall, along)))
    return min(found)[1]


def point_on(outline: list[Point], place: OnSide) -> Point:
    """Return the point of the plan at a place on a wall."""
    start, end = _wall(outline, place.wall)
    share = place.along / (hypot(end[0] - start[0], end[1] - start[1]) or 1.0)
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


_SIDES = (("south", "west", "east"), ("east", "south", "north"), ("north", "east", "west"), ("west", "north", "south"))
"""The walls of a rectangle in the order of its outline, each with the corners at which it begins and ends."""


def on_wall(space: Space, outline: list[Point], place: OnSide, boxed: bool | None = None) -> str:
    """Return a place on a wall as the file holds it: from the nearer corner, where that has a name.

    `boxed` says whether the outline is that of a rectangle from its corner nearest the origin; the room itself says where not.
    """
    start, end = _wall(outline, place.wall)
    rest = hypot(end[0] - start[0], end[1] - start[1]) - place.along
    if bool(space.outline) if boxed is None else not boxed:
        at = f"room: {space.id}, wall: {place.wall + 1}"
        if rest < place.along and (toward := _compass(start, end)):
            return f"{{{at}, from: {toward}, distance: {drawn_as(rest)}}}"
        return f"{{{at}, distance: {drawn_as(place.along)}}}"
    side, begins, ends = _SIDES[place.wall]
    corner, distance = (begins, place.along) if place.along <= rest else (ends, rest)
    return f"{{room: {space.id}, side: {side}, from: {corner}, distance: {drawn_as(distance)}}}"


def _compass(start: Point, end: Point) -> str:
    """Return toward which point of the compass a wall ends; nothing for one that is slanted."""
    if start[0] != end[0] and start[1] != end[1]:
        return ""
    return (
        ("east" if end[0] > start[0] else "west") if start[0] != end[0] else "north" if end[1] > start[1] else "south"
    )


def _wall(outline: list[Point], wall: int) -> tuple[Point, Point]:
    if not 0 <= wall < len(outline):
        raise ValueError("the room has no such wall; choose one of its walls on the plan")
    return outline[wall], outline[(wall + 1) % len(outline)]


def beyond(house: House, space: Space, at: Point) -> str:
    """Return the id of the space on the other side of the wall of `space` at a point of it; ``outside`` where none is drawn."""
    outline = outline_in_inches(house, space)
    for other in house.spaces:
        theirs = outline_in_inches(house, other)
        if other is space or not theirs or other.story != space.story:
            continue
        if any(inside(probe, theirs) and not inside(probe, outline) for probe in _around(at)):
            return other.id
    return "outside"


def _around(at: Point) -> list[Point]:
    reach = OUTER_WALL + 6
    return [(at[0] + dx * reach, at[1] + dy * reach) for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))]


def moved_openings(house: House, space: Space, new: Footprint) -> dict[str, Point]:
    """Return where the openings in the walls of a rectangular `space` come to stand when it becomes `new`.

    Each keeps its wall, and its distance from the corner that it is nearer to; those that say on which wall they are need
    no other place.
    """
    old = box_of(house, space)
    if old is None:
        return {}
    found: dict[str, Point] = {}
    for opening in house.openings_of(space):
        at = place(opening, house)
        if at is not None and not is_missing(opening.middle) and is_missing(opening.on):
            found[opening.id] = _moved(at.middle if at.inner is space else _middle(opening), old, new)
    return {name: at for name, at in found.items() if at is not None}


def _middle(opening: Opening) -> Point:
    from precheck.reports.drawings.svg import inches

    assert not is_missing(opening.middle)
    return inches(opening.middle[0]), inches(opening.middle[1])


def _moved(at: Point, old: Footprint, new: Footprint) -> Point:
    return (_kept(at[0], (old.x, old.width), (new.x, new.width)), _kept(at[1], (old.y, old.depth), (new.y, new.depth)))


def _kept(value: float, old: tuple[float, float], new: tuple[float, float]) -> float:
    """Return a coordinate as far from the nearer end of a side as it was."""
    from_start, from_end = value - old[0], old[0] + old[1] - value
    return new[0] + from_start if from_start <= from_end else new[0] + new[1] - from_end
