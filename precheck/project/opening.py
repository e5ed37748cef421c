"""Doors and windows: sizes, swing, construction, landings, and the clear opening that someone can climb through."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal, NamedTuple

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.values import Instead
from precheck.project.between import Between
from precheck.project.energy import HeatGain
from precheck.project.glass import BesideDoor, BesideStair, BesideWetArea, Pane, RailBefore
from precheck.project.on_wall import OnWall
from precheck.project.part import OUTSIDE, Count, Gap, Level, Part, Point, Side, Size, SpaceId, WallId
from precheck.units import Area, Duration, Length, Pressure, Slope, Transmittance

Ground = Literal["public way", "yard to public way", "closed yard", "court", "under deck", "garage", "carport", "porch"]


class WidthHeight(NamedTuple):
    """Width and height of a rectangular opening."""

    width: Length
    height: Length

    @property
    def area(self) -> Area:
        """Width times height."""
        return self.width * self.height

    def __str__(self) -> str:
        return f"{self.width} x {self.height}"


_CALL_OUT = re.compile(r"(\d{1,2})(\d)(\d)(\d)")  # 2868 is 2'-8" x 6'-8", 16070 is 16'-0" x 7'-0"
_FEET_INCHES = re.compile(r"(\d{1,2})-(\d{1,2})")  # as in 2-6 x 6-8, where nothing else is meant


def _two_lengths(value: Any) -> WidthHeight:
    """Read ``3'-0" x 6'-8"``, ``24 x 36 in``, ``2-6 x 6-8`` or the call-out ``2868``: width first."""
    if called := _CALL_OUT.fullmatch(str(value).strip()):
        parts = [f"{called[1]}'-{called[2]}\"", f"{called[3]}'-{called[4]}\""]
    else:
        parts = [part.strip() for part in str(value).lower().replace("×", "x").split("x")]
    if len(parts) != 2:
        raise ValueError(f"`{value}` is not a width and a height; write it like 3'-0\" x 6'-8\"")
    if all(_FEET_INCHES.fullmatch(part) for part in parts):
        parts = [_FEET_INCHES.sub(lambda side: f"{side[1]}'-{side[2]}\"", part) for part in parts]
    if parts[0].replace(".", "").isdigit() and parts[1].endswith(("in", "mm", "cm")):
        parts[0] += " " + parts[1].split()[-1]
    width, height = (Length.parse(part) for part in parts)
    if width.n <= 0 or height.n <= 0:
        raise ValueError(f"`{value}` cannot be; both sides are above zero")
    return WidthHeight(width, height)


Box = Annotated[
    WidthHeight,
    Instead(_two_lengths, {"type": "string", "description": "Width x height.", "examples": ["3'-0\" x 6'-8\""]}),
]


class Ladder(Record):
    """The fixed ladder or steps of a window well."""

    kind = "ladder"
    rung_width: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    rung_spacing: Maybe[Annotated[Size, Between("1 in", "4 ft")]] = NOT_GIVEN
    rung_projection: Maybe[Annotated[Size, Between("1/8 in", "2 ft")]] = NOT_GIVEN
    encroachment: Maybe[Annotated[Gap, Between("1/8 in", "4 ft")]] = NOT_GIVEN


class Well(Record):
    """The well in front of a window whose sill is below grade."""

    kind = "well"
    width: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    projection: Maybe[Annotated[Size, Between("3 in", "40 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1 in", "30 ft")]] = NOT_GIVEN
    window_opens_fully: Maybe[bool] = NOT_GIVEN
    ladder: Maybe[Ladder] = NOT_GIVEN
    has_ladder: Maybe[bool] = NOT_GIVEN
    drained: Maybe[bool] = NOT_GIVEN


class Opening(Part):
    """A door or a window; `middle` is the middle of its width in plan, from which the plan is drawn.

    `on` gives that place as one measures it, on a side of a room so far from a corner; either of the two is enough.
    `wall` names the wall that it is in, where the plan does not show that.
    """

    kind = "opening"
    wall: Maybe[WallId] = NOT_GIVEN
    middle: Maybe[Point] = NOT_GIVEN
    on: Maybe[OnWall] = NOT_GIVEN
    unit_size: Maybe[Annotated[Box, Between("4 in", "30 ft")]] = NOT_GIVEN
    net_clear_opening: Maybe[Annotated[Box, Between("2 in", "30 ft")]] = NOT_GIVEN
    net_clear_area: Maybe[Annotated[Area, Between("20 sq in", "400 sq ft")]] = NOT_GIVEN
    escape: Maybe[bool] = NOT_GIVEN
    opens_to: Maybe[Ground] = NOT_GIVEN
    path_width: Maybe[Annotated[Size, Between("1 in", "200 ft")]] = NOT_GIVEN
    path_height: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    opens_without_key: Maybe[bool] = NOT_GIVEN
    bars_release_inside: Maybe[bool] = NOT_GIVEN
    has_bars: Maybe[bool] = NOT_GIVEN
    glazed_area: Maybe[Annotated[Area, Between("4 sq in", "600 sq ft")]] = NOT_GIVEN
    openable_area: Maybe[Annotated[Area, Between("4 sq in", "600 sq ft")]] = NOT_GIVEN
    looks_under: Maybe[SpaceId] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    glass_marked: Maybe[bool] = NOT_GIVEN
    decorative_glass: Maybe[bool] = NOT_GIVEN
    panes: tuple[Pane, ...] = ()
    rail_before: Maybe[RailBefore] = NOT_GIVEN
    beside_doors: tuple[BesideDoor, ...] = ()
    beside_stairs: tuple[BesideStair, ...] = ()
    beside_wet_areas: tuple[BesideWetArea, ...] = ()
    u_factor: Maybe[Annotated[Transmittance, Between("U-0.01", "U-3")]] = NOT_GIVEN
    shgc: Maybe[HeatGain] = NOT_GIVEN

    @property
    def clear_area(self) -> Any:
        """Net clear area: as stated, else width times height of the net clear opening."""
        box = self.net_clear_opening
        if isinstance(self.net_clear_area, Area):
            return self.net_clear_area
        return box.area if isinstance(box, WidthHeight) else box


class Window(Opening):
    """A window, in the space it serves."""

    kind = "window"
    space: SpaceId
    operation: Maybe[Literal["casement", "double hung", "single hung", "slider", "awning", "hopper", "fixed"]] = (
        NOT_GIVEN
    )
    sill_height: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    sill_level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    sill_above_grade: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    well: Maybe[Well] = NOT_GIVEN
    replacement: Maybe[bool] = NOT_GIVEN
    walking_surface_within: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    opening_gap: Maybe[Annotated[Gap, Between("1/16 in", "8 ft")]] = NOT_GIVEN
    fall_device: Maybe[Literal["none", "fall prevention", "opening control"]] = NOT_GIVEN
    fall_device_to_standard: Maybe[bool] = NOT_GIVEN
    fall_device_releases: Maybe[bool] = NOT_GIVEN

    @property
    def can_open(self) -> bool:
        """Whether it is of a kind that opens; one whose operation is not given may."""
        return self.operation != "fixed"


class Landing(Record):
    """The floor or landing on one side of a door."""

    kind = "landing"
    side: Side
    depth: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("1 in", "100 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN
    level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    drop: Maybe[Annotated[Level, Between("-40 ft", "40 ft")]] = NOT_GIVEN
    none: bool = False
    risers: Maybe[Annotated[Count, Between(1, 60)]] = NOT_GIVEN
    to_grade: Maybe[Literal["at grade", "stair", "ramp", "none"]] = NOT_GIVEN


class WindRating(Record):
    """The wind pressures that a vehicle door is rated for, inward and outward, and what decides those that are due.

    `required` pressures are those of a designer for this door, where there is one.
    """

    kind = "wind rating"
    inward: Maybe[Annotated[Pressure, Between("1 psf", "300 psf")]] = NOT_GIVEN
    outward: Maybe[Annotated[Pressure, Between("1 psf", "300 psf")]] = NOT_GIVEN
    labeled: Maybe[bool] = NOT_GIVEN
    required_inward: Maybe[Annotated[Pressure, Between("1 psf", "300 psf")]] = NOT_GIVEN
    required_outward: Maybe[Annotated[Pressure, Between("1 psf", "300 psf")]] = NOT_GIVEN
    mean_roof_height: Maybe[Annotated[Size, Between("4 ft", "100 ft")]] = NOT_GIVEN


class Door(Opening):
    """A door, gate or vehicle door between two spaces, or a space and the outside."""

    kind = "door"
    between: tuple[Side, Side]
    operation: Maybe[Literal["side-hinged", "sliding", "folding", "pocket", "vehicle", "hatch", "cased opening"]] = (
        NOT_GIVEN
    )
    required_egress: Maybe[bool] = NOT_GIVEN
    clear_width: Maybe[Annotated[Size, Between("6 in", "30 ft")]] = NOT_GIVEN
    clear_height: Maybe[Annotated[Size, Between("1 ft", "20 ft")]] = NOT_GIVEN
    swings_into: Maybe[Side] = NOT_GIVEN
    hinges: Maybe[Point] = NOT_GIVEN
    glazed: Maybe[bool] = NOT_GIVEN
    threshold_height: Maybe[Annotated[Gap, Between("1/64 in", "2 ft")]] = NOT_GIVEN
    construction: Maybe[Literal["solid wood", "solid steel", "honeycomb steel", "hollow core", "glass", "other"]] = (
        NOT_GIVEN
    )
    thickness: Maybe[Annotated[Size, Between("1/2 in", "6 in")]] = NOT_GIVEN
    fire_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN
    self_closing: Maybe[bool] = NOT_GIVEN
    self_latching: Maybe[bool] = NOT_GIVEN
    operator: Maybe[bool] = NOT_GIVEN
    operator_listed: Maybe[bool] = NOT_GIVEN
    wind: Maybe[WindRating] = NOT_GIVEN
    landings: tuple[Landing, ...] = ()

    @property
    def is_exterior(self) -> bool:
        """Whether one side is the outside as the plan names it."""
        return OUTSIDE in self.between
