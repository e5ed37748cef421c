"""Appliances: furnaces, boilers, water heaters and others; where they stand and how they are reached."""

from __future__ import annotations

from typing import Literal

from precheck.files.missing import Missing, is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.part import Gap, Level, Part, Point, Size, SpaceId
from precheck.units import HeatRate, Pressure, Slope, Temperature

BURNS = frozenset(("natural gas", "propane", "oil", "wood"))
GAS = frozenset(("natural gas", "propane"))


class Pan(Record):
    """The pan under a tank."""

    kind = "pan"
    material: Maybe[Literal["galvanized steel", "aluminum", "plastic", "other approved"]] = NOT_GIVEN
    thickness: Maybe[Size] = NOT_GIVEN
    depth: Maybe[Size] = NOT_GIVEN
    drain: Maybe[Size] = NOT_GIVEN
    drains_to: Maybe[Literal["receptor", "outdoors", "nowhere"]] = NOT_GIVEN
    drain_above_grade: Maybe[Gap] = NOT_GIVEN


class Passage(Record):
    """The way from the access opening to an appliance in an attic or under a floor."""

    kind = "passage"
    height: Maybe[Size] = NOT_GIVEN
    width: Maybe[Size] = NOT_GIVEN
    length: Maybe[Gap] = NOT_GIVEN
    floor_width: Maybe[Gap] = NOT_GIVEN
    opening: Maybe[tuple[Size, Size]] = NOT_GIVEN
    service_space: Maybe[tuple[Size, Size]] = NOT_GIVEN
    served_from_opening: Maybe[bool] = NOT_GIVEN
    lighted: Maybe[bool] = NOT_GIVEN
    receptacle: Maybe[bool] = NOT_GIVEN


class Relief(Record):
    """The pressure and temperature relief valve of a water heater, and the pipe that it discharges through."""

    kind = "relief valve"
    pressure: Maybe[Pressure] = NOT_GIVEN
    temperature: Maybe[Temperature] = NOT_GIVEN
    outlet: Maybe[Size] = NOT_GIVEN
    pipe: Maybe[Size] = NOT_GIVEN
    ends_at: Maybe[Literal["floor", "pan", "receptor", "outdoors", "drain pipe"]] = NOT_GIVEN
    ends_above: Maybe[Gap] = NOT_GIVEN
    falls_all_the_way: Maybe[bool] = NOT_GIVEN
    trap_valve_or_thread: Maybe[bool] = NOT_GIVEN
    end_in_sight: Maybe[bool] = NOT_GIVEN


class Strap(Record):
    """One strap or anchor that holds a water heater in an earthquake."""

    kind = "strap"
    third: Maybe[Literal["upper", "middle", "lower"]] = NOT_GIVEN
    above_controls: Maybe[Gap] = NOT_GIVEN


class Appliance(Part):
    """An appliance, in the space where it stands; `at` is the middle of it on the plan. Heights are above the floor there."""

    kind = "appliance"
    what: Literal[
        "water heater",
        "furnace",
        "boiler",
        "air handler",
        "room heater",
        "heat pump",
        "mini-split",
        "air conditioner",
        "fireplace",
        "clothes dryer",
        "range",
        "other",
    ]
    space: SpaceId
    fuel: Maybe[Literal["natural gas", "propane", "oil", "wood", "electric"]] = NOT_GIVEN
    input: Maybe[HeatRate] = NOT_GIVEN
    tank: Maybe[bool] = NOT_GIVEN
    replacement: Maybe[bool] = NOT_GIVEN
    direct_vent: Maybe[bool] = NOT_GIVEN
    vapor_ignition_resistant: Maybe[bool] = NOT_GIVEN
    ignition_source: Maybe[bool] = NOT_GIVEN
    ignition_height: Maybe[Gap] = NOT_GIVEN
    bottom_height: Maybe[Gap] = NOT_GIVEN
    bottom_level: Maybe[Level] = NOT_GIVEN
    resists_flooding: Maybe[bool] = NOT_GIVEN
    vehicle_protection: Maybe[Literal["post", "curb", "wall", "alcove", "out of the way", "none"]] = NOT_GIVEN
    reached_only_from: Maybe[SpaceId] = NOT_GIVEN
    own_room: Maybe[bool] = NOT_GIVEN
    combustion_air: Maybe[Literal["indoor", "outdoor"]] = NOT_GIVEN
    room_door_weatherstripped: Maybe[bool] = NOT_GIVEN
    room_door_self_closing: Maybe[bool] = NOT_GIVEN
    accessible: Maybe[bool] = NOT_GIVEN
    removable: Maybe[bool] = NOT_GIVEN
    service_space: Maybe[tuple[Size, Size]] = NOT_GIVEN
    clearance: Maybe[Gap] = NOT_GIVEN
    labeled_clearance: Maybe[Gap] = NOT_GIVEN
    gas_detector: Maybe[bool] = NOT_GIVEN
    drain_to_daylight: Maybe[bool] = NOT_GIVEN
    passage: Maybe[Passage] = NOT_GIVEN
    leak_would_damage: Maybe[bool] = NOT_GIVEN
    has_pan: Maybe[bool] = NOT_GIVEN
    pan: Maybe[Pan] = NOT_GIVEN
    relief: Maybe[Relief] = NOT_GIVEN
    has_relief: Maybe[bool] = NOT_GIVEN
    closed_system: Maybe[bool] = NOT_GIVEN
    expansion_control: Maybe[bool] = NOT_GIVEN
    cold_shutoff: Maybe[bool] = NOT_GIVEN
    drain_valve: Maybe[bool] = NOT_GIVEN
    natural_draft: Maybe[bool] = NOT_GIVEN
    vent_rise: Maybe[Slope] = NOT_GIVEN
    straps: tuple[Strap, ...] = ()
    strapped: Maybe[bool] = NOT_GIVEN
    sized_by_load_calculation: Maybe[bool] = NOT_GIVEN
    disconnect_in_sight: Maybe[bool] = NOT_GIVEN
    condensate_drains_to: Maybe[Literal["drain", "outdoors", "nowhere"]] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN

    @property
    def burns_fuel(self) -> bool | Missing:
        """Whether it burns a fuel; an absence where the fuel is not given."""
        return self.fuel if is_missing(self.fuel) else self.fuel in BURNS


__all__ = ["Appliance", "Pan", "Passage", "Relief", "Strap"]
