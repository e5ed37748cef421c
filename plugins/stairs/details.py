"""Details of stairs: nosings, winders and the walkline, open and leaning risers, slopes, the edge of an opening.

Drawings seldom show the smaller ones. Each is a rule of its own, so that a stair that leaves one out is not said to
meet it, and the others are still judged.
"""

from __future__ import annotations

from typing import Any

from precheck_plugins.stairs.flights import StairFlight

from precheck import (
    Angle,
    Check,
    Flight,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Slope,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    less_than,
    met,
    not_shown,
    rule,
)

SIXTEENTH = Length.parse("1/16 in")


class WinderLimits(Limits):
    walkline_depth: Limit[Length]
    narrow_end: Limit[Length]
    variation: Limit[Length]


@rule("stairs.winders", stage="framing")
def winders(flight: StairFlight, limit: WinderLimits) -> Check:
    """Winders are deep enough at the walkline and at their narrow end, and alike at the walkline."""
    if not flight.has_winders:
        return does_not_apply("no winders are drawn in this flight")
    turn = flight.flight.winders
    depths = turn.depths_at_walkline
    none = flight.flight.absent("depths at walkline of the winders")
    return all_of(
        at_least(min(depths) if depths else none, limit.walkline_depth).or_fix("use fewer winders in the turn"),
        at_least(turn.narrow_end, limit.narrow_end).or_fix(
            "turn on a landing, or set the winders out from a wider newel"
        ),
        at_most(max(depths) - min(depths) if depths else none, limit.variation),
        _not_measured(flight),
    ).because(flight.now_serves)


def _not_measured(flight: StairFlight) -> Check:
    """Ask for the rest where the depths that are given are not those of all winders."""
    turn = flight.flight.winders
    if not turn.depths_at_walkline:
        return does_not_apply("no winder is measured")
    if is_missing(turn.count):
        return not_shown(turn.count)
    whole = len(turn.depths_at_walkline) >= turn.count
    lacking = flight.flight.absent(f"depths at walkline (all {turn.count} winders)")
    return does_not_apply("no winder is left out") if whole else not_shown(lacking)


class WalklineLimits(Limits):
    offset: Limit[Length]


@rule("stairs.walkline", stage="framing")
def walkline(flight: StairFlight, limit: WalklineLimits) -> Check:
    """The walkline, at which winders are measured, is drawn no farther from the inner side of the turn than allowed.

    Measured from where the clear width of the stair is widest. Farther out every winder looks deeper than it is.
    """
    offset = flight.flight.winders.walkline_offset if flight.has_winders else flight.flight.winders
    if is_missing(offset):
        return does_not_apply("no walkline is drawn")
    return at_most(offset, limit.offset).or_fix(
        lambda: f"measure the winders {limit.offset.value} from the inner side",
        lambda: [NewValue(flight.flight.winders, "walkline_offset", limit.offset.value)],
    )


class NosingLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]
    variation: Limit[Length]
    over_stair: Limit[Length]
    not_needed_from: Limit[Length]
    none_over_open_risers: Limit[str]
    deeper_over_open_risers: Limit[str]


@rule("stairs.nosing", stage="framing")
def nosing(flight: StairFlight, limit: NosingLimits) -> Check:
    """Nosings project enough and not too far and are alike.

    None is needed where the treads are deep enough; over open risers the edition decides. The nosings of a stair that
    stands are not asked for.
    """
    shown = _nosings(flight.flight)
    none = flight.flight.absent("projection of the nosing")
    deep = at_least(flight.tread, limit.not_needed_from)
    needless = any_of(deep, _over_open_risers(flight, limit.none_over_open_risers))
    if not shown and flight.stair.is_existing:
        return does_not_apply("the nosings of the existing stair are not drawn")
    if not shown:
        return any_of(needless, not_shown(none)).because("shallow treads need a nosing")
    far = at_most(max(shown), limit.maximum).or_fix(
        lambda: f"cut the nosings back to {limit.maximum.value}", lambda: _nosed(flight, limit.maximum.value)
    )
    free = _over_open_risers(flight, limit.deeper_over_open_risers)
    return all_of(
        any_of(
            at_least(min(shown), limit.minimum).or_fix(
                lambda: f"give each tread a nosing of {limit.minimum.value}",
                lambda: _nosed(flight, limit.minimum.value),
            ),
            needless,
        ),
        far if far.outcome is Outcome.PASS else any_of(far, free),
        at_most(max(shown) - min(shown), limit.variation),
        _alike_over_stair(flight, limit.over_stair),
    )


def _nosings(flight: Flight) -> tuple[Length, ...]:
    edge = flight.nosing
    return () if is_missing(edge) else tuple(p for p in (*edge.projections, edge.projection) if not is_missing(p))


def _nosed(flight: StairFlight, projection: Length) -> list[NewValue]:
    """Return the new projection of the nosings; nosings that are measured one by one are built, and go by hand."""
    edge = flight.flight.nosing
    return [] if is_missing(edge) or edge.projections else [NewValue(edge, "projection", projection)]


def _over_open_risers(flight: StairFlight, allowed: Limit[str]) -> Check:
    """Return whether open risers, which the edition may treat otherwise, free a flight."""
    if allowed.value is None:
        return does_not_apply("open risers make no difference here")
    return decide(flight.has_open_risers, met("the risers are open"), broken("the risers are closed"))


def _alike_over_stair(flight: StairFlight, variation: Limit[Length]) -> Check:
    """Return whether the nosings of all flights are alike, where the edition asks for it; told at the top flight."""
    flights = flight.stair.flights
    shown = [one for each in flights for one in _nosings(each)]
    if len(flights) < 2 or flight.flight is not flights[-1] or not shown:
        return does_not_apply("one flight")
    return at_most(max(shown) - min(shown), variation, "over all flights")


class EdgeLimits(Limits):
    maximum: Limit[Length]


@rule("stairs.nosing-radius", stage="final")
def nosing_radius(flight: StairFlight, limit: EdgeLimits) -> Check:
    """The front edge of a tread is not rounded more than the limit, where its radius is drawn."""
    return _where_drawn(flight.flight.nosing.radius, limit.maximum, "no radius of the nosing is drawn")


@rule("stairs.nosing-bevel", stage="final")
def nosing_bevel(flight: StairFlight, limit: EdgeLimits) -> Check:
    """The front edge of a tread is not beveled more than the limit, where a bevel is drawn."""
    return _where_drawn(flight.flight.nosing.bevel, limit.maximum, "no bevel of the nosing is drawn")


class IntrusionLimits(Limits):
    maximum: Limit[Length]


@rule("stairs.opening-intrusion", stage="framing")
def opening_intrusion(flight: StairFlight, limit: IntrusionLimits) -> Check:
    """Where a flight passes the side of a floor opening, its edge reaches into the headroom no farther than allowed."""
    return _where_drawn(flight.flight.opening_intrusion, limit.maximum, "no edge of a floor opening reaches in")


class LeanLimits(Limits):
    maximum: Limit[Angle]


@rule("stairs.riser-lean", stage="framing")
def riser_lean(flight: StairFlight, limit: LeanLimits) -> Check:
    """Closed risers stand plumb or lean back a little, where a lean is drawn."""
    return _where_drawn(flight.flight.riser_angle, limit.maximum, "no lean of the risers is drawn")


class OpenRiserLimits(Limits):
    gap: Limit[Length]
    low: Limit[Length]


@rule("stairs.open-risers", stage="framing")
def open_risers(flight: StairFlight, limit: OpenRiserLimits) -> Check:
    """The gap of open risers stops a sphere, except close above the floor; a low stair is free of it."""
    if flight.has_open_risers is not True:
        return does_not_apply("the risers are not drawn as open")
    drop = first_given(flight.flight.open_riser_drop, _if_low(flight, limit))
    gap = less_than(flight.flight.open_riser_gap, limit.gap)
    closed = gap.or_fix(
        lambda: f"close the gaps to less than {limit.gap.value}",
        lambda: [NewValue(flight.flight, "open_riser_gap", limit.gap.value - SIXTEENTH)],
    )
    return any_of(closed, at_most(drop, limit.low))


def _if_low(flight: StairFlight, limit: OpenRiserLimits) -> Length | Missing:
    """Return the rise of the whole stair where that alone keeps every gap low; it bounds the height of each."""
    rise = flight.stair_rise
    low = limit.low.value
    given = not is_missing(rise) and not is_missing(low) and low is not None
    return rise if given and rise <= low else flight.flight.open_riser_drop


class SlopeLimits(Limits):
    maximum: Limit[Slope]


@rule("stairs.tread-slope", stage="final")
def tread_slope(flight: StairFlight, limit: SlopeLimits) -> Check:
    """Treads are close to level, where a slope is drawn."""
    return _where_drawn(flight.flight.tread_slope, limit.maximum, "no slope of the treads is drawn")


def _where_drawn(measured: Any, limit: Limit[Any], otherwise: str) -> Check:
    return does_not_apply(otherwise) if is_missing(measured) else at_most(measured, limit)
