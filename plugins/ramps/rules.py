"""Ramps: slope, landings and handrail."""

from __future__ import annotations

from precheck_plugins.ramps.ways import RampWay

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Ramp,
    RampLanding,
    Ratio,
    Slope,
    agrees,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    required,
    rule,
    when_given,
)

SAME_SLOPE = Slope.parse("0.2 %")  # two sheets that round the same slope


class SlopeLimits(Limits):
    egress: Limit[Slope]
    other: Limit[Slope]


@rule("ramps.slope", stage="framing")
def slope(way: RampWay, limit: SlopeLimits) -> Check:
    """A ramp is not steep: gentler where it serves the required egress door, unless the site makes that impossible."""
    gentle = at_most(way.slope, limit.egress, lambda: way.derived).or_fix(
        lambda: _longer(way, limit.egress), lambda: _lengthened(way, limit.egress)
    )
    steep = at_most(way.slope, limit.other, lambda: way.derived).or_fix(
        lambda: _longer(way, limit.other), lambda: _lengthened(way, limit.other)
    )
    relieved = steep if way.ramp.site_too_steep is True else gentle
    return decide(way.serves_egress, relieved, steep)


def _lengthened(way: RampWay, limit: Limit[Slope]) -> list[NewValue]:
    """Return the slope where it is stated, and the run where the rise tells how long that has to be."""
    ramp = way.ramp
    found = [] if is_missing(ramp.slope) else [NewValue(ramp, "slope", limit.value)]
    if not is_missing(ramp.run) and not is_missing(ramp.rise):
        found.append(NewValue(ramp, "run", ramp.rise / limit.value.n))
    return found


def _longer(way: RampWay, limit: Limit[Slope]) -> str:
    if is_missing(way.ramp.rise):
        return f"lengthen the ramp until it slopes no more than {limit.value}"
    return f"{way.ramp.rise} of rise needs {way.ramp.rise / limit.value.n} of run"


@rule("ramps.slope-agrees", stage="intake", existing="must comply")
def slope_agrees(way: RampWay) -> Check:
    """The slope of the ramp agrees with its rise and run, and its rise with the floors that it joins, where drawn."""
    how = f"{way.ramp.rise} / {way.ramp.run}"
    return all_of(
        agrees(way.ramp.slope, way.worked_out, "the slope of the ramp", SAME_SLOPE, how),
        agrees(
            way.ramp.rise, way.rise_by_floors, "the rise of the ramp", derived="from finished floor to finished floor"
        ),
    )


class LandingPlaces(Limits):
    at_ends: Limit[bool]
    at_turns: Limit[bool]


@rule("ramps.landings", stage="framing")
def landings(ramp: Ramp, limit: LandingPlaces) -> Check:
    """A ramp has a landing at its top and bottom, and wherever it turns."""
    ends = [required(_drawn(ramp, where), limit.at_ends, f"at the {where}") for where in ("top", "bottom")]
    turns = sum(landing.where == "turn" and not landing.none for landing in ramp.landings)
    enough = when_given(lambda count: turns >= count, ramp.turns)
    return all_of(*ends, required(enough, limit.at_turns))


def _drawn(ramp: Ramp, where: str) -> bool | Missing:
    said = [not landing.none for landing in ramp.landings if landing.where == where]
    return any(said) if said else ramp.absent(f"landing at the {where}")


class LandingLimits(Limits):
    length: Limit[Length]
    width: Limit[Length]
    ramp_width: Limit[Ratio]


@rule("ramps.landing-size", stage="framing")
def landing_size(landing: RampLanding, limit: LandingLimits) -> Check:
    """A landing of a ramp is long enough in the direction of travel, and wide enough or as wide as the ramp."""
    if landing.none:
        return does_not_apply("there is no landing here, which the rule for landings judges")
    long_enough = at_least(landing.length, limit.length).or_fix(
        lambda: f"make the landing {limit.length.value} long", lambda: [NewValue(landing, "length", limit.length.value)]
    )
    wide_enough = at_least(landing.width, limit.width).or_fix(
        lambda: f"make the landing {limit.width.value} wide", lambda: [NewValue(landing, "width", limit.width.value)]
    )
    return all_of(long_enough, wide_enough, _as_wide_as_the_ramp(landing, limit.ramp_width))


def _as_wide_as_the_ramp(landing: RampLanding, limit: Limit[Ratio]) -> Check:
    across = landing.owner.width
    share = when_given(lambda own, ramp: Ratio(own / ramp), landing.width, across)
    check = at_least(share, limit, lambda: f"{landing.width} landing / {across} ramp")
    return check.or_fix(lambda: f"make the landing {across} wide", lambda: [NewValue(landing, "width", across)])


class HandrailLimits(Limits):
    steeper_than: Limit[Slope]
    minimum: Limit[int]


@rule("ramps.handrail", stage="final")
def handrail(way: RampWay, limit: HandrailLimits) -> Check:
    """A steeper ramp has a handrail on at least one side."""
    if limit.steeper_than.value is None:
        return does_not_apply("no slope calls for a handrail here")
    steep = when_given(lambda own, most: own > most, way.slope, limit.steeper_than.value)
    ramp = way.ramp
    stated = when_given(int, ramp.has_handrail)
    rails = len(ramp.handrails) if ramp.handrails else ramp.absent("handrails") if is_missing(stated) else stated
    due = at_least(rails, limit.minimum).or_fix(
        "add a handrail on one side, or make the ramp gentler",
        lambda: [] if ramp.handrails else [NewValue(ramp, "has_handrail", "yes")],
    )
    gentle = does_not_apply(f"it slopes no more than {limit.steeper_than.value}")
    return decide(steep, due, gentle).because(f"the ramp slopes {way.slope}" if steep is True else "")
