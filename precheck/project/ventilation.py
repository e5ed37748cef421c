"""Moving air: exhaust fans and hoods, dryer ducts, intakes, whole-house ventilation, air for combustion."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Part, Point, Size, SpaceId
from precheck.units import AirFlow, Area, HeatRate, Length, Volume
from precheck.units.kinds import PlainNumber

Destination = Literal["outdoors", "attic", "soffit", "crawl space", "garage", "recirculates"]


class Exhaust(Part):
    """An exhaust fan or hood, and where its air goes; `at` is its place on the plan."""

    kind = "exhaust"
    space: SpaceId
    what: Literal["bath fan", "range hood", "other"]
    flow: Maybe[Annotated[AirFlow, Between("1 cfm", "5000 cfm")]] = NOT_GIVEN
    runs: Maybe[Literal["on demand", "continuously"]] = NOT_GIVEN
    discharges_to: Maybe[Destination] = NOT_GIVEN
    duct: Maybe[Literal["smooth metal", "flexible metal", "plastic", "none"]] = NOT_GIVEN
    backdraft_damper: Maybe[bool] = NOT_GIVEN
    outlet_to_lot_line: Maybe[Annotated[Gap, Between("1/4 in", "1000 ft")]] = NOT_GIVEN
    outlet_to_opening: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    outlet_to_intake: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    outlet_above_intake: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN


class Intake(Part):
    """An opening that takes outdoor air in."""

    kind = "intake"
    to_pollution: Maybe[Annotated[Gap, Between("1/4 in", "1000 ft")]] = NOT_GIVEN
    below_source: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN


class WholeHouseVentilation(Part):
    """The system that ventilates the whole house."""

    kind = "whole-house ventilation"
    flow: Maybe[Annotated[AirFlow, Between("1 cfm", "3000 cfm")]] = NOT_GIVEN
    floor_area: Maybe[Annotated[Area, Between("50 sq ft", "30000 sq ft")]] = NOT_GIVEN
    bedrooms: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    balanced_and_distributed: Maybe[bool] = NOT_GIVEN


class DryerTransition(Record):
    """The listed flexible piece between dryer and duct."""

    kind = "transition"
    length: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    listed: Maybe[bool] = NOT_GIVEN
    concealed: Maybe[bool] = NOT_GIVEN


class DryerDuct(Part):
    """The exhaust duct of a clothes dryer. `length` is from the transition to the cap, without its elbows."""

    kind = "dryer duct"
    space: SpaceId
    length: Maybe[Annotated[Size, Between("1 in", "200 ft")]] = NOT_GIVEN
    elbows_90: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    elbows_45: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    allowed_by_manufacturer: Maybe[Annotated[Size, Between("1 ft", "300 ft")]] = NOT_GIVEN
    material: Maybe[Literal["smooth metal", "flexible metal", "plastic"]] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/2 in", "18 in")]] = NOT_GIVEN
    metal_thickness: Maybe[Annotated[Size, Between("1/1000 in", "1/2 in")]] = NOT_GIVEN
    support_spacing: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    screw_intrusion: Maybe[Annotated[Gap, Between("1/64 in", "6 in")]] = NOT_GIVEN
    discharges_to: Maybe[Destination] = NOT_GIVEN
    damper: Maybe[bool] = NOT_GIVEN
    screen: Maybe[bool] = NOT_GIVEN
    cap_opening: Maybe[Annotated[Area, Between("0.1 sq in", "4 sq ft")]] = NOT_GIVEN
    cap_to_opening: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    from_stud_edge: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    shield_plates: Maybe[bool] = NOT_GIVEN
    transition: Maybe[DryerTransition] = NOT_GIVEN
    in_closet: Maybe[bool] = NOT_GIVEN
    closet_opening: Maybe[Annotated[Area, Between("0.5 sq in", "100 sq ft")]] = NOT_GIVEN
    flow: Maybe[Annotated[AirFlow, Between("1 cfm", "2000 cfm")]] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN


class AirOpening(Record):
    """One opening for combustion air. `area` is its face; `free_area` what the maker states is open."""

    kind = "air opening"
    to: Literal["rooms", "outdoors"]
    by: Maybe[Literal["direct", "upright duct", "level duct"]] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("0.5 sq in", "100 sq ft")]] = NOT_GIVEN
    free_area: Maybe[Annotated[Area, Between("0.5 sq in", "100 sq ft")]] = NOT_GIVEN
    cover: Maybe[Literal["none", "metal louver", "wood louver", "screen"]] = NOT_GIVEN
    mesh: Maybe[Annotated[Gap, Between("1/100 in", "6 in")]] = NOT_GIVEN
    from_top: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    from_floor: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    least_side: Maybe[Annotated[Size, Between("1/4 in", "20 ft")]] = NOT_GIVEN


class CombustionAir(Part):
    """Air for the gas appliances that draw on one room: from it and the `joined` rooms, or from outdoors."""

    kind = "combustion air"
    space: SpaceId
    joined: tuple[SpaceId, ...] = ()
    source: Maybe[Literal["indoors", "outdoors", "mechanical"]] = NOT_GIVEN
    input: Maybe[Annotated[HeatRate, Between("500 Btu/h", "1000000 Btu/h")]] = NOT_GIVEN
    volume: Maybe[Annotated[Volume, Between("10 cu ft", "300000 cu ft")]] = NOT_GIVEN
    openings: tuple[AirOpening, ...] = ()
    joined_on_one_level: Maybe[bool] = NOT_GIVEN
    air_changes_per_hour: Maybe[Annotated[PlainNumber, Between("0.01", "20")]] = NOT_GIVEN
    exhaust_in_same_space: Maybe[bool] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN


__all__ = ["AirOpening", "CombustionAir", "DryerDuct", "Exhaust", "Intake", "Length", "WholeHouseVentilation"]
