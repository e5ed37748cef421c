"""How much bracing a line needs against wind: the table, by spacing of lines, and its factors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

from precheck_plugins.bracing.rules.panels import counted

from precheck import (
    BracedLine,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Ratio,
    Settled,
    at_least,
    does_not_apply,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
)

GROUPS = {"LIB": "LIB or GB", "GB": "LIB or GB", "CS-WSP": "continuous", "CS-SFB": "continuous"}
CALM = ("A", "B", "C")


class AmountLimits(Limits):
    lengths: Settled[Mapping[str, Any]]
    exposure: Settled[Mapping[str, Any]]
    eave_to_ridge: Settled[Mapping[str, Any]]
    wall_height: Settled[Mapping[str, Any]]
    lines: Settled[Mapping[str, Any]]
    no_gypsum: Settled[Any]
    partial: Settled[Mapping[str, Any]]
    portals: Settled[Mapping[str, Any]]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    wind_exposure: Limit[Any] = reads("criteria.wind-exposure")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.amount", stage="framing", engineered="stands aside")
def amount(line: BracedLine, limit: AmountLimits, house: House) -> Check:
    """The panels of a line are together long enough against wind.

    The length of the table for the top story, between its spacings by straight lines, times the factors for exposure,
    roof height, wall height, number of lines and missing gypsum. Lines under other stories, more wind, and places where
    earthquake governs go by tables that are not held here.
    """
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.wind_exposure.value, "wind_exposure")
    shaking = house.criterion(limit.seismic.value, "seismic_design_category")
    if wind is None:
        return does_not_apply("no wind speed is set")
    absent = missing_of(
        wind, exposure, shaking, line.stories_above, line.method, line.to_next_line, line.eave_to_ridge,
        line.wall_height, line.lines, line.gypsum_inside,
    )  # fmt: skip
    if absent is not None:
        return not_shown(absent)
    table = _table(limit.lengths.value, wind)
    if line.stories_above or table is None or str(shaking) not in CALM:
        return look_at(Look.ENGINEER, "its table of bracing lengths is not held here: more stories, wind or shaking")
    base = _along(table[GROUPS.get(str(line.method), "WSP and like")], line.to_next_line)
    factors = _factors(line, str(exposure), limit)
    if base is None or factors is None:
        return look_at(Look.ENGINEER, "the line is outside the spacing or the factors of the table")
    return _against(line, base, factors, limit)


def _against(line: BracedLine, base: Length, factors: list[Fraction], limit: AmountLimits) -> Check:
    needed = base
    for factor in factors:
        needed = needed * factor
    given = [counted(panel, line, limit.partial.value, limit.portals.value) for panel in line.panels]
    total: Any = sum(given[1:], given[0]) if given else line.absent("panels")
    shown = " x ".join(str(float(f)) for f in factors if f != 1)
    how = f"{base} of the table{f' x {shown}' if shown else ''}"
    return at_least(total, replace(limit.lengths, value=needed), how).or_fix(
        lambda: f"{needed - total} more of braced panel in this line"
    )


def _table(tables: Mapping[str, Any], wind: Any) -> Any:
    speeds = sorted((int(name.split()[0]), name) for name in tables)
    return next((tables[name] for speed, name in speeds if speed >= wind.n), None)


def _along(row: Mapping[str, Any], where: Any) -> Length | None:
    """Return the value of a row at `where`, on a straight line between its columns; None beyond the last."""
    points = sorted((Length.parse(name), value) for name, value in row.items())
    if where <= points[0][0]:
        return points[0][1]  # type: ignore[no-any-return]
    for (low, below), (high, above) in pairwise(points):
        if where <= high:
            return below + (above - below) * ((where - low) / (high - low))  # type: ignore[no-any-return]
    return None


def _factors(line: BracedLine, exposure: str, limit: AmountLimits) -> list[Fraction] | None:
    """Return the factors; None where one is off its table."""
    found = [
        limit.exposure.value.get(exposure),
        _step(limit.eave_to_ridge.value, line.eave_to_ridge),
        _step(limit.wall_height.value, line.wall_height),
        limit.lines.value.get(str(min(line.lines, 5))),
        limit.no_gypsum.value if not line.gypsum_inside and line.method != "GB" else Ratio(1),
    ]
    return None if None in found else [Fraction(one.n) for one in found]


def _step(row: Mapping[str, Any], where: Any) -> Any:
    """Return the factor of the first row that is no lower than `where`, which is on the safe side."""
    heights = sorted((Length.parse(name), value) for name, value in row.items())
    return next((value for height, value in heights if height >= where), None)
