"""What works take of the electrical plan: receptacles and lights of the new rooms, their circuits, room in the panel."""

from __future__ import annotations

from precheck_plugins.electrical.rooms import RoomOutlets, may_lack_power

from precheck import (
    ROOM_FROM,
    Appliance,
    Check,
    House,
    Missing,
    Part,
    Service,
    Space,
    Work,
    Works,
    does_not_apply,
    is_missing,
    line,
    not_shown,
    shown,
    to_show,
)

FIT_OUT = frozenset(("bath", "kitchen", "laundry", "new bedroom"))
MAKE_ROOMS = (
    *dict.fromkeys(ROOM_FROM.values()),
    "basement to room",
    "new room",
    "addition",
    "upper addition",
    "new house",
)
BATHS = frozenset(("bathroom", "toilet room"))
LIT = frozenset(("hall", "laundry")) | BATHS
WITH_RECEPTACLES = frozenset(("laundry", "bathroom"))


@line("electrical.plan")
def plan(work: Work, house: House) -> Check:
    """The electrical plan shows the receptacles and lights of each new room."""
    if not work.rooms:
        return to_show("receptacles, lights and switches of the new rooms", work)
    rooms = _new_rooms(work, house)
    if not rooms:
        return does_not_apply("its rooms stand, or are made by another work")
    lacking = [missing for room in rooms for missing in _lacking(room)]
    drawn = [part for room in rooms for part in (*room.outlets, *room.lights)]
    if lacking:
        return to_show("", work, *lacking)
    if any(not is_missing(room.space.farthest_wall_from_receptacle) for room in rooms):
        drawn_or_stated = [*(part.label for part in drawn), "receptacles as stated"]
        return shown(*dict.fromkeys(drawn_or_stated))
    return shown(*dict.fromkeys(part.label for part in drawn)) if drawn else does_not_apply("no room takes outlets")


def _new_rooms(work: Work, house: House) -> list[RoomOutlets]:
    """Return the rooms of the work that are new or become something else; those that stand have what they have.

    A bath or a bedroom in what was a garage is asked for with the garage, and not twice.
    """
    told = {room.id for other in _makers(work, house) for room in other.rooms}
    rooms = [room for room in house.subjects(RoomOutlets) if room.space in work.rooms and room.space.id not in told]
    return [room for room in rooms if room.space.changes_use or not room.space.is_existing]


def _makers(work: Work, house: House) -> tuple[Work, ...]:
    """Return the works that make the rooms of a work that only fits them out."""
    return Works.of(house).of_kinds(*MAKE_ROOMS) if work.kind in FIT_OUT else ()


def _lacking(room: RoomOutlets) -> list[Missing]:
    """Return what the plan of one room lacks, under the keys by which the rules of this topic ask for it."""
    space = room.space
    found = _without_receptacles(room) if not room.outlets else []
    if (space.is_habitable or space.use in LIT) and not room.lights:
        found += [space.absent("light")]
    return found


def _without_receptacles(room: RoomOutlets) -> list[Missing]:
    """Return what is missing of a room in which no receptacle is drawn; a stated distance along the walls will do."""
    space = room.space
    if space.is_habitable and is_missing(space.farthest_wall_from_receptacle):
        is_drawn = bool(space.outline) or not is_missing(space.rectangle)
        return [space.absent("receptacles along its walls") if is_drawn else space.farthest_wall_from_receptacle]
    if space.use in WITH_RECEPTACLES:
        return [space.absent("receptacle that serves the basin" if space.use == "bathroom" else "receptacle")]
    return []


@line("electrical.circuits")
def circuits(work: Work, house: House) -> Check:
    """The electrical plan shows which circuits serve the new rooms, and how they are protected."""
    if work.kind == "wiring" and work.parts:
        return shown(*work.parts)
    if not work.rooms:
        return to_show("circuits, with their AFCI and GFCI protection", work)
    rooms = [room for room in _new_rooms(work, house) if _takes_circuit(room.space)]
    if not rooms:
        return does_not_apply("its rooms stand, or are made by another work")
    lacking = [room.without_circuit for room in rooms if not room.circuits]
    if lacking:
        return to_show("", work, *lacking)
    return shown(*dict.fromkeys(circuit.label for room in rooms for circuit in room.circuits))


def _takes_circuit(space: Space) -> bool:
    return space.is_habitable or space.use in LIT


@line("electrical.panel-capacity")
def panel_capacity(work: Work, house: House) -> Check:
    """A load calculation shows that the service carries what is added."""
    if work.kind == "heating or cooling" and work.parts and not _adds_load(work):
        return does_not_apply("its equipment stands, or burns a fuel")
    services = [service for service in house.subjects(Service) if not service.is_removed]
    if not services:
        return to_show("size of the service, with a load calculation", work)
    unsaid = [value for one in services for value in (one.amps, one.calculated_load) if is_missing(value)]
    return not_shown(*unsaid) if unsaid else shown(*services)


def _adds_load(work: Work) -> bool:
    """Whether a work of heating or cooling puts in equipment that may run on electricity."""
    new: list[Part] = [part for part in work.parts if part.phase == "new"]
    return any(not isinstance(part, Appliance) or part.burns_fuel is not True for part in new)


@line("electrical.power")
def power(work: Work, house: House) -> Check:
    """A detached garage or shed shows its receptacle, light and circuit, or the plans rule wiring out."""
    spaces = [space for space in work.parts_of(Space) if may_lack_power(space)]
    if work.parts and not spaces:
        return does_not_apply("it is no garage, shed or workshop")
    wired = {room.space.id for room in house.subjects(RoomOutlets)}
    bare = [
        space.absent("wiring, or that there is none (under `not in this job`)")
        for space in spaces
        if space.id not in wired
    ]
    if bare or not spaces:
        return to_show("wiring, or that there is none (under `not in this job`)", work, *bare)
    return shown(*spaces)
