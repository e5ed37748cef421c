"""Stairs: riser, tread, nosing, winders, headroom, width, landings and the rise between landings."""

from __future__ import annotations

from typing import NamedTuple

from precheck_plugins.stairs.flights import Platform, StairFlight, levels_rise
from precheck_plugins.stairs.layout import fewest_risers, lay_out

from precheck import (
    Angle,
    Check,
    House,
    Length,
    Limit,
    Look,
    Ratio,
    Slope,
    Stair,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    every,
    first_given,
    is_missing,
    less_than,
    look_at,
    met,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

RISER_ROUNDING = Length.parse(
    "1/2 in"
)  # drawings round each riser to 1/16 in, so a flight of 16 may be off by half that


class RiserLimits(NamedTuple):
    tallest: Limit[Length]
    variation: Limit[Length]
    tread: Limit[Length] = reads("stairs.tread-depth.shallowest")


@rule("stairs.riser-height", stage="framing")
def riser_height(flight: StairFlight, limit: RiserLimits) -> Check:
    """Risers are no taller than the limit and alike within a flight.

    Measured vertically between the leading edges of adjacent treads.
    """
    return all_of(
        at_most(flight.riser, limit.tallest, lambda: flight.riser_how).or_fix(lambda: _new_layout(flight, limit)),
        at_most(flight.riser_variation, limit.variation).or_fix("shim or recut until all risers are alike"),
    )


def _new_layout(flight: StairFlight, limit: RiserLimits) -> str:
    """Name the layout with the fewest risers that fits, for the whole stair; or say that none fits."""
    rise = flight.stair_rise if is_missing(flight.rise) or not flight.is_whole_stair else flight.rise
    if is_missing(rise) or limit.tread.value is None:
        return f"give the total rise to have the risers laid out; none may be over {limit.tallest.value}"
    runs = tuple(f.run_available for f in flight.stair.flights)
    layout = lay_out(rise, limit.tallest.value, limit.tread.value, runs)
    if layout:
        return str(layout)
    room = " and ".join(str(run) for run in runs if not is_missing(run))
    count = fewest_risers(rise, limit.tallest.value)
    needed = limit.tread.value * (count - len(runs))
    return (
        f"no straight layout fits: {count} risers need {needed} of run, {room} is available; turn or lengthen the stair"
    )


class TreadLimits(NamedTuple):
    shallowest: Limit[Length]
    variation: Limit[Length]


@rule("stairs.tread-depth", stage="framing")
def tread_depth(flight: StairFlight, limit: TreadLimits) -> Check:
    """Treads are no shallower than the limit and alike within a flight.

    Measured horizontally between the leading edges of adjacent treads, nosing to nosing.
    """
    return all_of(
        at_least(flight.tread, limit.shallowest).or_fix(
            lambda: f"lengthen the run until each tread is {limit.shallowest.value}"
        ),
        at_most(flight.tread_variation, limit.variation),
    )


@rule("stairs.numbers-agree", stage="intake", existing="must comply")
def numbers_agree(flight: StairFlight) -> Check:
    """Riser height times number of risers gives the rise, where all three are drawn."""
    stated, risers = flight.flight.riser, flight.risers
    if missing_of(stated, risers, flight.rise) is not None:
        return does_not_apply("rise, riser and number of risers are not all given, so nothing can disagree")
    return agrees(flight.rise, stated * risers, "the rise of the flight", RISER_ROUNDING, f"{risers} x {stated}")


@rule("stairs.total-rise-agrees", stage="intake", existing="must comply")
def total_rise_agrees(stair: Stair, house: House) -> Check:
    """The total rise agrees with the finished floors it joins, and with the rises and risers of its flights."""
    rises, risers = [f.rise for f in stair.flights], [f.risers for f in stair.flights]
    several = len(stair.flights) > 1
    summed = when_given(lambda *given: sum(given[1:], start=given[0]), *rises)
    counted = when_given(lambda *given: sum(given), *risers)
    return all_of(
        agrees(
            stair.total_rise, levels_rise(stair, house), "the total rise", how="from finished floor to finished floor"
        ),
        agrees(
            stair.total_rise, summed if several else stair.absent("flights"), "the total rise", how="the flights' rises"
        ),
        agrees(stair.risers, counted, "the number of risers", how="counted over the flights"),
    )


class WinderLimits(NamedTuple):
    walkline_depth: Limit[Length]
    narrow_end: Limit[Length]
    variation: Limit[Length]
    walkline_offset: Limit[Length]


@rule("stairs.winders", stage="framing")
def winders(flight: StairFlight, limit: WinderLimits) -> Check:
    """Winders are deep enough at the walkline and at their narrow end, and alike at the walkline."""
    if not flight.has_winders:
        return does_not_apply("no winders are drawn in this flight")
    turn = flight.flight.winders
    depths = turn.depths_at_walkline
    spread = max(depths) - min(depths) if depths else flight.flight.absent("depths at walkline of the winders")
    return all_of(
        at_least(min(depths) if depths else flight.flight.absent("depths at walkline of the winders"), limit.walkline_depth),
        at_least(turn.narrow_end, limit.narrow_end),
        at_most(spread, limit.variation),
        decide(is_missing(turn.walkline_offset), met(""), at_most(turn.walkline_offset, limit.walkline_offset)),
    )


class NosingLimits(NamedTuple):
    least: Limit[Length]
    most: Limit[Length]
    variation: Limit[Length]
    radius: Limit[Length]
    bevel: Limit[Length]
    not_needed_from: Limit[Length]


@rule("stairs.nosing", stage="framing")
def nosing(flight: StairFlight, limit: NosingLimits) -> Check:
    """Nosings project enough and not too far and are alike, unless the treads are deep enough to need none."""
    edge = flight.flight.nosing
    deep = at_least(flight.tread, limit.not_needed_from)
    if is_missing(edge):
        solid = not_shown(edge).because("treads this shallow need a nosing with closed risers")
        return any_of(decide(flight.flight.open_risers, met("open risers need no nosing"), solid), deep)
    shown = [p for p in (*edge.projections, edge.projection) if not is_missing(p)]
    spread = max(shown) - min(shown) if shown else edge.projection
    return all_of(
        any_of(at_least(min(shown) if shown else edge.projection, limit.least), deep),
        at_most(max(shown) if shown else edge.projection, limit.most),
        at_most(spread, limit.variation),
        at_most(first_given(edge.radius, Length(0)), limit.radius),
        at_most(first_given(edge.bevel, Length(0)), limit.bevel),
    )


class HeadroomLimits(NamedTuple):
    least: Limit[Length]
    opening_intrusion: Limit[Length]


@rule("stairs.headroom", stage="framing")
def headroom(flight: StairFlight, limit: HeadroomLimits) -> Check:
    """There is headroom over the whole stair, plumb from the line of the nosings.

    Where a flight passes the side of a floor opening, the edge of the opening may reach in a little.
    """
    intrusion = flight.flight.opening_intrusion
    return all_of(
        at_least(flight.headroom, limit.least).or_fix(
            lambda: f"lengthen the opening above or move it until {limit.least.value} is clear over every nosing"
        ),
        does_not_apply("no floor opening reaches in")
        if is_missing(intrusion)
        else at_most(intrusion, limit.opening_intrusion),
    )


class WidthLimits(NamedTuple):
    clear: Limit[Length]
    one_rail: Limit[Length]
    two_rails: Limit[Length]


@rule("stairs.width", stage="framing")
def width(flight: StairFlight, limit: WidthLimits) -> Check:
    """The stair is wide enough above the handrails, and between or beside them where that is drawn."""
    rails, below = flight.flight.rails, flight.flight.width_below_rail
    beside = at_least(below, limit.two_rails if rails == 2 else limit.one_rail)
    unsaid = is_missing(below) or is_missing(rails) or rails == 0
    return all_of(at_least(flight.width, limit.clear), does_not_apply("no handrail narrows it") if unsaid else beside)


class RiseLimits(NamedTuple):
    tallest: Limit[Length]


@rule("stairs.rise-between-landings", stage="framing")
def rise_between_landings(flight: StairFlight, limit: RiseLimits) -> Check:
    """No flight climbs higher than the limit without a landing."""
    return at_most(flight.rise, limit.tallest).or_fix("break the flight with a landing")


class RiserFormLimits(NamedTuple):
    lean: Limit[Angle]
    open_gap: Limit[Length]
    open_gap_from: Limit[Length]


@rule("stairs.riser-form", stage="framing")
def riser_form(flight: StairFlight, limit: RiserFormLimits) -> Check:
    """Closed risers stand plumb or lean back a little; the gap of open risers high above the floor stops a sphere."""
    drawn = flight.flight
    leaning = (
        does_not_apply("no lean is drawn") if is_missing(drawn.riser_angle) else at_most(drawn.riser_angle, limit.lean)
    )
    low = at_most(drawn.open_riser_drop, limit.open_gap_from)
    gap = any_of(low, less_than(drawn.open_riser_gap, limit.open_gap))
    closed = does_not_apply("the risers are not drawn as open")
    return all_of(leaning, gap if drawn.open_risers is True else closed)


class SlopeLimits(NamedTuple):
    steepest: Limit[Slope]


@rule("stairs.tread-slope", stage="final")
def tread_slope(flight: StairFlight, limit: SlopeLimits) -> Check:
    """Treads are close to level, where a slope is drawn."""
    slope = flight.flight.tread_slope
    return does_not_apply("no slope of the treads is drawn") if is_missing(slope) else at_most(slope, limit.steepest)


class LandingLimits(NamedTuple):
    depth: Limit[Length]
    width: Limit[Ratio]
    slope: Limit[Slope]


@rule("stairs.landing-size", stage="framing")
def landing_size(platform: Platform, limit: LandingLimits) -> Check:
    """A landing is as wide as the stair, deep enough along the way, and close to level."""
    landing = platform.landing
    if landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    across = when_given(lambda own, stair: Ratio(own / stair), landing.width, platform.stair_width)
    return all_of(
        at_least(landing.depth, limit.depth),
        at_least(across, limit.width, lambda: f"{landing.width} landing / {platform.stair_width} stair"),
        does_not_apply("no slope is drawn") if is_missing(landing.slope) else at_most(landing.slope, limit.slope),
    )


class LandingPlaces(NamedTuple):
    at_each_end: Limit[bool]


@rule("stairs.landings", stage="framing")
def landings(stair: Stair, limit: LandingPlaces) -> Check:
    """There is a floor or landing at the top and the bottom of each flight.

    The top one may be left out inside the house where the door there does not swing over the steps.
    """
    if not stair.is_common_form:
        return does_not_apply(f"a {stair.form} has rules of its own")
    return all_of(*(_landing_at(stair, where, limit) for where in ("bottom", "top")), _between(stair, limit))


def _landing_at(stair: Stair, where: str, limit: LandingPlaces) -> Check:
    drawn = next((landing for landing in stair.landings if landing.where == where), None)
    if drawn is None:
        return required(stair.absent(f"landing or floor at the {where}"), limit.at_each_end, "landing")
    if not drawn.none:
        return required(True, limit.at_each_end, f"landing at the {where}")
    if where == "bottom":
        return required(False, limit.at_each_end, "landing at the bottom").or_fix("draw a landing at the bottom")
    swings = drawn.door_swings_over_steps
    allowed = met("the door at the top does not swing over the steps, so no landing is needed there")
    return decide(swings, broken("the door at the top swings over the steps and there is no landing"), allowed)


def _between(stair: Stair, limit: LandingPlaces) -> Check:
    turns = len(stair.flights) - 1
    drawn = sum(landing.where == "between" for landing in stair.landings)
    shown = drawn >= turns or stair.absent("landings between the flights")
    return every(
        (required(shown, limit.at_each_end, "landing between the flights"),) if turns else (), "one flight only"
    )


@rule("stairs.special-form", stage="plan")
def special_form(stair: Stair) -> Check:
    """A spiral stair, alternating tread device, ship's ladder or pull-down stair is judged by rules of its own."""
    if stair.is_common_form:
        return does_not_apply("the general rules for stairs apply")
    if stair.form == "pull-down":
        return look_at(
            Look.OFFICIAL, "a pull-down stair to attic storage is commonly accepted as a ladder, not as a stair"
        )
    return look_at(Look.OFFICIAL, f"a {stair.form} may serve only where the code lists it; ask whether it may here")
