"""Glass: the panes of an opening, what stands near them, wet areas and skylights."""

from __future__ import annotations

from typing import Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
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
    width: Maybe[Size] = NOT_GIVEN
    height: Maybe[Size] = NOT_GIVEN
    area: Maybe[Area] = NOT_GIVEN
    bottom: Maybe[Gap] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    marked: Maybe[bool] = NOT_GIVEN
    decorative: Maybe[bool] = NOT_GIVEN


class RailBefore(Record):
    """A rail across the accessible side of glass, which keeps people off it."""

    kind = "rail"
    height: Maybe[Size] = NOT_GIVEN
    depth: Maybe[Size] = NOT_GIVEN
    takes_load: Maybe[bool] = NOT_GIVEN


class BesideDoor(Record):
    """A door near the glass: distance from door edge to glass edge, and how the two walls meet."""

    kind = "door beside"
    door: DoorId
    distance: Maybe[Gap] = NOT_GIVEN
    wall: Maybe[Literal["same", "right angle", "other angle"]] = NOT_GIVEN
    hinge_side: Maybe[bool] = NOT_GIVEN
    barrier_between: Maybe[bool] = NOT_GIVEN
    at_fixed_panel: Maybe[bool] = NOT_GIVEN


class BesideStair(Record):
    """A stair or ramp near the glass: distance to its walking surface, and the height of the glass above that."""

    kind = "stair beside"
    stair: ClimbedId
    where: Maybe[Literal["flight", "landing between", "bottom landing", "top landing"]] = NOT_GIVEN
    distance: Maybe[Gap] = NOT_GIVEN
    bottom_above: Maybe[Gap] = NOT_GIVEN
    guard_between: Maybe[Gap] = NOT_GIVEN


class BesideWetArea(Record):
    """A wet area near the glass: distance from the water's edge, whether the glass faces it or lies in its wall."""

    kind = "wet area beside"
    wet_area: WetAreaId
    distance: Maybe[Gap] = NOT_GIVEN
    faces: Maybe[bool] = NOT_GIVEN


class WetArea(Part):
    """A tub, shower, pool or the like, with its outline in plan and any glass around it."""

    kind = "wet area"
    what: Literal["tub", "shower", "hot tub", "spa", "whirlpool", "sauna", "steam room", "swimming pool"]
    space: Side
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    standing_surface: Maybe[Gap] = NOT_GIVEN
    glass_enclosure: Maybe[bool] = NOT_GIVEN
    enclosure_safety_glazing: Maybe[bool] = NOT_GIVEN


class Skylight(Part):
    """A skylight or other sloped glass, with the room below."""

    kind = "skylight"
    space: SpaceId
    from_vertical: Maybe[Angle] = NOT_GIVEN
    glass: Maybe[Literal["laminated", "tempered", "heat-strengthened", "wired", "plastic", "annealed"]] = NOT_GIVEN
    interlayer: Maybe[Size] = NOT_GIVEN
    pane_area: Maybe[Area] = NOT_GIVEN
    glazed_area: Maybe[Area] = NOT_GIVEN
    openable_area: Maybe[Area] = NOT_GIVEN
    highest_above_floor: Maybe[Size] = NOT_GIVEN
    retaining_screen: Maybe[bool] = NOT_GIVEN
    unit: Maybe[bool] = NOT_GIVEN
    roof_slope: Maybe[Slope] = NOT_GIVEN
    curb: Maybe[Gap] = NOT_GIVEN
    curb_as_maker_says: Maybe[bool] = NOT_GIVEN
    u_factor: Maybe[Transmittance] = NOT_GIVEN
    shgc: Maybe[HeatGain] = NOT_GIVEN
