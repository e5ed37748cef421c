"""The design criteria that a title sheet states for its place, as the jurisdiction sets them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from precheck.files.missing import Missing, Need
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.values import Before
from precheck.project.between import Between
from precheck.units import Length, Pressure, Speed, Temperature

_NUMBER = re.compile(r"\d")
_ZONE = re.compile(r"(?:CLIMATE )?(?:ZONE )?([0-8])\s?([ABC]?)")
_MARINE = re.compile(r"MARINE (\d)|(\d) \(?MARINE\)?")
_SEISMIC = re.compile(r"^(?:SDC|SEISMIC DESIGN CATEGORY)\s*|[-\s]")


def _climate_zone(written: Any) -> Any:
    """Return a climate zone as the energy code writes it: ``5A`` of ``zone 5a``, ``4C`` of ``Marine 4``."""
    text = " ".join(str(written).upper().split())
    if marine := _MARINE.fullmatch(text):
        return f"{marine[1] or marine[2]}C"
    found = _ZONE.fullmatch(text)
    if found is None:
        raise ValueError(f"`{written}` is not a climate zone; write its number with its letter, such as 5A, 4C or 7")
    return found[1] + found[2]


def _seismic(written: Any) -> Any:
    """Return a seismic design category as the code writes it: ``D2`` of ``SDC d2`` or ``D-2``."""
    found = _SEISMIC.sub("", str(written).upper())
    if found == "D":
        raise ValueError("seismic design category D is divided for houses; write D0, D1 or D2")
    return found if found in ("A", "B", "C", "D0", "D1", "D2", "E", "F") else written


NO_LESS_THAN = {"E": "D2", "F": "D2"}
"""Seismic design categories that the code for houses does not name, and the one than which they ask for no less."""

Category = Annotated[Literal["A", "B", "C", "D0", "D1", "D2", "E", "F"], Before(_seismic)]
Termites = Literal[
    "none", "none to slight", "slight", "slight to moderate", "moderate", "moderate to heavy", "heavy", "very heavy"
]


class DesignCriteria(Record):
    """Climate, wind, snow and ground as the drawings state them. The jurisdiction's ruleset goes before it."""

    kind = "design criteria"
    climate_zone: Maybe[Annotated[str, Before(_climate_zone)]] = NOT_GIVEN
    ground_snow_load: Maybe[Annotated[Pressure, Between("1 psf", "700 psf")]] = NOT_GIVEN
    ultimate_wind_speed: Maybe[Annotated[Speed, Between("80 mph", "220 mph")]] = NOT_GIVEN
    wind_exposure: Maybe[Literal["B", "C", "D"]] = NOT_GIVEN
    seismic_design_category: Maybe[Category] = NOT_GIVEN
    frost_depth: Maybe[Annotated[Length, Between("1 in", "150 in")]] = NOT_GIVEN
    weathering: Maybe[Literal["negligible", "moderate", "severe"]] = NOT_GIVEN
    termites: Maybe[Termites] = NOT_GIVEN
    winter_design_temperature: Maybe[Annotated[Temperature, Between("-80 F", "70 F")]] = NOT_GIVEN
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
