"""Lights and what switches them; lights in closets and over tubs; ceiling fans."""

from __future__ import annotations

from precheck_plugins.electrical.around import DoorOut, LightAt
from precheck_plugins.electrical.rooms import RoomOutlets, may_lack_power

from precheck import (
    Check,
    Force,
    House,
    Length,
    Light,
    Limit,
    Limits,
    Missing,
    Space,
    all_of,
    any_of,
    at_least,
    at_most,
    does_not_apply,
    if_stated,
    is_missing,
    is_outdoors,
    required,
    rule,
)

BATHS = ("bathroom", "toilet room")


class RoomLightLimits(Limits):
    habitable: Limit[bool]
    hall_and_garage: Limit[bool]
    storage: Limit[bool]


@rule("electrical.room-light", stage="rough-in")
def room_light(room: RoomOutlets, limit: RoomLightLimits) -> Check:
    """Habitable rooms, bathrooms, halls, garages and storage and equipment spaces have a switched light.

    In habitable rooms other than kitchens a switched receptacle will do.
    """
    use = room.space.use
    if room.space.is_habitable or use in BATHS:
        due, instead = limit.habitable, use != "kitchen" and use not in BATHS
    elif use in ("hall", "garage"):
        due, instead = limit.hall_and_garage, False
    elif use in ("attic", "storage", "utility", "crawl space", "laundry"):
        due, instead = limit.storage, False
    else:
        return does_not_apply("no switched light is asked of this space")
    lit = [_switched(light) for light in room.lights] or [room.space.absent("light")]
    if instead:
        lit += [light.switched_receptacle for light in room.lights if not is_missing(light.switched_receptacle)]
    shown = True if True in lit else next((x for x in lit if is_missing(x)), False)
    return required(shown, due).or_fix("add a light with a wall switch at the door")


def _switched(light: Light) -> bool | Missing:
    """Return whether a wall switch turns the light on: as stated, and where the plan shows at which rooms it is switched."""
    return True if is_missing(light.wall_switch) and light.switched_at else light.wall_switch


class DoorLightLimits(Limits):
    outside: Limit[bool]


@rule("electrical.door-light", stage="rough-in")
def door_light(way: DoorOut, limit: DoorLightLimits, house: House) -> Check:
    """Each exterior door at grade has a light outside, with a wall switch.

    A carport, porch or deck is outside.
    """
    door = way.door
    ways_out = sum(is_outdoors(side, house) for side in door.between)
    if ways_out != 1 or door.operation in ("vehicle", "hatch"):
        return does_not_apply("not a door by which people leave the house")
    if any(space is not None and may_lack_power(space) and not _has_power(space, house) for space in house.sides(door)):
        return does_not_apply("no power is drawn in the building")
    over = [light for light in house.subjects(Light) if light.outside_door == door.id and not light.is_removed]
    lit = _switched(over[0]) if over else door.absent("light outside")
    return required(lit, limit.outside)


def _has_power(space: Space, house: House) -> bool:
    return any(room.space is space for room in house.subjects(RoomOutlets))


class ClosetLightLimits(Limits):
    surface: Limit[Length]
    fluorescent: Limit[Length]
    recessed: Limit[Length]
    open_bulbs: Limit[int]


@rule("electrical.closet-light", stage="final")
def closet_light(at: LightAt, limit: ClosetLightLimits) -> Check:
    """Closet lights are enclosed or LED, and clear of the storage space."""
    light, space = at.light, at.space
    if space is None or space.use != "closet":
        return does_not_apply("not in a closet")
    if is_missing(light.form):
        return at_most(light.form, limit.open_bulbs)
    closed = at_most(int(light.form in ("open bulb", "pendant")), limit.open_bulbs, light.form)
    clear = {"fluorescent": limit.fluorescent, "recessed": limit.recessed}.get(light.form, limit.surface)
    return all_of(closed.or_fix("use an enclosed or LED surface light"), if_stated(light.to_storage, at_least, clear))


class TubZoneLimits(Limits):
    beside: Limit[Length]
    above: Limit[Length]


@rule("electrical.tub-zone", stage="final")
def tub_zone(at: LightAt, limit: TubZoneLimits) -> Check:
    """No hanging light, track light or ceiling fan is within the zone of a tub or shower."""
    light = at.light
    if light.form not in ("pendant", "track", "fan") or (is_missing(light.from_tub) and is_missing(light.above_tub)):
        return does_not_apply("no hanging light, track or fan is drawn near a tub or shower")
    beside, above = at_least(light.from_tub, limit.beside), at_least(light.above_tub, limit.above)
    return any_of(beside, above)


class FanLimits(Limits):
    listed: Limit[bool]
    maximum: Limit[Force]


@rule("electrical.ceiling-fan", stage="rough-in")
def ceiling_fan(light: Light, limit: FanLimits) -> Check:
    """A ceiling fan hangs from a fan-rated box."""
    if light.form != "fan":
        return does_not_apply("not a ceiling fan")
    return all_of(
        if_stated(light.fan_box_listed, required, limit.listed), if_stated(light.fan_weight, at_most, limit.maximum)
    )
