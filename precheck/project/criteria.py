"""The design criteria that a title sheet states for its place, as the jurisdiction sets them."""

import re
from collections.abc import Mapping
from typing import Any

from precheck.files.missing import Missing, Need
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.part import Gap
from precheck.units import Pressure, Speed, Temperature

_NUMBER = re.compile(r"\d")


class DesignCriteria(Record):
    """Climate, wind, snow and ground as the drawings state them. The jurisdiction's ruleset goes before it."""

    kind = "design criteria"
    climate_zone: Maybe[str] = NOT_GIVEN
    ground_snow_load: Maybe[Pressure] = NOT_GIVEN
    ultimate_wind_speed: Maybe[Speed] = NOT_GIVEN
    wind_exposure: Maybe[str] = NOT_GIVEN
    seismic_design_category: Maybe[str] = NOT_GIVEN
    frost_depth: Maybe[Gap] = NOT_GIVEN
    weathering: Maybe[str] = NOT_GIVEN
    termites: Maybe[str] = NOT_GIVEN
    winter_design_temperature: Maybe[Temperature] = NOT_GIVEN
    ice_barrier: Maybe[bool] = NOT_GIVEN


def zone_number(zone: str) -> str:
    """Return the number of a climate zone: 4 of ``4A``, ``4C`` and ``Marine 4``."""
    found = _NUMBER.search(zone)
    return found.group() if found else zone


def zone_row(zone: str, rows: Mapping[str, Any]) -> Any:
    """Return the row for `zone` of a table by climate zone, which has a row of its own for zone 4 marine."""
    marine = "4" in zone and ("marine" in zone.lower() or "c" in zone.lower())
    name = "zone 4 marine" if marine and "zone 4 marine" in rows else f"zone {zone_number(zone)}"
    return rows[name] if name in rows else Missing(Need("the ruleset", f"a row for climate {name}"))
