"""What the house stands on: footings, slabs on ground, foundation walls, and retaining walls beside it."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Level, Number, Part, Size, SpaceId
from precheck.units import Area, Force, Length, Pressure, Ratio, Slope
from precheck.units.kinds import PlainNumber

Soil = Literal["bedrock", "foliated rock", "gravel", "sand", "clay"]
"""Classes of soil: crystalline bedrock; layered rock; gravel; sand and silty or clayey sand and gravel; clay and silt."""


Backfill = Literal["GW", "GP", "SW", "SP", "GM", "GC", "SM", "SM-SC", "ML", "SC", "MH", "ML-CL", "CL", "other"]
"""Classes of soil by the unified system, as the tables of foundation walls name them."""


class Concrete(Record):
    """A mix as the drawings call for it, and where it stands."""

    kind = "concrete"
    strength: Maybe[Annotated[Pressure, Between("100 psi", "20000 psi")]] = NOT_GIVEN
    exposed: Maybe[bool] = NOT_GIVEN
    air_content: Maybe[Annotated[Ratio, Between("0.1%", "30%")]] = NOT_GIVEN


class Bars(Record):
    """Reinforcing bars. `number` is the size of the bars: a No. 4 is 1/2 in thick. `cover` is the concrete over them.

    `lap` is how far two bars in a row lie side by side; bars that are `spliced: no` run in one piece. `held` is what keeps
    them in place until the concrete is hard.
    """

    kind = "bars"
    number: Maybe[Annotated[Number, Between(2, 18)]] = NOT_GIVEN
    top: Maybe[Annotated[Count, Between(1, 20)]] = NOT_GIVEN
    bottom: Maybe[Annotated[Count, Between(1, 20)]] = NOT_GIVEN
    middle_third: Maybe[Annotated[Count, Between(1, 20)]] = NOT_GIVEN
    upright_number: Maybe[Annotated[Number, Between(2, 18)]] = NOT_GIVEN
    upright_spacing: Maybe[Annotated[Size, Between("1 in", "20 ft")]] = NOT_GIVEN
    upright_into_wall: Maybe[Annotated[Size, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    hooked: Maybe[bool] = NOT_GIVEN
    dowel_number: Maybe[Annotated[Number, Between(2, 18)]] = NOT_GIVEN
    dowel_spacing: Maybe[Annotated[Size, Between("1 in", "20 ft")]] = NOT_GIVEN
    cast_with_slab: Maybe[bool] = NOT_GIVEN
    cover: Maybe[Annotated[Gap, Between("1/16 in", "3 ft")]] = NOT_GIVEN
    spliced: Maybe[bool] = NOT_GIVEN
    lap: Maybe[Annotated[Size, Between("1 in", "20 ft")]] = NOT_GIVEN
    steel: Maybe[Literal["grade 40", "grade 60"]] = NOT_GIVEN
    held: Maybe[
        Literal["chairs or blocks", "tied to stakes", "hung from forms", "laid on the ground", "set by hand"]
    ] = NOT_GIVEN
    cast_against: Maybe[Literal["earth", "forms outdoors", "forms indoors"]] = NOT_GIVEN


class Accessory(Record):
    """A freestanding building beside the house, which may stand on a shallow footing if it is small."""

    kind = "accessory building"
    freestanding: Maybe[bool] = NOT_GIVEN
    light_frame: Maybe[bool] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    eave_height: Maybe[Annotated[Size, Between("1 ft", "40 ft")]] = NOT_GIVEN


class Join(Record):
    """How a new footing meets an old one: its bottom against the old one's, and the dowels that are set into that.

    `into` is how far each dowel reaches into the old concrete, `document` what its adhesive goes by.
    """

    kind = "join"
    same_depth: Maybe[bool] = NOT_GIVEN
    old_is: Maybe[Literal["concrete", "block", "stone"]] = NOT_GIVEN
    dowels: Maybe[Annotated[Count, Between(1, 200)]] = NOT_GIVEN
    dowel_number: Maybe[Annotated[Number, Between(2, 18)]] = NOT_GIVEN
    into: Maybe[Annotated[Size, Between("1/4 in", "6 ft")]] = NOT_GIVEN
    document: Maybe[str] = NOT_GIVEN


class Footing(Part):
    """A footing under a wall or a post.

    `below_grade` is its bottom below undisturbed ground. `stories`, `lowest_floor` and `built_of` choose the row of
    the footing tables; `load` is what a post brings down. `bulkhead from step` is how far a form across the trench
    stands back from a step in it.
    """

    kind = "footing"
    form: Maybe[Literal["continuous", "isolated", "turned-down slab", "slab edge"]] = NOT_GIVEN
    outdoors: Maybe[bool] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("2 in", "12 ft")]] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("2 in", "200 ft")]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1 in", "8 ft")]] = NOT_GIVEN
    projection: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN
    below_grade: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    frost_protection: Maybe[Literal["below frost line", "frost-protected shallow", "solid rock", "none"]] = NOT_GIVEN
    accessory: Maybe[Accessory] = NOT_GIVEN
    bears_on: Maybe[Literal["undisturbed soil", "engineered fill", "rock", "loose fill", "old slab"]] = NOT_GIVEN
    cast_on_frozen_soil: Maybe[bool] = NOT_GIVEN
    top_level: Maybe[bool] = NOT_GIVEN
    bottom_slope: Maybe[Annotated[Slope, Between("0.05%", "100%")]] = NOT_GIVEN
    stepped: Maybe[bool] = NOT_GIVEN
    bulkhead_from_step: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN
    trench_cleaned: Maybe[bool] = NOT_GIVEN
    meets_old: Maybe[bool] = NOT_GIVEN
    join: Maybe[Join] = NOT_GIVEN
    stories: Maybe[Annotated[Number, Between(1, 4)]] = NOT_GIVEN
    lowest_floor: Maybe[Literal["slab", "crawl space", "basement"]] = NOT_GIVEN
    built_of: Maybe[Literal["light frame", "light frame with brick veneer", "masonry or concrete"]] = NOT_GIVEN
    house_width: Maybe[Annotated[Size, Between("4 ft", "150 ft")]] = NOT_GIVEN
    load: Maybe[Annotated[Force, Between("10 lb", "500000 lb")]] = NOT_GIVEN
    soil: Maybe[Soil] = NOT_GIVEN
    soil_bearing: Maybe[Annotated[Pressure, Between("50 psf", "100000 psf")]] = NOT_GIVEN
    soil_report: Maybe[str] = NOT_GIVEN
    stem_wall_cast_separately: Maybe[bool] = NOT_GIVEN
    bars: Maybe[Bars] = NOT_GIVEN
    concrete: Maybe[Concrete] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN


class Retarder(Record):
    """The sheet under a slab: its thickness in thousandths of an inch, its class, how far its joints lap."""

    kind = "vapor retarder"
    mil: Maybe[Annotated[Count, Between(1, 200)]] = NOT_GIVEN
    class_a: Maybe[bool] = NOT_GIVEN
    lap: Maybe[Annotated[Gap, Between("1/8 in", "6 ft")]] = NOT_GIVEN


class Joints(Record):
    """Control joints of a slab: how far apart, how deep, the sides of the largest panel; the strip at what stands."""

    kind = "joints"
    spacing: Maybe[Annotated[Size, Between("6 in", "200 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    long_side: Maybe[Annotated[Size, Between("6 in", "200 ft")]] = NOT_GIVEN
    short_side: Maybe[Annotated[Size, Between("6 in", "200 ft")]] = NOT_GIVEN
    cut_within_hours: Maybe[Annotated[Number, Between(1, 500)]] = NOT_GIVEN
    isolation_strip: Maybe[Annotated[Gap, Between("1/64 in", "6 in")]] = NOT_GIVEN


class Cap(Record):
    """New concrete over an old slab. `thinnest` is at its high end; the old slab falls by `old_fall` over `run`."""

    kind = "cap"
    bonded: Maybe[bool] = NOT_GIVEN
    prepared: Maybe[bool] = NOT_GIVEN
    thinnest: Maybe[Annotated[Size, Between("1/64 in", "3 ft")]] = NOT_GIVEN
    thickest: Maybe[Annotated[Size, Between("1/64 in", "3 ft")]] = NOT_GIVEN
    old_fall: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN
    run: Maybe[Annotated[Size, Between("1 in", "200 ft")]] = NOT_GIVEN
    joints_line_up: Maybe[bool] = NOT_GIVEN
    heights_rechecked: Maybe[bool] = NOT_GIVEN
    old_slab_accepted: Maybe[bool] = NOT_GIVEN


class Slab(Part):
    """A slab on ground, or new concrete over an old one, under a space or outdoors."""

    kind = "slab"
    space: Maybe[SpaceId] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    below_grade: Maybe[bool] = NOT_GIVEN
    base: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    well_drained_soil: Maybe[bool] = NOT_GIVEN
    fill: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    fill_material: Maybe[Literal["sand or gravel", "earth"]] = NOT_GIVEN
    fill_compacted: Maybe[bool] = NOT_GIVEN
    fill_approved: Maybe[bool] = NOT_GIVEN
    ground_cleared: Maybe[bool] = NOT_GIVEN
    retarder: Maybe[Retarder] = NOT_GIVEN
    reinforced: Maybe[bool] = NOT_GIVEN
    reinforcement_held: Maybe[Literal["upper third", "center", "bottom"]] = NOT_GIVEN
    cap: Maybe[Cap] = NOT_GIVEN
    joints: Maybe[Joints] = NOT_GIVEN
    tied_to_old_slab: Maybe[bool] = NOT_GIVEN
    dowel_spacing: Maybe[Annotated[Size, Between("1 in", "20 ft")]] = NOT_GIVEN
    fall: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN
    finish: Maybe[Literal["broom", "trowel", "float"]] = NOT_GIVEN
    covering: Maybe[Literal["tile", "wood", "carpet", "none"]] = NOT_GIVEN
    crack_membrane: Maybe[bool] = NOT_GIVEN
    concrete: Maybe[Concrete] = NOT_GIVEN


class FootingUnder(Reference):
    """The id of a footing."""

    __slots__ = ()
    kinds = ("footing",)


class FoundationWall(Part):
    """A concrete or masonry wall between footing and framing. `fill_held` is earth on one side over the other.

    `backfill` is the class of that earth, and `bar depth` how far the middle of vertical bars is from the side that it
    presses on.
    """

    kind = "foundation wall"
    built_of: Maybe[
        Literal["concrete", "hollow masonry", "solid masonry", "grouted masonry", "wood", "stone", "precast concrete"]
    ] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("3 in", "30 ft")]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    backfill: Maybe[Backfill] = NOT_GIVEN
    bars: Maybe[Bars] = NOT_GIVEN
    bar_depth: Maybe[Annotated[Size, Between("1/4 in", "6 ft")]] = NOT_GIVEN
    fill_held: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    held_at_top_and_bottom: Maybe[bool] = NOT_GIVEN
    groundwater_pressure: Maybe[bool] = NOT_GIVEN
    above_grade: Maybe[Annotated[Level, Between("-30 ft", "30 ft")]] = NOT_GIVEN
    beside_veneer: Maybe[bool] = NOT_GIVEN
    braced_before_backfill: Maybe[bool] = NOT_GIVEN
    top_above_gutter: Maybe[Annotated[Level, Between("-60 ft", "60 ft")]] = NOT_GIVEN
    distance_to_gutter: Maybe[Annotated[Gap, Between("1 in", "500 ft")]] = NOT_GIVEN
    drainage_approved: Maybe[bool] = NOT_GIVEN
    concrete: Maybe[Concrete] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN
    footing: Maybe[FootingUnder] = NOT_GIVEN


class RetainingWallId(Reference):
    """The id of a retaining wall."""

    __slots__ = ()
    kinds = ("retaining wall",)


class RetainingWall(Part):
    """A wall outdoors that holds earth. `height` is from the bottom of its footing to its top, `shows` what is seen of it.

    `load at` is how far the nearest drive, building or slope over it stands off. An upper wall of a row names the wall
    `below` it and how far it is `set back` from that. `standard detail` is the detail of the office that it follows.
    """

    kind = "retaining wall"
    height: Maybe[Annotated[Size, Between("2 in", "60 ft")]] = NOT_GIVEN
    shows: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    load_at: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    below: Maybe[RetainingWallId] = NOT_GIVEN
    set_back: Maybe[Annotated[Gap, Between("1/16 in", "500 ft")]] = NOT_GIVEN
    problem_soil: Maybe[bool] = NOT_GIVEN
    standard_detail: Maybe[str] = NOT_GIVEN
    certified_by: Maybe[Literal["owner", "engineer"]] = NOT_GIVEN
    engineer_reports: Maybe[bool] = NOT_GIVEN
    shown_as_structure: Maybe[bool] = NOT_GIVEN
    fill_held: Maybe[Annotated[Gap, Between("1 in", "60 ft")]] = NOT_GIVEN
    held_at_top: Maybe[bool] = NOT_GIVEN
    other_load: Maybe[Literal["none", "driveway", "guard or fence", "building", "slope"]] = NOT_GIVEN
    permit: Maybe[bool] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN
    against_sliding: Maybe[Annotated[PlainNumber, Between("0.1", "50")]] = NOT_GIVEN
    against_overturning: Maybe[Annotated[PlainNumber, Between("0.1", "50")]] = NOT_GIVEN
    drained: Maybe[bool] = NOT_GIVEN


__all__ = [
    "Accessory",
    "Bars",
    "Cap",
    "Concrete",
    "Footing",
    "FoundationWall",
    "Joints",
    "Length",
    "RetainingWall",
    "Retarder",
    "Slab",
]
