"""Water heaters: the pan under a tank and what holds the tank in an earthquake."""

from __future__ import annotations

from typing import Any

from precheck_plugins.appliances.places import PlacedAppliance

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    if_stated,
    is_missing,
    look_at,
    met,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

NEVER_HARMED = frozenset(("garage", "carport", "crawl space", "porch", "deck"))


def has_tank(at: PlacedAppliance) -> Any:
    """Return whether it is a water heater with a tank."""
    return at.appliance.tank if at.appliance.what == "water heater" else False


def if_tank(at: PlacedAppliance, check: Check) -> Check:
    """Return `check` for a water heater with a tank."""
    return decide(has_tank(at), check, does_not_apply("no water heater with a tank"))


class PanLimits(Limits):
    under_tank: Limit[bool]


@rule("appliances.pan", stage="final")
def pan(at: PlacedAppliance, limit: PanLimits) -> Check:
    """A storage water heater whose leak would cause damage has a pan under it."""
    given = first_given(at.appliance.has_pan, True if not is_missing(at.appliance.pan) else at.appliance.has_pan)
    needed = required(given, limit.under_tank).or_fix("put a pan with a drain under the tank")
    harm = first_given(at.appliance.leak_would_damage, at.space.use not in NEVER_HARMED)
    return if_tank(at, decide(harm, needed, does_not_apply("a leak here harms nothing")))


class PanFormLimits(Limits):
    depth: Limit[Length]
    metal: Limit[Length]
    plastic: Limit[Length]
    under_gas: Limit[tuple[str, ...]]


@rule("appliances.pan-form", stage="final")
def pan_form(at: PlacedAppliance, limit: PanFormLimits) -> Check:
    """A water heater pan has the depth, thickness and material for its heater."""
    drawn = at.appliance.pan
    if is_missing(drawn):
        return does_not_apply("no pan is drawn, which the rule for pans judges")
    plastic = if_stated(drawn.thickness, at_least, limit.plastic)
    metal = if_stated(drawn.thickness, at_least, limit.metal)
    other = met("an approved pan") if drawn.material == "other approved" else metal
    gauge = decide(when_given(lambda material: material == "plastic", drawn.material), plastic, other)
    suits = if_stated(drawn.material, one_of, limit.under_gas)
    gas = decide(at.burns_gas, suits, does_not_apply("not a gas heater"))
    return if_tank(at, all_of(met("a pan is shown"), if_stated(drawn.depth, at_least, limit.depth), gauge, gas))


class PanDrainLimits(Limits):
    size: Limit[Length]
    ends: Limit[tuple[str, ...]]
    minimum_outdoors: Limit[Length]
    maximum_outdoors: Limit[Length]
    replacement: Limit[str]


@rule("appliances.pan-drain", stage="final")
def pan_drain(at: PlacedAppliance, limit: PanDrainLimits) -> Check:
    """A water heater pan drains to a receptor or outdoors.

    Where a heater is replaced and there was no drain, none need be added in the editions that say so.
    """
    drawn = at.appliance.pan
    if is_missing(drawn):
        return does_not_apply("no pan is drawn, which the rule for pans judges")
    outdoors = all_of(
        if_stated(drawn.drain_above_grade, at_least, limit.minimum_outdoors),
        if_stated(drawn.drain_above_grade, at_most, limit.maximum_outdoors),
    )
    end = decide(when_given(lambda to: to == "outdoors", drawn.drains_to), outdoors, met("it ends indoors"))
    drained = all_of(if_stated(drawn.drain, at_least, limit.size), one_of(drawn.drains_to, limit.ends), end)
    spared = limit.replacement.value is not None and at.appliance.replacement is True and drawn.drains_to == "nowhere"
    return if_tank(at, any_of(drained, met("a replacement where there was no drain")) if spared else drained)


class StrapLimits(Limits):
    minimum: Limit[int]
    categories: Limit[tuple[str, ...]]
    above_controls: Limit[Length]
    category: Limit[str] = reads("criteria.seismic-design-category")


@rule("appliances.straps", stage="final")
def straps(at: PlacedAppliance, limit: StrapLimits, house: House) -> Check:
    """A water heater in a high seismic design category is strapped in its upper and lower thirds."""
    if at.appliance.what != "water heater":
        return does_not_apply("no water heater")
    if at.phase == "existing":
        return does_not_apply("the water heater stays as it is")
    category = house.criterion(limit.category.value, "seismic_design_category")
    if is_missing(category):
        return look_at(Look.OFFICIAL, "Seismic design category: set locally, and not in this ruleset")
    if house.is_shaken(category, limit.categories.value) is not True:
        return does_not_apply(f"not asked for in seismic design category {category}")
    own = at.appliance.straps
    held = {strap.third for strap in own} & {"upper", "lower"}
    number = len(held) if own else 0 if at.appliance.strapped is False else at.appliance.absent("straps")
    low = next((strap.above_controls for strap in own if strap.third == "lower"), at.appliance.absent("lower strap"))
    clear = at_least(low, limit.above_controls) if "lower" in held else does_not_apply("no lower strap")
    told = f"one counts in each of the upper and lower thirds; {len(own)} drawn"
    return all_of(at_least(number, limit.minimum, told), clear).because(f"seismic design category {category}")
