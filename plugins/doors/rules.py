"""Doors: landings, thresholds and steps, and the required egress door."""

from __future__ import annotations

from precheck_plugins.doors.sides import DoorSide, VehicleDoor

from precheck import (
    Check,
    Door,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Outcome,
    Slope,
    Stair,
    agrees,
    all_risers,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    met,
    reads,
    required,
    rule,
)

SAME_LEVEL = Length.parse("1/4 in")  # two sheets that give a level this close to each other agree


class LandingLimits(Limits):
    on_each_side: Limit[bool]
    risers_without: Limit[int]


@rule("doors.landing", stage="framing")
def landing(side: DoorSide, limit: LandingLimits, house: House) -> Check:
    """An exterior door has a floor or landing on each side.

    A door that is not the required egress door may go without the one at the top of an outside stair of a few risers,
    if it does not swing over that stair; so where such a stair is drawn at it, no landing is asked for.
    """
    if not side.outdoors:
        return required(True, limit.on_each_side, f"floor of {side.side} inside")
    if side.landing is None:
        drawn = side.space is not None or side.door.absent("landing outside")
        few = _few_steps(side, limit, house)
        return few if few.outcome is Outcome.PASS else required(drawn, limit.on_each_side, "outside")
    if not side.landing.none:
        return required(True, limit.on_each_side, "outside")
    without = required(False, limit.on_each_side, "outside").or_fix("draw a landing, or turn the door to swing inward")
    few = at_most(side.landing.risers, limit.risers_without).or_fix("draw a landing at the top of these steps")
    return decide(side.is_required, without, decide(side.swings_over, without, few))


def _few_steps(side: DoorSide, limit: LandingLimits, house: House) -> Check:
    """Return whether the only door between its two sides has an outside stair of a few risers that it does not swing over."""
    ends = set(side.door.between)
    beside = [
        part
        for part in (*house.subjects(Door), *house.subjects(Stair))
        if set(part.between) == ends and not part.is_removed
    ]
    stairs = [part for part in beside if isinstance(part, Stair)]
    if len(beside) != 2 or len(stairs) != 1 or side.is_required is not False or side.swings_over is not False:
        return does_not_apply("no stair of a few risers is drawn at it alone")
    return at_most(all_risers(stairs[0]), limit.risers_without)


class LandingSlopeLimits(Limits):
    maximum: Limit[Slope]


@rule("doors.landing-slope", stage="final")
def landing_slope(side: DoorSide, limit: LandingSlopeLimits) -> Check:
    """A landing outside slopes no more than drainage needs."""
    if not side.outdoors or side.landing is None or side.landing.none:
        return does_not_apply("no landing of its own is drawn on this side")
    return at_most(side.landing.slope, limit.maximum).or_fix(
        lambda: f"let it fall {limit.maximum.value} or less",
        lambda: [NewValue(side.landing, "slope", limit.maximum.value)],
    )


class EgressStepLimits(Limits):
    threshold: Limit[Length]
    outside_no_swing_over_it: Limit[Length]
    riser: Limit[Length] = reads("stairs.riser-height.maximum")


@rule("doors.step-at-egress-door", stage="framing")
def step_at_egress_door(side: DoorSide, limit: EgressStepLimits) -> Check:
    """Floor and landing at the required egress door lie just below its threshold.

    Outside, where the door does not swing over the landing, the landing may lie one riser below.
    """
    if side.is_required is not True:
        return does_not_apply("not the required egress door")
    if (side.landing is not None and side.landing.none) or side.is_undrawn:
        return does_not_apply("no landing is drawn here, which the rule for landings judges")
    if side.is_step_up:
        return at_most(abs(side.drop), limit.riser, lambda: side.derived)
    low = at_most(side.drop, limit.threshold, lambda: side.derived).or_fix(
        lambda: f"raise the landing to {limit.threshold.value} below the threshold, or let the door swing away from it",
        lambda: _raised(side, limit.threshold.value),
    )
    if not side.outdoors:
        return low.or_fix(
            lambda: f"bring the floor to within {limit.threshold.value} of the top of the threshold",
            lambda: _raised(side, limit.threshold.value),
        )
    one_riser = at_most(side.drop, limit.outside_no_swing_over_it, lambda: side.derived)
    return any_of(
        low,
        decide(
            side.swings_over,
            low,
            one_riser.or_fix(
                lambda: _raise(side, limit.outside_no_swing_over_it),
                lambda: _raised(side, limit.outside_no_swing_over_it.value),
            ),
        ),
    )


class OtherStepLimits(Limits):
    maximum: Limit[Length]
    riser: Limit[Length] = reads("stairs.riser-height.maximum")


@rule("doors.step-at-other-door", stage="framing")
def step_at_other_door(side: DoorSide, limit: OtherStepLimits) -> Check:
    """The landing at any other exterior door lies no more than one riser below the top of its threshold."""
    if side.is_required is True:
        return does_not_apply("the required egress door has a limit of its own")
    if (side.landing is not None and side.landing.none) or side.is_undrawn:
        return does_not_apply("no landing is drawn here, which the rule for landings judges")
    if not side.outdoors and is_missing(side.drop):
        return does_not_apply("no step is drawn inside")
    if side.is_step_up:
        return at_most(abs(side.drop), limit.riser, lambda: side.derived)
    return at_most(side.drop, limit.maximum, lambda: side.derived).or_fix(
        lambda: _raise(side, limit.maximum), lambda: _raised(side, limit.maximum.value)
    )


def _raised(side: DoorSide, drop: Length) -> list[NewValue]:
    """Return the landing at `drop` below the threshold, as its drop and as its level, whichever the plans give."""
    landing, top = side.landing, side.threshold_top
    if landing is None:
        return []
    found = [] if is_missing(landing.drop) else [NewValue(landing, "drop", drop)]
    if not is_missing(landing.level) and not is_missing(top):
        found.append(NewValue(landing, "level", top - drop))
    return found


def _raise(side: DoorSide, lowest: Limit[Length]) -> str:
    over = side.drop - lowest.value
    what = "landing" if side.outdoors else "floor"
    return f"raise the {what} by {over}, or add a step with a landing of its own at the top"


@rule("doors.levels-agree", stage="intake", existing="must comply")
def levels_agree(side: DoorSide) -> Check:
    """The step drawn at a door agrees with the floor build-up and the levels of the sheets."""
    if side.landing is None:
        return does_not_apply("the step is drawn once")
    return agrees(side.landing.drop, side.drop_by_levels, "the step at the door", SAME_LEVEL, "from the levels drawn")


class GarageStepLimits(Limits):
    maximum: Limit[Length]


@rule("doors.step-at-garage-door", stage="framing")
def step_at_garage_door(pair: VehicleDoor, limit: GarageStepLimits, house: House) -> Check:
    """The step between house and garage is no more than one riser; a higher one needs a stair."""
    stairs = [
        s for s in house.subjects(Stair) if set(s.between) == {pair.room.id, pair.vehicles.id} and not s.is_removed
    ]
    if stairs:
        return met(f"{stairs[0].label} takes up the step, and the rules for stairs judge it")
    how = f"between the finished floors of {pair.room.id} and {pair.vehicles.id}"
    return at_most(abs(pair.step), limit.maximum, how).or_fix("draw a stair at this door, with its risers and landing")


class StepDownLimits(Limits):
    minimum: Limit[Length]


@rule("doors.step-down-to-vehicles", stage="plan")
def step_down_to_vehicles(pair: VehicleDoor, limit: StepDownLimits, house: House) -> Check:
    """Good practice: the living floor lies above the floor of a garage or carport, so that blown water stays out."""
    how = f"finished floor of {pair.room.id} above that of {pair.vehicles.id}"
    return at_least(pair.step, limit.minimum, how).or_fix(
        lambda: _lift(pair, limit.minimum), lambda: _lifted(pair, limit.minimum.value, house)
    )


def _lifted(pair: VehicleDoor, least: Length, house: House) -> list[NewValue]:
    """Return the floor of the room so far above the other, where its finished level is stated and no build-up gives it."""
    floor, below = house.floor(pair.room), house.finished_floor(pair.vehicles)
    if floor is None or is_missing(floor.finished_level) or is_missing(below) or floor.layers:
        return []
    return [NewValue(floor, "finished_level", below + least)]


def _lift(pair: VehicleDoor, least: Limit[Length]) -> str:
    if is_missing(pair.step):
        return "show the finished floor levels on both sides"
    return f"raise the floor of {pair.room.id} by {least.value - pair.step}, or lower the slab beside it"
