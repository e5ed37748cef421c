"""Vehicle doors against the wind: the pressures that they are rated for, and the label that says so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import Any

from precheck import (
    Check,
    Door,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Pressure,
    Settled,
    all_of,
    at_least,
    does_not_apply,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
)

HUNDREDTH = Pressure.parse("0.01 psf")


class WindLimits(Limits):
    inward: Settled[Mapping[str, Any]]
    outward: Settled[Mapping[str, Any]]
    factor: Settled[Mapping[str, Any]]
    minimum: Limit[Pressure]
    labeled: Limit[bool]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("garages.door-wind", stage="final")
def door_wind(door: Door, limit: WindLimits, house: House) -> Check:
    """A vehicle door is rated for the pressures of the wind of the place, inward and outward, and its label says so.

    They are those of the table for the next narrower door and the next stronger wind, times a factor for exposure and
    height of the roof, and never under the minimum of the code; or those that a designer requires of this door.
    """
    if door.operation != "vehicle":
        asked = is_missing(door.operation) and _of_garage(door, house)
        return not_shown(door.absent("operation")) if asked else does_not_apply("not a vehicle door")
    label = required(door.wind.labeled, limit.labeled)
    return all_of(*_rated(door, limit, house), label)


def _of_garage(door: Door, house: House) -> bool:
    """Return whether a door leads from a garage to the outside, as a vehicle door does."""
    spaces = [house.space(side) for side in door.between]
    return None in spaces and any(space is not None and space.is_vehicle for space in spaces)


def _rated(door: Door, limit: WindLimits, house: House) -> list[Check]:
    own = door.wind
    if not is_missing(own.required_inward) and not is_missing(own.required_outward):
        due = (own.required_inward, own.required_outward)
        return _held(own, due, "as the designer requires", limit)
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.exposure.value, "wind_exposure")
    if wind is None or exposure is None:
        return [does_not_apply("no wind is set")]
    absent = missing_of(wind, exposure, door.unit_size, own.mean_roof_height)
    if absent is not None:
        return [not_shown(absent)]
    factor = _factor(limit.factor.value, own.mean_roof_height, str(exposure))
    rows = [_row(table.value, door.unit_size.width, wind) for table in (limit.inward, limit.outward)]
    if factor is None or None in rows:
        told = f"wind of {wind}, exposure {exposure} and a door {door.unit_size.width} wide are not in the table"
        return [look_at(Look.ENGINEER, told)]
    how = f"{wind}, exposure {exposure}, door {door.unit_size.width} wide, roof {own.mean_roof_height} high"
    due = (_no_less(_times(rows[0], factor), limit.minimum), _no_less(_times(rows[1], factor), limit.minimum))
    return _held(own, due, how, limit)


def _no_less(pressure: Pressure, minimum: Limit[Pressure]) -> Pressure:
    return max(pressure, minimum.value) if isinstance(minimum.value, Pressure) else pressure


def _held(own: Any, due: tuple[Any, Any], how: str, limit: WindLimits) -> list[Check]:
    inward, outward = due
    remedy = f"a door rated for {inward} inward and {outward} outward, or more"
    return [
        at_least(own.inward, replace(limit.inward, value=inward), f"inward; {how}").or_fix(
            remedy, lambda: [NewValue(own, "inward", inward)]
        ),
        at_least(own.outward, replace(limit.outward, value=outward), f"outward; {how}").or_fix(
            remedy, lambda: [NewValue(own, "outward", outward)]
        ),
    ]


def _factor(table: Mapping[str, Any], high: Any, exposure: str) -> Fraction | None:
    """Return the factor of the next higher roof of the table."""
    rows = sorted((Length.parse(name), row) for name, row in table.items())
    row: Mapping[str, Any] = next((row for listed, row in rows if listed >= high), {})
    return Fraction(row[exposure].n) if exposure in row else None


def _row(table: Mapping[str, Any], width: Any, wind: Any) -> Any:
    """Return the pressure for the widest door of the table that is no wider, at the next stronger wind of it."""
    doors = sorted((Length.parse(name), row) for name, row in table.items())
    row = next((row for listed, row in reversed(doors) if listed <= width), doors[0][1])
    speeds = sorted((type(wind).parse(name), pressure) for name, pressure in row.items())
    return next((pressure for speed, pressure in speeds if speed >= wind), None)


def _times(pressure: Pressure, factor: Fraction) -> Pressure:
    """Return a pressure so many times as large, rounded up to what a label can say."""
    return HUNDREDTH * ceil(Fraction(pressure.n) * factor / HUNDREDTH.n)
