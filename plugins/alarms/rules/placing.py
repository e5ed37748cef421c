"""How far smoke alarms keep from bathrooms and cooking appliances, which set them off for nothing."""

from __future__ import annotations

from precheck_plugins.alarms.places import AlarmByBath, open_to

from precheck import (
    Alarm,
    Check,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Space,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    met,
    not_shown,
    rule,
)


class BathLimits(Limits):
    minimum: Limit[Length]


@rule("alarms.smoke-from-bath-door", stage="rough-in")
def smoke_from_bath_door(near: AlarmByBath, limit: BathLimits) -> Check:
    """A smoke alarm keeps clear of the door of a bathroom with a tub or shower, unless it has no other place."""
    alarm = near.alarm
    if _no_smoke(alarm) or (not near.baths and is_missing(alarm.distance_to_bath_door)):
        return does_not_apply("no bathroom opens into its space")
    check = at_least(near.distance, limit.minimum).or_fix(
        lambda: f"move it {limit.minimum.value} away from the door, or show that no other place serves",
        lambda: [NewValue(alarm, "distance_to_bath_door", limit.minimum.value)] if is_missing(near.drawn) else [],
        decide="where it goes",
    )
    return _unless_no_other_place(alarm, check)


class CookingLimits(Limits):
    minimum: Limit[Length]
    where_needed: Limit[Length]
    ionization: Limit[Length]
    silencing: Limit[Length]
    photoelectric: Limit[Length]
    marked: Limit[Length]


@rule("alarms.smoke-from-cooking", stage="rough-in")
def smoke_from_cooking(alarm: Alarm, limit: CookingLimits, house: House) -> Check:
    """A smoke alarm keeps its distance from a fixed cooking appliance.

    Up to 2021 the distance goes by the sensor; from 2024 it is one distance, less where a required place needs it.
    """
    near = _cooks_near(alarm, house)
    if _no_smoke(alarm) or (not near and is_missing(alarm.distance_to_cooking)):
        return does_not_apply("nobody cooks in its space or one open to it")
    if limit.minimum.value is not None:
        least = limit.where_needed if alarm.no_other_place is True else limit.minimum
        return at_least(alarm.distance_to_cooking, least).or_fix(
            f"move it away; where a required place needs it there, {limit.where_needed.value} is enough",
            lambda: [NewValue(alarm, "distance_to_cooking", least.value)],
        )
    return _unless_no_other_place(alarm, _by_sensor(alarm, limit))


def _by_sensor(alarm: Alarm, limit: CookingLimits) -> Check:
    if alarm.cooking_marked is True and limit.marked.value is not None:
        return at_least(alarm.distance_to_cooking, limit.marked)
    if is_missing(alarm.sensor):
        far = at_least(alarm.distance_to_cooking, limit.ionization)
        return far if far.outcome.word == "pass" else not_shown(alarm.sensor)
    if alarm.sensor == "photoelectric":
        return at_least(alarm.distance_to_cooking, limit.photoelectric)
    least = limit.silencing if alarm.silencing is True else limit.ionization
    return at_least(alarm.distance_to_cooking, least).or_fix(
        f"choose a photoelectric alarm, which may hang {limit.photoelectric.value} away",
        lambda: _photoelectric(alarm, limit.photoelectric.value),
    )


def _photoelectric(alarm: Alarm, least: Length) -> list[NewValue]:
    near = alarm.distance_to_cooking < least
    moved = [NewValue(alarm, "distance_to_cooking", least)] if near else []
    return [NewValue(alarm, "sensor", "photoelectric"), *moved]


class MountingLimits(Limits):
    from_wall: Limit[Length]
    below_ceiling_minimum: Limit[Length]
    below_ceiling_maximum: Limit[Length]


@rule("alarms.mounting", stage="final")
def mounting(alarm: Alarm, limit: MountingLimits) -> Check:
    """An alarm hangs out of the corner of wall and ceiling where a jurisdiction says how far; else the manufacturer says it."""
    on_ceiling = at_least(alarm.from_wall, limit.from_wall)
    on_wall = all_of(
        at_least(alarm.below_ceiling, limit.below_ceiling_minimum),
        at_most(alarm.below_ceiling, limit.below_ceiling_maximum),
    )
    if is_missing(alarm.mounted):
        return decide(alarm.mounted, on_ceiling, on_wall)
    return on_ceiling if alarm.mounted == "ceiling" else on_wall


def _unless_no_other_place(alarm: Alarm, check: Check) -> Check:
    if alarm.no_other_place is True and check.outcome.word == "fail":
        return met("keeping the distance would leave a required place without an alarm")
    return check


def _no_smoke(alarm: Alarm) -> bool:
    return not is_missing(alarm.detects) and "smoke" not in alarm.detects


def _cooks_near(alarm: Alarm, house: House) -> bool:
    space = house.space(alarm.space)
    near: list[Space] = [space, *open_to(house, space)] if space is not None else []
    cooking = {a.space for a in house.project.appliances if a.what == "range" and not a.is_removed}
    return any(s.use == "kitchen" or s.id in cooking for s in near)
