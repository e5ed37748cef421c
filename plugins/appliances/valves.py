"""Water heaters: relief valve, its discharge, expansion, shutoff, drain; vent connectors of gas appliances."""

from __future__ import annotations

from typing import Any

from precheck_plugins.appliances.places import PlacedAppliance
from precheck_plugins.appliances.water_heaters import if_tank

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Pressure,
    Ratio,
    Slope,
    Temperature,
    agrees,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    one_of,
    required,
    rule,
    when_given,
)


class ReliefLimits(Limits):
    given: Limit[bool]
    pressure: Limit[Pressure]
    temperature: Limit[Temperature]


@rule("appliances.relief-valve", stage="final")
def relief_valve(at: PlacedAppliance, limit: ReliefLimits) -> Check:
    """A storage water heater has a temperature and pressure relief valve."""
    valve = at.appliance.relief
    if is_missing(valve):
        return if_tank(at, required(at.appliance.has_relief, limit.given))
    return if_tank(at, _opens(valve, limit))


def _opens(valve: Any, limit: ReliefLimits) -> Check:
    """Compare what the valve's plate says, where the plans repeat it."""
    return all_of(
        met("a relief valve is shown"),
        if_stated(valve.pressure, at_most, limit.pressure),
        if_stated(valve.temperature, at_most, limit.temperature),
    )


NO_GAP = does_not_apply("it ends in no pan or receptor")


class DischargeLimits(Limits):
    size: Limit[Ratio]
    ends: Limit[tuple[str, ...]]
    maximum: Limit[Length]
    air_gap: Limit[Ratio]
    falls: Limit[bool]
    obstacles: Limit[int]
    visible: Limit[bool]


@rule("appliances.relief-discharge", stage="final")
def relief_discharge(at: PlacedAppliance, limit: DischargeLimits) -> Check:
    """The relief valve discharge pipe is full size, falls all the way and ends in sight near the floor or in a receptor."""
    valve = at.appliance.relief
    if is_missing(valve):
        return does_not_apply("no relief valve is drawn, which the rule for relief valves judges")
    size = when_given(lambda pipe, outlet: Ratio(pipe / outlet), valve.pipe, valve.outlet)
    gap = when_given(lambda above, pipe: Ratio(above / pipe), valve.ends_above, valve.pipe)
    into = when_given(lambda end: end in ("pan", "receptor"), valve.ends_at)
    low = decide(
        when_given(lambda end: end == "outdoors", valve.ends_at),
        does_not_apply("it ends outdoors"),
        if_stated(valve.ends_above, at_most, limit.maximum),
    )
    gap_how = lambda: f"{valve.ends_above} above / {valve.pipe} pipe"  # noqa: E731 # told only where it is read
    return if_tank(
        at,
        all_of(
            if_stated(size, at_least, limit.size, lambda: f"{valve.pipe} pipe / {valve.outlet} outlet"),
            one_of(valve.ends_at, limit.ends),
            low,
            decide(into, if_stated(gap, at_least, limit.air_gap, gap_how), NO_GAP),
            if_stated(valve.falls_all_the_way, required, limit.falls),
            if_stated(when_given(lambda there: int(there), valve.trap_valve_or_thread), at_most, limit.obstacles),
            if_stated(valve.end_in_sight, required, limit.visible),
        ),
    )


class ExpansionLimits(Limits):
    control: Limit[bool]


@rule("appliances.expansion", stage="final")
def expansion(at: PlacedAppliance, limit: ExpansionLimits) -> Check:
    """A storage water heater on a closed water system has an expansion tank."""
    control = required(at.appliance.expansion_control, limit.control)
    closed = decide(at.appliance.closed_system, control, does_not_apply("the water system is open to the main"))
    return if_tank(at, closed)


class ShutoffLimits(Limits):
    on_cold_supply: Limit[bool]
    drain: Limit[bool]


@rule("appliances.shutoff", stage="final")
def shutoff(at: PlacedAppliance, limit: ShutoffLimits) -> Check:
    """A water heater has a shutoff valve on its cold supply, and a tank a drain valve."""
    if at.appliance.what != "water heater":
        return does_not_apply("no water heater")
    drain = if_stated(at.appliance.drain_valve, required, limit.drain)
    tank = drain if at.appliance.tank is not False else does_not_apply("no tank")
    return all_of(if_stated(at.appliance.cold_shutoff, required, limit.on_cold_supply), tank)


class VentLimits(Limits):
    rise: Limit[Slope]


@rule("appliances.vent-connector", stage="rough-in")
def vent_connector(at: PlacedAppliance, limit: VentLimits) -> Check:
    """The vent connector of a natural-draft gas appliance slopes up toward the vent. None is direct-vent as well."""
    if at.appliance.direct_vent is True and at.appliance.natural_draft is True:
        return agrees("direct-vent", "natural draft", "how it vents")
    if not is_missing(at.appliance.vent_rise) and at.burns_gas is True:
        return at_least(at.appliance.vent_rise, limit.rise)
    if at.appliance.natural_draft is not True:
        return does_not_apply("it does not draw by nature, or the plans leave its vent to the installer")
    return decide(at.burns_gas, at_least(at.appliance.vent_rise, limit.rise), does_not_apply("not a gas appliance"))
