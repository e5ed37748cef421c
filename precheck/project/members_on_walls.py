"""Members on a wall: a post at one place of it, a beam or header along it, as points of the plan that move with the wall.

What is drawn from its one support to its other has its span by that.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot

from precheck.files.missing import Missing, is_missing
from precheck.files.source import Problem
from precheck.project.framing import SPANS, Member
from precheck.project.on_wall import (
    THICKEST_WALL,
    AlongWall,
    Corner,
    Edge,
    corners_of,
    edge_on,
    point_on_wall,
    wrong_place,
)
from precheck.project.part import Part, Point
from precheck.project.space import Space
from precheck.units import Length
from precheck.units.measure import exact

ENDS = ("from_", "to")
SHORTEST, LONGEST = map(Length.parse, SPANS)


def settle_members(members: tuple[Member, ...], by_id: Mapping[str, Part]) -> Iterator[Problem]:
    """Give each member `on` a wall its point, or its two ends; yield what cannot be.

    It lies in the middle of the wall where the room on its other side is drawn, else on the face of the room named.
    """
    for member in members:
        on = member.on
        if is_missing(on):
            continue
        room = by_id[on.room]  # references are held to their kinds before
        assert isinstance(room, Space)
        if told := _wrong(member, on, room):
            yield Problem(on.place, told)
            continue
        absent = room.absent("rectangle")
        drawn = bool(corners_of(room))
        if member.role == "post":
            member.__dict__["at"] = point_on_wall(on, room, _behind(on, room, by_id)) if drawn else absent
        else:
            ends = _ends(on, room, by_id) if drawn else (absent, absent)
            member.__dict__.update(zip(ENDS, ends, strict=True))


def settle_spans(members: tuple[Member, ...]) -> None:
    """Give each member that states no span the one that it is drawn with: from its first support to its last, of two.

    From middle to middle of its supports that is a little more than the clear span, which is on the safe side.
    """
    for member in members:
        runs = member.role != "post" and len(member.bears_on) <= 2 and not member.spans and is_missing(member.span)
        if runs and not is_missing(member.from_) and not is_missing(member.to):
            (ax, ay), (bx, by) = member.from_, member.to
            length = _length(((ax.n, ay.n), (bx.n, by.n)))
            if SHORTEST <= length <= LONGEST:
                member.__dict__["span"] = length


def _wrong(member: Member, on: AlongWall, room: Space) -> str:
    """Return what is wrong with the place of `member` on a wall, and what to write instead; empty if nothing is."""
    twice = [field for field in ("at", *ENDS) if field in member.model_fields_set]
    if twice:
        return f"{member.label} has its place twice, `on` a wall and `{twice[0].rstrip('_')}`; take one of them out"
    post = member.role == "post"
    if post and not is_missing(on.length):
        return f"{member.label} is a post, which stands at one point; take `length` out"
    if not post and is_missing(on.length):
        return f"say how long {member.label} is from its first support to its last, such as `length: 6 ft`"
    corners = corners_of(room)
    if not corners:
        return ""
    return wrong_place(on, corners) or _past_end(member, on, edge_on(on, corners))


def _past_end(member: Member, on: AlongWall, edge: Edge) -> str:
    """Return that a member runs past its wall by more than it takes to rest in the wall across."""
    whole = _length(edge)
    half = Length(0) if is_missing(on.length) else on.length / 2
    past = max(half - on.distance, on.distance + half - whole)
    if past <= THICKEST_WALL:
        return ""
    return (
        f"{member.label} reaches {past} past the end of that wall, which is {whole} long; move it, or make it shorter"
    )


def _length(edge: Edge) -> Length:
    (ax, ay), (bx, by) = edge
    if ax == bx or ay == by:
        return max(abs(Length(bx - ax)), abs(Length(by - ay)))
    return Length(round(hypot(float(bx - ax), float(by - ay))))


def _behind(on: AlongWall, room: Space, by_id: Mapping[str, Part]) -> Space | None:
    """Return the room of the same story whose wall lies nearest behind the place; None where none is drawn there."""
    bare = point_on_wall(on, room, None)
    found = []
    for other in by_id.values():
        if isinstance(other, Space) and other is not room and not other.is_removed and _one_story(room, other):
            deep = _apart(bare, point_on_wall(on, room, other))
            if deep:
                found.append((deep, other.id, other))
    return min(found)[2] if found else None


def _one_story(one: Space, other: Space) -> bool:
    return is_missing(one.story) or is_missing(other.story) or one.story == other.story


def _apart(one: Point, other: Point) -> Length | None:
    """Return how far apart two points are that lie on one line square to a wall; None for one and the same."""
    away = max(abs(one[0] - other[0]), abs(one[1] - other[1]))
    return away if away.n else None


def _ends(on: AlongWall, room: Space, by_id: Mapping[str, Part]) -> tuple[Point | Missing, Point | Missing]:
    (ax, ay), (bx, by) = edge = edge_on(on, corners_of(room))
    x, y = point_on_wall(on, room, _behind(on, room, by_id))
    assert not is_missing(on.length)
    half, whole = (on.length / 2).n, _length(edge).n
    to_end: Corner
    if ax == bx or ay == by:
        to_end = (((bx > ax) - (bx < ax)) * half, ((by > ay) - (by < ay)) * half)
    else:
        share = float(half) / float(whole)
        to_end = (round(float(bx - ax) * share), round(float(by - ay) * share))
    dx, dy = Length(exact(to_end[0])), Length(exact(to_end[1]))
    return (x - dx, y - dy), (x + dx, y + dy)


__all__ = ["settle_members", "settle_spans"]
