"""Foundation walls and retaining walls: when they are designed, how far they rise, permits and drains."""

from __future__ import annotations

from dataclasses import replace

from precheck import (
    Check,
    FoundationWall,
    Length,
    Limit,
    Limits,
    Look,
    Ratio,
    RetainingWall,
    Slope,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    required,
    rule,
    unsettled,
    when_given,
)


class DesignLimits(Limits):
    unbalanced: Limit[Length]


@rule("foundations.wall-design", stage="foundation")
def wall_design(wall: FoundationWall, limit: DesignLimits) -> Check:
    """A foundation wall that groundwater pushes on, or that holds much earth without support, is engineered."""
    if (open_limit := unsettled(limit.unbalanced)) is not None:
        return open_limit
    if not is_missing(wall.designed_by):
        return met(f"designed by {wall.designed_by}")
    if wall.groundwater_pressure is True:
        return look_at(Look.ENGINEER, "groundwater pushes on it")
    high = _held(wall.fill_held, limit.unbalanced, "held neither at top nor at bottom")
    return decide(wall.held_at_top_and_bottom, met("floors hold it at top and bottom"), high)


def _held(fill: object, limit: Limit[Length], why: str) -> Check:
    if is_missing(fill) or not isinstance(fill, Length) or fill <= limit.value:
        return at_most(fill, limit)
    over = fill - limit.value
    return look_at(
        Look.ENGINEER, f"it holds {fill} of earth, {over} over the {limit.value} that needs no design; {why}"
    )


class TopLimits(Limits):
    least: Limit[Length]
    beside_veneer: Limit[Length]


@rule("foundations.wall-top", stage="foundation")
def wall_top(wall: FoundationWall, limit: TopLimits) -> Check:
    """A foundation wall rises far enough above the ground outside; less beside brick veneer."""
    return decide(
        wall.beside_veneer, at_least(wall.above_grade, limit.beside_veneer), at_least(wall.above_grade, limit.least)
    )


class BackfillLimits(Limits):
    braced: Limit[bool]
    low_up_to: Limit[Length]


@rule("foundations.backfill", stage="foundation")
def backfill(wall: FoundationWall, limit: BackfillLimits) -> Check:
    """Earth goes against a foundation wall only when floors or braces hold the wall; low fill may go in before."""
    if (open_limit := unsettled(limit.low_up_to)) is not None:
        return open_limit
    low = when_given(lambda fill: fill < limit.low_up_to.value, wall.fill_held)
    braced = required(wall.braced_before_backfill, limit.braced, "bracing before the earth goes in")
    return decide(low, does_not_apply("it holds little earth"), braced)


class StreetLimits(Limits):
    above: Limit[Length]
    slope: Limit[Slope]


@rule("foundations.above-street", stage="foundation")
def above_street(wall: FoundationWall, limit: StreetLimits) -> Check:
    """On a graded lot the top of the foundation stands above the street gutter or drain inlet, more the farther off."""
    if (open_limit := unsettled(limit.above, limit.slope)) is not None:
        return open_limit
    if is_missing(wall.top_above_gutter) or wall.drainage_approved is True:
        return does_not_apply("the height over a gutter is not given, or another drainage is approved")
    needed = when_given(lambda far: limit.above.value + far * limit.slope.value.n, wall.distance_to_gutter)
    if is_missing(needed):
        return not_shown(needed)
    how = f"{limit.above.value} and {limit.slope.value} of {wall.distance_to_gutter}"
    return at_least(wall.top_above_gutter, replace(limit.above, value=needed), how)


class RetainLimits(Limits):
    unbalanced: Limit[Length]
    with_other_load: Limit[Length]
    safety: Limit[Ratio]


@rule("retaining.design", stage="foundation")
def design(wall: RetainingWall, limit: RetainLimits) -> Check:
    """A retaining wall that holds much earth, or less with a drive, fence or building beside it, is engineered."""
    if (open_limit := unsettled(limit.unbalanced, limit.with_other_load)) is not None:
        return open_limit
    if not is_missing(wall.designed_by):
        factors = (wall.against_sliding, wall.against_overturning)
        shown = [at_least(own, limit.safety) for own in factors if not is_missing(own)]
        return all_of(met(f"designed by {wall.designed_by}"), *shown)
    plain = decide(
        wall.held_at_top, met("it is held at its top"), _held(wall.fill_held, limit.unbalanced, "its top is free")
    )
    loaded = _held(wall.height, limit.with_other_load, f"{wall.other_load} beside it")
    carries = when_given(lambda load: load != "none", wall.other_load)
    return decide(carries, all_of(plain, loaded), plain)


class PermitLimits(Limits):
    height: Limit[Length]
    permit: Limit[bool]


@rule("retaining.permit", stage="intake")
def permit(wall: RetainingWall, limit: PermitLimits) -> Check:
    """A tall retaining wall needs a permit, and one of any height that carries more than earth.

    The height is from the bottom of the footing to the top.
    """
    if (open_limit := unsettled(limit.height)) is not None:
        return open_limit
    if limit.height.value is None:
        return does_not_apply(limit.height.why_void or "no height is set")
    free = when_given(
        lambda height, load: height <= limit.height.value and load == "none", wall.height, wall.other_load
    )
    return decide(free, does_not_apply("low, and it holds earth alone"), required(wall.permit, limit.permit, "permit"))


class DrainLimits(Limits):
    drained: Limit[bool]


@rule("retaining.drain", stage="foundation")
def drain(wall: RetainingWall, limit: DrainLimits) -> Check:
    """Gravel with a drain pipe or weep holes, behind filter fabric, takes water from behind a retaining wall."""
    return required(wall.drained, limit.drained, "gravel and drain behind the wall")
