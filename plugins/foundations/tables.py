"""The footing tables: width and thickness by stories, lowest floor, snow and soil, between columns by interpolation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import Any

from precheck import Length, Limit, Pressure, fixed

SOILS = (1500, 2000, 2500, 3000, 3500, 4000)


@fixed
class Needed:
    """The least width and thickness of a footing, how they were found, and the limits that hold the tables."""

    width: Length
    thickness: Length
    derived: str
    widths: Limit[Any]
    thicknesses: Limit[Any]

    def for_house(self, wide: Length, limit: Any) -> Needed:
        """Return what a house of another width than the tables' needs; never less than the tables' least row."""
        steps = ceil((wide - limit.house_width.value) / limit.width_step.value)
        if not steps:
            return self
        width = self.width + limit.more_width.value * steps
        thick = self.thickness + limit.more_thickness.value * steps
        least_width, least_thick = (min(map(min, _rows(t.value))) for t in (self.widths, self.thicknesses))
        derived = f"{self.derived}, house {wide} wide"
        return replace(self, width=max(width, least_width), thickness=max(thick, least_thick), derived=derived)


def needed_by_table(row: str, built: str, snow: Pressure, soil: Pressure, limit: Any) -> Needed | None:
    """Return what the table for what is `built` on a footing asks in its `row`; None where it has no such row."""
    tables = {
        "light frame": (limit.widths, limit.thicknesses),
        "light frame with brick veneer": (limit.veneer_widths, limit.veneer_thicknesses),
        "masonry or concrete": (limit.masonry_widths, limit.masonry_thicknesses),
    }[built]
    if soil.n < SOILS[0]:
        return None
    width, thick = (_between(table.value, row, snow, soil) for table in tables)
    derived = f"{row}, {snow} snow, {soil} soil"
    return None if width is None or thick is None else Needed(width, thick, derived, *tables)


def _between(table: Mapping[str, Mapping[str, Any]], row: str, snow: Pressure, soil: Pressure) -> Length | None:
    """Return the value for `row`, by straight lines between the snow loads and soil bearings of the table."""
    loads = sorted(int(name.split()[0]) for name in table)
    over = [load for load in loads if load >= snow.n]
    if not over:
        return None
    high, low = over[0], max((load for load in loads if load <= snow.n), default=loads[0])
    ends = [table[f"{load} psf"].get(row) for load in (low, high)]
    if None in ends:
        return None
    below, above = (_at_soil(values, soil) for values in ends)
    share = Fraction(snow.n - low) / (high - low) if high > low else Fraction(0)
    return below + (above - below) * share


def _at_soil(values: Any, soil: Pressure) -> Length:
    capped = min(Fraction(soil.n), Fraction(SOILS[-1]))
    index = max(i for i, bearing in enumerate(SOILS) if bearing <= capped)
    if index == len(SOILS) - 1:
        return values[index]  # type: ignore[no-any-return]
    share = (capped - SOILS[index]) / (SOILS[index + 1] - SOILS[index])
    return values[index] + (values[index + 1] - values[index]) * share  # type: ignore[no-any-return]


def _rows(table: Mapping[str, Mapping[str, Any]]) -> list[Any]:
    return [values for rows in table.values() for values in rows.values()]
