"""The required egress door: that there is one, its form and size, where it leads, and that it opens without a key."""

from __future__ import annotations

from precheck_plugins.doors.sides import DoorSide, is_marked

from precheck import (
    Check,
    Door,
    DwellingUnit,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Outcome,
    all_of,
    at_least,
    at_most,
    does_not_apply,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    one_of,
    required,
    rule,
)

ANOTHER = "make another door the required one, that opens from the house to a yard or street"


class EgressDoorLimits(Limits):
    minimum: Limit[int]


@rule("doors.egress-door", stage="plan")
def egress_door(unit: DwellingUnit, limit: EgressDoorLimits, house: House) -> Check:
    """Each dwelling unit has a required egress door, and the drawings say which it is.

    A door out of a space that the units share serves each of them.
    """
    serves = [unit.is_left_by(door) for door in house.subjects(Door) if is_marked(door)]
    unsure, named = missing_of(*serves), serves.count(True)
    check = at_least(named, limit.minimum)
    if unsure is not None and check.outcome is Outcome.FAIL:
        return not_shown(unsure)
    asked = unit.lacks("required egress door", "mark one `required egress: yes`")
    return check if named else at_least(asked, limit.minimum)


class EgressFormLimits(Limits):
    kinds: Limit[tuple[str, ...]]


@rule("doors.egress-door-form", stage="plan")
def egress_door_form(door: Door, limit: EgressFormLimits) -> Check:
    """The required egress door turns on side hinges."""
    if door.required_egress is not True:
        return _not_required()
    return one_of(door.operation, limit.kinds).or_fix(
        "hang a side-hinged door here, or make another door the required one"
    )


class EgressSizeLimits(Limits):
    width: Limit[Length]
    height: Limit[Length]


@rule("doors.egress-door-size", stage="plan")
def egress_door_size(door: Door, limit: EgressSizeLimits) -> Check:
    """The required egress door gives a clear opening of the least width and height, measured with the door open."""
    if door.required_egress is not True:
        return _not_required()
    return all_of(
        at_least(door.clear_width, limit.width).or_fix(lambda: f"choose a leaf that opens {limit.width.value} clear"),
        at_least(door.clear_height, limit.height).or_fix(lambda: f"raise the head to {limit.height.value} clear"),
    )


class EgressRouteLimits(Limits):
    garages: Limit[int]
    leads_to: Limit[tuple[str, ...]]


@rule("doors.egress-door-route", stage="plan", existing="must comply")
def egress_door_route(door: Door, limit: EgressRouteLimits, house: House) -> Check:
    """The way to the required egress door does not pass through a garage, and the door opens toward a public way."""
    if door.required_egress is not True:
        return _not_required()
    garages = sum(space is not None and space.use == "garage" for space in house.sides(door))
    carport = look_at(Look.OFFICIAL, "it opens to a carport, which is no yard; ask whether the way out may pass it")
    leads = carport if door.opens_to == "carport" else one_of(door.opens_to, limit.leads_to).or_fix(ANOTHER)
    joins = f"{door.id} joins {' and '.join(door.between)}"
    return all_of(at_most(garages, limit.garages, joins).or_fix(ANOTHER), leads)


class EgressReleaseLimits(Limits):
    without_key: Limit[bool]


@rule("doors.egress-door-release", stage="final")
def egress_door_release(door: Door, limit: EgressReleaseLimits) -> Check:
    """The required egress door opens from inside without a key or special knowledge."""
    if door.required_egress is not True:
        return _not_required()
    asked = door.absent("`opens without key: yes or no`")
    opens = asked if is_missing(door.opens_without_key) else door.opens_without_key
    return required(opens, limit.without_key).or_fix("fit a lock that opens from inside without a key")


class EgressToGradeLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("doors.egress-door-to-grade", stage="plan")
def egress_door_to_grade(side: DoorSide, limit: EgressToGradeLimits) -> Check:
    """The landing at the required egress door is at grade, or a stair or ramp leads down from it."""
    if side.door.required_egress is not True or not side.outdoors:
        return _not_required()
    return one_of(side.of_landing("to_grade"), limit.ways).or_fix("draw a stair or ramp from the landing to grade")


def _not_required() -> Check:
    return does_not_apply("not the required egress door")
