"""The ground and paving around the house, walls that hold earth with their drains, and times for curing and drying."""

from __future__ import annotations

from precheck import (
    Check,
    EarthWall,
    Grade,
    Length,
    Limit,
    Limits,
    NewValue,
    Pour,
    Slope,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    first_given,
    if_stated,
    is_missing,
    met,
    one_of,
    required,
    rule,
    when_given,
)

INCH = Length.parse("1 in")


class FallLimits(Limits):
    falls: Limit[tuple[str, ...]]
    drop: Limit[Length]
    within: Limit[Length]
    paving: Limit[Slope]
    otherwise: Limit[bool]
    discharge: Limit[tuple[str, ...]]


@rule("cladding.ground-falls", stage="final")
def ground_falls(grade: Grade, limit: FallLimits) -> Check:
    """Finish grade and paving slope away from the house, or a drain or swale takes the water.

    The fall of soil is counted over its first stretch; paving near the house has a slope of its own.
    """
    away = one_of(grade.falls, limit.falls).or_fix("regrade, so that water runs away from the house")
    slope = first_given(grade.slope, when_given(lambda fall, over: Slope(fall / over), grade.fall, grade.over))
    needed = Slope(limit.drop.value / limit.within.value)
    paved = when_given(lambda surface: surface == "paving", grade.surface)
    enough = decide(paved, at_least(slope, limit.paving), _soil(grade, slope, needed, limit))
    swale = required(grade.drain_or_swale, limit.otherwise)
    steep = any_of(enough, swale) if not is_missing(grade.drain_or_swale) else enough
    led = if_stated(grade.discharge_to, one_of, limit.discharge)
    return all_of(away, steep, led)


def _soil(grade: Grade, slope: object, needed: Slope, limit: FallLimits) -> Check:
    whole = when_given(lambda own: limit.within.value * own.n, slope)
    return at_least(whole, limit.drop, lambda: f"over {limit.within.value}").or_fix(
        f"raise the ground at the house until it falls {limit.drop.value} in {limit.within.value}, or add a swale",
        lambda: _raised(grade, needed),
    )


def _raised(grade: Grade, slope: Slope) -> list[NewValue]:
    """Return the ground at `slope`, as its slope and as its fall, whichever the plans give."""
    found = [] if is_missing(grade.slope) else [NewValue(grade, "slope", slope)]
    if not is_missing(grade.fall) and not is_missing(grade.over):
        found.append(NewValue(grade, "fall", grade.over * slope.n))
    return found


class EarthLimits(Limits):
    coatings: Limit[tuple[str, ...]]
    coatings_when_wet: Limit[tuple[str, ...]]
    to_grade: Limit[bool]


@rule("cladding.earth-wall", stage="foundation")
def earth_wall(wall: EarthWall, limit: EarthLimits) -> Check:
    """A basement wall is dampproofed from footing to finish grade, or waterproofed where groundwater is high."""
    dry = one_of(wall.coating, limit.coatings).or_fix(
        "dampproof the wall from the footing to grade", lambda: [NewValue(wall, "coating", limit.coatings.value[0])]
    )
    wet = one_of(wall.coating, limit.coatings_when_wet).or_fix(
        "waterproof the wall", lambda: [NewValue(wall, "coating", limit.coatings_when_wet.value[0])]
    )
    return all_of(decide(wall.high_groundwater, wet, dry), required(wall.coated_footing_to_grade, limit.to_grade))


class DrainLimits(Limits):
    past_footing: Limit[Length]
    above_footing: Limit[Length]
    under_pipe: Limit[Length]
    over_pipe: Limit[Length]
    filter: Limit[bool]
    outlets: Limit[tuple[str, ...]]


@rule("cladding.perimeter-drain", stage="foundation")
def perimeter_drain(wall: EarthWall, limit: DrainLimits) -> Check:
    """A wall that retains earth has a foundation drain: gravel, or pipe in gravel, under filter fabric, with an outlet.

    Well-drained soils need none.
    """
    if wall.well_drained_soil is True:
        return does_not_apply("well-drained soil")
    drain = wall.drain
    gravel = all_of(
        at_least(drain.gravel_past_footing, limit.past_footing),
        at_least(drain.gravel_above_footing, limit.above_footing),
    )
    piped = all_of(
        at_least(drain.gravel_under_pipe, limit.under_pipe), at_least(drain.gravel_over_pipe, limit.over_pipe)
    )
    has_pipe = not is_missing(drain.gravel_under_pipe) or not is_missing(drain.gravel_over_pipe)
    return all_of(
        piped if has_pipe else gravel, required(drain.filter, limit.filter), one_of(drain.outlet, limit.outlets)
    )


class CuringLimits(Limits):
    moist: Limit[int]
    before_paint: Limit[int]
    flooring_each_inch: Limit[int]
    moisture_test: Limit[bool]


@rule("cladding.curing", stage="plan")
def curing(pour: Pour, limit: CuringLimits) -> Check:
    """Good practice: concrete is moist-cured, and stucco, mortar and slabs dry before paint and flooring."""
    if pour.material != "concrete":
        return at_least(pour.days_before_paint, limit.before_paint)
    if is_missing(pour.days_before_flooring):
        return all_of(at_least(pour.days_moist, limit.moist), does_not_apply("days before flooring: not stated"))
    needed = when_given(lambda thick: thick / INCH * limit.flooring_each_inch.value, pour.thickness)
    dry = when_given(lambda days, wanted: days >= wanted, pour.days_before_flooring, needed)
    tested = required(pour.moisture_test, limit.moisture_test)
    return all_of(at_least(pour.days_moist, limit.moist), decide(dry, met("dry long enough"), tested))
