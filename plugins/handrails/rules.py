"""Handrails: where they are needed, and how each is made."""

from __future__ import annotations

from precheck_plugins.handrails.rails import Rail, RailedFlight

from precheck import (
    Check,
    Handrail,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    exceeds,
    if_stated,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)


class WhereLimits(Limits):
    from_risers: Limit[int]
    minimum: Limit[int]


@rule("handrails.where", stage="final")
def where(flight: RailedFlight, limit: WhereLimits) -> Check:
    """A flight with enough risers has a handrail on at least one side.

    A guard whose top serves as the handrail counts.
    """
    if limit.from_risers.value is None:
        return does_not_apply("no number of risers calls for a handrail here")
    many = when_given(lambda risers, least: risers >= least, flight.risers, limit.from_risers.value)
    due = at_least(flight.rails, limit.minimum).or_fix("add a handrail over the whole flight on one side")
    few = does_not_apply(f"it has fewer than {limit.from_risers.value} risers")
    return decide(many, due, few).because(_why(flight) if many is True else "")


def _why(flight: RailedFlight) -> str:
    serves = flight.serves and flight.flight.owner.is_existing
    now = f", and the existing stair now serves {flight.serves[0].label}" if serves else ""
    return f"the flight has {flight.risers} risers{now}"


class HeightLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]
    ramp_minimum: Limit[Length]
    ramp_maximum: Limit[Length]


@rule("handrails.height", stage="final")
def height(rail: Rail, limit: HeightLimits) -> Check:
    """The top of the handrail lies within a band above the line of the nosings, or above the surface of a ramp.

    Volutes, easings and the fittings between two rails may rise above it.
    """
    if rail.on_ladder:
        return does_not_apply("rails of a ladder have a height of their own")
    low, high = (limit.ramp_minimum, limit.ramp_maximum) if rail.on_ramp else (limit.minimum, limit.maximum)
    over = "ramp" if rail.on_ramp else "nosings"

    def moved(verb: str) -> str:
        return f"{verb} the rail to between {low.value} and {high.value} above the {over}"

    return all_of(
        at_least(rail.rail.height, low).or_fix(
            lambda: moved("raise"), lambda: [NewValue(rail.rail, "height", low.value)]
        ),
        at_most(rail.rail.height, high).or_fix(
            lambda: moved("lower"), lambda: [NewValue(rail.rail, "height", high.value)]
        ),
    )


class ProjectionLimits(Limits):
    maximum: Limit[Length]
    at_passing_flight: Limit[Length]


@rule("handrails.projection", stage="final")
def projection(rail: Rail, limit: ProjectionLimits) -> Check:
    """The handrail does not reach far into the stair, where the plans say how far.

    It may reach farther where the nosing of a passing flight narrows the stair, as long as the stair keeps its clear width
    at the rail, which the rule for that width judges.
    """
    reach = rail.rail.projection
    usual = if_stated(reach, at_most, limit.maximum).or_fix(
        lambda: f"use brackets that hold the rail within {limit.maximum.value} of the wall",
        lambda: [NewValue(rail.rail, "projection", limit.maximum.value)],
    )
    near = rail.rail.narrowed_by_flight is True and limit.at_passing_flight.value is not None
    if not near or usual.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY):
        return usual
    unknown = missing_of(*(flight.width_below_rail for flight in rail.flights))
    farther = at_most(reach, limit.at_passing_flight)
    return farther if unknown is None else all_of(farther, not_shown(unknown))


class ClearanceLimits(Limits):
    minimum: Limit[Length]
    ramp_minimum: Limit[Length]


@rule("handrails.clearance", stage="final")
def clearance(rail: Rail, limit: ClearanceLimits) -> Check:
    """There is room for a hand between the handrail and a wall beside it."""
    if rail.rail.beside_wall is False:
        return does_not_apply("no wall stands beside it")
    least = limit.ramp_minimum if rail.on_ramp else limit.minimum
    return at_least(rail.rail.clearance, least).or_fix(
        lambda: f"use brackets that hold the rail {least.value} off the finished wall",
        lambda: [NewValue(rail.rail, "clearance", least.value)],
    )


class ContinuityLimits(Limits):
    full_flight: Limit[bool]
    full_ramp: Limit[bool]
    breaks: Limit[tuple[str, ...]]


@rule("handrails.continuity", stage="final")
def continuity(rail: Rail, limit: ContinuityLimits) -> Check:
    """The handrail runs unbroken from above the top nosing to above the lowest, but for newels where they may stand."""
    if rail.on_ramp:
        return required(rail.rail.continuous, limit.full_ramp).or_fix(
            "run the rail over the whole ramp", lambda: [NewValue(rail.rail, "continuous", "yes")]
        )
    whole = required(rail.rail.continuous, limit.full_flight)
    if rail.rail.continuous is False and not is_missing(rail.rail.broken_at) and limit.full_flight.value is not None:
        return one_of(rail.rail.broken_at, limit.breaks).or_fix(
            "close the break, or move the newel to a landing or turn",
            lambda: [NewValue(rail.rail, "continuous", "yes")],
        )
    return whole.or_fix("run the rail over the whole flight", lambda: [NewValue(rail.rail, "continuous", "yes")])


class EndLimits(Limits):
    accepted: Limit[tuple[str, ...]]
    ask: Limit[tuple[str, ...]]
    gap: Limit[Length]


@rule("handrails.ends", stage="final")
def ends(rail: Rail, limit: EndLimits) -> Check:
    """The ends of the handrail return, or stop where no sleeve can catch on them."""
    end = rail.rail.ends
    accepted = one_of(end, limit.accepted).or_fix(
        lambda: _how_to_end(limit), lambda: [NewValue(rail.rail, "ends", "returned")]
    )
    gap = if_stated(rail.rail.end_gap, at_most, limit.gap) if end == "returned" else does_not_apply("no return")
    told = f"a rail that ends in a {end} is named in earlier editions only; ask whether it may"
    asked = limit.ask.value is not None and when_given(lambda own, known: own in known, end, limit.ask.value)
    return decide(asked, look_at(Look.OFFICIAL, told), all_of(accepted, gap))


def _how_to_end(limit: EndLimits) -> str:
    named = limit.accepted.value if isinstance(limit.accepted.value, tuple) else ()
    at_newel = " or end it in a newel" if "newel" in named else ""
    return f"return the ends of the rail to the wall, a guard or the floor{at_newel}"


class RoundLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]


@rule("handrails.grip-round", stage="final")
def grip_round(rail: Rail, limit: RoundLimits) -> Check:
    """A round handrail is of a diameter that a hand closes around."""
    if is_missing(rail.rail.profile) and is_missing(rail.rail.diameter):
        return not_shown(rail.rail.profile)
    if rail.is_large:
        return does_not_apply("not a round rail")
    return all_of(at_least(rail.rail.diameter, limit.minimum), at_most(rail.rail.diameter, limit.maximum))


class OtherLimits(Limits):
    minimum_perimeter: Limit[Length]
    recess_above: Limit[Length]
    cross_section: Limit[Length]


@rule("handrails.grip-other", stage="final")
def grip_other(rail: Rail, limit: OtherLimits) -> Check:
    """A handrail that is not round has a perimeter and a cross section that a hand closes around.

    A larger one needs a finger recess, which a rule of its own judges.
    """
    if not rail.is_large:
        return does_not_apply("not given as a rail that is not round")
    large = _is_over(rail.rail, limit.recess_above)
    small = all_of(
        at_least(rail.rail.perimeter, limit.minimum_perimeter), at_most(rail.rail.cross_section, limit.cross_section)
    )
    return decide(large, does_not_apply("its perimeter calls for a finger recess"), small)


class RecessLimits(Limits):
    below_top: Limit[Length]
    depth: Limit[Length]
    depth_within: Limit[Length]
    held_for: Limit[Length]
    minimum: Limit[Length]
    maximum: Limit[Length]
    perimeter: Limit[Length] = reads("handrails.grip-other.recess-above")


@rule("handrails.grip-recess", stage="final")
def grip_recess(rail: Rail, limit: RecessLimits) -> Check:
    """A handrail with a large perimeter has a finger recess on both sides, near enough to its top and deep enough."""
    if not rail.is_large or is_missing(rail.rail.perimeter):
        return does_not_apply("not given as a large rail that is not round")
    if _is_over(rail.rail, limit.perimeter) is not True:
        return does_not_apply("its perimeter is small enough to close a hand around")
    cut = rail.rail.recess
    return all_of(
        at_most(cut.below_top, limit.below_top),
        at_least(cut.depth, limit.depth),
        at_most(cut.depth_reached_within, limit.depth_within),
        at_least(cut.held_for, limit.held_for),
        at_least(cut.width_above, limit.minimum),
        at_most(cut.width_above, limit.maximum),
    ).or_fix("choose a rail of smaller perimeter, or one with a finger recess on both sides")


def _is_over(rail: Handrail, perimeter: Limit[Length]) -> bool | Missing:
    return exceeds(rail.perimeter, perimeter)
