"""Glass: the panes of an opening, what stands near them, wet areas and skylights."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.energy import HeatGain
from precheck.project.part import Gap, Part, Side, Size, SpaceId
from precheck.project.space import Rectangle
from precheck.units import Angle, Area, Slope, Transmittance


class DoorId(Reference):
    """The id of a door."""

    __slots__ = ()
    kinds = ("door",)


class ClimbedId(Reference):
    """The id of a stair or ramp."""

    __slots__ = ()
    kinds = ("stair", "ramp")


class WetAreaId(Reference):
    """The id of a wet area, or of the fixture that is one."""

    __slots__ = ()
    kinds = ("wet area", "fixture")


class Pane(Record):
    """One pane of glass: its exposed size, and its bottom edge above the floor."""

    kind = "pane"
    width: Maybe[Annotated[Size, Between("1/2 in", "30 ft")]] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("1/2 in", "30 ft")]] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("1 sq in", "600 sq ft")]] = NOT_GIVEN
    bottom: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    marked: Maybe[bool] = NOT_GIVEN
    decorative: Maybe[bool] = NOT_GIVEN


class RailBefore(Record):
    """A rail across the accessible side of glass, which keeps people off it."""

    kind = "rail"
    height: Maybe[Annotated[Size, Between("1 in", "20 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/8 in", "2 ft")]] = NOT_GIVEN
    takes_load: Maybe[bool] = NOT_GIVEN


class BesideDoor(Record):
    """A door near the glass: distance from door edge to glass edge, and how the two walls meet."""

    kind = "door beside"
    door: DoorId
    distance: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    wall: Maybe[Literal["same", "right angle", "other angle"]] = NOT_GIVEN
    hinge_side: Maybe[bool] = NOT_GIVEN
    barrier_between: Maybe[bool] = NOT_GIVEN
    at_fixed_panel: Maybe[bool] = NOT_GIVEN


class BesideStair(Record):
    """A stair or ramp near the glass: distance to its walking surface, and the height of the glass above that."""

    kind = "stair beside"
    stair: ClimbedId
    where: Maybe[Literal["flight", "landing between", "bottom landing", "top landing"]] = NOT_GIVEN
    distance: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    bottom_above: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    guard_between: Maybe[Annotated[Gap, Between("1 in", "10 ft")]] = NOT_GIVEN


class BesideWetArea(Record):
    """A wet area near the glass: distance from the water's edge, whether the glass faces it or lies in its wall."""

    kind = "wet area beside"
    wet_area: WetAreaId
    distance: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    faces: Maybe[bool] = NOT_GIVEN


class WetArea(Part):
    """A tub, shower, pool or the like, with its outline in plan and any glass around it."""

    kind = "wet area"
    what: Literal["tub", "shower", "hot tub", "spa", "whirlpool", "sauna", "steam room", "swimming pool"]
    space: Side
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    standing_surface: Maybe[Annotated[Gap, Between("1/64 in", "40 ft")]] = NOT_GIVEN
    glass_enclosure: Maybe[bool] = NOT_GIVEN
    enclosure_safety_glazing: Maybe[bool] = NOT_GIVEN


class Skylight(Part):
    """A skylight or other sloped glass, with the room below."""

    kind = "skylight"
    space: SpaceId
    from_vertical: Maybe[Annotated[Angle, Between("0.5 deg", "90 deg")]] = NOT_GIVEN
    glass: Maybe[Literal["laminated", "tempered", "heat-strengthened", "wired", "plastic", "annealed"]] = NOT_GIVEN
    interlayer: Maybe[Annotated[Size, Between("1/1000 in", "1 in")]] = NOT_GIVEN
    pane_area: Maybe[Annotated[Area, Between("4 sq in", "600 sq ft")]] = NOT_GIVEN
    glazed_area: Maybe[Annotated[Area, Between("4 sq in", "600 sq ft")]] = NOT_GIVEN
    openable_area: Maybe[Annotated[Area, Between("4 sq in", "600 sq ft")]] = NOT_GIVEN
    highest_above_floor: Maybe[Annotated[Size, Between("1 ft", "60 ft")]] = NOT_GIVEN
    retaining_screen: Maybe[bool] = NOT_GIVEN
    unit: Maybe[bool] = NOT_GIVEN
    roof_slope: Maybe[Annotated[Slope, Between("0.1:12", "40:12")]] = NOT_GIVEN
    curb: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN
    curb_as_maker_says: Maybe[bool] = NOT_GIVEN
    u_factor: Maybe[Annotated[Transmittance, Between("U-0.01", "U-3")]] = NOT_GIVEN
    shgc: Maybe[HeatGain] = NOT_GIVEN
