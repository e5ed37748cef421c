"""Moving air: exhaust fans and hoods, dryer ducts, intakes, whole-house ventilation, air for combustion."""

from __future__ import annotations

from typing import Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.part import Count, Gap, Part, Point, Size, SpaceId
from precheck.units import AirFlow, Area, HeatRate, Length, Volume
from precheck.units.kinds import PlainNumber

Destination = Literal["outdoors", "attic", "soffit", "crawl space", "garage", "recirculates"]


class Exhaust(Part):
    """An exhaust fan or hood, and where its air goes; `at` is its place on the plan."""

    kind = "exhaust"
    space: SpaceId
    what: Literal["bath fan", "range hood", "other"]
    flow: Maybe[AirFlow] = NOT_GIVEN
    runs: Maybe[Literal["on demand", "continuously"]] = NOT_GIVEN
    discharges_to: Maybe[Destination] = NOT_GIVEN
    duct: Maybe[Literal["smooth metal", "flexible metal", "plastic", "none"]] = NOT_GIVEN
    backdraft_damper: Maybe[bool] = NOT_GIVEN
    outlet_to_lot_line: Maybe[Gap] = NOT_GIVEN
    outlet_to_opening: Maybe[Gap] = NOT_GIVEN
    outlet_to_intake: Maybe[Gap] = NOT_GIVEN
    outlet_above_intake: Maybe[Gap] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN


class Intake(Part):
    """An opening that takes outdoor air in."""

    kind = "intake"
    to_pollution: Maybe[Gap] = NOT_GIVEN
    below_source: Maybe[Gap] = NOT_GIVEN


class WholeHouseVentilation(Part):
    """The system that ventilates the whole house."""

    kind = "whole-house ventilation"
    flow: Maybe[AirFlow] = NOT_GIVEN
    floor_area: Maybe[Area] = NOT_GIVEN
    bedrooms: Maybe[Count] = NOT_GIVEN
    balanced_and_distributed: Maybe[bool] = NOT_GIVEN


class DryerTransition(Record):
    """The listed flexible piece between dryer and duct."""

    kind = "transition"
    length: Maybe[Size] = NOT_GIVEN
    listed: Maybe[bool] = NOT_GIVEN
    concealed: Maybe[bool] = NOT_GIVEN


class DryerDuct(Part):
    """The exhaust duct of a clothes dryer. `length` is from the transition to the cap, without its elbows."""

    kind = "dryer duct"
    space: SpaceId
    length: Maybe[Size] = NOT_GIVEN
    elbows_90: Maybe[Count] = NOT_GIVEN
    elbows_45: Maybe[Count] = NOT_GIVEN
    allowed_by_manufacturer: Maybe[Size] = NOT_GIVEN
    material: Maybe[Literal["smooth metal", "flexible metal", "plastic"]] = NOT_GIVEN
    diameter: Maybe[Size] = NOT_GIVEN
    metal_thickness: Maybe[Size] = NOT_GIVEN
    support_spacing: Maybe[Size] = NOT_GIVEN
    screw_intrusion: Maybe[Gap] = NOT_GIVEN
    discharges_to: Maybe[Destination] = NOT_GIVEN
    damper: Maybe[bool] = NOT_GIVEN
    screen: Maybe[bool] = NOT_GIVEN
    cap_opening: Maybe[Area] = NOT_GIVEN
    cap_to_opening: Maybe[Gap] = NOT_GIVEN
    from_stud_edge: Maybe[Gap] = NOT_GIVEN
    shield_plates: Maybe[bool] = NOT_GIVEN
    transition: Maybe[DryerTransition] = NOT_GIVEN
    in_closet: Maybe[bool] = NOT_GIVEN
    closet_opening: Maybe[Area] = NOT_GIVEN
    flow: Maybe[AirFlow] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN


class AirOpening(Record):
    """One opening for combustion air. `area` is its face; `free_area` what the maker states is open."""

    kind = "air opening"
    to: Literal["rooms", "outdoors"]
    by: Maybe[Literal["direct", "upright duct", "level duct"]] = NOT_GIVEN
    area: Maybe[Area] = NOT_GIVEN
    free_area: Maybe[Area] = NOT_GIVEN
    cover: Maybe[Literal["none", "metal louver", "wood louver", "screen"]] = NOT_GIVEN
    mesh: Maybe[Gap] = NOT_GIVEN
    from_top: Maybe[Gap] = NOT_GIVEN
    from_floor: Maybe[Gap] = NOT_GIVEN
    least_side: Maybe[Size] = NOT_GIVEN


class CombustionAir(Part):
    """Air for the gas appliances that draw on one room: from it and the `joined` rooms, or from outdoors."""

    kind = "combustion air"
    space: SpaceId
    joined: tuple[SpaceId, ...] = ()
    source: Maybe[Literal["indoors", "outdoors", "mechanical"]] = NOT_GIVEN
    input: Maybe[HeatRate] = NOT_GIVEN
    volume: Maybe[Volume] = NOT_GIVEN
    openings: tuple[AirOpening, ...] = ()
    joined_on_one_level: Maybe[bool] = NOT_GIVEN
    air_changes_per_hour: Maybe[PlainNumber] = NOT_GIVEN
    exhaust_in_same_space: Maybe[bool] = NOT_GIVEN
    makeup_air: Maybe[bool] = NOT_GIVEN


__all__ = ["AirOpening", "CombustionAir", "DryerDuct", "Exhaust", "Intake", "Length", "WholeHouseVentilation"]
