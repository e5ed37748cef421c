"""What footings bear on: soil, rock or fill, and how much of it they count on."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck_plugins.foundations.loaded import LoadedFooting
from precheck_plugins.foundations.rules.footings import STANDS

from precheck import (
    Check,
    Footing,
    Limit,
    Limits,
    NewValue,
    Settled,
    Slope,
    all_of,
    at_most,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)


class BedLimits(Limits):
    beds: Limit[tuple[str, ...]]
    frozen: Limit[int]
    level: Limit[bool]
    slope: Limit[Slope]


@rule("foundations.footing-bed", stage="foundation")
def footing_bed(loaded: LoadedFooting, limit: BedLimits) -> Check:
    """Footings bear on undisturbed soil, rock or engineered fill that is not frozen; steep ground is stepped."""
    footing = loaded.footing
    frozen = when_given(int, footing.cast_on_frozen_soil)
    sloped = if_stated(footing.bottom_slope, at_most, limit.slope).or_fix("step the bottom of the footing")
    if footing.is_existing and is_missing(footing.bears_on):
        return does_not_apply(STANDS)
    return all_of(
        one_of(footing.bears_on, limit.beds).or_fix(
            "dig down to undisturbed soil, or have the fill engineered",
            lambda: [NewValue(footing, "bears_on", "undisturbed soil")],
        ),
        if_stated(frozen, at_most, limit.frozen),
        if_stated(footing.top_level, required, limit.level),
        met("stepped") if footing.stepped is True else sloped,
    )


class SoilLimits(Limits):
    presumed: Settled[Any]


@rule("foundations.soil", stage="foundation")
def soil(loaded: LoadedFooting, limit: SoilLimits) -> Check:
    """Without a soil report, a footing counts on no more than the presumptive bearing of its soil."""
    footing = loaded.footing
    if footing.is_existing and is_missing(footing.soil_bearing):
        return does_not_apply(STANDS)
    if is_missing(footing.soil_bearing):
        return does_not_apply("it states no bearing of its own") if not is_missing(footing.soil) else _unknown(footing)
    if not is_missing(footing.soil_report):
        return met(f"as the soil report says: {footing.soil_report}")
    if is_missing(footing.soil):
        return not_shown(footing.absent("soil, or the soil report"))
    bearing = replace(limit.presumed, value=limit.presumed.value[footing.soil])
    return at_most(footing.soil_bearing, bearing, footing.soil).or_fix(
        f"count on {bearing.value}, or have the soil tested", lambda: [NewValue(footing, "soil_bearing", bearing.value)]
    )


def _unknown(footing: Footing) -> Check:
    return not_shown(footing.absent("soil or soil bearing"))
