"""Foundation walls: when they are designed, how far they rise, when earth goes against them."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.foundations.earth import held_or_designed

from precheck import (
    Check,
    FoundationWall,
    Length,
    Limit,
    Limits,
    Look,
    Settled,
    Slope,
    all_of,
    at_least,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    required,
    rule,
    when_given,
)


class DesignLimits(Limits):
    unbalanced: Settled[Length]


@rule("foundations.wall-design", stage="foundation")
def wall_design(wall: FoundationWall, limit: DesignLimits) -> Check:
    """A foundation wall with groundwater pressure, or with much unbalanced fill and no lateral support, is engineered."""
    if not is_missing(wall.designed_by):
        return met(f"designed by {wall.designed_by}")
    if wall.groundwater_pressure is True:
        return look_at(Look.ENGINEER, "groundwater pushes on it")
    high = held_or_designed(wall.fill_held, limit.unbalanced, "held neither at top nor at bottom")
    dry = does_not_apply(
        "groundwater pressure: not stated" if is_missing(wall.groundwater_pressure) else "no groundwater"
    )
    return all_of(dry, decide(wall.held_at_top_and_bottom, met("floors hold it at top and bottom"), high))


class TopLimits(Limits):
    minimum: Limit[Length]
    beside_veneer: Limit[Length]


@rule("foundations.wall-top", stage="foundation")
def wall_top(wall: FoundationWall, limit: TopLimits) -> Check:
    """A foundation wall extends far enough above finish grade; less beside masonry veneer."""
    return decide(
        wall.beside_veneer, at_least(wall.above_grade, limit.beside_veneer), at_least(wall.above_grade, limit.minimum)
    )


class BackfillLimits(Limits):
    braced: Limit[bool]
    braced_from: Settled[Length]


@rule("foundations.backfill", stage="foundation")
def backfill(wall: FoundationWall, limit: BackfillLimits) -> Check:
    """A foundation wall is braced by floors or otherwise before it is backfilled, unless the fill is low."""
    low = when_given(lambda fill: fill < limit.braced_from.value, wall.fill_held)
    braced = required(wall.braced_before_backfill, limit.braced)
    return decide(low, does_not_apply("it holds little earth"), braced)


class StreetLimits(Limits):
    above: Settled[Length]
    slope: Settled[Slope]


@rule("foundations.above-street", stage="foundation")
def above_street(wall: FoundationWall, limit: StreetLimits) -> Check:
    """On a graded lot the top of the foundation is above the street gutter or drain inlet, plus a slope for the distance."""
    if is_missing(wall.top_above_gutter) or wall.drainage_approved is True:
        return does_not_apply("the height over a gutter is not given, or another drainage is approved")
    needed = when_given(lambda far: limit.above.value + far * limit.slope.value.n, wall.distance_to_gutter)
    if is_missing(needed):
        return not_shown(needed)
    how = f"{limit.above.value} and {limit.slope.value} of {wall.distance_to_gutter}"
    return at_least(wall.top_above_gutter, replace(limit.above, value=needed), how)
