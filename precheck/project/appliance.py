"""Appliances: furnaces, boilers, water heaters and others; where they stand and how they are reached."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.missing import Missing, is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.part import Gap, Level, Part, Point, Size, SpaceId
from precheck.units import HeatRate, Pressure, Slope, Temperature

BURNS = frozenset(("natural gas", "propane", "oil", "wood"))
GAS = frozenset(("natural gas", "propane"))
BY_WIRE = frozenset(("mini-split", "heat pump", "air conditioner", "air handler"))  # these burn nothing, unless said


class Pan(Record):
    """The pan under a tank."""

    kind = "pan"
    material: Maybe[Literal["galvanized steel", "aluminum", "plastic", "other approved"]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/1000 in", "1 in")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    drain: Maybe[Annotated[Size, Between("1/8 in", "12 in")]] = NOT_GIVEN
    drains_to: Maybe[Literal["receptor", "outdoors", "nowhere"]] = NOT_GIVEN
    drain_above_grade: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN


class Passage(Record):
    """The way from the access opening to an appliance in an attic or under a floor."""

    kind = "passage"
    height: Maybe[Annotated[Size, Between("3 in", "30 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    length: Maybe[Annotated[Gap, Between("3 in", "200 ft")]] = NOT_GIVEN
    floor_width: Maybe[Annotated[Gap, Between("3 in", "60 ft")]] = NOT_GIVEN
    opening: Maybe[Annotated[tuple[Size, Size], Between("3 in", "12 ft")]] = NOT_GIVEN
    service_space: Maybe[Annotated[tuple[Size, Size], Between("3 in", "20 ft")]] = NOT_GIVEN
    served_from_opening: Maybe[bool] = NOT_GIVEN
    lighted: Maybe[bool] = NOT_GIVEN
    receptacle: Maybe[bool] = NOT_GIVEN


class Relief(Record):
    """The pressure and temperature relief valve of a water heater, and the pipe that it discharges through."""

    kind = "relief valve"
    pressure: Maybe[Annotated[Pressure, Between("1 psi", "500 psi")]] = NOT_GIVEN
    temperature: Maybe[Annotated[Temperature, Between("50 F", "400 F")]] = NOT_GIVEN
    outlet: Maybe[Annotated[Size, Between("1/8 in", "6 in")]] = NOT_GIVEN
    pipe: Maybe[Annotated[Size, Between("1/8 in", "6 in")]] = NOT_GIVEN
    ends_at: Maybe[Literal["floor", "pan", "receptor", "outdoors", "drain pipe"]] = NOT_GIVEN
    ends_above: Maybe[Annotated[Gap, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    falls_all_the_way: Maybe[bool] = NOT_GIVEN
    trap_valve_or_thread: Maybe[bool] = NOT_GIVEN
    end_in_sight: Maybe[bool] = NOT_GIVEN


class Strap(Record):
    """One strap or anchor that holds a water heater in an earthquake."""

    kind = "strap"
    third: Maybe[Literal["upper", "middle", "lower"]] = NOT_GIVEN
    above_controls: Maybe[Annotated[Gap, Between("1/16 in", "10 ft")]] = NOT_GIVEN


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
    input: Maybe[Annotated[HeatRate, Between("500 Btu/h", "500000 Btu/h")]] = NOT_GIVEN
    tank: Maybe[bool] = NOT_GIVEN
    replacement: Maybe[bool] = NOT_GIVEN
    direct_vent: Maybe[bool] = NOT_GIVEN
    vapor_ignition_resistant: Maybe[bool] = NOT_GIVEN
    ignition_source: Maybe[bool] = NOT_GIVEN
    ignition_height: Maybe[Annotated[Gap, Between("1/4 in", "10 ft")]] = NOT_GIVEN
    bottom_height: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    bottom_level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    resists_flooding: Maybe[bool] = NOT_GIVEN
    vehicle_protection: Maybe[Literal["post", "curb", "wall", "alcove", "out of the way", "none"]] = NOT_GIVEN
    reached_only_from: Maybe[SpaceId] = NOT_GIVEN
    own_room: Maybe[bool] = NOT_GIVEN
    combustion_air: Maybe[Literal["indoor", "outdoor"]] = NOT_GIVEN
    room_door_weatherstripped: Maybe[bool] = NOT_GIVEN
    room_door_self_closing: Maybe[bool] = NOT_GIVEN
    accessible: Maybe[bool] = NOT_GIVEN
    removable: Maybe[bool] = NOT_GIVEN
    service_space: Maybe[Annotated[tuple[Size, Size], Between("1 in", "40 ft")]] = NOT_GIVEN
    clearance: Maybe[Annotated[Gap, Between("1/16 in", "40 ft")]] = NOT_GIVEN
    labeled_clearance: Maybe[Annotated[Gap, Between("1/16 in", "10 ft")]] = NOT_GIVEN
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
    vent_rise: Maybe[Annotated[Slope, Between("0.01%", "100%")]] = NOT_GIVEN
    straps: tuple[Strap, ...] = ()
    strapped: Maybe[bool] = NOT_GIVEN
    sized_by_load_calculation: Maybe[bool] = NOT_GIVEN
    disconnect_in_sight: Maybe[bool] = NOT_GIVEN
    condensate_drains_to: Maybe[Literal["drain", "outdoors", "nowhere"]] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN

    @property
    def burns_fuel(self) -> bool | Missing:
        """Whether it burns a fuel; an absence where the fuel of one that may burn one is not given."""
        if is_missing(self.fuel):
            return False if self.what in BY_WIRE else self.fuel
        return self.fuel in BURNS


__all__ = ["Appliance", "Pan", "Passage", "Relief", "Strap"]
