"""Exhaust fans and hoods, outdoor air intakes, ventilation of the whole house."""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import Any

from precheck_plugins.ventilation.fans import ExhaustOf, HoodOf, HouseFan

from precheck import (
    AirFlow,
    Area,
    Check,
    DwellingUnit,
    Exhaust,
    House,
    Intake,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    Space,
    WholeHouseVentilation,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    if_stated,
    is_missing,
    met,
    missing_of,
    one_of,
    required,
    rule,
    when_given,
)

CFM = AirFlow.parse("1 cfm")


class RateLimits(Limits):
    bath_intermittent: Limit[AirFlow]
    bath_continuous: Limit[AirFlow]
    kitchen_intermittent: Limit[AirFlow]
    kitchen_continuous: Limit[AirFlow]


@rule("ventilation.exhaust-rate", stage="final")
def exhaust_rate(of: ExhaustOf, limit: RateLimits) -> Check:
    """Bath fans and range hoods have their minimum airflow, intermittent or continuous."""
    exhaust = of.exhaust
    if exhaust.what == "other":
        return does_not_apply("no rate is asked of this fan")
    bath = exhaust.what == "bath fan"
    intermittent = limit.bath_intermittent if bath else limit.kitchen_intermittent
    if exhaust.runs == "continuously":
        return _moves(exhaust, limit.bath_continuous if bath else limit.kitchen_continuous)
    enough = _moves(exhaust, intermittent)
    return (
        enough
        if not is_missing(exhaust.runs) or enough.is_met
        else all_of(
            at_least(exhaust.flow, limit.bath_continuous if bath else limit.kitchen_continuous),
            _runs(exhaust, intermittent),
        )
    )


def _moves(exhaust: Exhaust, least: Limit[AirFlow]) -> Check:
    fan = "fan" if exhaust.what == "bath fan" else "hood"
    return at_least(exhaust.flow, least).or_fix(
        lambda: f"use a {least.value} {fan}", lambda: [NewValue(exhaust, "flow", least.value)]
    )


def _runs(exhaust: Exhaust, intermittent: Limit[AirFlow]) -> Check:
    return at_least(exhaust.runs, intermittent)


class OutletLimits(Limits):
    leads_to: Limit[tuple[str, ...]]
    to_lot_line: Limit[Length]
    to_opening: Limit[Length]
    to_intake: Limit[Length]
    above_intake: Limit[Length]


@rule("ventilation.exhaust-outlet", stage="rough-in")
def exhaust_outlet(of: ExhaustOf, limit: OutletLimits) -> Check:
    """Exhaust ducts terminate outdoors, not in an attic, soffit or crawl space, and away from openings.

    A hood that recirculates has no outlet.
    """
    exhaust = of.exhaust
    if exhaust.what == "range hood" and exhaust.discharges_to == "recirculates":
        return does_not_apply("a hood that recirculates has no outlet")
    away = [
        if_stated(exhaust.outlet_to_lot_line, at_least, limit.to_lot_line),
        if_stated(exhaust.outlet_to_opening, at_least, limit.to_opening),
    ]
    above = at_least(first_given(exhaust.outlet_above_intake, Length(0)), limit.above_intake)
    far = if_stated(exhaust.outlet_to_intake, at_least, limit.to_intake)
    away.append(far if is_missing(exhaust.outlet_to_intake) else any_of(far, above))
    lead = one_of(exhaust.discharges_to, limit.leads_to).or_fix(
        "run the duct to the outdoors through the roof or a wall", lambda: _outdoors(exhaust, away)
    )
    return all_of(lead, *away)


def _outdoors(exhaust: Exhaust, away: list[Check]) -> list[NewValue]:
    """Return the end of the duct as data, where nothing else is wrong with it."""
    is_all = all(check.outcome is not Outcome.FAIL for check in away)
    return [NewValue(exhaust, "discharges_to", "outdoors")] if is_all else []


class HoodLimits(Limits):
    makeup_above: Limit[AirFlow]
    makeup: Limit[bool]
    beside_open_combustion: Limit[bool]
    ducts: Limit[tuple[str, ...]]
    damper: Limit[bool]


@rule("ventilation.range-hood", stage="rough-in")
def range_hood(of: HoodOf, limit: HoodLimits, house: House) -> Check:
    """A range hood has a smooth metal duct with a damper; a large one has makeup air.

    Later editions ask for makeup air only where a fuel-burning appliance in the house draws its air from the rooms.
    """
    exhaust = of.exhaust
    if exhaust.what != "range hood" or exhaust.discharges_to == "recirculates":
        return does_not_apply("not a ducted range hood")
    modest = at_most(exhaust.flow, limit.makeup_above)
    return all_of(
        modest if modest.outcome != modest.outcome.FAIL else _makeup(of, limit, house),
        if_stated(exhaust.duct, one_of, limit.ducts).or_fix(
            "use a smooth metal duct", lambda: [NewValue(exhaust, "duct", limit.ducts.value[0])]
        ),
        if_stated(exhaust.backdraft_damper, required, limit.damper),
    )


def _makeup(of: HoodOf, limit: HoodLimits, house: House) -> Check:
    makeup = required(of.exhaust.makeup_air, limit.makeup).or_fix("add makeup air, or use a smaller hood")
    if limit.beside_open_combustion.value is None:
        return makeup
    return decide(_open_combustion(of, house), makeup, met("no appliance in the house draws its air from the rooms"))


def _open_combustion(of: HoodOf, house: House) -> bool | Missing:
    """Return whether an appliance draws its air from the rooms: as one that is drawn does, else as stated."""
    dwelling, drawn = house.project.dwelling, of.draws_room_air
    stated = dwelling if is_missing(dwelling) else dwelling.open_combustion
    if drawn is True or not is_missing(stated):
        return drawn is True or stated
    none_burns = not is_missing(dwelling) and dwelling.fuel_burning_appliance is False
    return drawn if none_burns else stated


class IntakeLimits(Limits):
    from_pollution: Limit[Length]
    below_source: Limit[Length]


@rule("ventilation.intake", stage="rough-in")
def intake(intake: Intake, limit: IntakeLimits) -> Check:
    """An outdoor air intake is away from vents, chimneys, streets and parking, or well below them."""
    below = at_least(intake.below_source, limit.below_source)
    far = at_least(intake.to_pollution, limit.from_pollution)
    return far if is_missing(intake.below_source) else any_of(far, below)


class WholeHouseLimits(Limits):
    each_area: Limit[AirFlow]
    area: Limit[Area]
    each_bedroom: Limit[AirFlow]
    table_from: Limit[AirFlow]
    table_step: Limit[AirFlow]
    table_area: Limit[Area]
    balanced: Limit[Ratio]


@rule("ventilation.whole-house", stage="final")
def whole_house(of: HouseFan, limit: WholeHouseLimits, house: House) -> Check:
    """Whole-house ventilation has the airflow for the floor area and the number of bedrooms.

    The first edition has a table alone, which steps up with the floor area and with each two bedrooms.
    """
    fan = of.fan
    needed = when_given(lambda area, rooms: _needed(area, rooms, limit), fan.floor_area, _bedrooms(fan, house))
    share = limit.balanced.value if fan.balanced_and_distributed is True else None
    least = needed if share is None or isinstance(needed, Missing) else needed * share.n
    how = lambda: f"{fan.floor_area}, {_bedrooms(fan, house)} bedrooms"  # noqa: E731 # told only where it is read
    return at_least(fan.flow, replace(limit.each_area, value=least), how).or_fix(
        lambda: f"use a {_rated(least)} fan", lambda: [NewValue(fan, "flow", _rated(least))]
    )


def _rated(least: Any) -> AirFlow:
    """Return a flow in whole cfm, as fans are rated."""
    rated: AirFlow = CFM * ceil(least / CFM)
    return rated


def _needed(area: Area, bedrooms: int, limit: WholeHouseLimits) -> AirFlow:
    if limit.table_step.value is not None:
        return _by_table(area, bedrooms, limit)
    per_area, per_bedroom = limit.each_area.value, limit.each_bedroom.value
    return AirFlow(per_area.n * (area / limit.area.value) + per_bedroom.n * (bedrooms + 1))


def _by_table(area: Area, bedrooms: int, limit: WholeHouseLimits) -> AirFlow:
    """Return the cell of the table: five steps of floor area, four of bedrooms by twos."""
    by_area = min(max(ceil(area / limit.table_area.value) - 1, 0), 5)
    by_bedrooms = min(bedrooms // 2, 4)
    return AirFlow(limit.table_from.value.n + limit.table_step.value.n * (by_area + by_bedrooms))


def _bedrooms(fan: WholeHouseVentilation, house: House) -> Any:
    if len(house.subjects(DwellingUnit)) > 1:
        return fan.bedrooms  # those drawn are of several dwellings
    drawn = [s for s in house.subjects(Space) if s.is_sleeping and not s.is_removed]
    unsaid = missing_of(*(s.use for s in house.spaces if s.phase == "new"))
    if is_missing(fan.bedrooms) and drawn and unsaid is not None:
        return unsaid  # one more room may be a bedroom
    return fan.bedrooms if not drawn else max(first_given(fan.bedrooms, 0), len(drawn))
