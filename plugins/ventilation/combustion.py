"""Air for combustion: from the volume of the rooms, through openings between rooms, or from outdoors."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck_plugins.ventilation.rooms import SQUARE_INCH, CombustionRoom, free_area

from precheck import (
    AirOpening,
    Area,
    Check,
    CombustionAir,
    HeatRate,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Outcome,
    Ratio,
    Volume,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    in_square_inches,
    is_missing,
    look_at,
    met,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

FROM_OUTDOORS = "bring combustion air from outdoors"
STEP = HeatRate.parse("1,000 Btu/h")  # what the limits for rooms count input by


class VolumeLimits(Limits):
    each_step: Limit[Volume]
    air_changes: Limit[Ratio]
    through_garage_wall: Limit[int]


@rule("ventilation.combustion-volume", stage="rough-in", existing="must comply")
def combustion_volume(room: CombustionRoom, limit: VolumeLimits, house: House) -> Check:
    """Gas appliances that take combustion air from the rooms have the room volume for their input.

    The volume is that of the room and of those joined to it by openings or without doors, which may not cross the wall of a
    garage. The standard way is out for a
    house tighter than its limit. It is asked even of existing appliances, because the work changes the rooms around them.
    """
    if room.source == "outdoors":
        return does_not_apply("combustion air comes from outdoors")
    if room.source == "mechanical":
        return look_at(Look.ENGINEER, "a fan that supplies combustion air is sized and interlocked by its designer")
    needed = _needed(room.input, limit)
    if is_missing(room.input) and at_least(room.volume, _needed(room.known, limit)).outcome is Outcome.FAIL:
        needed = _needed(room.known, limit)  # too little already for those that give their input
    tight = room.air.air_changes_per_hour if room.air is not None else room.space.absent("air changes per hour")
    leaky = if_stated(tight, at_least, limit.air_changes)
    across = room.joined_through_garage(house)
    return all_of(
        at_most(len(across), limit.through_garage_wall, ", ".join(one.label for one in across)).or_fix(FROM_OUTDOORS),
        at_least(
            room.volume, needed, lambda: f"{room.known if is_missing(room.input) else room.input} of input"
        ).or_fix(lambda: _more(room, needed), decide="which way to take"),
        leaky.or_fix(FROM_OUTDOORS),
    )


def _needed(given: HeatRate | Missing, limit: VolumeLimits) -> Limit[Any]:
    return replace(limit.each_step, value=when_given(lambda i: limit.each_step.value * (i / STEP), given))


def _more(room: CombustionRoom, needed: Limit[Any]) -> str:
    if room.space.use == "garage":
        return FROM_OUTDOORS
    return f"join rooms of {needed.value - room.volume} more by two openings, or {FROM_OUTDOORS}"


class LouverLimits(Limits):
    metal: Limit[Ratio]
    wood: Limit[Ratio]
    mesh: Limit[Length]


class IndoorLimits(Limits):
    each_step: Limit[Area]
    minimum: Limit[Area]
    levels_each_step: Limit[Area]
    openings: Limit[int]
    from_top: Limit[Length]
    from_floor: Limit[Length]
    side: Limit[Length]
    metal: Limit[Ratio] = reads("ventilation.combustion-louvers.metal")
    wood: Limit[Ratio] = reads("ventilation.combustion-louvers.wood")


@rule("ventilation.combustion-indoor-openings", stage="rough-in", existing="must comply")
def combustion_indoor_openings(room: CombustionRoom, limit: IndoorLimits) -> Check:
    """Rooms joined for combustion air have two openings between them, one high and one low."""
    if room.air is None or not room.air.joined or room.source != "indoors":
        return does_not_apply("no rooms are joined for combustion air")
    areas = [free_area(o, limit.metal, limit.wood) for o in room.openings if o.to == "rooms"]
    if not areas:
        return not_shown(room.air.absent("openings to the joined rooms"))
    if room.air.joined_on_one_level is False:
        total = when_given(lambda *given: sum(given[1:], start=given[0]), *areas)
        return at_least(total, _by_input(limit.levels_each_step, room), "all openings together")
    each = replace(
        limit.each_step, value=when_given(lambda a: max(a, limit.minimum.value), _by_input(limit.each_step, room).value)
    )
    return all_of(
        at_least(len(areas), limit.openings),
        *(at_least(area, each, lambda: f"for {room.input}") for area in areas),
        *(at_least(o.least_side, limit.side) for o in room.openings if o.to == "rooms"),
        any_of(*(at_most(o.from_top, limit.from_top) for o in room.openings)),
        any_of(*(at_most(o.from_floor, limit.from_floor) for o in room.openings)),
    )


def _by_input(limit: Limit[Area], room: CombustionRoom) -> Limit[Any]:
    return replace(limit, value=when_given(lambda given: in_square_inches(limit.value * (given / STEP)), room.input))


class OutdoorLimits(Limits):
    direct: Limit[HeatRate]
    level: Limit[HeatRate]
    one: Limit[HeatRate]
    from_top: Limit[Length]
    from_floor: Limit[Length]
    side: Limit[Length]
    metal: Limit[Ratio] = reads("ventilation.combustion-louvers.metal")
    wood: Limit[Ratio] = reads("ventilation.combustion-louvers.wood")


@rule("ventilation.combustion-outdoor-openings", stage="rough-in", existing="must comply")
def combustion_outdoor_openings(room: CombustionRoom, limit: OutdoorLimits) -> Check:
    """Outdoor combustion air comes through one opening near the ceiling, or through one high and one low.

    What one square inch serves hangs on how the air comes: straight, by an upright duct, or by a level duct. The area of
    the appliances' vent connectors, which a single opening must also reach, is not drawn here.
    """
    if room.source != "outdoors":
        return does_not_apply("combustion air does not come from outdoors")
    outside = [o for o in room.openings if o.to == "outdoors"]
    if not outside:
        return not_shown((room.air or room.space).absent("openings to outdoors"))
    high = any_of(*(at_most(o.from_top, limit.from_top) for o in outside))
    low = any_of(*(at_most(o.from_floor, limit.from_floor) for o in outside))
    sides = (if_stated(o.least_side, at_least, limit.side) for o in outside)
    alone = outside if len(outside) == 1 else [o for o in outside if not low.is_met and _is_enough(o, room, limit)]
    if alone:
        return all_of(high, _outdoor(alone[0], True, room, limit), *sides)
    return all_of(high, low, *(_outdoor(o, False, room, limit) for o in outside), *sides)


def _is_enough(opening: AirOpening, room: CombustionRoom, limit: OutdoorLimits) -> bool:
    """Return whether an opening is high and large enough to serve alone, beside one that is not low."""
    return at_most(opening.from_top, limit.from_top).is_met and _outdoor(opening, True, room, limit).is_met


def _outdoor(opening: AirOpening, alone: bool, room: CombustionRoom, limit: OutdoorLimits) -> Check:
    area = free_area(opening, limit.metal, limit.wood)
    if not is_missing(opening.free_area) and area != opening.free_area:
        return agrees(opening.free_area, opening.area, "the face of the opening, of which no more can be free")
    served = limit.one if alone else limit.level if opening.by == "level duct" else limit.direct
    least = replace(
        served, value=when_given(lambda given: in_square_inches(SQUARE_INCH * (given / served.value)), room.input)
    )
    enough = at_least(area, least, lambda: f"1 sq in for each {served.value} of {room.input}")
    return enough if alone or not is_missing(opening.by) else all_of(enough, not_shown(opening.by))


@rule("ventilation.combustion-louvers", stage="final")
def combustion_louvers(opening: AirOpening, limit: LouverLimits) -> Check:
    """Combustion air openings are counted by their free area behind louvers, grilles and screens."""
    share = {"metal louver": limit.metal, "wood louver": limit.wood}.get(str(opening.cover))
    credited = (
        does_not_apply("its free area is given, or no louver covers it")
        if share is None or is_missing(opening.area) or not is_missing(opening.free_area)
        else met(f"{share.value} of its {opening.area} counts as open")
    )
    return all_of(credited, if_stated(opening.mesh, at_least, limit.mesh))


class FanLimits(Limits):
    makeup: Limit[bool]


@rule("ventilation.combustion-fans", stage="rough-in", existing="must comply")
def combustion_fans(air: CombustionAir, limit: FanLimits) -> Check:
    """Exhaust fans and dryers in the rooms of gas appliances have makeup air."""
    makeup = required(air.makeup_air, limit.makeup)
    return decide(air.exhaust_in_same_space, makeup, met("no exhaust fan or dryer in the same rooms"))
