"""What is put on the plan from the tray, placed by typed distances and moved by hand, as changes of the project file."""

from __future__ import annotations

from precheck.board.asked_of_tray import MoveBy, Put, PutStair, SetPlace
from precheck.board.changing import GONE, Change, Changes, Steps, added, path_of
from precheck.board.sketch import Footprint, Point, drawn_as, point, rectangle
from precheck.board.spots import Spotted, against_wall, room_at, spotted
from precheck.board.typed import length_in_inches, room_size
from precheck.files.missing import is_missing
from precheck.project import Part, Space, Stair
from precheck.questions.addition import free_id
from precheck.questions.typed import DISTANCE, Likely
from precheck.reports.drawings.svg import inches
from precheck.survey import House
from precheck.units import Length

LETTERS = {"alarms": "SA", "lights": "LT", "receptacles": "R", "fixtures": "FX", "appliances": "AP", "exhausts": "EX",
           "panels": "PN"}  # fmt: skip
FIXTURE = {"toilet": (30, 28), "lavatory": (24, 21), "shower": (36, 36), "tub": (60, 30), "tub with shower": (60, 30),
           "kitchen sink": (33, 22), "clothes washer": (27, 30), "bidet": (30, 28)}  # fmt: skip
"""Sizes in inches with which a fixture is drawn at first, common practice; a person types others."""
TREAD = Likely(Length.parse("6 in"), Length.parse("20 in"))
IN_WALLS = frozenset(("receptacles", "panels"))  # what is in a wall, so that a click beside one means it
ON_WALLS = IN_WALLS | {"alarms", "lights"}  # what the file can hold a place on a wall of


def room_called(house: House, name: str) -> Space:
    """Return the space of an id. Raises ValueError where there is none."""
    found = house.space(name)
    if found is None:
        raise ValueError(f"there is no room `{name}`; choose one on the plan")
    return found


def put(house: House, asked: Put) -> Changes:
    """Return the change that adds a thing to a room. Raises ValueError with what is wrong, for a person."""
    room = room_called(house, asked.room)
    values = {"id": free_id(house.project, LETTERS[asked.section]), "phase": asked.phase, "space": room.id}
    if asked.section == "fixtures":
        size = room_size(asked.size) if asked.size.strip() else FIXTURE.get(asked.what, (24, 24))
        values |= {"what": asked.what, "rectangle": rectangle(around(spotted(house, room, asked, size), size))}
        return Changes([added(house.project, asked.section, values)], f"{asked.what} in {room.name or room.id}")
    found = spotted(house, room, asked)
    if asked.section in IN_WALLS:
        found = against_wall(house, room, found)
    on = asked.section in ON_WALLS and found.on
    called = {"detects": f"[{asked.what or 'smoke'}]"} if asked.section == "alarms" else {"what": asked.what}
    values |= called | ({"on": found.on} if on else {"at": point(found.middle)})
    return Changes(
        [added(house.project, asked.section, values)], f"{asked.what or asked.section} in {room.name or room.id}"
    )


def around(found: Spotted, size: tuple[float, float]) -> Footprint:
    """Return the box of a size, in inches, with its middle where something was spotted."""
    (x, y), (width, depth) = found.middle, size
    return Footprint(x - width / 2, y - depth / 2, width, depth)


def stair(house: House, asked: PutStair) -> Changes:
    """Return the changes that put a stair on the plan, one that is in the file where `part` names it."""
    lower = room_called(house, asked.lower)
    if asked.upper != "outside":
        room_called(house, asked.upper)
    if asked.upper == lower.id:
        raise ValueError("a stair joins two rooms; choose the one that it goes up to")
    width, run = length_in_inches(asked.width, DISTANCE), length_in_inches(asked.run, DISTANCE)
    across = (run, width) if asked.climbs in ("left", "right") else (width, run)
    box = rectangle(_stair_box(house, lower, asked, across))
    values = {
        "between": f"[{lower.id}, {asked.upper}]",
        "width": drawn_as(width),
        "rectangle": box,
        "climbs": asked.climbs,
    }
    if asked.risers.strip():
        values["risers"] = asked.risers.strip()
    there = house.project.by_id.get(asked.part)
    if isinstance(there, Stair):
        path = path_of(house.project, there)
        flight = [Change((*path, "flights", 0, "tread"), _tread(asked.tread))] if asked.tread.strip() else []
        changes = [Change((*path, key), value) for key, value in values.items()]
        return Changes([*changes, *flight], f"place of {there.label}")
    ident = free_id(house.project, "ST")
    flights = {"flights": f"[{{tread: {_tread(asked.tread)}}}]"} if asked.tread.strip() else {}
    new = {"id": ident, "phase": asked.phase, **values, **flights}
    return Changes([added(house.project, "stairs", new)], f"stair {ident} from {lower.name or lower.id}")


def _tread(text: str) -> str:
    return drawn_as(length_in_inches(text, TREAD))


def _stair_box(house: House, lower: Space, asked: PutStair, size: tuple[float, float]) -> Footprint:
    if asked.at is not None and not asked.from_west.strip() and not asked.from_south.strip():
        return Footprint(*asked.at, *size)
    typed = SetPlace(
        do="place", part="stair", from_west=asked.from_west or "0 in", from_south=asked.from_south or "0 in"
    )
    return around(spotted(house, lower, typed, size), size)


def placed(house: House, asked: SetPlace) -> Changes:
    """Return the changes that give a thing of the file its place in its room, or in another."""
    part = house.project.by_id.get(asked.part)
    if part is None:
        raise ValueError(f"there is no part `{asked.part}`")
    room = room_called(house, asked.room or _room_of(part, house))
    path, box = path_of(house.project, part), box_of_part(part)
    size = (box.width, box.depth) if box is not None else (0.0, 0.0)
    found = spotted(house, room, asked, size)
    changes = _written(path, part, found)
    if asked.room and getattr(part, "space", asked.room) != asked.room:
        changes.append(Change((*path, "space"), asked.room))
    return Changes(changes, f"place of {part.label}")


def _written(path: Steps, part: Part, found: Spotted) -> list[Change]:
    """Return the changes that give `part` a place, in the way in which its kind can hold it."""
    box = box_of_part(part)
    if box is not None:
        return [Change((*path, "rectangle"), rectangle(around(found, (box.width, box.depth))))]
    if not hasattr(part, "at"):
        raise ValueError(f"{part.label} has no place that can be set here; change it in the file")
    if found.on and hasattr(part, "on"):
        return [*_without(path, part, "at"), Change((*path, "on"), found.on)]
    return [*_without(path, part, "on"), Change((*path, "at"), point(found.middle))]


def moved_to(path: Steps, part: Part, at: Point) -> list[Change]:
    """Return the changes that put the middle of `part` to a point, as its rectangle or its place at a point."""
    return _written(path, part, Spotted(at))


def _without(path: Steps, part: Part, key: str) -> list[Change]:
    return [Change((*path, key), GONE)] if part.block is not None and key in part.block else []


def moved(house: House, asked: MoveBy) -> Changes:
    """Return the changes that move what is drawn by inches; what leaves its room for another belongs to that."""
    part = house.project.by_id.get(asked.part)
    middle = None if part is None else middle_of(part)
    if part is None or middle is None:
        raise ValueError(f"`{asked.part}` is not drawn by itself; move its room or its wall")
    to = (middle[0] + asked.by[0], middle[1] + asked.by[1])
    path, changes = path_of(house.project, part), []
    room = house.space(str(getattr(part, "space", "")))
    if room is not None:
        story = "" if is_missing(room.story) else room.story
        new = room_at(house, story, to)
        if new is not None and new is not room and not _holds(house, room, to):
            changes.append(Change((*path, "space"), new.id))
            room = new
    found = Spotted(to)
    if room is not None and not is_missing(getattr(part, "on", part.absent("on"))):
        found = against_wall(house, room, found, reach=float("inf"))
    return Changes([*_written(path, part, found), *changes], f"place of {part.label}")


def _holds(house: House, room: Space, at: Point) -> bool:
    """Whether a point lies in `room`, or in its walls, so that a thing there stays of it."""
    story = "" if is_missing(room.story) else room.story
    return room_at(house, story, at) is room


def middle_of(part: Part) -> Point | None:
    """Return the middle of what is drawn at a point or as a rectangle, in inches; None for what is not."""
    box = box_of_part(part)
    if box is not None:
        return box.x + box.width / 2, box.y + box.depth / 2
    at = getattr(part, "at", part.absent("at"))
    return None if is_missing(at) else (inches(at[0]), inches(at[1]))


def box_of_part(part: Part) -> Footprint | None:
    """Return the rectangle of a part in inches; None where it has none."""
    box = getattr(part, "rectangle", part.absent("rectangle"))
    return None if is_missing(box) else Footprint(*(inches(one) for one in (*box.at, box.width, box.depth)))


def _room_of(part: Part, house: House) -> str:
    if isinstance(part, Stair):
        return part.between[0]
    named = str(getattr(part, "space", ""))
    if house.space(named) is None:
        raise ValueError(f"choose the room in which {part.label} is")
    return named
