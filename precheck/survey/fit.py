"""Whether the plan closes: rooms that overlap or stand apart by more than a wall, openings that lie in no wall.

What is not drawn to fit is told, so that what geometry decides of it (a separation, a distance) is not passed over.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import combinations

from precheck.files.missing import is_missing
from precheck.project import (
    OUTSIDE,
    Alarm,
    Appliance,
    Door,
    Exhaust,
    Fixture,
    Light,
    Opening,
    Panel,
    Part,
    Receptacle,
    Space,
    Stair,
    Wall,
    WetArea,
)
from precheck.project.on_wall import place_on
from precheck.project.space import OUTDOOR, UNFINISHED
from precheck.survey import geometry
from precheck.survey.fact import Fact, fact
from precheck.survey.geometry import KEPT, SHORTEST_SHARED, THICKEST_WALL
from precheck.survey.house import House
from precheck.survey.openings import Stretch, edges, from_point, line_of, outline_of, stretch_of, to_outline
from precheck.units import Area, Length
from precheck.units.measure import exact

WIDEST_GAP = Length.parse("6 ft")  # rooms further apart than this are meant to be apart
OVERLAP_MEANT = Area.parse("1 sq ft")  # what outlines drawn to the middle of walls may cover twice
THINGS: tuple[type[Part], ...] = (Receptacle, Light, Alarm, Fixture, Appliance, Panel, Exhaust)
"""What stands at a point of the plan, in a room."""
NO_INSIDE = OUTDOOR | UNFINISHED | {"sunroom"}
"""Uses of spaces that a window or door to the outside may look or lead into."""
JAMB = Length.parse("1 in")  # what an opening may reach past the end of its wall for rounding


@fact
class RoomPair(Fact):
    """Two rooms of one story, drawn so that they do not fit: they overlap, or stand apart by more than a wall.

    `overlap` is the floor that both cover, `gap` what lies between them where they face each other; None where not.
    `joined` says that one of them is to stand detached, and is drawn wall to wall with the other.
    """

    one: Space
    other: Space
    overlap: Area | None
    gap: Length | None
    joined: bool = False

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomPair]:
        """Yield the pairs that do not fit."""
        drawn = [(space, outline) for space in house.spaces if (outline := house.outline(space)) is not None]
        for (one, a), (other, b) in combinations(drawn, 2):
            if not _on_one_story(one, other):
                continue
            covered = geometry.overlap(a, b)
            if covered > OVERLAP_MEANT:
                yield cls(one, one, other, covered, None)
            elif _stands_alone(one, other) and geometry.shared_wall(a, b).n > 0:
                yield cls(one, one, other, None, None, joined=True)
            elif (gap := gap_between_rooms(a, b)) is not None and not _something_between(one, other, gap, house):
                yield cls(one, one, other, None, gap)

    @property
    def label(self) -> str:
        """The two rooms."""
        return f"{self.one.label} and {self.other.label}"

    @property
    def phase(self) -> str:
        """``new``: a drawing that does not close is mended, whatever the phase of its rooms."""
        return "new"


@fact
class OpeningInPlan(Fact):
    """An opening that is placed in plan, and what is wrong with its place.

    `off_wall` is how far it stands from the nearest wall of its rooms, `past_end` how far it reaches past the end of it,
    `off_stated` how far its stated middle is from where its stated place `on` a wall puts it. `other` is a room that the plan
    puts on its far side while it is said to lead outside, or one that it is said to join and does not.
    """

    opening: Opening
    off_wall: Length | None
    past_end: Length | None
    off_stated: Length | None
    other: Space | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[OpeningInPlan]:
        """Yield the openings that are placed and whose rooms are drawn."""
        for opening in (*house.project.doors, *house.project.windows):
            walls = walls_around(opening, house)
            if opening.is_removed or is_missing(opening.middle) or not walls:
                continue
            middle = (opening.middle[0].n, opening.middle[1].n)
            wall = min(walls, key=lambda edge: from_point(middle, edge))
            away = from_point(middle, wall)
            off = away if away.n > THICKEST_WALL else None
            past = None if off else _past_end(opening, wall, house)
            yield cls(opening, opening, off, past, _off_stated(opening, house), _wrong_side(opening, wall, house))

    @property
    def phase(self) -> str:
        """``new``: a place that cannot be is mended, whatever the phase of the opening."""
        return "new"


@fact
class PartOffPlan(Fact):
    """A wall, stair or thing, such as a receptacle or alarm, that is drawn away from the room that it belongs to: how far."""

    part: Part
    room: Space
    away: Length

    @classmethod
    def found_in(cls, house: House) -> Iterator[PartOffPlan]:
        """Yield the parts that stand farther from each of their rooms, as drawn, than a wall is thick."""
        placed: tuple[type[Part], ...] = (*THINGS, WetArea, Stair, Wall)
        for part in (part for kind in placed for part in house.subjects(kind) if not part.is_removed):
            sides = part.between if isinstance(part, Stair | Wall) else (part.space,)
            rooms = [space for side in sides if (space := house.space(str(side))) is not None]
            drawn = [(room, outline) for room in rooms if (outline := house.outline(room)) is not None]
            found = [(room, away) for room, outline in drawn if (away := _away(part, outline)) is not None]
            if found and (nearest := min(found, key=lambda one: one[1]))[1].n > THICKEST_WALL:
                yield cls(part, part, *nearest)

    @property
    def phase(self) -> str:
        """``new``: a place that cannot be is mended, whatever the phase of the part."""
        return "new"


def _off_stated(opening: Opening, house: House) -> Length | None:
    """Return how far along the wall the middle of `opening` is from its place on that wall, where both are given."""
    if is_missing(opening.on) or is_missing(opening.middle) or "middle" not in opening.model_fields_set:
        return None
    room = house.space(opening.on.room)
    found = None if room is None else place_on(opening.on, room)
    if found is None:
        return None
    ((ax, ay), (bx, by)), distance = found
    middle = (opening.middle[0].n, opening.middle[1].n)
    if (off := from_point(middle, Stretch((ax, ay), (bx, by)))).n > THICKEST_WALL:
        return off
    foot = _onto(middle, Stretch((ax, ay), (bx, by)))
    apart = abs(from_point(foot, Stretch((ax, ay), (ax, ay))) - distance)
    return apart if apart > JAMB else None


def _away(part: Part, outline: geometry.Outline) -> Length | None:
    """Return how far `part` stands from a room: a wall from its sides, others from its floor; None where not placed."""
    if isinstance(part, Wall):
        line = line_of(part)
        return None if line is None else min(from_point(_middle(line), edge) for edge in edges(outline))
    rectangle, at = getattr(part, "rectangle", part.absent("rectangle")), getattr(part, "at", part.absent("at"))
    if not is_missing(rectangle):
        own = outline_of(rectangle)
        covers = geometry.overlap(own, outline).n > 0
        return Length(0) if covers else min(to_outline(edge, outline) for edge in edges(own))
    if is_missing(at):
        return None
    point = (at[0].n, at[1].n)
    return Length(0) if geometry.inside(point, outline) else min(from_point(point, edge) for edge in edges(outline))


def _middle(line: Stretch) -> geometry.Point:
    (ax, ay), (bx, by) = line
    return exact(Fraction(ax + bx) / 2), exact(Fraction(ay + by) / 2)


def walls_around(opening: Opening, house: House) -> list[Stretch]:
    """Return the edges of the rooms that `opening` belongs to, as drawn."""
    sides = getattr(opening, "between", None) or (getattr(opening, "space", ""),)
    rooms = [space for side in sides if (space := house.space(side)) is not None]
    return [edge for room in rooms if (outline := house.outline(room)) is not None for edge in edges(outline)]


@lru_cache(maxsize=KEPT)
def gap_between_rooms(one: geometry.Outline, other: geometry.Outline) -> Length | None:
    """Return how far apart two outlines stand where they face each other; None where they do not, or touch."""
    if geometry.shared_wall(one, other).n > 0:
        return None
    gaps = [gap for a in edges(one) for b in edges(other) if (gap := geometry.facing_gap(a, b)) is not None]
    nearest = min(gaps, default=None)
    return nearest if nearest is not None and nearest <= WIDEST_GAP else None


def _on_one_story(one: Space, other: Space) -> bool:
    return is_missing(one.story) or is_missing(other.story) or one.story == other.story


def _stands_alone(one: Space, other: Space) -> bool:
    """Whether just one of the two is said to stand detached; a porch or deck may lie at whatever it belongs to."""
    apart = (one.detached is True) != (other.detached is True)
    return apart and not {one.use, other.use} & (OUTDOOR | UNFINISHED)


def _something_between(one: Space, other: Space, gap: Length, house: House) -> bool:
    """Whether a third room is drawn in the gap, as a hall between two bedrooms; or one of the two stands alone."""
    if one.detached is True or other.detached is True:
        return True
    first, second = house.outline(one), house.outline(other)
    for space in house.spaces:
        outline = house.outline(space)
        if space in (one, other) or outline is None or first is None or second is None:
            continue
        if all(geometry.shared_wall(outline, side).n >= SHORTEST_SHARED for side in (first, second)):
            return True
    return False


def _wrong_side(opening: Opening, wall: Stretch, house: House) -> Space | None:
    """Return the room that `opening` is said to join and is not drawn at, or that lies where it is said to lead outside."""
    assert not is_missing(opening.middle)
    middle = (opening.middle[0].n, opening.middle[1].n)
    sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""), OUTSIDE)
    rooms = [space for side in sides if (space := house.space(str(side))) is not None]
    own = [(room, outline) for room in rooms if (outline := house.outline(room)) is not None]
    if OUTSIDE not in sides:
        far = [room for room, outline in own if min(from_point(middle, e) for e in edges(outline)).n > THICKEST_WALL]
        return far[0] if far and len(own) == len(sides) and _on_one_story(*rooms) else None
    if not own:
        return None
    told = (opening.looks_under, opening.opens_to)
    others = (s for s in house.spaces if s not in rooms and _on_one_story(s, rooms[0]) and s.use not in NO_INSIDE)
    others = (s for s in others if s.id not in told and s.use not in told)
    return next((s for s in others if (o := house.outline(s)) is not None and _across(middle, wall, o)), None)


@lru_cache(maxsize=KEPT)
def _across(middle: geometry.Point, wall: Stretch, outline: geometry.Outline) -> bool:
    """Whether a side of `outline` runs along `wall` where `middle` lies, no farther away than a wall is thick."""
    return any(_runs_along(edge, wall) and _is_beside(middle, edge) for edge in edges(outline))


def _runs_along(edge: Stretch, wall: Stretch) -> bool:
    (ax, ay), (bx, by) = edge
    (cx, cy), (dx, dy) = wall
    return (bx - ax) * (dy - cy) == (by - ay) * (dx - cx)


def _is_beside(middle: geometry.Point, edge: Stretch) -> bool:
    return from_point(middle, edge).n <= THICKEST_WALL and not from_point(_onto(middle, edge), edge).n


def _past_end(opening: Opening, wall: Stretch, house: House) -> Length | None:
    stretch = stretch_of(opening, house)
    if is_missing(stretch):
        return None
    along = Stretch(*(_onto(end, wall) for end in stretch))
    past = max(from_point(end, wall) for end in along)
    return past if past > JAMB else None


def _onto(point: geometry.Point, wall: Stretch) -> geometry.Point:
    """Return `point` moved square onto the line of `wall`, which may run on past its ends."""
    (x, y), ((ax, ay), (bx, by)) = point, wall
    if ax == bx or ay == by:
        return (ax, y) if ax == bx else (x, ay)
    dx, dy = bx - ax, by - ay
    share = Fraction((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)
    return ax + share * dx, ay + share * dy
