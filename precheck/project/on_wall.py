"""Places on the wall of a room, as one measures them: on its south side, 5'-3" from the west corner.

Reading works out the point of the plan that such a place comes to, so that a door or an outlet moves with its wall and
is a point to everything else. North is up the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import hypot
from typing import Annotated, Any, Literal, cast

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.source import Problem
from precheck.files.values import Within
from precheck.project.between import Between
from precheck.project.part import Gap, Part, Point, Size, SpaceId
from precheck.project.space import OUTDOOR, Space, SpaceBefore
from precheck.units import Exact, Length
from precheck.units.measure import exact

Compass = Literal["east", "north", "west", "south"]
Corner = tuple[Exact, Exact]
Edge = tuple[Corner, Corner]
THICKEST_WALL = Length.parse("14 in")
_TOWARD: dict[str, Corner] = {"north": (0, 1), "south": (0, -1), "east": (1, 0), "west": (-1, 0)}


class OnWall(Record):
    """A place on a wall of `room`: on the `side` that faces that way, or `wall` by its number in the outline.

    `distance` runs along the wall to the middle of what stands there, from the corner at the `from` end; on a wall by
    its number it runs from the corner at which that wall begins, where `from` is not given. Walls count from 1, the first
    from the first corner of the outline to the second.
    """

    kind = "place on a wall"
    room: SpaceId
    side: Maybe[Compass] = NOT_GIVEN
    wall: Maybe[Annotated[int, Within(ge=1), Between(1, 500)]] = NOT_GIVEN
    from_: Maybe[Compass] = NOT_GIVEN
    distance: Annotated[Gap, Between("1/64 in", "300 ft")]


class AlongWall(OnWall):
    """The place of a member on a wall: its middle at `distance`, and its `length` from its first support to its last.

    A post has its place alone.
    """

    kind = "stretch of a wall"
    length: Maybe[Annotated[Size, Between("6 in", "100 ft")]] = NOT_GIVEN


def corners_of(space: Space | SpaceBefore) -> tuple[Corner, ...]:
    """Return the corners of a room as drawn, or as it was before, in order; none where it is not drawn."""
    if space.outline:
        return tuple((x.n, y.n) for x, y in space.outline)
    box = space.rectangle
    if is_missing(box):
        return ()
    (x, y), (w, d) = (p.n for p in box.at), (box.width.n, box.depth.n)
    return ((x, y), (x + w, y), (x + w, y + d), (x, y + d))


def settle_places(parts: tuple[Part, ...], by_id: Mapping[str, Part], field: str) -> Iterator[Problem]:
    """Give each of `parts` whose place is `on` a wall the point that this comes to, as its `field`; yield what cannot be.

    What the file states in that field itself stays. Where the room is not drawn, its outline is what is missing.
    """
    for part in parts:
        on: OnWall = part.on  # type: ignore[attr-defined]  # of those that have one
        if is_missing(on):
            continue
        room = cast("Space", by_id[on.room])  # references are held to their kinds before
        corners = corners_of(room)
        found: Any = room.absent("rectangle")
        if not corners:
            pass
        elif told := wrong_place(on, corners):
            yield Problem(on.place, told)
            continue
        else:
            found = point_on_wall(on, room, _behind(part, on, by_id))
        if field not in part.model_fields_set:
            part.__dict__[field] = found


def place_on(on: OnWall, room: Space) -> tuple[Edge, Length] | None:
    """Return the wall that `on` names, from the end it is measured from, and the distance; None where none is drawn."""
    corners = corners_of(room)
    return (edge_on(on, corners), on.distance) if corners and not wrong_place(on, corners) else None


def _edges(corners: tuple[Corner, ...]) -> list[Edge]:
    return list(zip(corners, (*corners[1:], corners[0]), strict=True))


def _walls(on: OnWall, corners: tuple[Corner, ...]) -> list[int]:
    """Return the numbers of the walls of an outline that `on` may mean, counted from 1."""
    if not is_missing(on.wall):
        return [on.wall] if on.wall <= len(corners) else []
    turn = _turn(corners)
    return [number for number, edge in enumerate(_edges(corners), 1) if _faces(edge, turn) == _TOWARD[str(on.side)]]


def _turn(corners: tuple[Corner, ...]) -> int:
    """Return 1 for an outline whose corners run against the clock, -1 for one with it."""
    return 1 if sum(ax * by - bx * ay for (ax, ay), (bx, by) in _edges(corners)) > 0 else -1


def _faces(edge: Edge, turn: int) -> Corner | None:
    """Return the direction out of the room through a wall that follows an axis; None of one that does not."""
    (ax, ay), (bx, by) = edge
    if ax != bx and ay != by:
        return None
    dx, dy = (bx > ax) - (bx < ax), (by > ay) - (by < ay)
    return (dy * turn, -dx * turn)


def wrong_place(on: OnWall, corners: tuple[Corner, ...]) -> str:
    """Return what is wrong with a place on a wall of the outline, and what to write instead; empty if nothing is."""
    if is_missing(on.side) == is_missing(on.wall):
        return "name the wall by `side: south`, or by its number in the outline, `wall: 3`; one of them"
    walls = _walls(on, corners)
    if not is_missing(on.wall) and not walls:
        return f"{on.room} has {len(corners)} walls; there is no wall {on.wall}"
    if not walls:
        return f"{on.room} has no wall square to the {on.side}; name it by its number in the outline, such as `wall: 1`"
    if len(walls) > 1:
        listed = " or ".join(f"`wall: {number}`" for number in walls)
        return f"{on.room} has {len(walls)} walls on its {on.side} side; write {listed} in place of `side`"
    if is_missing(on.from_):
        return "" if is_missing(on.side) else "say from which corner the distance runs, such as `from: west`"
    (ax, ay), (bx, by) = _edges(corners)[walls[0] - 1]
    x, y = _TOWARD[on.from_]
    return (
        "" if ax * x + ay * y != bx * x + by * y else f"that wall has no {on.from_} end; measure from its other corners"
    )


def edge_on(on: OnWall, corners: tuple[Corner, ...]) -> Edge:
    """Return the wall from the end from which the distance runs."""
    start, end = _edges(corners)[_walls(on, corners)[0] - 1]
    if is_missing(on.from_):
        return start, end
    x, y = _TOWARD[on.from_]
    return (start, end) if start[0] * x + start[1] * y > end[0] * x + end[1] * y else (end, start)


def point_on_wall(on: OnWall, room: Space, behind: Space | None) -> Point:
    """Return the point on the face of the wall, or in the middle of it where the room `behind` it is drawn.

    A wall to a porch or carport is the wall of the house, whose inner face the point is on.
    """
    corners = corners_of(room)
    edge = edge_on(on, corners)
    (ax, ay), (bx, by) = edge
    along = on.distance.n
    if ax == bx or ay == by:
        dx, dy = (bx > ax) - (bx < ax), (by > ay) - (by < ay)
        x, y = ax + dx * along, ay + dy * along
        out = _faces(_edges(corners)[_walls(on, corners)[0] - 1], _turn(corners))
        assert out is not None
        deep = 0 if behind is None else _depth((x, y), out, corners_of(behind)) * _share(room, behind)
        x, y = exact(x + out[0] * deep), exact(y + out[1] * deep)
    else:
        length = hypot(float(bx - ax), float(by - ay))
        x, y = (round(float(a) + float(along) * float(b - a) / length) for a, b in zip(*edge, strict=True))
    return Length(x), Length(y)


def _behind(part: Part, on: OnWall, by_id: Mapping[str, Part]) -> Space | None:
    """Return the room on the other side of a door; None for the outside, and for what has one room."""
    other = next((side for side in getattr(part, "between", ()) if side != on.room), None)
    found = None if other is None else by_id.get(other)
    return found if isinstance(found, Space) else None


def _share(room: Space, behind: Space) -> Fraction:
    """Return how deep in the wall between two rooms the point lies, as a share of its thickness."""
    outdoors = tuple(one.use in OUTDOOR for one in (room, behind))
    return Fraction(1, 2) if outdoors[0] == outdoors[1] else Fraction(outdoors[0])


def _depth(point: Corner, out: Corner, behind: tuple[Corner, ...]) -> Exact:
    """Return how far it is from `point` in the direction `out` to the outline `behind`; nothing where that is not near."""
    axis = 0 if out[0] else 1
    depths = [
        (a[axis] - point[axis]) * out[axis]
        for a, b in _edges(behind)
        if a[axis] == b[axis] and min(a[1 - axis], b[1 - axis]) <= point[1 - axis] <= max(a[1 - axis], b[1 - axis])
    ] if behind else []  # fmt: skip
    near = [depth for depth in depths if 0 <= depth <= THICKEST_WALL.n]
    return min(near, default=0)


__all__ = [
    "AlongWall", "OnWall", "corners_of", "edge_on", "place_on", "point_on_wall", "settle_places", "wrong_place",
]  # fmt: skip
