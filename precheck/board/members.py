"""Posts, beams and headers on the plan: what is drawn of them, and how one is put there, placed anew or moved."""

from __future__ import annotations

from math import hypot
from typing import Any

from precheck.board.asked_of_tray import PutMember
from precheck.board.changing import GONE, Change, Changes, Steps, added, path_of
from precheck.board.sketch import Point, drawn_as, middle_on, nearest_wall, on_wall, point
from precheck.board.spots import outline_of, spotted
from precheck.board.tray import room_called
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.project import Member, Opening, Story
from precheck.questions.addition import free_id
from precheck.questions.typed import DISTANCE
from precheck.reports.drawings.placed import place
from precheck.reports.drawings.svg import inches
from precheck.survey import House

LETTERS = {"post": "P", "beam": "B", "header": "H", "ridge beam": "RB", "trimmer": "T"}
ON_PLAN = frozenset(
    (*LETTERS, "hip or valley")
)  # what stands or lies by itself; rows of members have plans of their own
PLACES = ("at", "on", "from", "to")
Values = dict[str, str]
_DIGITS = 3


def members_shown(house: House) -> list[dict[str, Any]]:
    """Return the members that have a place in plan: their points, or their two ends, in inches."""
    found = []
    for member in house.project.members:
        ends = ends_of(member, house)
        if ends:
            story = _story(member, house)
            size = "" if is_missing(member.size) else member.label_of_size
            phase = "" if is_missing(member.phase) else member.phase
            points = [[round(n, _DIGITS) for n in end] for end in ends]
            found.append({"id": member.id, "kind": "member", "phase": phase, "story": story, "role": member.role,
                          "ends": points, "size": size})  # fmt: skip
    return found


def ends_of(member: Member, house: House) -> list[Point]:
    """Return the point of a post, or the ends of another member: as given, or over the openings that it names; else none."""
    given = [member.at] if member.role == "post" else [member.from_, member.to]
    points = [(inches(one[0]), inches(one[1])) for one in given if not is_missing(one)]
    if len(points) == len(given):
        return points
    spots = [ends for name in member.openings if (ends := _over(house.project.by_id.get(name), house))]
    return [spots[0][0], spots[-1][1]] if spots else []


def _over(opening: Any, house: House) -> list[Point]:
    at = place(opening, house) if isinstance(opening, Opening) else None
    if at is None or at.width is None:
        return []
    return [at.point(-at.width / 2, at.thickness / 2), at.point(at.width / 2, at.thickness / 2)]


def _story(member: Member, house: House) -> str:
    if not is_missing(member.over):
        return member.over
    openings = [house.project.by_id.get(name) for name in member.openings]
    at = next((found for one in openings if isinstance(one, Opening) and (found := place(one, house))), None)
    room = at.inner if at is not None else None if is_missing(member.on) else house.space(member.on.room)
    if room is not None:
        return "" if is_missing(room.story) else room.story
    stories = [story for story in house.project.stories if not story.is_removed]
    return stories[0].id if len(stories) == 1 else ""


def member(house: House, asked: PutMember) -> Changes:
    """Return the changes that put a member on the plan, one of the file where `part` names it. Raises ValueError."""
    values = _opening(house, asked) if asked.opening else _placed(house, asked)
    if asked.size.strip():
        values["size"] = asked.size.strip()
    there = house.project.by_id.get(asked.part) if asked.part else None
    if isinstance(there, Member):
        path = path_of(house.project, there)
        gone = [Change((*path, key), GONE) for key in PLACES if key not in values and key in (there.block or ())]
        return Changes([*gone, *_set(path, values)], f"place of {there.label}")
    ident = free_id(house.project, LETTERS[asked.role])
    return Changes(
        [added(house.project, "members", {"id": ident, "role": asked.role, "phase": asked.phase, **values})],
        f"{asked.role} {ident}",
    )


def _set(path: Steps, values: Values) -> list[Change]:
    return [Change((*path, key), value) for key, value in values.items()]


def _opening(house: House, asked: PutMember) -> Values:
    """Return the place of a header over an opening, which is where that is; one that follows it in every move."""
    opening = next((one for one in (*house.project.doors, *house.project.windows) if one.id == asked.opening), None)
    if opening is None:
        raise ValueError(f"there is no door or window `{asked.opening}`; choose one on the plan")
    if asked.role == "post":
        raise ValueError("a post stands beside an opening; click its place in the wall")
    at = place(opening, house)
    story = "" if at is None or is_missing(at.inner.story) else at.inner.story
    return {"openings": f"[{opening.id}]", **({"over": story} if story else {})}


def _placed(house: House, asked: PutMember) -> Values:
    if asked.wall is not None:
        return _on_wall(house, asked)
    over = {"over": asked.story} if isinstance(house.project.by_id.get(asked.story), Story) else {}
    if asked.role == "post":
        at = spotted(house, room_called(house, asked.room), asked).middle if asked.room else asked.at
        if at is None:
            raise ValueError("click where it stands, or choose a room and type how far it is from two of its walls")
        return {"at": point(at), **over}
    if asked.at is None or asked.to is None:
        raise ValueError("draw it from its first support to its last, or click the wall that it is in")
    return {"from": point(asked.at), "to": point(_end(asked, asked.at, asked.to)), **over}


def _end(asked: PutMember, start: Point, to: Point) -> Point:
    """Return where a member ends: as drawn, or as far along that way as is typed."""
    if not asked.length.strip():
        return to
    drawn = hypot(to[0] - start[0], to[1] - start[1])
    if not drawn:
        raise ValueError("draw the way in which it runs")
    share = length_in_inches(asked.length, DISTANCE) / drawn
    return start[0] + (to[0] - start[0]) * share, start[1] + (to[1] - start[1]) * share


def _on_wall(house: House, asked: PutMember) -> Values:
    room = room_called(house, asked.room)
    outline = outline_of(house, room)
    long = 0.0 if asked.role == "post" else length_in_inches(asked.length, DISTANCE)
    assert asked.wall is not None
    spot = middle_on(outline, asked.wall, length_in_inches(asked.distance, DISTANCE), long, asked.from_end)
    over = {} if is_missing(room.story) else {"over": room.story}
    return {"on": _with_length(on_wall(room, outline, spot), long), **over}


def _with_length(on: str, long: float) -> str:
    return f"{on[:-1]}, length: {drawn_as(long)}}}" if long else on


def moved_member(house: House, there: Member, by: Point) -> Changes:
    """Return the changes that move a member by inches: along its walls where it is on one, else freely."""
    ends = ends_of(there, house)
    if not ends or (there.openings and is_missing(there.from_)):
        raise ValueError(f"{there.label} lies over its opening, and moves with it")
    path = path_of(house.project, there)
    to = [(x + by[0], y + by[1]) for x, y in ends]
    room = None if is_missing(there.on) else house.space(there.on.room)
    if room is not None:
        outline = outline_of(house, room)
        middle = (sum(x for x, _ in to) / len(to), sum(y for _, y in to) / len(to))
        long = hypot(ends[-1][0] - ends[0][0], ends[-1][1] - ends[0][1])
        return Changes(
            [Change((*path, "on"), _with_length(on_wall(room, outline, nearest_wall(outline, middle)), long))],
            f"place of {there.label}",
        )
    keys = ("at",) if there.role == "post" else ("from", "to")
    return Changes(_set(path, {k: point(p) for k, p in zip(keys, to, strict=True)}), f"place of {there.label}")
