"""Trusses: what keeps their ends from rolling, and what their drawings are made for against what the house needs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck_plugins.framing.drawn.setting import ROOF_STEP, STEEP, snow_of

from precheck import (
    Check,
    Fact,
    House,
    Limit,
    Limits,
    NewValue,
    Pressure,
    Space,
    Truss,
    agrees,
    all_of,
    at_least,
    broken,
    decide,
    does_not_apply,
    fact,
    is_missing,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

EXPOSURES = "BCD"  # from sheltered to open


@fact
class LoadedTruss(Fact):
    """Trusses and the spaces that they cover. Old ones are judged anew where one becomes a room, or they are cut or loaded."""

    truss: Truss
    spaces: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[LoadedTruss]:
        """Yield all trusses."""
        for truss in house.subjects(Truss):
            spaces = (house.space(space) for space in truss.spaces)
            yield cls(truss, truss, tuple(space for space in spaces if space is not None))

    @property
    def phase(self) -> Any:
        """``altered`` where trusses that stand are said to be cut or to get more load."""
        touched = self.truss.cut is True or self.truss.load_added is True
        return "altered" if self.truss.is_existing and touched else super().phase


class EndLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("framing.truss-ends", stage="framing")
def truss_ends(truss: Truss, limit: EndLimits) -> Check:
    """Blocking between trusses, or what their drawings show instead, keeps their ends from rolling on bearing walls."""
    return one_of(truss.ends_held, limit.ways).or_fix(
        "blocking between the trusses at each bearing wall", lambda: [NewValue(truss, "ends_held", limit.ways.value[0])]
    )


class DrawingLimits(Limits):
    stated: Limit[bool]
    flat: Limit[Pressure] = reads("loads.roof-live.below-4-in-12")
    sloped: Limit[Pressure] = reads("loads.roof-live.from-4-in-12")
    steep: Limit[Pressure] = reads("loads.roof-live.from-12-in-12")
    snow: Limit[Any] = reads("criteria.ground-snow-load")
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("framing.truss-drawings")
def truss_drawings(truss: Truss, limit: DrawingLimits, house: House) -> Check:
    """Truss drawings are made for the live load, snow and wind of the place, and for the spacing and bearings drawn.

    They say the dead loads, the width of bearing, the reactions, and where the trusses are braced.
    """
    if truss.phase == "existing":
        return does_not_apply("they stand")
    own = truss.design
    absent = missing_of(own.top_dead, own.bottom_dead, own.bearing)
    told = True if absent is None else absent
    return all_of(
        _live(truss, limit),
        required(told, limit.stated, "dead loads of both chords and width of bearing"),
        required(own.reactions, limit.stated, "reactions"),
        required(own.bracing, limit.stated, "bracing"),
        _spacing(truss),
        _wide(truss),
        _snow(own, limit, house),
        *_wind(own, limit, house),
    )


def _live(truss: Truss, limit: DrawingLimits) -> Check:
    """Return the check of the live load against that of roofs of this slope."""
    flat, sloped, steep = (
        at_least(truss.design.top_live, bound, "live load of the top chord")
        for bound in (limit.flat, limit.sloped, limit.steep)
    )
    low = when_given(lambda slope: slope.n < ROOF_STEP, truss.slope)
    return decide(low, flat, decide(when_given(lambda slope: slope.n < STEEP, truss.slope), sloped, steep))


def _spacing(truss: Truss) -> Check:
    drawn, made_for = truss.spacing, truss.design.spacing
    absent = missing_of(drawn, made_for)
    if absent is not None:
        return not_shown(absent)
    return agrees(made_for, drawn, "spacing of the trusses", derived="as the plans draw them")


def _wide(truss: Truss) -> Check:
    drawn, needed = truss.bearing, truss.design.bearing
    absent = missing_of(drawn, needed)
    if absent is not None:
        return not_shown(absent)
    if drawn >= needed:
        return met(f"{drawn} of bearing is drawn, and the trusses need {needed}")
    return broken(f"{drawn} of bearing is drawn, and the trusses need {needed}").or_fix(
        "wider plates or bearing blocks"
    )


def _snow(own: Any, limit: DrawingLimits, house: House) -> Check:
    snow = snow_of(house.project, limit.snow)
    if is_missing(snow) or not snow:
        return not_shown(snow) if is_missing(snow) else does_not_apply("no snow is set")
    bound = replace(limit.snow, value=snow)
    if is_missing(own.ground_snow) and not is_missing(own.top_live) and own.top_live >= snow:
        return at_least(own.top_live, bound, "live load of the top chord")
    return at_least(own.ground_snow, bound, "ground snow on the truss drawings")


def _wind(own: Any, limit: DrawingLimits, house: House) -> list[Check]:
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.exposure.value, "wind_exposure")
    if wind is None or exposure is None:
        return [does_not_apply("no wind is set")]
    absent = missing_of(wind, exposure)
    if absent is not None:
        return [not_shown(absent)]
    open_to = one_of(own.exposure, replace(limit.exposure, value=tuple(c for c in EXPOSURES if c >= str(exposure))))
    return [at_least(own.wind, replace(limit.wind, value=wind), "wind on the truss drawings"), open_to]
