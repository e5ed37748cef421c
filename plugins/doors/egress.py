"""The required egress door: that there is one, its form and size, where it leads, and that it opens without a key."""

from __future__ import annotations

from precheck_plugins.doors.sides import DoorSide, EgressDoor, RoomWay, inside_of, is_egress

from precheck import (
    Check,
    Door,
    DwellingUnit,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Space,
    WayOut,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    if_stated,
    is_missing,
    is_outdoors,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    outlook_of,
    reads,
    required,
    rule,
    when_given,
)

ANOTHER = "make another door the required one, that opens from the house to a yard or street"


class EgressDoorLimits(Limits):
    minimum: Limit[int]


@rule("doors.egress-door", stage="plan")
def egress_door(unit: DwellingUnit, limit: EgressDoorLimits, house: House) -> Check:
    """Each dwelling unit has a required egress door, and the drawings say which it is.

    A door out of a space that the units share serves each of them. A door between two rooms, or out of a garage, is none.
    Where the house stands and no door out of it is changed, none need be named.
    """
    serves = [unit.is_left_by(door) for door in house.subjects(Door) if is_egress(door, house)]
    unsure, named = missing_of(*serves), serves.count(True)
    if not named and unsure is None and not _asked_for(unit, house):
        return does_not_apply("the work leaves the doors out of the house as they are")
    check = at_least(named, limit.minimum)
    if unsure is not None and check.outcome is Outcome.FAIL:
        return not_shown(unsure)
    asked = unit.lacks("required egress door", "mark one `required egress: yes`")
    return check if named else at_least(asked, limit.minimum)


class EgressFormLimits(Limits):
    kinds: Limit[tuple[str, ...]]


@rule("doors.egress-door-form", stage="plan")
def egress_door_form(way: EgressDoor, limit: EgressFormLimits, house: House) -> Check:
    """The required egress door is side-hinged."""
    door = way.door
    if not is_egress(door, house):
        return _not_required()
    return one_of(door.operation, limit.kinds).or_fix(
        "hang a side-hinged door here, or make another door the required one",
        lambda: [NewValue(door, "operation", "side-hinged")],
    )


class EgressSizeLimits(Limits):
    width: Limit[Length]
    height: Limit[Length]
    leaf: Limit[Length]


@rule("doors.egress-door-size", stage="plan")
def egress_door_size(way: EgressDoor, limit: EgressSizeLimits, house: House) -> Check:
    """The required egress door gives the minimum clear width and height, measured with the door open.

    A leaf that stands open takes its thickness from the width, so that no door opens as wide as its unit is.
    """
    door = way.door
    if not is_egress(door, house):
        return _not_required()
    leaf = limit.leaf.value
    most = when_given(lambda unit: unit.width if leaf is None else unit.width - leaf, door.unit_size)
    return all_of(
        _clear(door.clear_width, most, limit.width).or_fix(
            lambda: f"use a wider door, which opens {limit.width.value} clear",
            lambda: (
                [NewValue(door, "clear_width", limit.width.value)]
                if is_missing(most) or most >= limit.width.value
                else []
            ),
            decide="which way to take",
        ),
        does_not_apply("unit size: not stated" if is_missing(door.unit_size) else "unit size: counted"),
        at_least(door.clear_height, limit.height).or_fix(
            lambda: f"raise the head to {limit.height.value} clear",
            lambda: [NewValue(door, "clear_height", limit.height.value)],
        ),
    )


def _clear(stated: Length | Missing, most: Length | Missing, limit: Limit[Length]) -> Check:
    """Judge the clear width as stated, or the `most` that the unit gives where that is less, or is too little already."""
    if is_missing(most) or (not is_missing(stated) and stated <= most):
        return at_least(stated, limit)
    possible = at_least(most, limit, "the most that a unit so wide opens")
    return at_least(stated, limit) if is_missing(stated) and possible.outcome is not Outcome.FAIL else possible


class EgressRouteLimits(Limits):
    garages: Limit[int]
    leads_to: Limit[tuple[str, ...]]


@rule("doors.egress-door-route", stage="plan", existing="must comply")
def egress_door_route(door: Door, limit: EgressRouteLimits, house: House) -> Check:
    """The required egress door leads out of the house, not into a garage or another room, and toward a public way."""
    if door.required_egress is not True:
        return _not_required()
    if not any(is_outdoors(side, house) or _is_garage(house.space(side)) for side in door.between):
        inside = (
            f"{door.id} joins {' and '.join(door.between)}, and a door between two rooms is no way out of the house"
        )
        return broken(inside, limit.leads_to).or_fix(ANOTHER)
    garages = sum(_is_garage(space) for space in house.sides(door))
    carport = look_at(Look.OFFICIAL, "it opens to a carport, which is no yard; ask whether the way out may pass it")
    leads = carport if door.opens_to == "carport" else one_of(door.opens_to, limit.leads_to).or_fix(ANOTHER)
    if is_missing(door.opens_to) and _opens_as_it_did(door, house):
        leads = does_not_apply("it stands, and no part of the work is said to change where it leads")
    joins = f"{door.id} joins {' and '.join(door.between)}"
    return all_of(at_most(garages, limit.garages, joins).or_fix(ANOTHER), leads)


def _opens_as_it_did(door: Door, house: House) -> bool:
    """Return whether a door that stands has nothing before it that is new, altered or taken away."""
    room = inside_of(door, house)
    before = () if room is None else outlook_of(door, room, house)
    return door.is_existing and all(space.is_existing for space in before)


class WayOutLimits(Limits):
    garages: Limit[int] = reads("doors.egress-door-route.garages")


@rule("doors.way-out", stage="plan")
def way_out_of(need: RoomWay, limit: WayOutLimits) -> Check:
    """Every habitable room, and each new bath or hall, has a way to the required egress door that does not pass through a garage.

    The walk goes through doors, halls and stairs as drawn. Where it comes to rooms that stand and are not drawn whole, it is
    taken to go on from there.
    """
    room = need.room
    if isinstance(need.way, WayOut):
        found = f"the way out of {room.id}: {need.way}"
        other = f"{found}, which is not marked as the required egress door, and none leads to that one inside the house"
        return look_at(Look.OFFICIAL, other) if need.ends_elsewhere and need.garage is not None else met(found)
    if is_missing(need.way) and need.garage is not None and need.loses_a_way:
        return not_shown(need.way)  # the way that is left and drawn passes the garage
    if is_missing(need.way):
        return does_not_apply(f"the way out of {room.id} goes on through rooms that stand, and are not drawn whole")
    if need.garage is not None:
        only = f"the only way out of {room.id} that is drawn goes through {need.garage.label}: {need.trail}"
        return at_most(1, limit.garages, only).or_fix(
            f"add a door from {room.id} to a hall or to the outside", decide="where it goes"
        )
    if need.phase == "existing" or (room.keeps_its_use and not need.is_entered):
        return does_not_apply(f"no way out of {room.id} is drawn, and nothing there is changed")
    return not_shown(room.absent("door or stair on the way out"))


class EgressReleaseLimits(Limits):
    without_key: Limit[bool]


@rule("doors.egress-door-release", stage="final")
def egress_door_release(way: EgressDoor, limit: EgressReleaseLimits, house: House) -> Check:
    """The required egress door opens from inside without a key or special knowledge.

    The lock is looked at in the field; the plans need not say it.
    """
    door = way.door
    if not is_egress(door, house):
        return _not_required()
    return if_stated(door.opens_without_key, required, limit.without_key).or_fix(
        "fit a lock that opens from inside without a key", lambda: [NewValue(door, "opens_without_key", "yes")]
    )


class EgressToGradeLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("doors.egress-door-to-grade", stage="plan")
def egress_door_to_grade(side: DoorSide, limit: EgressToGradeLimits) -> Check:
    """The landing at the required egress door is at grade, or a stair or ramp leads down from it."""
    if side.door.required_egress is not True or not side.outdoors:
        return _not_required()
    return one_of(side.of_landing("to_grade"), limit.ways).or_fix("draw a stair or ramp from the landing to grade")


def _asked_for(unit: DwellingUnit, house: House) -> bool:
    """Whether the work makes one ask which door it is: a new house or unit, or a change to a door that leads out of it.

    A door that is added to a house that stands takes nothing from the door by which people leave it today.
    """
    doors = house.project.doors
    changed = any(door.phase in ("altered", "removed") and _leads_out(door, house) for door in doors)
    named = any(door.phase != "existing" and door.required_egress is True for door in doors)
    new = unit.scope.new_house is True or (is_missing(unit.scope.new_house) and bool(house.spaces))
    return changed or named or bool(unit.name) or new


def _leads_out(door: Door, house: House) -> bool:
    """Whether people leave the house by `door`; that of a detached building is none of the house."""
    if any(space is not None and space.detached is True for space in house.sides(door)):
        return False
    return any(is_outdoors(side, house) for side in door.between) and door.operation not in ("vehicle", "hatch")


def _is_garage(space: Space | None) -> bool:
    return space is not None and space.use == "garage"


def _not_required() -> Check:
    return does_not_apply("not the required egress door, or none by which people leave the house")
