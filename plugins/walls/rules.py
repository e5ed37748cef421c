"""Studs by the table, grades, plates, what holds the roof down, knee walls, shoring."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from precheck_plugins.walls.framed import FramedWall, thick, wide
from precheck_plugins.walls.tall import TallLimits, tall_studs

from precheck import (
    Check,
    Force,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Settled,
    Slope,
    Wall,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    carried_load,
    decide,
    does_not_apply,
    faces_out,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

BEARS_NOTHING = "it carries nothing"
PARTITION = "a partition that bears nothing"


class StudLimits(TallLimits):
    spacings: Settled[Mapping[str, Any]]
    free_heights: Settled[Mapping[str, Length]]
    free_spacings: Settled[Mapping[str, Length]]
    partition_spacings: Limit[Mapping[str, Length]]
    sheathed: Limit[bool]
    attic_roof_span: Limit[Length]


@rule("walls.studs", stage="framing")
def studs(framed: FramedWall, limit: StudLimits, house: House) -> Check:
    """Studs are large enough and close enough for what the wall carries and for their height.

    A bearing wall taller than the table goes by the table of tall studs, or is of 2x6 and carries a narrow strip of roof in
    little wind and snow; else it is for an engineer.
    """
    own = framed.framing
    absent = own if is_missing(own) else missing_of(carried_load(framed.wall), own.stud, own.spacing, own.height)
    if absent is not None:
        return not_shown(absent)
    if not is_missing(own.designed_by):
        return met(f"designed by {own.designed_by}")
    if own.carries == "nothing":
        return _free(framed, limit, house)
    return all_of(_bearing(framed, limit, house), _attic(own, limit), required(own.sheathed_or_blocked, limit.sheathed))


def _free(framed: FramedWall, limit: StudLimits, house: House) -> Check:
    own, wider = framed.framing, limit.partition_spacings.value
    if own.stud not in limit.free_heights.value:
        return look_at(Look.ENGINEER, f"{own.stud} is not in the table of studs")
    apart: Any = replace(limit.free_spacings, value=limit.free_spacings.value[own.stud])
    if framed.is_partition is True and own.stud in (wider or ()) and not _braces(framed.wall, house):
        apart = replace(limit.partition_spacings, value=wider[own.stud])
    high = at_most(own.height, replace(limit.free_heights, value=limit.free_heights.value[own.stud]), own.stud)
    return all_of(high, at_most(own.spacing, apart, own.stud))


def _braces(wall: Wall, house: House) -> bool:
    return any(wall.id in line.walls for line in house.project.braced_lines if not line.is_removed)


def _bearing(framed: FramedWall, limit: StudLimits, house: House) -> Check:
    own = framed.framing
    if own.height > limit.height.value:
        return tall_studs(framed, limit, house)
    rows = limit.spacings.value
    if own.stud not in rows:
        return look_at(Look.ENGINEER, f"{own.stud} is not in the table of studs")
    if own.carries not in rows[own.stud]:
        return broken(f"{own.stud} studs may not carry {own.carries}").or_fix(
            lambda: _bigger(own, rows), lambda: [NewValue(own, "stud", size) for size in _larger(own, rows)]
        )
    bound = replace(limit.spacings, value=rows[own.stud][own.carries])
    closer = [NewValue(own, "spacing", bound.value)] if bound.value.n else []
    held = at_most(own.spacing, bound, f"{own.stud} that carry {own.carries}")
    return held.or_fix(lambda: _bigger(own, rows), lambda: closer)


def _bigger(own: Any, rows: Mapping[str, Any]) -> str:
    closer = rows.get(own.stud, {}).get(own.carries)
    ways = [f"{own.stud} at {closer}"] if closer is not None else []
    ways += [f"{size} at {own.spacing}" for size in _larger(own, rows)]
    return " or ".join(ways) or "closer or larger studs, designed by an engineer"


def _larger(own: Any, rows: Mapping[str, Any]) -> list[str]:
    """Return the first size that does at the spacing drawn; none where no size does."""
    return [size for size, row in rows.items() if row.get(own.carries, own.spacing * 0) >= own.spacing][:1]


def _attic(own: Any, limit: StudLimits) -> Check:
    if own.stud == "2x4" and is_missing(own.attic_above):
        return does_not_apply("habitable attic above: not stated")
    if own.stud != "2x4" or own.attic_above is not True:
        return does_not_apply("no habitable attic on 2x4 studs is drawn")
    most = limit.attic_roof_span.value
    if most is None or is_missing(most) or is_missing(own.roof_span) or own.roof_span <= most:
        return at_most(own.roof_span, limit.attic_roof_span)
    over = own.roof_span - limit.attic_roof_span.value
    return look_at(
        Look.ENGINEER, f"a roof span of {own.roof_span} is {over} over what 2x4 under a habitable attic carry"
    )


class GradeLimits(Limits):
    grades: Limit[tuple[str, ...]]
    utility_spacing: Limit[Length]
    utility_height: Limit[Length]
    utility_partition_height: Limit[Length]


@rule("walls.stud-grade", stage="framing")
def stud_grade(framed: FramedWall, limit: GradeLimits) -> Check:
    """Studs are No. 3, standard or stud grade or better; utility grade only where it is close, low and under a roof alone.

    The grade of partitions that bear nothing is not asked.
    """
    own = framed.framing
    if is_missing(own):
        return not_shown(own)
    if framed.is_partition is True and is_missing(own.grade):
        return does_not_apply(PARTITION)
    if str(own.grade).lower() != "utility":
        return one_of(own.grade, limit.grades)
    light = when_given(lambda carries: carries in ("nothing", "roof and ceiling"), carried_load(framed.wall))
    low = at_most(own.height, limit.utility_partition_height if framed.is_partition is True else limit.utility_height)
    close = all_of(at_most(own.spacing, limit.utility_spacing), low)
    return decide(
        light,
        close,
        one_of(own.grade, limit.grades).or_fix("No. 3 or stud grade", lambda: [NewValue(own, "grade", "No.3")]),
    )


class PlateLimits(Limits):
    top: Limit[int]
    joints: Limit[Length]
    single: Limit[str]
    bottom: Limit[int]
    as_wide: Limit[bool]


@rule("walls.plates", stage="framing")
def plates(framed: FramedWall, limit: PlateLimits) -> Check:
    """Walls have a double top plate with offset joints, and a bottom plate as wide as the studs.

    One top plate will do with metal splice plates over its joints, and on a partition that bears nothing. So it will in
    an opening that is closed, where the header that stays carries what is above.
    """
    own = framed.framing
    if is_missing(own):
        return not_shown(own)
    if framed.is_partition is True:
        return does_not_apply(PARTITION)
    if own.carries == "nothing" and not is_missing(framed.wall.opening_filled):
        return does_not_apply("it fills an opening under its header, and carries nothing")
    if is_missing(framed.is_partition):
        return not_shown(framed.is_partition)
    double = all_of(at_least(own.top_plates, limit.top), at_least(own.plate_joints_apart, limit.joints))
    single = limit.single.value is not None and own.splice_plates is True
    as_wide = when_given(lambda plate, stud: wide(plate) >= wide(stud), own.bottom_plate, own.stud)
    return all_of(
        met("one top plate, with splice plates") if single else double,
        at_least(when_given(thick, own.bottom_plate), limit.bottom, "nominal"),
        required(as_wide, limit.as_wide),
    )


class LandingLimits(Limits):
    within: Limit[Length]
    joists_over: Settled[Length]
    studs_from: Settled[Length]
    strengthened: Limit[bool]


@rule("walls.joists-over-studs", stage="framing")
def joists_over_studs(framed: FramedWall, limit: LandingLimits) -> Check:
    """Where joists and studs are both widely spaced, joists bear near a stud, or the top plates are reinforced."""
    own = framed.framing
    if is_missing(own) or own.carries == "nothing":
        return not_shown(own) if is_missing(own) else does_not_apply(BEARS_NOTHING)
    near = at_most(own.joists_from_studs, limit.within, "joist from the nearest stud")
    strong = [] if is_missing(own.plates_strengthened) else [required(own.plates_strengthened, limit.strengthened)]
    apart = when_given(
        lambda joists, studs: joists > limit.joists_over.value and studs >= limit.studs_from.value,
        own.joist_spacing,
        own.spacing,
    )
    close = not is_missing(own.spacing) and own.spacing < limit.studs_from.value
    return (
        does_not_apply("the studs stand close")
        if close
        else decide(apart, any_of(near, *strong), does_not_apply("close"))
    )


class UpliftLimits(Limits):
    connected: Limit[bool]
    free_up_to: Settled[Force]
    wind: Settled[Any]
    exposure: Settled[str]
    pitch: Settled[Slope]
    roof_span: Settled[Length]
    wind_speed: Limit[Any] = reads("criteria.ultimate-wind-speed")
    wind_exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("walls.uplift", stage="framing")
def uplift(framed: FramedWall, limit: UpliftLimits, house: House) -> Check:
    """The roof is tied down to the outside walls that carry it, unless wind lifts it little: low wind, steep and narrow roof."""
    own = framed.framing
    if is_missing(own):
        return not_shown(own)
    if not faces_out(framed.wall, house) or (not is_missing(own.carries) and "roof" not in own.carries):
        return does_not_apply("it is no outside wall that carries a roof")
    tied = required(own.uplift.connected, limit.connected)
    if not is_missing(own.uplift.net_uplift_per_foot):
        light = own.uplift.net_uplift_per_foot <= limit.free_up_to.value
        return does_not_apply(f"the net uplift is no more than {limit.free_up_to.value} a foot") if light else tied
    return decide(_calm(own.uplift, limit, house), does_not_apply("low wind, and a steep and narrow roof"), tied)


def _calm(own: Any, limit: UpliftLimits, house: House) -> bool | Missing:
    """Return whether all four facts say that wind lifts little; one that says otherwise is enough."""
    wind = house.criterion(limit.wind_speed.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.wind_exposure.value, "wind_exposure")
    facts = (
        when_given(lambda w: w is None or w <= limit.wind.value, wind),
        when_given(lambda e: str(e) == limit.exposure.value, exposure),
        when_given(lambda p: p >= limit.pitch.value, own.roof_pitch),
        when_given(lambda s: s <= limit.roof_span.value, own.roof_span),
    )
    return False if any(f is False for f in facts) else when_given(lambda *_: True, *facts)


class KneeLimits(Limits):
    as_story_over: Settled[Length]
    sheathed_under: Settled[Length]
    as_above: Limit[bool]
    sheathed: Limit[bool]


@rule("walls.knee-wall", stage="framing")
def knee_wall(framed: FramedWall, limit: KneeLimits) -> Check:
    """A cripple wall has studs as large as those above; a tall one counts as a story, a low one is fully sheathed."""
    own = framed.framing
    if is_missing(own) or own.knee_wall is not True:
        return does_not_apply("it is no cripple wall")
    if is_missing(own.height):
        return not_shown(own.height)
    if own.height > limit.as_story_over.value:
        over = own.height - limit.as_story_over.value
        return look_at(Look.OFFICIAL, f"it is {over} taller than {limit.as_story_over.value}, and counts as a story")
    as_above = when_given(lambda one, other: wide(one) >= wide(other), own.stud, own.stud_above)
    low = required(own.fully_sheathed, limit.sheathed)
    alike = required(as_above, limit.as_above)
    return all_of(alike, low if own.height < limit.sheathed_under.value else met("tall enough to brace"))
