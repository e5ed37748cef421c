"""Appliances in garages and carports, and the rooms in which they may not stand."""

from __future__ import annotations

from precheck_plugins.appliances.places import PlacedAppliance

from precheck import (
    Appliance,
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    rule,
    when_given,
)


class IgnitionLimits(Limits):
    minimum: Limit[Length]
    vapor_resistant: Limit[str]


@rule("appliances.ignition-height", stage="rough-in")
def ignition_height(at: PlacedAppliance, limit: IgnitionLimits) -> Check:
    """Ignition sources in a garage are raised above the floor.

    A gas water heater that is listed as flammable vapor ignition resistant may stand lower where the code or the
    official takes the listing. The switches and elements of electric appliances count as well.
    """
    if not at.in_garage_air:
        return does_not_apply("neither in a garage nor in a room that counts as one")
    appliance = at.appliance
    sparks = appliance.ignition_source if appliance.burns_fuel is not True else True
    height = first_given(appliance.ignition_height, _over_bottom(appliance, limit.minimum))
    high = at_least(height, limit.minimum).or_fix(
        lambda: f"put it on a stand, so that burners and switches are {limit.minimum.value} above the floor",
        lambda: [NewValue(appliance, "ignition_height", limit.minimum.value)],
    )
    listed = appliance.vapor_ignition_resistant is True and appliance.what == "water heater"
    if listed and limit.vapor_resistant.value is not None:
        high = any_of(high, met("listed as flammable vapor ignition resistant"))
    return decide(sparks, high, does_not_apply("it has no source of ignition")).because(at.why)


def _over_bottom(appliance: Appliance, least: Limit[Length]) -> Length | Missing:
    """An appliance whose underside is high enough has its ignition source at least as high."""
    bottom = appliance.bottom_height
    enough = not is_missing(bottom) and least.value is not None and bottom >= least.value
    return bottom if enough else appliance.ignition_height


class ImpactLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("appliances.vehicle-impact", stage="final")
def vehicle_impact(at: PlacedAppliance, limit: ImpactLimits) -> Check:
    """An appliance in a garage or carport is protected from vehicles by a bollard, a curb or its place."""
    if not at.space.is_vehicle:
        return does_not_apply("not in a garage or carport")
    return one_of(at.appliance.vehicle_protection, limit.ways).or_fix(
        "add a steel bollard set in concrete in front of it",
        lambda: [NewValue(at.appliance, "vehicle_protection", "post")],
    )


class GasHeightLimits(Limits):
    minimum: Limit[Length]


@rule("appliances.gas-height-in-garage", stage="rough-in")
def gas_height_in_garage(at: PlacedAppliance, limit: GasHeightLimits) -> Check:
    """A gas appliance in a garage or carport is mounted above vehicles, or protected from them."""
    if not at.space.is_vehicle:
        return does_not_apply("not in a garage or carport")
    protected = when_given(lambda way: way != "none", at.appliance.vehicle_protection)
    high = at_least(at.appliance.bottom_height, limit.minimum).or_fix(
        lambda: f"protect it from vehicles, or mount it {limit.minimum.value} above the floor",
        lambda: [NewValue(at.appliance, "bottom_height", limit.minimum.value)],
    )
    kept = any_of(high, decide(protected, met("protected from vehicles"), high))
    return decide(at.burns_gas, kept, does_not_apply("not a gas appliance"))


class PlaceLimits(Limits):
    in_rooms: Limit[int]
    direct_vent: Limit[str]
    own_room: Limit[str]


@rule("appliances.places", stage="plan", existing="must comply")
def places(at: PlacedAppliance, limit: PlaceLimits) -> Check:
    """No fuel-burning appliance is in a bedroom, bathroom, toilet room or storage closet, or in a closet off one.

    Direct-vent appliances may. So may one in a room of its own off such a room, with air from outdoors and a tight door
    that closes itself. It must comply where a room is made around an appliance that was there before.
    """
    if is_missing(at.space.use) and at.appliance.direct_vent is not True:
        told = not_shown(at.space.use)
        return decide(at.appliance.burns_fuel, told, does_not_apply("it burns no fuel"))
    if not at.barred:
        return does_not_apply("it stands in no room from which appliances are kept")
    appliance = at.appliance
    here = at_most(1, limit.in_rooms, at.barred).or_fix("use a direct-vent or electric appliance, or move it")
    vented = _unless(limit.direct_vent, appliance.direct_vent, "a direct-vent appliance", here)
    allowed = any_of(vented, _own_room(at, limit, here)) if at.opens_only_into else vented
    reads = look_at(Look.OFFICIAL, f"{at.barred}; say whether things are stored in it, for then no fuel may burn there")
    told = reads if at.only_maybe and allowed.outcome is allowed.outcome.FAIL else allowed.because(at.barred)
    return decide(appliance.burns_fuel, told, does_not_apply("it burns no fuel"))


def _unless(allowance: Limit[str], fact: bool | Missing, what: str, otherwise: Check) -> Check:
    return otherwise if allowance.value is None else decide(fact, met(what), otherwise)


def _own_room(at: PlacedAppliance, limit: PlaceLimits, otherwise: Check) -> Check:
    """A room used for nothing else, with outdoor air and a weather-stripped door that closes itself."""
    appliance = at.appliance
    outdoor = when_given(lambda air: air == "outdoor", appliance.combustion_air)
    facts = (appliance.own_room, outdoor, appliance.room_door_weatherstripped, appliance.room_door_self_closing)
    if any(fact is False for fact in facts):
        return otherwise
    return _unless(limit.own_room, when_given(lambda *_: True, *facts), "a room of its own with outdoor air", otherwise)
