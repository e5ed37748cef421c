"""What works in an old house take: what stood in the new room, and what becomes of the equipment in it."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Appliance, Check, Fixture, House, Part, Space, Work, is_missing, line, missing_of, shown, to_show

EQUIPMENT = frozenset(("water heater", "furnace", "boiler", "air handler", "clothes dryer"))
LAUNDRY = frozenset(("clothes washer", "laundry sink"))
WATER, WARMTH = frozenset(("water heater",)), frozenset(("furnace", "boiler", "air handler", "heat pump", "mini-split"))


@line("existing.what-stood-there", stage="intake")
def what_stood_there(work: Work, house: House) -> Check:
    """Of a new room the plans say what it was before, or that it is an addition."""
    room = work.parts[0] if work.parts else None
    told = "what it was before (`was`), or `addition: yes`"
    return to_show(told if isinstance(room, Space) else "the new room, and what it was before", work)


@line("existing.water-heater-and-furnace", stage="plan")
def water_heater_and_furnace(work: Work, house: House) -> Check:
    """The plans say what becomes of the water heater, furnace or laundry that stood where the room is made.

    What is drawn there, to stay or to go, settles it; so does where in the house the water heater and the heat are instead.
    """
    spaces = {space.id for space in work.parts_of(Space)} | {s.id for s in house.project.spaces if _was_one(s, work)}
    there = [part for part in _equipment(house) if str(getattr(part, "space", "")) in spaces]
    unsaid = missing_of(*(part.phase for part in there))
    if there:
        return shown(*there) if unsaid is None else to_show("", work, unsaid)
    elsewhere = [_first(house, kinds) for kinds in (WATER, WARMTH)]
    found = [part for part in elsewhere if part is not None]
    if len(found) == len(elsewhere):
        return shown(*found)
    return to_show("what becomes of the water heater, furnace and laundry", work)


@line("existing.overhead-door", stage="intake")
def overhead_door(work: Work, house: House) -> Check:
    """The plans say what becomes of the overhead door of a garage that is made a room: taken out, or kept for what stays.

    One that stays in the wall of the room itself is not told of yet.
    """
    rooms = {space.id for space in work.parts_of(Space)}
    doors = [door for door in house.project.doors if door.operation == "vehicle"]
    told = [d for d in doors if d.is_removed or (not is_missing(d.phase) and not rooms.intersection(d.between))]
    return shown(*told) if told else to_show("what becomes of the overhead door", work)


@line("existing.what-changes", stage="intake")
def what_changes(work: Work, house: House) -> Check:
    """A room that is called altered has something that changes in it, which the plans show."""
    rooms = work.parts_of(Space)
    others = [part for part in work.parts if part not in rooms]
    if others or any(room.changes_use or room.phase == "new" for room in rooms):
        return shown(*(others or rooms))
    return to_show("what changes in the room" if rooms else "what the other work is", work)


def _was_one(space: Space, work: Work) -> bool:
    """Return whether a space that goes, or stays beside it, is of the kind that the work makes a room of."""
    return not work.kind.startswith("basement") and str(space.use) == work.kind.partition(" to ")[0]


def _equipment(house: House) -> Iterator[Part]:
    yield from (a for a in house.project.appliances if a.what in EQUIPMENT)
    yield from (f for f in house.project.fixtures if isinstance(f, Fixture) and f.what in LAUNDRY)


def _first(house: House, kinds: frozenset[str]) -> Appliance | None:
    """Return the first appliance of `kinds` that stands today and stays."""
    return next((a for a in house.project.appliances if a.what in kinds and a.phase in ("existing", "altered")), None)
