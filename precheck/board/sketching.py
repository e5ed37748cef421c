"""What is drawn on the plan, as changes of the project file: where things go is worked out in `sketch.py`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from precheck.board import holes, levels, members, rooms, sections, shapes, tray
from precheck.board.asked import AddOpening, AddRoom, SetRectangle, Slide
from precheck.board.asked_of_sections import ShapeCeiling, TypeHeight
from precheck.board.asked_of_shapes import AddStory, Divide, Jog, JoinRooms, MoveWall
from precheck.board.asked_of_tray import MoveBy, Put, PutHole, PutMember, PutStair, SetPlace
from precheck.board.asking import AskedByPage
from precheck.board.changing import GONE, Change, Changes, added, path_of, plain_id
from precheck.board.shapes import kept_before, things_moved
from precheck.board.sketch import (
    Footprint,
    Point,
    beside,
    beyond,
    box_of,
    drawn_as,
    middle_on,
    moved_openings,
    nearest_wall,
    on_wall,
    point,
    point_on,
    rectangle,
    wall_between,
)
from precheck.board.tray import room_called
from precheck.board.typed import MeantError, length_in_inches, opening_size, room_size
from precheck.files.missing import is_missing
from precheck.project import Door, Member, Opening, Part, Space, Window
from precheck.questions.addition import free_id
from precheck.questions.typed import DISTANCE, HEIGHT
from precheck.reports.drawings.placed import outline_in_inches, place
from precheck.reports.drawings.svg import inches
from precheck.survey import House
from precheck.units import Length

OF_MAKE = (
    "operation",
    "unit size",
    "sill height",
    "net clear opening",
    "openable area",
    "glazed area",
    "u factor",
    "shgc",
)
"""What two windows or doors have alike that come from one order, and are set alike."""


def changes_of(house: House, asked: AskedByPage) -> Changes:
    """Return the changes that the page asks for. Raises ValueError with what is wrong, for a person."""
    return _WAYS[type(asked)](house, asked)


def _moved(house: House, asked: MoveBy) -> Changes:
    there = house.project.by_id.get(asked.part)
    if isinstance(there, Space):
        return shapes.room_moved(house, there, asked.by)
    return members.moved_member(house, there, asked.by) if isinstance(there, Member) else tray.moved(house, asked)


def _use(space: Space) -> str:
    return "" if is_missing(space.use) else space.use


def _room(house: House, asked: AddRoom) -> Changes:
    width, depth = room_size(asked.size)
    story = asked.story or _story_beside(house, asked.beside)
    box = _place(house, Footprint(0, 0, width, depth), asked, asked.use, story)
    ident = plain_id(house.project, asked.name or asked.use)
    values = {
        "id": ident,
        "name": asked.name.strip(),
        "phase": asked.phase,
        "use": asked.use,
        "was": asked.was if asked.was != asked.use else "",
        "story": story,
        "rectangle": rectangle(box),
    }
    return Changes(
        [added(house.project, "spaces", values)], f"{asked.name or asked.use}, {drawn_as(width)} x {drawn_as(depth)}"
    )


def _place(house: House, box: Footprint, asked: AddRoom | SetRectangle, use: str, story: str) -> Footprint:
    """Return `box` where it is put: at a point, beside a room, or by itself to the right of all on its story.

    The first room of a story stands over the corner of what is drawn on the others.
    """
    if asked.at is not None:
        return box._replace(x=asked.at[0], y=asked.at[1])
    if asked.beside:
        neighbor = room_called(house, asked.beside)
        around = box_of(house, neighbor)
        if around is None:
            raise ValueError(f"{neighbor.label} is not drawn yet; type its size first")
        return beside(around, asked.side, box.width, box.depth, wall_between(use, _use(neighbor)))
    drawn = [(space, around) for space in house.spaces if (around := box_of(house, space)) is not None]
    if not drawn:
        return box
    here = [around for space, around in drawn if is_missing(space.story) or not story or space.story == story]
    if not here:
        return box._replace(x=min(one.x for _, one in drawn), y=min(one.y for _, one in drawn))
    right = max(one.x + one.width for one in here)
    return box._replace(x=right + wall_between(use, ""), y=min(one.y for one in here))


def _story_beside(house: House, name: str) -> str:
    if name:
        space = room_called(house, name)
        return "" if is_missing(space.story) else space.story
    stories = house.project.stories
    ground = [story.id for story in stories if story.level == "ground"]
    return ground[0] if ground else stories[0].id if stories else ""


def _shape(house: House, asked: SetRectangle) -> Changes:
    part = house.project.by_id.get(asked.part)
    if not isinstance(part, Part) or not hasattr(part, "rectangle"):
        raise ValueError(f"`{asked.part}` has no rectangle on the plan")
    before = _box(house, part)
    if asked.size:
        width, depth = room_size(asked.size)
    elif asked.width is not None and asked.depth is not None:
        width, depth = asked.width, asked.depth
    elif before is not None:
        width, depth = before.width, before.depth
    else:
        raise ValueError("type a size, such as 12' x 14'-6\"")
    if width <= 0 or depth <= 0:
        raise ValueError("both sides are above zero")
    box = Footprint(before.x, before.y, width, depth) if before is not None else Footprint(0, 0, width, depth)
    if asked.at is not None or asked.beside or before is None:
        on = part.story if isinstance(part, Space) and not is_missing(part.story) else ""
        box = _place(house, box, asked, _use(part) if isinstance(part, Space) else "", on)
    changes = [Change((*path_of(house.project, part), "rectangle"), rectangle(box))]
    if isinstance(part, Space):
        changes += kept_before(house, part, asked.work and before is not None)
        if before is not None and before[2:] == box[2:]:
            changes += things_moved(house, part, (box.x - before.x, box.y - before.y))
        for name, at in moved_openings(house, part, box).items():
            opening = house.project.by_id[name]
            assert isinstance(opening, Opening)
            changes.append(Change((*path_of(house.project, opening), "middle"), point(at)))
    return Changes(changes, f"{part.label}: {drawn_as(width)} x {drawn_as(depth)}")


def _box(house: House, part: Part) -> Footprint | None:
    if isinstance(part, Space):
        if part.outline:
            raise ValueError(f"{part.label} is drawn by its corners; change them in the file")
        return box_of(house, part)
    box = getattr(part, "rectangle", None)
    if box is None or is_missing(box):
        return None
    x, y, width, depth = (inches(one) for one in (*box.at, box.width, box.depth))
    return Footprint(x, y, width, depth)


def _opening(house: House, asked: AddOpening) -> Changes:
    room = room_called(house, asked.room)
    outline = outline_in_inches(house, room)
    if not outline:
        raise ValueError(f"{room.label} is not drawn yet; type its size first")
    there = house.project.by_id.get(asked.part) if asked.part else None
    same = _make_of(house, asked)
    size, called, width = opening_size(asked.size or same.get("unit size", ""), there)
    place_of_it = middle_on(outline, asked.wall, _distance(outline, asked, width), width, asked.from_end)
    on = on_wall(room, outline, place_of_it)
    if isinstance(there, Opening):
        return _placed(house, there, on, size)
    other = beyond(house, room, point_on(outline, place_of_it))
    ident = free_id(house.project, "D" if asked.kind == "door" else "W")
    where = {"between": f"[{room.id}, {other}]"} if asked.kind == "door" else {"space": room.id}
    made = {**same, "unit size": size, **({"operation": one} if (one := asked.operation or called) else {})}
    if asked.kind == "window" and asked.sill.strip():
        length_in_inches(asked.sill, HEIGHT)
        made["sill height"] = asked.sill.strip()
    values = {"id": ident, "phase": asked.phase, **where, **made, "on": on}
    return Changes([added(house.project, f"{asked.kind}s", values)], f"{asked.kind} {ident} in {room.name or room.id}")


def _make_of(house: House, asked: AddOpening) -> dict[str, str]:
    """Return what an opening has from the one that it is said to be alike to: the size and make, not what lies around it."""
    like = house.project.by_id.get(asked.like)
    if not isinstance(like, Opening) or like.kind != asked.kind or like.block is None:
        return {}
    return {key: str(like.block[key]) for key in OF_MAKE if isinstance(like.block.get(key), str | int)}


def _distance(outline: list[Point], asked: AddOpening, width: float) -> float:
    """Return a typed distance in inches. Raises `MeantError` where it was short, with the ways that fit in the wall."""
    try:
        return length_in_inches(asked.distance, DISTANCE)
    except MeantError as error:
        fit = [one for one in error.meant if _fits(outline, asked.wall, inches(Length.parse(one)), width)]
        raise MeantError(error.typed, tuple(fit) or error.meant) from None


def _fits(outline: list[Point], wall: int, distance: float, width: float) -> bool:
    try:
        middle_on(outline, wall, distance, width, False)
    except ValueError:
        return False
    return True


def _placed(house: House, opening: Opening, on: str, size: str = "") -> Changes:
    """Return the changes that give `opening` its place on a wall, which takes the place of a point."""
    path = path_of(house.project, opening)
    changes = [Change((*path, "on"), on)]
    if opening.block is not None and "middle" in opening.block:
        changes.append(Change((*path, "middle"), GONE))
    if size:
        changes.append(Change((*path, "unit size"), size))
    return Changes(changes, f"place of {opening.label}")


def _slide(house: House, asked: Slide) -> Changes:
    part = house.project.by_id.get(asked.part)
    at = place(part, house) if isinstance(part, Door | Window) else None
    if not isinstance(part, Door | Window) or at is None:
        raise ValueError(f"`{asked.part}` is no door or window on the plan")
    outline = outline_in_inches(house, at.inner)
    return _placed(house, part, on_wall(at.inner, outline, nearest_wall(outline, asked.middle)))


_WAYS: dict[type[AskedByPage], Callable[[House, Any], Changes]] = {
    AddRoom: _room,
    SetRectangle: _shape,
    AddOpening: _opening,
    Slide: _slide,
    Put: tray.put,
    PutStair: tray.stair,
    PutHole: holes.hole,
    PutMember: members.member,
    SetPlace: tray.placed,
    MoveBy: _moved,
    TypeHeight: sections.height_typed,
    ShapeCeiling: sections.ceiling_shaped,
    MoveWall: shapes.wall_moved,
    Jog: shapes.jogged,
    Divide: rooms.divided,
    JoinRooms: rooms.joined_rooms,
    AddStory: levels.story_added,
}
"""How each thing that the page asks of the sketch becomes changes of the file."""
