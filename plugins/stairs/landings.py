"""Landings of stairs: where there has to be one, how large it is, and how level."""

from __future__ import annotations

from precheck_plugins.stairs.flights import Platform, WholeStair, is_outdoors

from precheck import (
    Check,
    Door,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    Slope,
    Stair,
    all_of,
    all_risers,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    required,
    rule,
    when_given,
)


class LandingLimits(Limits):
    depth: Limit[Length]
    width: Limit[Ratio]
    low_width: Limit[Length]
    low_risers: Limit[int]


@rule("stairs.landing-size", stage="framing")
def landing_size(platform: Platform, limit: LandingLimits) -> Check:
    """A landing is as wide as the stair and deep enough along the way.

    One that is not rectangular is measured at the walkline and by its area, so that a person has to look.
    """
    landing = platform.landing
    if landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    if landing.shape == "other":
        return look_at(Look.OFFICIAL, "a landing of this shape is measured at the walkline and by its area")
    across = when_given(lambda own, stair: Ratio(own / stair), landing.width, platform.stair_width)
    wide = at_least(across, limit.width, lambda: f"{landing.width} landing / {platform.stair_width} stair")
    wide = wide.or_fix(
        lambda: f"make the landing {platform.stair_width} wide, as the stair is",
        lambda: [NewValue(landing, "width", platform.stair_width)],
    )
    deep = at_least(landing.depth, limit.depth).or_fix(
        lambda: f"make the landing {limit.depth.value} deep", lambda: [NewValue(landing, "depth", limit.depth.value)]
    )
    return all_of(deep, wide if wide.outcome is Outcome.PASS else any_of(wide, _wide_enough_below(platform, limit)))


def _wide_enough_below(platform: Platform, limit: LandingLimits) -> Check:
    """Return the check of the lesser width that the code grants below a few steps of a deck, porch or patio."""
    least, most, outside = limit.low_width.value, limit.low_risers.value, platform.is_low_and_outside
    few = when_given(lambda count, allowed: count <= (allowed or 0), all_risers(platform.stair), most)
    if least is None or few is False or outside is False:
        return does_not_apply("no lesser width is granted here")
    granted = at_least(platform.landing.width, limit.low_width)
    unknown = missing_of(few, outside)
    return granted if unknown is None or granted.outcome is not Outcome.PASS else not_shown(unknown)


class LandingSlopeLimits(Limits):
    maximum: Limit[Slope]
    draining: Limit[Slope]


@rule("stairs.landing-slope", stage="final")
def landing_slope(platform: Platform, limit: LandingSlopeLimits) -> Check:
    """A landing is close to level, where its slope is drawn; one that must shed rain may slope a little more."""
    slope = platform.landing.slope
    if is_missing(slope):
        return does_not_apply("no slope of the landing is drawn")
    level = at_most(slope, limit.maximum)
    if level.outcome is Outcome.PASS or limit.draining.value is None:
        return level
    sheds_rain = platform.landing.drains if is_outdoors(platform.stair, platform.house) else False
    return decide(sheds_rain, at_most(slope, limit.draining), level)


class LandingPlaces(Limits):
    at_each_end: Limit[bool]


@rule("stairs.landings", stage="framing")
def landings(whole: WholeStair, limit: LandingPlaces, house: House) -> Check:
    """There is a floor or landing at the top and the bottom of each flight.

    The top one may be left out inside the house where the door there does not swing over the steps. A landing at an
    exterior door is judged with the door.
    """
    stair = whole.stair
    top = _without_top(stair, limit, house)
    return all_of(
        _landing_at(stair, "bottom", limit, required(False, limit.at_each_end, "at the bottom")),
        _landing_at(stair, "top", limit, top),
        _between(stair, limit),
    )


def _landing_at(stair: Stair, where: str, limit: LandingPlaces, without: Check) -> Check:
    """Return whether the landing at one end is drawn; `without` is the check where the drawings say there is none.

    Where `without` is met, or judged elsewhere, nobody need say whether there is one.
    """
    drawn = [landing for landing in stair.landings if landing.where == where]
    if not drawn:
        spared = where == "top" and without.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY)
        return without if spared else required(stair.absent(f"landing or floor at the {where}"), limit.at_each_end)
    if all(landing.none for landing in drawn):
        return without.or_fix(f"draw a landing at the {where}")
    return required(True, limit.at_each_end, f"at the {where}")


def _without_top(stair: Stair, limit: LandingPlaces, house: House) -> Check:
    missing = required(False, limit.at_each_end, "at the top")
    doors = [d for d in house.subjects(Door) if set(d.between) == set(stair.between) and not d.is_removed]
    if is_outdoors(stair, house):
        return does_not_apply("the rule for landings at exterior doors judges it") if doors else missing
    swings = _swings_over_steps(stair, doors, house)
    allowed = met("the door at the top does not swing over the steps, so no landing is needed there")
    return decide(swings, missing.because("the door at the top swings over the steps"), allowed)


def _swings_over_steps(stair: Stair, doors: list[Door], house: House) -> bool | Missing:
    """Return whether the door at the top swings over the steps: as stated, or as one of `doors`, which join its ends, is drawn.

    A door that slides, or an opening without one, swings over nothing.
    """
    drawn = [_swings_down(door, house.ends(stair)[1]) for door in doors]
    unsaid = missing_of(*drawn)
    tops = [landing.door_swings_over_steps for landing in stair.landings if landing.where == "top"]
    stated = tops[0] if tops else unsaid if unsaid is not None else stair.absent("landing or floor at the top")
    return True if True in (*drawn, stated) else stated if not drawn or unsaid is not None else False


def _swings_down(door: Door, top: str) -> bool | Missing:
    """Return whether a door swings away from `top`, the room at the top of the steps."""
    if not is_missing(door.operation) and door.operation != "side-hinged":
        return False
    return when_given(lambda into: into != top, door.swings_into)


def _between(stair: Stair, limit: LandingPlaces) -> Check:
    turns = len(stair.flights) - 1
    between = [landing for landing in stair.landings if landing.where == "between"]
    if not turns:
        return does_not_apply("one flight only")
    shown = sum(not landing.none for landing in between) >= turns or (
        stair.absent("landings between the flights") if len(between) < turns else False
    )
    return required(shown, limit.at_each_end, "between the flights")
