"""Openings through a floor, a ceiling or a roof, put on the plan: over the stair that comes up there, or of a typed size."""

from __future__ import annotations

from precheck.board.asked_of_tray import PutHole
from precheck.board.changing import Change, Changes, added, path_of
from precheck.board.sketch import Footprint, rectangle
from precheck.board.spots import spotted
from precheck.board.tray import around, box_of_part, room_called
from precheck.board.typed import room_size
from precheck.project import FramedOpening, Part, Stair
from precheck.questions.addition import free_id
from precheck.survey import House


def hole(house: House, asked: PutHole) -> Changes:
    """Return the changes that put an opening on the plan, one of the file where `part` names it. Raises ValueError."""
    room = room_called(house, asked.room)
    stair = house.project.by_id.get(asked.stair) if asked.stair else None
    if asked.stair and not isinstance(stair, Stair):
        raise ValueError(f"there is no stair `{asked.stair}`")
    values = {
        "through": asked.through,
        "space": room.id,
        "rectangle": rectangle(_box(house, asked, stair)),
        **({"stair": asked.stair} if asked.stair else {}),
        **({"joists run": asked.joists} if asked.joists else {}),
    }
    there = house.project.by_id.get(asked.part)
    if isinstance(there, FramedOpening):
        path = path_of(house.project, there)
        return Changes([Change((*path, key), value) for key, value in values.items()], f"place of {there.label}")
    ident = free_id(house.project, "FO")
    new = {"id": ident, "phase": asked.phase, **values}
    return Changes([added(house.project, "framed openings", new)], f"opening {ident} in {room.name or room.id}")


def _box(house: House, asked: PutHole, stair: Part | None) -> Footprint:
    """Return what is cut out in plan: as typed and placed; what is not typed is as it is of the stair below."""
    below = box_of_part(stair) if stair is not None else None
    if not asked.size.strip() and below is None:
        raise ValueError("type its size, such as 3'-0\" x 10'-6\", or choose a stair that is drawn, which gives it")
    size = room_size(asked.size) if asked.size.strip() else (below.width, below.depth) if below is not None else (0, 0)
    placed = asked.at is not None or asked.from_west.strip() or asked.from_south.strip()
    if not placed and below is not None:
        return Footprint(below.x, below.y, *size)
    return around(spotted(house, room_called(house, asked.room), asked, size), size)
