"""Air sealing and its test, hatches, recessed lights, ducts, lighting and pipes."""

from __future__ import annotations

from typing import Any

from precheck_plugins.energy.envelope import ZONE, WarmHatch, WarmLight, in_zone, is_conditioned, plain

from precheck import (
    AirTightness,
    Area,
    Check,
    DuctRun,
    Hatch,
    House,
    Insulation,
    Length,
    Limit,
    Limits,
    NewValue,
    PermanentLighting,
    Pipe,
    Ratio,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    less_than,
    not_shown,
    reads,
    required,
    rule,
    when_given,
    zone_number,
)


class SealLimits(Limits):
    sealed: Limit[bool]
    garage_wall: Limit[bool]


@rule("energy.air-sealing", stage="insulation")
def air_sealing(envelope: AirTightness, limit: SealLimits) -> Check:
    """The air barrier is sealed by the checklist of the energy chapter, the garage wall included."""
    wall = envelope.garage_wall_sealed
    return all_of(required(envelope.sealed_as_listed, limit.sealed), if_stated(wall, required, limit.garage_wall))


class LeakageLimits(Limits):
    maximum: Limit[dict[str, Ratio]]
    zone: Limit[str] = reads(ZONE)


@rule("energy.air-leakage", stage="final")
def air_leakage(envelope: AirTightness, limit: LeakageLimits, house: House) -> Check:
    """Where a blower-door test is made, the house leaks no more than its climate zone allows."""
    tested = envelope.air_changes_at_50_pa
    if is_missing(tested):
        return does_not_apply("no blower-door test is drawn; additions and alterations are often inspected instead")
    zone = house.criterion(limit.zone.value, "climate_zone")
    return at_most(tested, plain(in_zone(limit.maximum, zone)), "air changes in an hour at 50 Pa")


class HatchLimits(Limits):
    weatherstripped: Limit[bool]
    insulated: Limit[bool]
    dam: Limit[bool]
    stair_zones: Limit[tuple[str, ...]]
    stair_average: Limit[Insulation]
    stair_panel: Limit[Insulation]
    stair_panel_share: Limit[Ratio]
    stair_opening: Limit[Area]
    zone: Limit[str] = reads(ZONE)


@rule("energy.hatch", stage="insulation")
def hatch(opening: WarmHatch, limit: HatchLimits, house: House) -> Check:
    """Attic and crawl space hatches are weatherstripped and insulated like the surface around them."""
    hatch: Any = opening.part
    space = house.space(hatch.space)
    if space is None or not is_conditioned(space):
        return does_not_apply("it does not open from conditioned space")
    dam = required(hatch.dam_for_loose_fill, limit.dam)
    return all_of(
        required(hatch.weatherstripped, limit.weatherstripped),
        _insulated(hatch, limit, house),
        dam if hatch.loose_fill_beside is True else does_not_apply(_no_loose_fill(hatch)),
    )


def _no_loose_fill(hatch: Hatch) -> str:
    return "loose fill beside it: not stated" if is_missing(hatch.loose_fill_beside) else "no loose fill lies beside it"


def _insulated(hatch: Hatch, limit: HatchLimits, house: House) -> Check:
    """A pull-down stair may be insulated less than the ceiling where winters are mild, if it is small and tight."""
    alike = required(hatch.insulated_like_surface, limit.insulated)
    if hatch.reached_by != "pull-down stair" or limit.stair_zones.value is None:
        return alike
    zone = house.criterion(limit.zone.value, "climate_zone")
    mild = when_given(lambda text: f"zone {zone_number(str(text))}" in limit.stair_zones.value, zone)
    size = when_given(lambda box: box.area, hatch.rough_opening)
    as_stair = all_of(
        at_least(hatch.average_r, limit.stair_average),
        at_least(hatch.panel_r, limit.stair_panel),
        at_least(hatch.panel_share, limit.stair_panel_share),
        at_most(size, limit.stair_opening),
    )
    return any_of(alike, decide(mild, as_stair, alike))


class RecessedLimits(Limits):
    rated: Limit[bool]


@rule("energy.recessed-light", stage="rough-in")
def recessed_light(lamp: WarmLight, limit: RecessedLimits) -> Check:
    """Recessed lights in insulated ceilings are IC-rated and airtight."""
    light: Any = lamp.part
    if light.form != "recessed":
        return does_not_apply("not a recessed light")
    rated = required(light.ic_rated_and_airtight, limit.rated)
    return decide(light.in_insulated_ceiling, rated, does_not_apply("not in an insulated ceiling"))


class DuctLimits(Limits):
    attic: Limit[Insulation]
    attic_small: Limit[Insulation]
    other: Limit[Insulation]
    other_small: Limit[Insulation]
    small_below: Limit[Length]
    tested: Limit[bool]
    tested_inside: Limit[bool]
    extension_without_test: Limit[Length]
    cavities: Limit[int]


@rule("energy.ducts", stage="rough-in")
def ducts(duct: DuctRun, limit: DuctLimits) -> Check:
    """Ducts outside conditioned space are insulated, ducts are leak-tested, and no framing cavity is used as a duct."""
    cavity = duct.uses_building_cavity
    no_cavity = if_stated(when_given(int, cavity), at_most, limit.cavities).or_fix("line the bay with a metal duct")
    if duct.where == "conditioned space":
        return all_of(no_cavity, required(duct.leakage_tested, limit.tested_inside))
    small = less_than(duct.diameter, limit.small_below)
    is_small = duct.diameter if is_missing(duct.diameter) else small.is_met
    in_attic = decide(is_small, at_least(duct.r_value, limit.attic_small), at_least(duct.r_value, limit.attic))
    other = decide(is_small, at_least(duct.r_value, limit.other_small), at_least(duct.r_value, limit.other))
    where = duct.where if is_missing(duct.where) else duct.where == "attic"
    insulated = not_shown(where) if is_missing(where) else decide(where, in_attic, other)
    return all_of(insulated, _tested(duct, limit), no_cavity)


def _tested(duct: DuctRun, limit: DuctLimits) -> Check:
    test = required(duct.leakage_tested, limit.tested)
    if is_missing(duct.extension_length):
        return test
    return any_of(less_than(duct.extension_length, limit.extension_without_test), test)


class LightingLimits(Limits):
    efficient: Limit[Ratio]
    altered_from: Limit[Ratio]


@rule("energy.lighting", stage="final")
def lighting(lighting: PermanentLighting, limit: LightingLimits) -> Check:
    """Permanent lights are high-efficacy, as many as the edition asks for; where less than half of a space's are replaced, none."""
    if not is_missing(lighting.share_replaced):
        few = less_than(lighting.share_replaced, limit.altered_from)
        if few.is_met:
            return does_not_apply(f"only {lighting.share_replaced} of the lights are replaced")
    share = when_given(
        lambda good, n: Ratio(good) / n if n else Ratio(1), lighting.efficient_fixtures, lighting.fixtures
    )
    return at_least(share, limit.efficient, f"{lighting.efficient_fixtures} / {lighting.fixtures} fixtures")


class PipeLimits(Limits):
    hot_water: Limit[Insulation]
    hot_water_thickness: Limit[Length]
    from_size: Limit[Length]
    refrigerant: Limit[Insulation]


def _wrapped(pipe: Pipe, limit: PipeLimits) -> list[NewValue]:
    asked = (("insulation", limit.hot_water), ("insulation_thickness", limit.hot_water_thickness))
    return [NewValue(pipe, name, least.value) for name, least in asked if least.value is not None]


@rule("energy.pipes", stage="rough-in")
def pipes(pipe: Pipe, limit: PipeLimits) -> Check:
    """Hot water pipes that are large or outside conditioned space, and refrigerant lines, are insulated."""
    if pipe.what == "refrigerant":
        return at_least(pipe.insulation, limit.refrigerant)
    if pipe.what != "hot water":
        return does_not_apply("not a hot-water or refrigerant pipe")
    large = at_least(pipe.size, limit.from_size)
    thick = at_least(pipe.insulation_thickness, limit.hot_water_thickness)
    due = all_of(at_least(pipe.insulation, limit.hot_water), thick).or_fix(
        "insulate the pipe", lambda: _wrapped(pipe, limit)
    )
    if large.is_met or pipe.outside_conditioned_space is True:
        return due
    unsure = pipe.size if is_missing(pipe.size) else pipe.outside_conditioned_space
    return decide(unsure if is_missing(unsure) else False, due, does_not_apply("a small pipe in conditioned space"))
