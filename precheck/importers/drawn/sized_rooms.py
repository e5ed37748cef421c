"""Rooms that a name with a size gives where no outline closed as it says: see `sized_boxes`.

Such a room is of grade A where its sides are drawn but for openings as wide as doors; where a wider stretch is open, as in a
plan of one large space, the box is a proposal of where to divide it, and a person has to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import cos, radians, sin
from typing import NamedTuple

import shapely

from precheck.importers.draft import plain
from precheck.importers.drawn.faces import Faces, PlanFace
from precheck.importers.drawn.names import RoomName, room_name
from precheck.importers.drawn.plane_lines import Line, dot, less, long
from precheck.importers.drawn.rooms import BELOW, DOUBTFUL, LETTER, NEXT_ROW, PlanRoom, across, is_exactly, is_lettering
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.drawn.sized_boxes import SizedBox, UprightLines
from precheck.importers.drawn.sizes import ROOM_SIDES, WrittenSize, sizes_in
from precheck.importers.mapping import Mapping

OVERLAP = 0.03  # of its area that a room may share with one that is proven
SLIVER = 0.02  # meters across half of what is left between a box and a wall, and is nothing
SMALLEST = 0.5  # square meters of a piece that is left of a divided space
WITHIN = 0.5  # of its area from which a face belongs to the box around it
OPEN = "a wide part of its outline is open: its written size says where to divide the space"


class SizedName(NamedTuple):
    """A name of a room with the size that stands beside it."""

    text: DrawnText
    name: RoomName
    size: WrittenSize
    at: DrawnText


class FoundRooms(NamedTuple):
    """Rooms, names that lie in none, and the faces of the plan."""

    rooms: list[PlanRoom]
    lost: list[tuple[DrawnText, RoomName]]
    faces: list[PlanFace]


def with_sized_rooms(
    found: FoundRooms, plan: Faces, lines: Iterable[Line], texts: list[DrawnText], mapping: Mapping
) -> FoundRooms:
    """Return rooms with those that a written size proves or proposes where no outline did."""
    exact = [room for room in found.rooms if room.grade == "A" and _is_exact(room, found.faces)]
    proven = {id(text) for room in exact for text in room.texts}
    wanted = [one for one in sized_names(texts, mapping) if id(one.text) not in proven]
    if not wanted:
        return found
    upright = UprightLines(lines, UprightLines(one.line for one in plan.closers if one.proven))
    names = [(text, name) for text in texts if (name := room_name(text.text, mapping))]
    boxes = [
        (one, box) for one in wanted if (box := upright.box(one.at.at, one.size)) and _stands_alone(one, box, names)
    ]
    new = [_room(one, box, plan) for one, box in boxes]
    own = {id(text) for room in new for text in room.texts}
    taken = [room for room in found.rooms if room.grade == "A" and not any(id(text) in own for text in room.texts)]
    new = [room for room in new if not any(_overlap(room, other) for other in [*taken, *new] if other is not room)]
    joined = _joined(_divided(found, new, plan), new)
    for room in joined.rooms:
        if (
            room.grade == "A"
            and room.size
            and not any(room is one for one in new)
            and _is_wide_open(room, joined.faces)
        ):
            room.grade, room.why = "C", OPEN
    return joined


def _is_exact(room: PlanRoom, faces: list[PlanFace]) -> bool:
    """Return whether a room is as written and shut, or nothing is written that a box could be looked for by."""
    if room.size is None:
        return True
    if _is_wide_open(room, faces):
        return False
    return is_exactly(room.size, room.face.sides)


def _is_wide_open(room: PlanRoom, faces: list[PlanFace]) -> bool:
    """Return whether a gap wider than a door leads to another place, in which nothing of a wall or opening is drawn."""
    wide = [line for line in room.face.doubtful if long(line) > DOUBTFUL]
    return any(
        other is not room.face and other.shape.intersects(across(line, room.face)) for line in wide for other in faces
    )


def sized_names(texts: list[DrawnText], mapping: Mapping) -> Iterator[SizedName]:
    """Yield each size of a room with the name beside it: one of the known words, or letters in the row above."""
    for text in texts:
        for size in sizes_in(text.text):
            sides = size.first, size.second
            if ROOM_SIDES[0] <= min(sides) and max(sides) <= ROOM_SIDES[1] and (found := _name(text, texts, mapping)):
                yield SizedName(*found, size, text)


def _name(size: DrawnText, texts: list[DrawnText], mapping: Mapping) -> tuple[DrawnText, RoomName] | None:
    if own := room_name(size.text, mapping):
        return size, own
    near = sorted((far, n) for n, text in enumerate(texts)
                  if (far := long((text.at, size.at))) <= BELOW * max(text.height, size.height) and text is not size)  # fmt: skip
    for _, n in near:
        if name := room_name(texts[n].text, mapping):
            return texts[n], name
    above = (texts[n] for _, n in near if _is_row_above(texts[n], size) and is_lettering(texts[n].text))
    return next(((text, RoomName(plain(text.text), plain(text.text))) for text in above), None)


def _is_row_above(text: DrawnText, size: DrawnText) -> bool:
    """Return whether a text is the next row above a size, one of which lies over the middle of the other."""
    angle = radians(size.angle)
    off = less(text.at, size.at)
    aside, up = abs(dot(off, (cos(angle), sin(angle)))), dot(off, (-sin(angle), cos(angle)))
    tall = max(text.height, size.height)
    return 0 < up <= NEXT_ROW * tall and aside <= LETTER / 2 * max(len(text.text), len(size.text)) * tall


def _stands_alone(one: SizedName, box: SizedBox, names: list[tuple[DrawnText, RoomName]]) -> bool:
    """Return whether the name stands in its box, and no other one but that of a closet built into it."""
    shape = shapely.box(*box.low, *box.high)
    others = [name for text, name in names if text is not one.text and shape.contains(shapely.Point(text.at))]
    closets = all("closet" in name.key.lower().split() for name in others)
    return closets and bool(shape.contains(shapely.Point(one.text.at)))


def _room(one: SizedName, box: SizedBox, plan: Faces) -> PlanRoom:
    face = plan.face(shapely.box(*box.low, *box.high))
    face = replace(face, drawn=box.drawn)
    if box.bare > DOUBTFUL:
        return PlanRoom(face, [one.name], [one.text], "C", OPEN, one.size)
    why = f"the size {one.size.text} written in it is that of the walls around it"
    return PlanRoom(face, [one.name], [one.text], "A", why, one.size)


def _overlap(one: PlanRoom, other: PlanRoom) -> bool:
    shared = one.face.shape.intersection(other.face.shape).area
    return bool(shared > OVERLAP * min(one.face.shape.area, other.face.shape.area))


def _divided(found: FoundRooms, new: list[PlanRoom], plan: Faces) -> FoundRooms:
    """Return rooms of which those that a person has to divide are what new ones leave of them, where that is in one piece."""
    rooms, faces = [], list(found.faces)
    for room in found.rooms:
        left = room.face.shape.difference(shapely.union_all([one.face.shape for one in new]))
        left = left.buffer(-SLIVER, join_style="mitre").buffer(SLIVER, join_style="mitre")
        parted = room.grade == "C" and left.area < (1 - OVERLAP) * room.face.shape.area
        large = [part for part in shapely.get_parts(left) if part.area >= SMALLEST]
        if parted and len(large) == 1 and any(large[0].contains(shapely.Point(text.at)) for text in room.texts):
            face = plan.face(large[0])
            faces = [face if one is room.face else one for one in faces]
            room = replace(room, face=face)
        rooms.append(room)
    return FoundRooms(rooms, found.lost, faces)


def _joined(found: FoundRooms, new: list[PlanRoom]) -> FoundRooms:
    """Return rooms with new ones instead of those that had their names, and of the faces within them."""
    named = {id(text) for room in new for text in room.texts}
    kept, lost = [], [(t, n) for t, n in found.lost if id(t) not in named]
    for room in found.rooms:
        left = [(t, n) for t, n in zip(room.texts, room.names, strict=True) if id(t) not in named]
        covered = room.grade != "A" and any(_is_within(room.face, other) for other in new)
        if left and not covered:
            kept.append(replace(room, texts=[t for t, _ in left], names=[n for _, n in left]))
        elif covered:
            lost += left
    rooms = [*kept, *new]
    own = {id(room.face) for room in rooms}
    faces = [face for face in found.faces if id(face) in own or not any(_is_within(face, room) for room in new)]
    faces = [*(room.face for room in new), *faces]
    return FoundRooms(rooms, lost, faces)


def _is_within(face: PlanFace, room: PlanRoom) -> bool:
    return bool(face.shape.intersection(room.face.shape).area >= WITHIN * face.shape.area)


__all__ = ["FoundRooms", "sized_names", "with_sized_rooms"]
