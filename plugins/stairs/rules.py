"""Stairs: riser, tread, headroom, width, the rise between landings, and what is exempt."""

from __future__ import annotations

from precheck_plugins.stairs.flights import FormedStair, StairFlight
from precheck_plugins.stairs.layout import drawn_box, laid_out, layout_in_words, room_for

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Stair,
    all_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    reads,
    rule,
    stair_exemption,
    when_given,
)


class RiserLimits(Limits):
    maximum: Limit[Length]
    variation: Limit[Length]
    tread: Limit[Length] = reads("stairs.tread-depth.minimum")
    kept: Limit[Length] = reads("existing.stair.riser")


@rule("stairs.riser-height", stage="framing")
def riser_height(flight: StairFlight, limit: RiserLimits) -> Check:
    """Risers are no taller than the limit and alike within a flight.

    Measured vertically between the leading edges of adjacent treads, the first and the last to the finished floors. A
    list of heights that leaves risers out settles nothing.
    """
    tallest = kept_or(flight, limit.kept, limit.maximum)
    return all_of(
        at_most(flight.riser, tallest, lambda: flight.riser_derived).or_fix(
            lambda: _new_layout(flight, limit), lambda: _laid_out(flight, limit)
        ),
        at_most(flight.riser_variation, limit.variation).or_fix("shim or recut until all risers are alike"),
        flight.risers_not_measured,
    ).because(flight.now_serves)


def kept_or(flight: StairFlight, kept: Limit[Length], full: Limit[Length]) -> Limit[Length]:
    """Return the size that the jurisdiction lets an existing stair keep, where it sets one, else the full one."""
    return kept if flight.stair.is_existing and kept.value is not None else full


def _rise(flight: StairFlight) -> Length | Missing:
    return flight.stair_rise if is_missing(flight.rise) or not flight.is_whole_stair else flight.rise


def _laid_out(flight: StairFlight, limit: RiserLimits) -> list[NewValue]:
    """Return the numbers of the layout that fits."""
    rise, tread = _rise(flight), limit.tread.value
    return (
        []
        if is_missing(rise) or not isinstance(tread, Length)
        else laid_out(flight.stair, rise, limit.maximum.value, tread)
    )


def _new_layout(flight: StairFlight, limit: RiserLimits) -> str:
    """Name the layout with the fewest risers that fits, for the whole stair; or say that none fits."""
    rise, tread = _rise(flight), limit.tread.value
    if is_missing(rise) or not isinstance(tread, Length):
        return f"give the total rise to have the risers laid out; none may be over {limit.maximum.value}"
    return layout_in_words(flight.stair, rise, limit.maximum.value, tread)


class TreadLimits(Limits):
    minimum: Limit[Length]
    variation: Limit[Length]
    kept: Limit[Length] = reads("existing.stair.tread")


@rule("stairs.tread-depth", stage="framing")
def tread_depth(flight: StairFlight, limit: TreadLimits) -> Check:
    """Treads are no shallower than the limit and alike within a flight.

    Measured horizontally between the leading edges of adjacent treads, nosing to nosing.
    """
    least = kept_or(flight, limit.kept, limit.minimum)
    return all_of(
        at_least(flight.tread, least).or_fix(
            lambda: f"lengthen the run until each tread is {least.value}", lambda: _deepened(flight, least.value)
        ),
        at_most(flight.tread_variation, limit.variation).or_fix("recut the treads until all are alike"),
        flight.treads_not_measured,
    ).because(flight.now_serves)


def _deepened(flight: StairFlight, tread: Length) -> list[NewValue]:
    """Return the new tread where it fits the run that is drawn; else the remedy is for a person to lay out."""
    room, needed = room_for(flight.flight), when_given(lambda count: tread * max(count - 1, 0), flight.risers)
    fits = is_missing(room) or (not is_missing(needed) and needed <= room)
    return [NewValue(flight.flight, "tread", tread)] if fits and not flight.flight.tread_depths else []


@rule("stairs.run-fits", stage="plan")
def run_fits(flight: StairFlight) -> Check:
    """The treads of a flight fit into the run that is drawn for it. A flight has one tread fewer than risers."""
    room, run = room_for(flight.flight), flight.run
    if is_missing(room) or is_missing(run):
        return does_not_apply("the run or what it takes is not given")
    if run <= room:
        return met(f"the treads need {run} of run, and {room} is there")
    told = f"{flight.risers} risers with treads of {flight.tread} need {run} of run, and {room} is there"
    return broken(told).or_fix("turn or lengthen the stair, or share its risers out anew")


class HeadroomLimits(Limits):
    minimum: Limit[Length]
    kept: Limit[Length] = reads("existing.stair.headroom")


@rule("stairs.headroom", stage="framing")
def headroom(flight: StairFlight, limit: HeadroomLimits) -> Check:
    """There is headroom over the whole stair, plumb from the line of the nosings.

    A stair in the open is asked for it only where the plans give one, as under a deck above.
    """
    least = kept_or(flight, limit.kept, limit.minimum)
    if flight.is_in_the_open and is_missing(flight.headroom):
        return does_not_apply("nothing is drawn over a stair in the open")
    clear = at_least(flight.headroom, least).or_fix(
        lambda: f"lengthen the opening above or move it until {least.value} is clear over every nosing",
        lambda: [NewValue(one, "headroom", least.value) for one in flight.givers("headroom")],
    )
    return clear.because(flight.now_serves)


class WidthLimits(Limits):
    clear: Limit[Length]
    kept: Limit[Length] = reads("existing.stair.width")


@rule("stairs.width", stage="framing")
def width(flight: StairFlight, limit: WidthLimits) -> Check:
    """The stair is wide enough above the handrails."""
    least = kept_or(flight, limit.kept, limit.clear)
    wide = at_least(flight.width, least).or_fix(
        lambda: f"widen the stair and its landings to {least.value} clear",
        lambda: _widened(flight, least.value),
        decide="how the plan changes",
    )
    return wide.because(flight.now_serves)


def _widened(flight: StairFlight, width: Length) -> list[NewValue]:
    """Return the new widths of the flight and of the landings that would be narrower than it; none where the plan changes."""
    box = drawn_box(flight.stair)
    if box is not None and box.width < width:
        return []
    landings = [x for x in flight.stair.landings if not is_missing(x.width) and x.width < width]
    return [NewValue(one, "width", width) for one in (*flight.givers("width"), *landings)]


class RailWidthLimits(Limits):
    one: Limit[Length]
    two: Limit[Length]


@rule("stairs.width-at-rails", stage="framing")
def width_at_rails(flight: StairFlight, limit: RailWidthLimits) -> Check:
    """The stair stays wide enough at and below one handrail, or between two."""
    rails, below = flight.flight.rails, flight.flight.width_below_rail
    if rails == 0 or (is_missing(rails) and is_missing(below)):
        return does_not_apply("no handrail is drawn that narrows the stair")
    two = when_given(lambda count: count >= 2, rails)
    return decide(two, at_least(below, limit.two), at_least(below, limit.one))


class RiseLimits(Limits):
    maximum: Limit[Length]


@rule("stairs.rise-between-landings", stage="framing")
def rise_between_landings(flight: StairFlight, limit: RiseLimits) -> Check:
    """No flight climbs higher than the limit without a landing."""
    return at_most(flight.rise, limit.maximum).or_fix("break the flight with a landing")


class ExemptLimits(Limits):
    crawl_space: Limit[str]
    apart: Limit[str]
    no_lower_pitch: Limit[str]


@rule("stairs.exempt", stage="plan")
def exempt(stair: Stair, limit: ExemptLimits, house: House) -> Check:
    """Stairs that the code frees of its rules: those to a crawl space, and those apart from any building.

    So is one that stands where the space allows no lower pitch; whether it does is for the building official to see. A
    stair to attic storage has a rule of its own.
    """
    freed = stair_exemption(stair, house)
    if freed is None:
        return does_not_apply("the code exempts no stair like this one")
    name = freed.limit.rpartition(".")[2]
    granted = {"crawl-space": limit.crawl_space, "apart": limit.apart, "no-lower-pitch": limit.no_lower_pitch}
    if name not in granted:
        return does_not_apply("the rule for stairs to attic storage judges it")
    if granted[name].value is None:
        return does_not_apply("this edition exempts no such stair")
    if name == "no-lower-pitch":
        return look_at(Look.OFFICIAL, f"{freed.why}: agree with the official that the stair may keep its pitch")
    return met(f"{freed.why}: the rules for stairs do not hold")


@rule("stairs.special-form", stage="plan")
def special_form(formed: FormedStair) -> Check:
    """A pull-down stair is a ladder to attic storage and no stair; the other special stairs have rules of their own."""
    stair = formed.stair
    if stair.form == "pull-down" and formed.serves:
        told = f"a pull-down stair is a ladder to storage, and {formed.serves[0].label} is no storage"
        return broken(told).or_fix("draw a stair")
    if stair.form == "pull-down" and stair.is_existing:
        return does_not_apply("it stands, and leads to what it did")
    if stair.form == "pull-down":
        told = "a pull-down stair to attic storage is commonly accepted as a ladder, not as a stair"
        return look_at(Look.OFFICIAL, told)
    if stair.is_common_form:
        return does_not_apply("the general rules for stairs apply")
    return does_not_apply(f"the rules for a stair of the form `{stair.form}` judge it")
