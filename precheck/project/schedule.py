"""What the drawing set says besides drawing: sheets with their title blocks, schedules, notes, forms, permits, work that needs one."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.opening import Box
from precheck.project.part import Count, Gap, Level, Number, OpeningId, Part, Point, Size
from precheck.project.site import FenceMaterial
from precheck.units import Area, Duration, Pressure, Ratio, Slope, Transmittance


class DrawnId(Reference):
    """The id of a part that several sheets may show."""

    __slots__ = ()
    kinds = (
        "door", "window", "wall", "space", "stair", "guard", "floor", "slab", "footing", "roof", "cladding", "board",
        "fixture", "appliance", "receptacle", "light", "panel", "retaining wall",
    )  # fmt: skip


class Statement(Record):
    """What a sheet says of a part that other sheets show too: its place in plan, size, level, finish or description."""

    kind = "statement"
    of: DrawnId
    place_in_plan: Maybe[Point] = NOT_GIVEN
    size: Maybe[Annotated[Box, Between("2 in", "60 ft")]] = NOT_GIVEN
    level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    finish: Maybe[str] = NOT_GIVEN
    description: Maybe[str] = NOT_GIVEN


class Sheet(Part):
    """One sheet of the drawing set: what its title block says, how it is drawn, and what it says of parts."""

    kind = "sheet"
    title: str = ""
    shows: tuple[str, ...] = ()
    scale: Maybe[Annotated[Slope, Between("1:2000", "2:1")]] = NOT_GIVEN
    paper: Maybe[Annotated[Box, Between("5 in", "5 ft")]] = NOT_GIVEN
    text_height: Maybe[Annotated[Size, Between("1/64 in", "3 in")]] = NOT_GIVEN
    mirrored: Maybe[bool] = NOT_GIVEN
    address: Maybe[str] = NOT_GIVEN
    legal_description: Maybe[str] = NOT_GIVEN
    code_edition: Maybe[str] = NOT_GIVEN
    says: tuple[Statement, ...] = ()


class ScheduleRow(Part):
    """One row of the door or window schedule, about the opening `of` the plan."""

    kind = "schedule row"
    of: OpeningId
    unit_size: Maybe[Annotated[Box, Between("4 in", "30 ft")]] = NOT_GIVEN
    operation: Maybe[str] = NOT_GIVEN
    net_clear_opening: Maybe[Annotated[Box, Between("2 in", "30 ft")]] = NOT_GIVEN
    net_clear_area: Maybe[Annotated[Area, Between("20 sq in", "400 sq ft")]] = NOT_GIVEN
    clear_width: Maybe[Annotated[Size, Between("6 in", "30 ft")]] = NOT_GIVEN
    sill_height: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    u_factor: Maybe[Annotated[Transmittance, Between("U-0.01", "U-3")]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/2 in", "6 in")]] = NOT_GIVEN
    construction: Maybe[str] = NOT_GIVEN
    fire_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN
    self_closing: Maybe[bool] = NOT_GIVEN


class Note(Part):
    """A note on the drawings; its text is `note`."""

    kind = "drawing note"


class PipeTest(Record):
    """A test of new pipes before they are covered."""

    kind = "pipe test"
    of: Literal["gas piping", "water piping", "drain piping"]
    pressure: Maybe[Annotated[Pressure, Between("0.1 psi", "300 psi")]] = NOT_GIVEN
    minutes: Maybe[Annotated[Number, Between(1, 3000)]] = NOT_GIVEN


class Submittal(Record):
    """What goes in with the drawings, and what came back."""

    kind = "submittal"
    permits: tuple[
        Literal["building", "electrical", "plumbing", "mechanical", "gas", "demolition", "zoning", "floodplain"], ...
    ] = ()
    forms: tuple[str, ...] = ()
    sealed_by: Maybe[Literal["architect", "engineer", "none"]] = NOT_GIVEN
    shows: tuple[str, ...] = ()
    issued_on: Maybe[date] = NOT_GIVEN
    started_on: Maybe[date] = NOT_GIVEN
    idle_days: Maybe[Annotated[Count, Between(1, 5000)]] = NOT_GIVEN
    inspections: tuple[
        Literal["footing", "foundation wall", "slab", "framing", "rough-in", "insulation", "final"], ...
    ] = ()
    tests: tuple[PipeTest, ...] = ()
    on_site: tuple[str, ...] = ()
    comments: Maybe[Annotated[Count, Between(1, 500)]] = NOT_GIVEN
    comments_answered: Maybe[Annotated[Count, Between(1, 500)]] = NOT_GIVEN
    response_letter: Maybe[bool] = NOT_GIVEN
    changes_clouded: Maybe[bool] = NOT_GIVEN
    complete_set: Maybe[bool] = NOT_GIVEN


class SmallWork(Part):
    """A piece of work about which a person may ask whether it needs a permit."""

    kind = "small work"
    what: Literal[
        "accessory structure", "fence", "retaining wall", "deck", "awning", "finish", "paving", "play equipment",
        "water tank", "pool", "low-voltage wiring", "minor repair", "other",
    ]  # fmt: skip
    material: Maybe[FenceMaterial] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    projection: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    stories: Maybe[Annotated[Number, Between(1, 4)]] = NOT_GIVEN
    attached: Maybe[bool] = NOT_GIVEN
    for_vehicles: Maybe[bool] = NOT_GIVEN
    surcharge: Maybe[bool] = NOT_GIVEN
    extra_support: Maybe[bool] = NOT_GIVEN
    at_egress_door: Maybe[bool] = NOT_GIVEN
    gallons: Maybe[Annotated[Number, Between(1, 200000)]] = NOT_GIVEN
    height_to_width: Maybe[Annotated[Ratio, Between("1%", "2000%")]] = NOT_GIVEN
    volts: Maybe[Annotated[Number, Between(1, 600)]] = NOT_GIVEN
    watts: Maybe[Annotated[Number, Between(1, 50000)]] = NOT_GIVEN
    permit: Maybe[bool] = NOT_GIVEN


__all__ = ["Note", "ScheduleRow", "Sheet", "SmallWork", "Statement", "Submittal"]
