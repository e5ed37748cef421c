"""Bars in footings where the ground shakes, the concrete over them, and the strength of concrete."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck import (
    Bars,
    Check,
    Concrete,
    Footing,
    FoundationWall,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Pressure,
    Ratio,
    Settled,
    Slab,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

CALM = "the seismic design category asks for no bars here"
SHAKEN = "the seismic design category asks for bars"


class SlabBarLimits(Limits):
    categories: Settled[tuple[str, ...]]
    number: Limit[int]
    top: Limit[int]
    bottom: Limit[int]
    middle_number: Limit[int]
    middle_thick: Limit[int]
    middle: Limit[int]
    dowel_number: Limit[int]
    dowel_spacing: Limit[Length]
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("foundations.turned-down-bars", stage="foundation")
def turned_down_bars(footing: Footing, limit: SlabBarLimits, house: House) -> Check:
    """In high seismic design categories a turned-down slab has a bar top and bottom, or, cast in one, bars in its middle."""
    if footing.form != "turned-down slab":
        return does_not_apply("it is no slab turned down")
    return decide(
        house.is_shaken(limit.seismic.value, limit.categories.value),
        _slab_bars(footing.bars, limit),
        does_not_apply(CALM),
    ).because(SHAKEN)


def _slab_bars(bars: Any, limit: SlabBarLimits) -> Check:
    apart = all_of(
        at_least(bars.number, limit.number), at_least(bars.top, limit.top), at_least(bars.bottom, limit.bottom)
    ).or_fix(
        f"one No. {limit.number.value} bar at the top and one at the bottom",
        lambda: [NewValue(bars, name, getattr(limit, name).value) for name in ("number", "top", "bottom")],
    )
    thick = all_of(at_least(bars.number, limit.middle_thick), at_least(bars.middle_third, limit.top))
    thin = all_of(at_least(bars.number, limit.middle_number), at_least(bars.middle_third, limit.middle))
    dowels = all_of(at_least(bars.dowel_number, limit.dowel_number), at_most(bars.dowel_spacing, limit.dowel_spacing))
    cast_in_one = apart if is_missing(bars.middle_third) else any_of(apart, thick, thin)
    return decide(bars.cast_with_slab, cast_in_one, all_of(apart, dowels))


class StemBarLimits(Limits):
    number: Limit[int]
    spacing: Limit[Length]
    into_wall: Limit[Length]
    hooked: Limit[bool]
    top: Limit[int]
    bottom: Limit[int]
    categories: Settled[tuple[str, ...]] = reads("foundations.turned-down-bars.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("foundations.stem-wall-bars", stage="foundation")
def stem_wall_bars(footing: Footing, limit: StemBarLimits, house: House) -> Check:
    """In high seismic design categories, bars tie a stem wall to the footing that it is cast on."""
    if footing.form != "continuous":
        return does_not_apply("no stem wall stands on it")
    bars = footing.bars
    tied = all_of(
        at_least(bars.upright_number, limit.number),
        at_most(bars.upright_spacing, limit.spacing),
        at_least(bars.upright_into_wall, limit.into_wall),
        required(bars.hooked, limit.hooked),
        at_least(bars.top, limit.top),
        at_least(bars.bottom, limit.bottom),
    )
    apart = decide(footing.stem_wall_cast_separately, tied, does_not_apply("wall and footing are cast in one"))
    shaken = house.is_shaken(limit.seismic.value, limit.categories.value)
    return decide(shaken, apart, does_not_apply(CALM)).because(SHAKEN)


class CoverLimits(Limits):
    earth: Limit[Length]
    outdoors: Limit[Length]
    outdoors_thick: Limit[Length]
    large_bar_from: Settled[int]
    indoors: Limit[Length]


@rule("foundations.bar-cover", stage="foundation")
def bar_cover(bars: Bars, limit: CoverLimits) -> Check:
    """Rebar has enough concrete cover for what the concrete is cast against."""
    if isinstance(bars.owner, FoundationWall) and "masonry" in str(bars.owner.built_of):
        return does_not_apply("masonry and grout cover them")
    if is_missing(bars.cast_against):
        return not_shown(bars.cast_against)
    if bars.cast_against == "earth":
        return at_least(bars.cover, limit.earth)
    if bars.cast_against == "forms indoors":
        return at_least(bars.cover, limit.indoors)
    thick = when_given(lambda number: number >= limit.large_bar_from.value, bars.number)
    return decide(thick, at_least(bars.cover, limit.outdoors_thick), at_least(bars.cover, limit.outdoors))


class ConcreteLimits(Limits):
    strength: Limit[Pressure]
    wall_exposed: Settled[Any]
    slab_exposed: Settled[Any]
    air: Limit[Ratio]
    maximum_air: Limit[Ratio]
    troweled_air: Limit[Ratio]
    troweled_strength: Limit[Pressure]
    air_entrained_weathering: Settled[tuple[str, ...]]
    weathering: Limit[Any] = reads("criteria.weathering")


@rule("foundations.concrete", stage="foundation")
def concrete(mix: Concrete, limit: ConcreteLimits, house: House) -> Check:
    """New concrete is strong enough for its exposure and the weathering of the place, and air-entrained outdoors.

    A steel-troweled garage slab may hold less air where it is stronger.
    """
    garage = isinstance(mix.owner, Slab) and _is_garage(mix.owner, house)
    weather = house.criterion(limit.weathering.value, "weathering")
    plain = at_least(mix.strength, limit.strength)
    table = limit.slab_exposed if isinstance(mix.owner, Slab) else limit.wall_exposed
    out = not_shown(weather) if is_missing(weather) else _outdoors(mix, str(weather).lower(), table, limit, house)
    return decide(True if garage else mix.exposed, out, plain)


def _outdoors(mix: Concrete, weather: str, table: Limit[Any], limit: ConcreteLimits, house: House) -> Check:
    if weather not in table.value:
        return not_shown(mix.absent(f"weathering among {', '.join(table.value)}"))
    strong = at_least(mix.strength, replace(table, value=table.value[weather]), f"{weather} weathering")
    strong = strong.or_fix(
        lambda: f"call for {table.value[weather]}", lambda: [NewValue(mix, "strength", table.value[weather])]
    )
    if weather not in limit.air_entrained_weathering.value:
        return strong
    return all_of(strong, _air(mix, limit, house), at_most(mix.air_content, limit.maximum_air))


def _air(mix: Concrete, limit: ConcreteLimits, house: House) -> Check:
    usual = at_least(mix.air_content, limit.air)
    slab = mix.owner
    if not isinstance(slab, Slab) or slab.finish != "trowel" or not _is_garage(slab, house):
        return usual
    less = all_of(at_least(mix.air_content, limit.troweled_air), at_least(mix.strength, limit.troweled_strength))
    return any_of(usual, less)


def _is_garage(slab: Slab, house: House) -> bool:
    space = None if is_missing(slab.space) else house.space(slab.space)
    return space is not None and space.is_vehicle
