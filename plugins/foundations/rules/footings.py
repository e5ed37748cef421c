"""Footings: size, the footing tables, load on soil, depth and frost, what they bear on, and the concrete."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil, sqrt
from typing import Any

from precheck_plugins.foundations.decks import carries_free_deck
from precheck_plugins.foundations.loaded import LoadedFooting
from precheck_plugins.foundations.outside import (
    attached_to,
    built_of,
    is_all_detached,
    lowest_floor_of,
    stands_in_open,
    stands_outside,
)
from precheck_plugins.foundations.tables import Needed, needed_by_table

from precheck import (
    Area,
    Check,
    Footing,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Pressure,
    Ratio,
    Settled,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

SQUARE_FOOT = Area.parse("1 sq ft")
FOOT = Length.parse("1 ft")
STANDS = "it stands, and is not described so far"
EDGE = "the edge of a slab is no footing; see what the wall stands on"


class SizeLimits(Limits):
    width: Limit[Length]
    thickness: Limit[Length]
    projection: Limit[Length]
    projection_to_thickness: Limit[Ratio]


@rule("foundations.footing-size", stage="foundation")
def footing_size(loaded: LoadedFooting, limit: SizeLimits) -> Check:
    """A footing is wide and thick enough; its projection past the wall is far enough and no more than its thickness."""
    footing = loaded.footing
    if footing.form == "slab edge":
        return does_not_apply(EDGE)
    if is_missing(footing.form) and is_missing(footing.projection) and not footing.is_existing:
        return not_shown(footing.form)
    strip = at_least(footing.width, limit.width).or_fix(
        lambda: f"use a footing {limit.width.value} wide", lambda: [NewValue(footing, "width", limit.width.value)]
    )
    wide = strip if footing.form != "isolated" else does_not_apply("sized by its load")
    thick = at_least(footing.thickness, limit.thickness).or_fix(
        lambda: f"use a footing {limit.thickness.value} thick",
        lambda: [NewValue(footing, "thickness", limit.thickness.value)],
    )
    if footing.form in ("turned-down slab", "isolated"):
        return all_of(wide, thick)
    if footing.is_existing and is_missing(footing.projection):
        return all_of(wide, thick)
    share = when_given(lambda out, own: Ratio(out / own), footing.projection, footing.thickness)
    far = at_most(share, limit.projection_to_thickness, lambda: f"{footing.projection} / {footing.thickness}")
    return all_of(wide, thick, at_least(footing.projection, limit.projection), far)


class TableLimits(Limits):
    widths: Settled[Any]
    thicknesses: Settled[Any]
    veneer_widths: Settled[Any]
    veneer_thicknesses: Settled[Any]
    masonry_widths: Settled[Any]
    masonry_thicknesses: Settled[Any]
    house_width: Settled[Length]
    width_step: Settled[Length]
    more_width: Settled[Length]
    more_thickness: Settled[Length]
    presumed: Settled[Any] = reads("foundations.soil.presumed")
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("foundations.footing-table", stage="foundation", engineered="stands aside")
def footing_table(loaded: LoadedFooting, limit: TableLimits, house: House) -> Check:
    """A wall footing is as wide and thick as the tables require for stories, snow load and soil.

    The tables are made for a house of one width; a wider one needs more. Between their columns the values are
    interpolated.
    """
    footing = loaded.footing
    if footing.form not in ("continuous", "turned-down slab"):
        return does_not_apply("it carries no wall")
    snow, soil = house.criterion(limit.snow.value, "ground_snow_load"), soil_bearing(footing, limit.presumed)
    if snow is None:
        return does_not_apply("no ground snow load is set, which the tables are read by")
    lowest, built = lowest_floor_of(footing, house), built_of(footing, house)
    absent = missing_of(footing.stories, lowest, built, snow, soil, footing.width, footing.thickness)
    if absent is not None:
        return does_not_apply(STANDS) if loaded.phase == "existing" else not_shown(absent)
    needed = needed_by_table(f"{footing.stories} story {lowest}", str(built), snow, soil, limit)
    if needed is None:
        return look_at(
            Look.ENGINEER, "the footing tables have no row for so much snow, so weak a soil or so many stories"
        )
    if is_missing(footing.house_width):
        return not_shown(footing.house_width)
    held = _against(footing, needed.for_house(footing.house_width, limit))
    return all_of(held, does_not_apply("soil bearing: not stated")) if is_missing(footing.soil_bearing) else held


def _against(footing: Footing, needed: Needed) -> Check:
    wide, thick = max(needed.width, footing.width), max(needed.thickness, footing.thickness)
    return all_of(
        at_least(footing.width, replace(needed.widths, value=needed.width), needed.derived),
        at_least(footing.thickness, replace(needed.thicknesses, value=needed.thickness), needed.derived),
    ).or_fix(
        f"use a footing {wide} wide and {thick} thick",
        lambda: [NewValue(footing, "width", wide), NewValue(footing, "thickness", thick)],
    )


def soil_bearing(footing: Footing, presumed: Limit[Any]) -> Any:
    """Return the bearing that a footing counts on: as stated, else what is presumed of its soil."""
    if not is_missing(footing.soil_bearing) or is_missing(footing.soil):
        return footing.soil_bearing
    return presumed.value[footing.soil]


class LoadLimits(Limits):
    used: Limit[Ratio]
    concrete_weight: Settled[Pressure]
    presumed: Settled[Any] = reads("foundations.soil.presumed")


@rule("foundations.footing-load", stage="foundation")
def footing_load(loaded: LoadedFooting, limit: LoadLimits) -> Check:
    """A post footing is large enough for its load and its own weight on this soil."""
    footing = loaded.footing
    if is_missing(footing.form) and not is_missing(footing.load):
        return not_shown(footing.form)
    if footing.form != "isolated":
        return does_not_apply("it is no footing of a post")
    soil = soil_bearing(footing, limit.presumed)
    sides = (footing.width, footing.length)
    pressure = when_given(_pressure, footing.load, *sides, footing.thickness, limit.concrete_weight)
    used = when_given(lambda own, bearing: Ratio(own / bearing), pressure, soil)
    said = f"{pressure} on soil of {soil}"
    return at_most(used, limit.used, said).or_fix(
        lambda: _square(_side(footing, soil, limit)), lambda: _sized(footing, _side(footing, soil, limit))
    )


def _pressure(load: Any, width: Length, length: Length, thickness: Length, weight: Limit[Pressure]) -> Pressure:
    area = Fraction(width / FOOT) * Fraction(length / FOOT)
    return Pressure(Fraction(load.n) / area + weight.value.n * Fraction(thickness / FOOT) * 12)


def _side(footing: Footing, soil: Pressure, limit: LoadLimits) -> Length | None:
    """Return the side of a square footing as thick as drawn, to 2 in, that carries its load and its own weight."""
    if is_missing(footing.load) or is_missing(footing.thickness):
        return None
    net = float(soil.n) - limit.concrete_weight.value.n * float(footing.thickness / FOOT) * 12
    if net <= 0:
        return None
    return Length.parse(f"{2 * ceil(6 * sqrt(float(footing.load.n) / net) - 1e-9)} in")


def _square(side: Length | None) -> str:
    return (
        "an engineer: the soil does not carry the footing itself"
        if side is None
        else f"use a footing {side} square, which carries its own weight too"
    )


def _sized(footing: Footing, side: Length | None) -> list[NewValue]:
    return [] if side is None else [NewValue(footing, field, side) for field in ("width", "length")]


class DepthLimits(Limits):
    minimum: Limit[Length]
    frost_protection: Limit[tuple[str, ...]]
    freestanding: Limit[bool]
    free_deck: Limit[bool]
    light_frame_area: Limit[Area]
    other_area: Limit[Area]
    eave_height: Limit[Length]
    frost: Limit[Any] = reads("criteria.frost-depth")


@rule("foundations.footing-depth", stage="foundation")
def footing_depth(loaded: LoadedFooting, limit: DepthLimits, house: House) -> Check:
    """Outdoor footings are deep enough, and below the frost line.

    Instead of depth a frost-protected shallow design or solid rock will do. Small freestanding accessory buildings
    need not go below frost, nor does a deck that nothing holds to the house; a carport or porch that leans on the house
    is not freestanding. What an outside wall or the posts of a deck stand on is outdoors, whatever is said of it.
    """
    footing = loaded.footing
    outside = stands_outside(footing, house)
    if footing.outdoors is False and outside is None:
        return does_not_apply("it is under the middle of a heated house")
    told = f"{outside} stands on it" if footing.outdoors is False else ""
    return _deep_enough(footing, limit, house).because(told)


def _deep_enough(footing: Footing, limit: DepthLimits, house: House) -> Check:
    frost = house.criterion(limit.frost.value, "frost_depth")
    instead = _instead(footing, limit, house)
    spared = any(way.outcome is way.outcome.PASS for way in instead)
    asked = [depth for depth in (limit.minimum.value, None if spared else frost) if isinstance(depth, Length)]
    deep = at_least(footing.below_grade, limit.minimum)
    below = deep if frost is None else all_of(deep, any_of(_below_frost(footing, frost, limit), *instead))
    return below.or_fix(
        lambda: f"take the bottom of the footing down to {max(asked)}, {max(asked) - footing.below_grade} deeper",
        lambda: [NewValue(footing, "below_grade", max(asked))],
    )


def _below_frost(footing: Footing, frost: Any, limit: DepthLimits) -> Check:
    if is_missing(frost) or is_missing(footing.below_grade):
        return not_shown(*(value for value in (frost, footing.below_grade) if is_missing(value)))
    depth = replace(limit.frost, value=frost, measures="footing depth below grade, to the frost line")
    return at_least(footing.below_grade, depth)


def _instead(footing: Footing, limit: DepthLimits, house: House) -> list[Check]:
    ways = [] if is_missing(footing.frost_protection) else [_way(footing, limit, house)]
    if limit.free_deck.value is not None and carries_free_deck(footing, house):
        ways.append(met("it carries a deck that nothing holds to the house"))
    if is_missing(footing.accessory):
        return [*ways, not_shown(footing.accessory)] if not ways and is_all_detached(house) else ways
    return [*ways, _small(footing, limit, house)]


def _way(footing: Footing, limit: DepthLimits, house: House) -> Check:
    """Check what stands for depth; no rock is where it bears on soil, and no heat of a house where a post stands in the open."""
    way = "solid rock" if footing.bears_on == "rock" else footing.frost_protection
    if way == "solid rock" and not is_missing(footing.bears_on) and footing.bears_on != "rock":
        return broken(f"it is said to stand on solid rock, and to bear on {footing.bears_on}", limit.frost_protection)
    if way == "frost-protected shallow" and stands_in_open(footing, house):
        return broken("a frost-protected shallow footing takes its warmth from a heated house", limit.frost_protection)
    return one_of(way, limit.frost_protection)


def _small(footing: Footing, limit: DepthLimits, house: House) -> Check:
    own = footing.accessory
    area = decide(own.light_frame, at_most(own.area, limit.light_frame_area), at_most(own.area, limit.other_area))
    if (beside := attached_to(footing, house)) is not None:
        return broken(f"{beside} stands on it and is attached to the house", limit.freestanding)
    free = required(own.freestanding, limit.freestanding)
    return all_of(free, area, at_most(own.eave_height, limit.eave_height))
