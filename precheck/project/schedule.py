"""What the drawing set says besides drawing: sheets with their title blocks, schedules, notes, forms, permits, work that needs one."""

from __future__ import annotations

from datetime import date
from typing import Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.opening import Box
from precheck.project.part import Count, Gap, Level, OpeningId, Part, Point, Size
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
    size: Maybe[Box] = NOT_GIVEN
    level: Maybe[Level] = NOT_GIVEN
    finish: Maybe[str] = NOT_GIVEN
    description: Maybe[str] = NOT_GIVEN


class Sheet(Part):
    """One sheet of the drawing set: what its title block says, how it is drawn, and what it says of parts."""

    kind = "sheet"
    title: str = ""
    shows: tuple[str, ...] = ()
    scale: Maybe[Slope] = NOT_GIVEN
    paper: Maybe[Box] = NOT_GIVEN
    text_height: Maybe[Size] = NOT_GIVEN
    mirrored: Maybe[bool] = NOT_GIVEN
    address: Maybe[str] = NOT_GIVEN
    legal_description: Maybe[str] = NOT_GIVEN
    code_edition: Maybe[str] = NOT_GIVEN
    says: tuple[Statement, ...] = ()


class ScheduleRow(Part):
    """One row of the door or window schedule, about the opening `of` the plan."""

    kind = "schedule row"
    of: OpeningId
    unit_size: Maybe[Box] = NOT_GIVEN
    operation: Maybe[str] = NOT_GIVEN
    net_clear_opening: Maybe[Box] = NOT_GIVEN
    net_clear_area: Maybe[Area] = NOT_GIVEN
    clear_width: Maybe[Size] = NOT_GIVEN
    sill_height: Maybe[Gap] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    u_factor: Maybe[Transmittance] = NOT_GIVEN
    thickness: Maybe[Size] = NOT_GIVEN
    construction: Maybe[str] = NOT_GIVEN
    fire_rating: Maybe[Duration] = NOT_GIVEN
    self_closing: Maybe[bool] = NOT_GIVEN


class Note(Part):
    """A note on the drawings; its text is `note`."""

    kind = "drawing note"


class PipeTest(Record):
    """A test of new pipes before they are covered."""

    kind = "pipe test"
    of: Literal["gas piping", "water piping", "drain piping"]
    pressure: Maybe[Pressure] = NOT_GIVEN
    minutes: Maybe[Count] = NOT_GIVEN


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
    idle_days: Maybe[Count] = NOT_GIVEN
    inspections: tuple[
        Literal["footing", "foundation wall", "slab", "framing", "rough-in", "insulation", "final"], ...
    ] = ()
    tests: tuple[PipeTest, ...] = ()
    on_site: tuple[str, ...] = ()
    comments: Maybe[Count] = NOT_GIVEN
    comments_answered: Maybe[Count] = NOT_GIVEN
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
    area: Maybe[Area] = NOT_GIVEN
    height: Maybe[Size] = NOT_GIVEN
    projection: Maybe[Size] = NOT_GIVEN
    stories: Maybe[Count] = NOT_GIVEN
    attached: Maybe[bool] = NOT_GIVEN
    for_vehicles: Maybe[bool] = NOT_GIVEN
    surcharge: Maybe[bool] = NOT_GIVEN
    extra_support: Maybe[bool] = NOT_GIVEN
    at_egress_door: Maybe[bool] = NOT_GIVEN
    gallons: Maybe[Count] = NOT_GIVEN
    height_to_width: Maybe[Ratio] = NOT_GIVEN
    volts: Maybe[Count] = NOT_GIVEN
    watts: Maybe[Count] = NOT_GIVEN
    permit: Maybe[bool] = NOT_GIVEN


__all__ = ["Note", "ScheduleRow", "Sheet", "SmallWork", "Statement", "Submittal"]
