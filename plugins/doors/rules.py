"""Doors: landings, thresholds and steps, and the required egress door."""

from __future__ import annotations

from typing import NamedTuple

from precheck_plugins.doors.sides import DoorSide, VehicleDoor

from precheck import (
    Check,
    Door,
    House,
    Length,
    Limit,
    Missing,
    Project,
    Ratio,
    Slope,
    Stair,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    met,
    one_of,
    required,
    rule,
    when_given,
)

SAME_LEVEL = Length.parse("1/4 in")  # two sheets that give a level this close to each other agree


class LandingLimits(NamedTuple):
    on_each_side: Limit[bool]
    risers_without: Limit[int]


@rule("doors.landing", stage="framing")
def landing(side: DoorSide, limit: LandingLimits) -> Check:
    """An exterior door has a floor or landing on each side.

    A door that is not the required egress door may go without the one at the top of an outside stair of a few risers,
    if it does not swing over that stair.
    """
    if not side.outdoors:
        return required(True, limit.on_each_side, f"floor of {side.side} inside")
    if side.landing is None:
        drawn = not is_missing(side.floor_here) or side.door.absent("landing outside")
        return required(drawn, limit.on_each_side, "landing or floor outside")
    if not side.landing.none:
        return required(True, limit.on_each_side, "landing outside")
    without = required(False, limit.on_each_side, "landing outside").or_fix(
        "draw a landing, or turn the door to swing inward"
    )
    few = at_most(side.landing.risers, limit.risers_without)
    return decide(side.door.required_egress, without, decide(side.swings_over, without, few))


class LandingSizeLimits(NamedTuple):
    depth: Limit[Length]
    width: Limit[Ratio]


@rule("doors.landing-size", stage="framing")
def landing_size(side: DoorSide, limit: LandingSizeLimits) -> Check:
    """The landing outside is deep enough along the way and as wide as the door."""
    if not side.outdoors or (side.landing is None and not is_missing(side.floor_here)):
        return does_not_apply("a floor of a room or carport serves as the landing")
    if side.landing is not None and side.landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    width, door = side.of_landing("width"), door_width(side.door)
    share = when_given(lambda own, leaf: Ratio(own / leaf), width, door)
    return all_of(
        at_least(side.of_landing("depth"), limit.depth),
        at_least(share, limit.width, lambda: f"{width} landing / {door} door"),
    )


class LandingSlopeLimits(NamedTuple):
    steepest: Limit[Slope]


@rule("doors.landing-slope", stage="final")
def landing_slope(side: DoorSide, limit: LandingSlopeLimits) -> Check:
    """A landing outside slopes no more than drainage needs."""
    if not side.outdoors or side.landing is None or side.landing.none:
        return does_not_apply("no landing of its own is drawn on this side")
    return at_most(side.landing.slope, limit.steepest)


class EgressStepLimits(NamedTuple):
    threshold: Limit[Length]
    outside_without_swing: Limit[Length]


@rule("doors.step-at-egress-door", stage="framing")
def step_at_egress_door(side: DoorSide, limit: EgressStepLimits) -> Check:
    """Floor and landing at the required egress door lie just below its threshold.

    Outside, where the door does not swing over the landing, the landing may lie one riser below.
    """
    if side.door.required_egress is not True:
        return does_not_apply("not the required egress door")
    if side.landing is not None and side.landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    low = at_most(side.drop, limit.threshold, lambda: side.how).or_fix(
        lambda: f"raise the landing to {limit.threshold.value} below the threshold, or let the door swing away from it"
    )
    if not side.outdoors:
        return low
    return any_of(low, decide(side.swings_over, low, at_most(side.drop, limit.outside_without_swing, lambda: side.how)))


class OtherStepLimits(NamedTuple):
    lowest: Limit[Length]


@rule("doors.step-at-other-door", stage="framing")
def step_at_other_door(side: DoorSide, limit: OtherStepLimits) -> Check:
    """The landing at any other exterior door lies no more than one riser below the top of its threshold."""
    if side.door.required_egress is True:
        return does_not_apply("the required egress door has a limit of its own")
    if side.landing is not None and side.landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    drop = first_given(side.drop, Length(0)) if not side.outdoors else side.drop
    return at_most(drop, limit.lowest, lambda: side.how).or_fix(
        lambda: (
            f"raise the landing by {side.drop - limit.lowest.value}, or add a step with a landing of its own at the top"
        )
    )


@rule("doors.levels-agree", stage="intake", existing="must comply")
def levels_agree(side: DoorSide) -> Check:
    """The step drawn at a door agrees with the floor build-up and the levels of the sheets."""
    if side.landing is None:
        return does_not_apply("the step is drawn once")
    return agrees(side.landing.drop, side.drop_by_levels, "the step at the door", SAME_LEVEL, "from the levels drawn")


class GarageStepLimits(NamedTuple):
    tallest: Limit[Length]


@rule("doors.step-at-garage-door", stage="framing")
def step_at_garage_door(pair: VehicleDoor, limit: GarageStepLimits, house: House) -> Check:
    """The step between house and garage is one riser at most; a greater one needs a stair."""
    stairs = [
        s for s in house.subjects(Stair) if set(s.between) == {pair.room.id, pair.vehicles.id} and not s.is_removed
    ]
    if stairs:
        return met(f"{stairs[0].label} takes up the step, and the rules for stairs judge it")
    how = f"finished floor of {pair.room.id} above that of {pair.vehicles.id}"
    return at_most(pair.step, limit.tallest, how).or_fix("draw a stair at this door, with its risers and landing")


class StepDownLimits(NamedTuple):
    least: Limit[Length]


@rule("doors.step-down-to-vehicles", stage="plan")
def step_down_to_vehicles(pair: VehicleDoor, limit: StepDownLimits) -> Check:
    """Good practice: the living floor lies above the floor of a garage or carport, so that blown water stays out."""
    how = f"finished floor of {pair.room.id} above that of {pair.vehicles.id}"
    return at_least(pair.step, limit.least, how).or_fix(
        lambda: f"raise the floor of {pair.room.id} by {limit.least.value - pair.step}, or lower the slab beside it"
    )


class EgressDoorLimits(NamedTuple):
    fewest: Limit[int]


@rule("doors.egress-door", stage="plan")
def egress_door(project: Project, limit: EgressDoorLimits, house: House) -> Check:
    """The dwelling has a required egress door, and the drawings say which it is."""
    named = [d for d in house.subjects(Door) if d.required_egress is True and not d.is_removed]
    silent = not named or project.absent("required egress door (mark one door `required egress: yes`)")
    return at_least(len(named) if named else silent, limit.fewest)


class EgressFormLimits(NamedTuple):
    kinds: Limit[tuple[str, ...]]


@rule("doors.egress-door-form", stage="plan")
def egress_door_form(door: Door, limit: EgressFormLimits) -> Check:
    """The required egress door turns on side hinges."""
    return one_of(door.operation, limit.kinds) if door.required_egress is True else _not_required()


class EgressSizeLimits(NamedTuple):
    width: Limit[Length]
    height: Limit[Length]


@rule("doors.egress-door-size", stage="plan")
def egress_door_size(door: Door, limit: EgressSizeLimits) -> Check:
    """The required egress door gives a clear opening of the least width and height, measured with the door open."""
    if door.required_egress is not True:
        return _not_required()
    return all_of(at_least(door.clear_width, limit.width), at_least(door.clear_height, limit.height))


class EgressRouteLimits(NamedTuple):
    garages: Limit[int]
    leads_to: Limit[tuple[str, ...]]


@rule("doors.egress-door-route", stage="plan", existing="must comply")
def egress_door_route(door: Door, limit: EgressRouteLimits, house: House) -> Check:
    """The way to the required egress door does not pass through a garage, and the door opens toward a public way."""
    if door.required_egress is not True:
        return _not_required()
    garages = sum(space is not None and space.use == "garage" for space in house.sides(door))
    return all_of(at_most(garages, limit.garages), one_of(door.opens_to, limit.leads_to))


class EgressReleaseLimits(NamedTuple):
    without_key: Limit[bool]


@rule("doors.egress-door-release", stage="final")
def egress_door_release(door: Door, limit: EgressReleaseLimits) -> Check:
    """The required egress door opens from inside without a key or special knowledge."""
    if door.required_egress is not True:
        return _not_required()
    return required(door.opens_without_key, limit.without_key, "opening from inside without a key")


class EgressToGradeLimits(NamedTuple):
    ways: Limit[tuple[str, ...]]


@rule("doors.egress-door-to-grade", stage="plan")
def egress_door_to_grade(side: DoorSide, limit: EgressToGradeLimits) -> Check:
    """The landing at the required egress door is at grade, or a stair or ramp leads down from it."""
    if side.door.required_egress is not True or not side.outdoors:
        return _not_required()
    return one_of(side.of_landing("to_grade"), limit.ways)


def door_width(door: Door) -> Length | Missing:
    """Return the width of a door: of the unit, else its clear width."""
    return door.clear_width if is_missing(door.unit_size) else door.unit_size.width


def _not_required() -> Check:
    return does_not_apply("not the required egress door")
