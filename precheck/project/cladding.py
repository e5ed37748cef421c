"""The skin of the house: cladding, veneer, flashing, boards, walls that hold earth, the ground outside, curing."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Level, Number, Part, Size, SpaceId
from precheck.units import Area, Length, Pressure, Ratio, Slope

Where = Literal[
    "windows and doors", "masonry against frame", "copings and sills", "projecting trim", "deck or porch attachment",
    "roof against wall", "built-in gutter",
]  # fmt: skip


class Flashing(Part):
    """Flashing at one kind of place. Over a ledger it reaches past the ledger's outer face, or turns down over it."""

    kind = "flashing"
    where: Where
    drawn: Maybe[bool] = NOT_GIVEN
    membrane: Maybe[Literal["self-adhered", "fluid-applied", "mechanically attached", "none"]] = NOT_GIVEN
    standard: Maybe[str] = NOT_GIVEN
    above_ledger: Maybe[Annotated[Gap, Between("1/64 in", "4 ft")]] = NOT_GIVEN
    past_ledger_face: Maybe[Annotated[Gap, Between("1/64 in", "4 ft")]] = NOT_GIVEN
    down_ledger_face: Maybe[Annotated[Gap, Between("1/64 in", "2 ft")]] = NOT_GIVEN


class Screed(Record):
    """The weep screed or flashing at the bottom of plaster or adhered veneer."""

    kind = "screed"
    metal_thickness: Maybe[Annotated[Size, Between("1/1000 in", "1 in")]] = NOT_GIVEN
    flange: Maybe[Annotated[Size, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    below_plate: Maybe[Annotated[Level, Between("-2 ft", "2 ft")]] = NOT_GIVEN


class Cladding(Part):
    """The outside covering of walls and what stands behind it. `spaces` are those whose outside walls have it."""

    kind = "cladding"
    spaces: tuple[SpaceId, ...] = ()
    what: Maybe[
        Literal["wood siding", "fiber cement", "vinyl", "stucco", "adhered veneer", "panel siding", "masonry veneer"]
    ] = NOT_GIVEN
    backing: Maybe[Literal["wood sheathing", "open framing", "concrete or masonry", "foam sheathing"]] = NOT_GIVEN
    water_resistive_barrier: Maybe[bool] = NOT_GIVEN
    barrier_layers: Maybe[Annotated[Count, Between(1, 6)]] = NOT_GIVEN
    barrier_side_lap: Maybe[Annotated[Gap, Between("1/8 in", "4 ft")]] = NOT_GIVEN
    barrier_end_lap: Maybe[Annotated[Gap, Between("1/8 in", "4 ft")]] = NOT_GIVEN
    drainage_space: Maybe[bool] = NOT_GIVEN
    drainage_depth: Maybe[Annotated[Gap, Between("1/64 in", "12 in")]] = NOT_GIVEN
    drainage_efficiency: Maybe[Annotated[Ratio, Between("1%", "100%")]] = NOT_GIVEN
    sixty_minute_barrier: Maybe[bool] = NOT_GIVEN
    fasteners_resist_corrosion: Maybe[bool] = NOT_GIVEN
    plank_lap: Maybe[Annotated[Gap, Between("1/16 in", "12 in")]] = NOT_GIVEN
    above_ground: Maybe[Annotated[Level, Between("-40 ft", "40 ft")]] = NOT_GIVEN
    above_paving: Maybe[Annotated[Level, Between("-40 ft", "40 ft")]] = NOT_GIVEN
    above_floor_outside: Maybe[Annotated[Level, Between("-40 ft", "40 ft")]] = NOT_GIVEN
    ignition_resistant: Maybe[bool] = NOT_GIVEN
    screed: Maybe[Screed] = NOT_GIVEN


class Ties(Record):
    """The ties of a masonry veneer. Gages are numbers: a smaller one is thicker. `wire` is the diameter of a wire tie."""

    kind = "ties"
    form: Maybe[Literal["corrugated", "wire", "adjustable wire"]] = NOT_GIVEN
    gage: Maybe[Annotated[Number, Between(1, 40)]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("1/16 in", "12 in")]] = NOT_GIVEN
    wire: Maybe[Annotated[Size, Between("1/100 in", "2 in")]] = NOT_GIVEN
    spacing_across: Maybe[Annotated[Size, Between("1/2 in", "20 ft")]] = NOT_GIVEN
    spacing_up: Maybe[Annotated[Size, Between("1/2 in", "20 ft")]] = NOT_GIVEN
    embedment: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    cover: Maybe[Annotated[Gap, Between("1/64 in", "2 ft")]] = NOT_GIVEN
    resist_corrosion: Maybe[bool] = NOT_GIVEN
    spacing_around_openings: Maybe[Annotated[Size, Between("1/2 in", "20 ft")]] = NOT_GIVEN
    from_opening_edge: Maybe[Annotated[Gap, Between("1/16 in", "20 ft")]] = NOT_GIVEN


class Weeps(Record):
    """Weep holes in a masonry veneer."""

    kind = "weeps"
    spacing: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    size: Maybe[Annotated[Size, Between("1/64 in", "6 in")]] = NOT_GIVEN


class Lintel(Record):
    """A steel angle over an opening in veneer, such as ``4x3x1/4`` with the long leg upright."""

    kind = "lintel"
    angle: Maybe[str] = NOT_GIVEN
    span: Maybe[Annotated[Size, Between("6 in", "60 ft")]] = NOT_GIVEN
    stories_above: Maybe[Annotated[Count, Between(1, 4)]] = NOT_GIVEN
    bearing: Maybe[Annotated[Size, Between("1/8 in", "6 ft")]] = NOT_GIVEN
    painted_or_galvanized: Maybe[bool] = NOT_GIVEN


class Veneer(Part):
    """Anchored brick or stone veneer. `height` is from its support to the top of the wall, gables aside.

    `spaces` are those whose outside walls have it.
    """

    kind = "veneer"
    spaces: tuple[SpaceId, ...] = ()
    backing: Maybe[Literal["wood framing", "steel framing", "concrete or masonry"]] = NOT_GIVEN
    air_space: Maybe[Annotated[Gap, Between("1/64 in", "2 ft")]] = NOT_GIVEN
    filled_with_mortar: Maybe[bool] = NOT_GIVEN
    ties: Maybe[Ties] = NOT_GIVEN
    weeps: Maybe[Weeps] = NOT_GIVEN
    largest_opening: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    flashed_at_base: Maybe[bool] = NOT_GIVEN
    flashed_at_supports: Maybe[bool] = NOT_GIVEN
    support: Maybe[Literal["footing", "foundation ledge", "steel angle", "roof framing", "wood", "slab edge"]] = (
        NOT_GIVEN
    )
    angle: Maybe[str] = NOT_GIVEN
    lag_screws_per_stud: Maybe[Annotated[Count, Between(1, 20)]] = NOT_GIVEN
    stud_spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    lintels: tuple[Lintel, ...] = ()
    height: Maybe[Annotated[Size, Between("2 in", "60 ft")]] = NOT_GIVEN
    gable_height: Maybe[Annotated[Gap, Between("2 in", "60 ft")]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/8 in", "2 ft")]] = NOT_GIVEN
    weight: Maybe[Annotated[Pressure, Between("0.5 psf", "500 psf")]] = NOT_GIVEN
    wind_pressure: Maybe[Annotated[Pressure, Between("0.5 psf", "300 psf")]] = NOT_GIVEN


class Board(Part):
    """Gypsum board or tile backer on one wall or ceiling.

    `furring over backing` says that it is on furring strips over solid backing, or over framing 24 in apart or less.
    """

    kind = "board"
    on: Maybe[Literal["ceiling", "wall"]] = NOT_GIVEN
    material: Maybe[
        Literal[
            "gypsum", "water-resistant gypsum", "glass-mat gypsum", "fiber-reinforced gypsum", "fiber cement",
            "fiber-mat cement", "mortar bed",
        ]
    ] = NOT_GIVEN  # fmt: skip
    thickness: Maybe[Annotated[Size, Between("1/16 in", "4 in")]] = NOT_GIVEN
    framing_spacing: Maybe[Annotated[Size, Between("3 in", "10 ft")]] = NOT_GIVEN
    framing_width: Maybe[Annotated[Size, Between("1/8 in", "2 ft")]] = NOT_GIVEN
    furring_over_backing: Maybe[bool] = NOT_GIVEN
    runs: Maybe[Literal["across framing", "along framing"]] = NOT_GIVEN
    holds_insulation: Maybe[bool] = NOT_GIVEN
    sag_resistant: Maybe[bool] = NOT_GIVEN
    water_based_texture: Maybe[bool] = NOT_GIVEN
    fastened_with: Maybe[Literal["nails", "screws"]] = NOT_GIVEN
    fastener_spacing: Maybe[Annotated[Size, Between("1/2 in", "6 ft")]] = NOT_GIVEN
    screw_penetration: Maybe[Annotated[Gap, Between("1/64 in", "12 in")]] = NOT_GIVEN
    wet_area: Maybe[bool] = NOT_GIVEN
    tiled: Maybe[bool] = NOT_GIVEN
    over_retarder: Maybe[bool] = NOT_GIVEN
    nonabsorbent_height: Maybe[Annotated[Gap, Between("1 in", "40 ft")]] = NOT_GIVEN


class PerimeterDrain(Record):
    """The drain at the footing of a wall that holds earth."""

    kind = "perimeter drain"
    gravel_past_footing: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    gravel_above_footing: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    gravel_under_pipe: Maybe[Annotated[Gap, Between("1/8 in", "10 ft")]] = NOT_GIVEN
    gravel_over_pipe: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    filter: Maybe[bool] = NOT_GIVEN
    outlet: Maybe[Literal["gravity", "pump", "none"]] = NOT_GIVEN


class EarthWall(Part):
    """A wall that holds earth and encloses `spaces` within, such as a sunken room or a basement."""

    kind = "earth wall"
    spaces: tuple[SpaceId, ...] = ()
    coating: Maybe[Literal["dampproofing", "waterproofing", "none"]] = NOT_GIVEN
    coated_footing_to_grade: Maybe[bool] = NOT_GIVEN
    high_groundwater: Maybe[bool] = NOT_GIVEN
    well_drained_soil: Maybe[bool] = NOT_GIVEN
    drain: Maybe[PerimeterDrain] = NOT_GIVEN


class Grade(Part):
    """Ground or paving along one side of the house, and how it falls."""

    kind = "grade"
    side: str = ""
    surface: Maybe[Literal["soil", "paving"]] = NOT_GIVEN
    falls: Maybe[Literal["away", "toward the house", "level"]] = NOT_GIVEN
    fall: Maybe[Annotated[Gap, Between("1/16 in", "40 ft")]] = NOT_GIVEN
    over: Maybe[Annotated[Size, Between("2 in", "500 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("-100%", "100%")]] = NOT_GIVEN
    drain_or_swale: Maybe[bool] = NOT_GIVEN
    discharge_to: Maybe[Literal["storm drain", "street", "swale", "dry well", "own yard", "neighbor"]] = NOT_GIVEN


class Pour(Part):
    """Fresh concrete, stucco or mortar, and the times that the notes give it."""

    kind = "pour"
    material: Literal["concrete", "stucco", "mortar"]
    thickness: Maybe[Annotated[Size, Between("1/4 in", "10 ft")]] = NOT_GIVEN
    days_moist: Maybe[Annotated[Count, Between(1, 365)]] = NOT_GIVEN
    days_before_paint: Maybe[Annotated[Count, Between(1, 1000)]] = NOT_GIVEN
    days_before_flooring: Maybe[Annotated[Count, Between(1, 1000)]] = NOT_GIVEN
    moisture_test: Maybe[bool] = NOT_GIVEN


__all__ = ["Area", "Board", "Cladding", "EarthWall", "Flashing", "Grade", "Length", "Lintel", "Pour", "Veneer"]
