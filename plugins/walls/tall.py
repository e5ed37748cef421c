"""Bearing studs over the table of studs: the two exceptions for tall ones, each of which has its own walls and places."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from precheck_plugins.walls.framed import FramedWall

from precheck import (
    Check,
    Force,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Outcome,
    Pressure,
    Settled,
    Speed,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    faces_out,
    look_at,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
)

ROOF = "roof and ceiling"


class TallLimits(Limits):
    height: Settled[Length]
    tall_spans: Limit[Mapping[str, Any]]
    tall_snow: Limit[Pressure]
    tall_exposure: Limit[tuple[str, ...]]
    tall_grades: Settled[tuple[str, ...]]
    tall_sheathed: Limit[bool]
    tall_sheathed_up_to: Limit[Length]
    tall_held: Limit[Force]
    tall_held_over: Limit[Speed]
    tallest: Settled[Mapping[str, Length]]
    tallest_snow: Settled[Pressure]
    tallest_wind: Settled[Speed]
    tallest_roof: Settled[Length]
    ground_snow: Limit[Any] = reads("criteria.ground-snow-load")
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


def tall_studs(framed: FramedWall, limit: TallLimits, house: House) -> Check:
    """Check studs over the table by either exception; where neither is open to them, they are for an engineer."""
    own, over = framed.framing, framed.framing.height - limit.height.value
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    snow = house.criterion(limit.ground_snow.value, "ground_snow_load")
    ways = (
        []
        if None in (wind, snow)
        else [_narrow_roof(own, wind, snow, limit), _by_table(framed, wind, snow, limit, house)]
    )
    is_open = [way for way in ways if way is not None]
    told = f"studs of {own.height} are {over} over the table, and outside its exceptions; they are designed"
    return any_of(*is_open) if is_open else look_at(Look.ENGINEER, told)


def _narrow_roof(own: Any, wind: Any, snow: Any, limit: TallLimits) -> Check | None:
    """Check 2x6 that carry a narrow strip of roof and nothing else, or return None where they are outside that."""
    highest = _least(limit.tallest.value, own.spacing, Length.parse)
    if own.stud != "2x6" or own.carries != ROOF or highest is None or own.height > highest:
        return None
    place = all_of(at_most(snow, limit.tallest_snow), at_most(wind, limit.tallest_wind))
    strip = at_most(own.roof_strip, limit.tallest_roof)
    return _unless_outside(all_of(place, strip), one_of(own.grade, limit.tall_grades))


def _by_table(framed: FramedWall, wind: Any, snow: Any, limit: TallLimits, house: House) -> Check | None:
    """Check the studs of an outside wall by the table of tall studs, or return None where they are outside it."""
    own, exposure = framed.framing, house.criterion(limit.exposure.value, "wind_exposure")
    if limit.tall_spans.value is None or not faces_out(framed.wall, house) or own.attic_above is True:
        return None
    place = all_of(at_most(snow, limit.tall_snow), one_of(exposure, limit.tall_exposure))
    rows = _least(limit.tall_spans.value, own.height, Length.parse) or {}
    row = _least(rows.get(own.carries, {}), own.spacing, Length.parse)
    if row is None:
        return None
    spans = (own.roof_span,) if own.carries == ROOF else (own.roof_span, own.floor_span)
    absent = missing_of(wind, *spans)
    if absent is not None:
        return _unless_outside(place, not_shown(absent))
    spanned = _spanned(own, max(spans), _least(row, wind, Speed.parse) or {}, limit)
    if spanned is None:
        return None
    if spanned.outcome is Outcome.FAIL and place.outcome is Outcome.PASS:
        return spanned
    grade = one_of(own.grade, limit.tall_grades)
    return _unless_outside(place, spanned, grade, *_held(own, wind, limit))


def _unless_outside(place: Check, *checks: Check) -> Check | None:
    """Return the `checks` of studs in a `place` that may be outside: None where it is, undecided where it is not told."""
    if place.outcome is Outcome.FAIL:
        return None
    return all_of(place, *(one for one in checks if place.outcome is Outcome.PASS or one.outcome is not Outcome.FAIL))


def _least(table: Mapping[str, Any], value: Any, parse: Callable[[str], Any]) -> Any:
    """Return the entry of the smallest key of `table` that is no less than `value`, or None where it is over all."""
    keys = sorted((parse(key), key) for key in table)
    return next((table[key] for reach, key in keys if value <= reach), None)


def _spanned(own: Any, span: Length, sizes: Mapping[str, Length], limit: TallLimits) -> Check | None:
    """Check the span on studs of that size; larger ones may do, and where none does, the wall is outside the table."""
    bound, larger = sizes.get(own.stud), [size for size, reach in sizes.items() if span <= reach]
    if not larger:
        return None
    if bound is None:
        return broken(f"{own.stud} studs may not be {own.height} tall {own.spacing} apart", limit.tall_spans).or_fix(
            f"{larger[0]} studs", lambda: [NewValue(own, "stud", larger[0])]
        )
    held = at_most(span, replace(limit.tall_spans, value=bound), f"on {own.stud} studs {own.height} tall")
    return held.or_fix(f"{larger[0]} studs", lambda: [NewValue(own, "stud", larger[0])])


def _held(own: Any, wind: Any, limit: TallLimits) -> list[Check]:
    """Return the checks of the boards on both faces, of close studs, and of connectors at both ends, in more wind."""
    close = limit.tall_sheathed_up_to.value is not None and own.spacing <= limit.tall_sheathed_up_to.value
    windy = limit.tall_held_over.value is not None and wind > limit.tall_held_over.value
    return [
        required(own.sheathed_both_sides, limit.tall_sheathed) if close else does_not_apply("studs stand far apart"),
        at_least(own.stud_connectors, limit.tall_held) if windy else does_not_apply("there is little wind"),
    ]
