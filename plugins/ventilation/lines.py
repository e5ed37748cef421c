"""What works take of moving air: supply and return in new rooms, a fan in a bath, a duct for the dryer."""

from __future__ import annotations

from precheck import (
    Appliance,
    Check,
    DryerDuct,
    DuctRun,
    Exhaust,
    Fixture,
    Heating,
    House,
    Missing,
    Space,
    Window,
    Work,
    does_not_apply,
    is_missing,
    line,
    not_shown,
    shown,
    to_show,
)

BATHS = frozenset(("bathroom", "toilet room"))
IN_THE_ROOM = frozenset(("mini-split", "heat pump"))  # equipment that heats the room in which it stands, without ducts


@line("ventilation.supply-and-return")
def supply_and_return(work: Work, house: House) -> Check:
    """The plans show the ducts, supply and return air of new habitable rooms with forced-air heating."""
    if not work.rooms:
        return to_show("supply and return air of the new rooms, where the heating is forced air", work)
    heated = [room for room in work.rooms if room.conditioned is not False and room.was_conditioned is not True]
    rooms = [room for room in heated if room.is_habitable]
    by_air = [found for room in rooms for found in _forced_air(room, house)]
    unsaid = [one for one in by_air if isinstance(one, Missing)]
    if unsaid:
        return not_shown(*unsaid)
    heating = [one for one in by_air if isinstance(one, Heating)]
    if not heating:
        return does_not_apply("no forced air heats its rooms")
    lacking = [
        room.absent(f"{what} air")
        for room in rooms
        for what, there in (("supply", _supplied(room, heating)), ("return", _returned(room, heating)))
        if not there and _is_served(room, heating)
    ]
    ducts = [duct for duct in house.subjects(DuctRun) if not duct.is_removed]
    lacking += [heating[0].absent("ducts, and where they run")] if not ducts else []
    return to_show("", work, *lacking) if lacking else shown(*dict.fromkeys((*heating, *ducts)))


def _forced_air(room: Space, house: House) -> list[Heating | Missing]:
    """Return the heating of `room` that is forced air, and what is missing to know whether there is some."""
    serving = [heating for heating in house.subjects(Heating) if room.id in heating.serves and not heating.is_removed]
    standing = [a for a in house.subjects(Appliance) if a.space == room.id and a.what in IN_THE_ROOM]
    if not serving and not [appliance for appliance in standing if not appliance.is_removed]:
        return [room.absent("heating")]
    unsaid = [heating.forced_air for heating in serving if is_missing(heating.forced_air)]
    return [*unsaid, *(heating for heating in serving if heating.forced_air is True)]


def _is_served(room: Space, heating: list[Heating]) -> bool:
    return any(room.id in one.serves for one in heating)


def _supplied(room: Space, heating: list[Heating]) -> bool:
    return any(room.id in one.supply_in for one in heating)


def _returned(room: Space, heating: list[Heating]) -> bool:
    return any(room.id in one.return_from for one in heating)


@line("ventilation.bath-fan")
def bath_fan(work: Work, house: House) -> Check:
    """The plans show the exhaust fan or window of the new bath."""
    if not work.rooms:
        return to_show("exhaust fan of the bath, ducted outdoors (or a window large enough)", work)
    baths = [room for room in work.rooms if room.use in BATHS and (room.changes_use or not room.is_existing)]
    if not baths:
        return does_not_apply("the room stands")
    found = {bath.id: _airing(bath, house) for bath in baths}
    lacking = [bath.absent("exhaust fan (or a window large enough)") for bath in baths if not found[bath.id]]
    return to_show("", work, *lacking) if lacking else shown(*(drawn[0] for drawn in found.values()))


def _airing(bath: Space, house: House) -> list[Exhaust | Window]:
    """Return the fans of a bath, else its windows that open; `light-and-air.bathroom` judges whether they are enough."""
    fans = [fan for fan in house.subjects(Exhaust) if fan.space == bath.id and not fan.is_removed]
    windows = [w for w in house.openings_of(bath) if isinstance(w, Window) and w.can_open]
    return [*(fan for fan in fans if fan.what != "range hood"), *windows]


@line("ventilation.dryer")
def dryer(work: Work, house: House) -> Check:
    """The plans show the duct of the clothes dryer in the new laundry."""
    if not work.rooms:
        return to_show("dryer duct, with its length and where it ends", work)
    if work.parts and all(isinstance(part, Fixture) and part.replacement is True for part in work.parts):
        return does_not_apply("its fixtures take the place of others")
    rooms = {room.id for room in work.rooms}
    ducts = [duct for duct in house.subjects(DryerDuct) if duct.space in rooms and not duct.is_removed]
    return shown(*ducts) if ducts else to_show("", work, work.rooms[0].absent("dryer duct"))
