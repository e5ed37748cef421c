"""The framing of walls: studs and plates, sill plates and their bolts, bracing, fire blocks; wood near the ground."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.framing import Nailing
from precheck.project.lumber import Nominal
from precheck.project.part import Count, Gap, LayerText, Level, Number, OpeningId, Part, Phase, Size, SpaceId, WallId
from precheck.project.space import FloorId
from precheck.units import Area, Force, Length, Slope

Carries = Literal[
    "roof and ceiling", "one floor and roof", "two floors and roof", "one floor", "nothing",
]  # fmt: skip
Method = Literal["LIB", "DWB", "WSP", "SFB", "GB", "PBS", "PCP", "HPS", "CS-WSP", "CS-SFB"]
PortalMethod = Literal["PFH", "PFG", "CS-G", "CS-PF", "ABW"]


class SillPlate(Record):
    """One piece of the plate at the foot of a wall. `from_ends` are the distances of its end bolts from its ends."""

    kind = "sill plate"
    on: Maybe[Literal["foundation wall", "slab", "framing"]] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("3 in", "200 ft")]] = NOT_GIVEN
    joins_offset_panels: bool = False
    bolts: Maybe[Annotated[Count, Between(1, 200)]] = NOT_GIVEN
    bolt_diameter: Maybe[Annotated[Size, Between("1/8 in", "2 in")]] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "30 ft")]] = NOT_GIVEN
    embedment: Maybe[Annotated[Gap, Between("1/2 in", "6 ft")]] = NOT_GIVEN
    from_ends: Maybe[Annotated[tuple[Gap, Gap], Between("1/4 in", "10 ft")]] = NOT_GIVEN
    middle_third: Maybe[bool] = NOT_GIVEN
    nuts_and_washers: Maybe[bool] = NOT_GIVEN
    washer_side: Maybe[Annotated[Size, Between("1/4 in", "12 in")]] = NOT_GIVEN
    washer_thickness: Maybe[Annotated[Size, Between("1/100 in", "2 in")]] = NOT_GIVEN
    anchor_document: Maybe[str] = NOT_GIVEN
    approved_fasteners: Maybe[bool] = NOT_GIVEN
    treated: Maybe[bool] = NOT_GIVEN
    moisture_barrier: Maybe[bool] = NOT_GIVEN


class StudCut(Record):
    """A notch in a stud (its `depth`), or a hole (its `diameter` and the wood left `to_edge`)."""

    kind = "stud cut"
    phase: Maybe[Phase] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/16 in", "12 in")]] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/16 in", "12 in")]] = NOT_GIVEN
    to_edge: Maybe[Annotated[Gap, Between("1/16 in", "12 in")]] = NOT_GIVEN
    doubled: Maybe[bool] = NOT_GIVEN
    doubled_in_a_row: Maybe[Annotated[Count, Between(1, 50)]] = NOT_GIVEN
    beside_notch: Maybe[bool] = NOT_GIVEN


class PlateCut(Record):
    """A cut through a top plate, and the metal tie over it. A gage is a number: a smaller one is thicker."""

    kind = "plate cut"
    phase: Maybe[Phase] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("1/16 in", "12 in")]] = NOT_GIVEN
    tie_gage: Maybe[Annotated[Number, Between(1, 40)]] = NOT_GIVEN
    tie_width: Maybe[Annotated[Size, Between("1/8 in", "12 in")]] = NOT_GIVEN
    nails_each_side: Maybe[Annotated[Count, Between(1, 100)]] = NOT_GIVEN
    covered_with_panel: Maybe[bool] = NOT_GIVEN


class Uplift(Record):
    """What holds the roof down to a wall: the tie, and the facts that decide whether one is due."""

    kind = "uplift"
    connected: Maybe[bool] = NOT_GIVEN
    net_uplift_per_foot: Maybe[Annotated[Force, Between("1 lb", "5000 lb")]] = NOT_GIVEN
    roof_pitch: Maybe[Annotated[Slope, Between("0.1:12", "40:12")]] = NOT_GIVEN
    roof_span: Maybe[Annotated[Size, Between("2 ft", "150 ft")]] = NOT_GIVEN


class WallFraming(Record):
    """Studs and plates of a wall. `height` is between what holds the studs sideways.

    Of tall studs it also counts how wide a strip of the roof they carry (`roof strip`), the capacity of the connectors at
    their ends (`stud connectors`), and whether they are `sheathed both sides`: 1/2 in gypsum board inside, and outside 3/8 in
    wood panels, nailed with 8d at 6 in along edges and 12 in between, whose joints are all over studs or blocks.
    """

    kind = "wall framing"
    carries: Maybe[Carries] = NOT_GIVEN
    stud: Maybe[Nominal] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("3 in", "40 ft")]] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    attic_above: Maybe[bool] = NOT_GIVEN
    roof_span: Maybe[Annotated[Size, Between("2 ft", "150 ft")]] = NOT_GIVEN
    floor_span: Maybe[Annotated[Size, Between("2 ft", "150 ft")]] = NOT_GIVEN
    roof_strip: Maybe[Annotated[Size, Between("6 in", "80 ft")]] = NOT_GIVEN
    sheathed_or_blocked: Maybe[bool] = NOT_GIVEN
    sheathed_both_sides: Maybe[bool] = NOT_GIVEN
    stud_connectors: Maybe[Annotated[Force, Between("10 lb", "20000 lb")]] = NOT_GIVEN
    top_plates: Maybe[Annotated[Number, Between(1, 6)]] = NOT_GIVEN
    plate_joints_apart: Maybe[Annotated[Gap, Between("1/2 in", "40 ft")]] = NOT_GIVEN
    splice_plates: Maybe[bool] = NOT_GIVEN
    joist_spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    joists_from_studs: Maybe[Annotated[Gap, Between("1/4 in", "4 ft")]] = NOT_GIVEN
    plates_strengthened: Maybe[bool] = NOT_GIVEN
    bottom_plate: Maybe[Nominal] = NOT_GIVEN
    knee_wall: Maybe[bool] = NOT_GIVEN
    fully_sheathed: Maybe[bool] = NOT_GIVEN
    stud_above: Maybe[Nominal] = NOT_GIVEN
    cuts: tuple[StudCut, ...] = ()
    plate_cuts: tuple[PlateCut, ...] = ()
    uplift: Maybe[Uplift] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN


class FireBlocks(Record):
    """Fire blocks in the concealed spaces of a wall."""

    kind = "fire blocks"
    at_floors_and_ceilings: Maybe[bool] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    at_soffits: Maybe[bool] = NOT_GIVEN
    at_stair_stringers: Maybe[bool] = NOT_GIVEN
    at_penetrations: Maybe[bool] = NOT_GIVEN
    material: Maybe[
        Literal[
            "lumber",
            "two boards",
            "wood panel",
            "particleboard",
            "gypsum",
            "cement board",
            "mineral fiber",
            "glass fiber",
            "foam",
        ]
    ] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/16 in", "12 in")]] = NOT_GIVEN


class Portal(Record):
    """The frame around a wide opening that stands for a braced panel: its opening, header and fixings."""

    kind = "portal frame"
    method: Maybe[PortalMethod] = NOT_GIVEN
    opening_width: Maybe[Annotated[Size, Between("6 in", "40 ft")]] = NOT_GIVEN
    header_height: Maybe[Annotated[Size, Between("1 ft", "30 ft")]] = NOT_GIVEN
    carries: Maybe[Literal["roof", "one story and roof"]] = NOT_GIVEN
    anchor_bolts: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    hold_down: Maybe[Annotated[Force, Between("10 lb", "50000 lb")]] = NOT_GIVEN
    header_strap: Maybe[Annotated[Force, Between("10 lb", "50000 lb")]] = NOT_GIVEN


class BracedPanel(Record):
    """One braced panel of a line: its near edge `at` from the start of the line, and its length along it.

    `over` says what floor it stands on, or that an opening or nothing is below it; `under it` what of that floor lies
    right below it.
    """

    kind = "braced panel"
    at: Maybe[Annotated[Gap, Between("1/2 in", "300 ft")]] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("2 in", "100 ft")]] = NOT_GIVEN
    offset: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN
    over: Maybe[
        Literal[
            "joists across",
            "joists along",
            "slab",
            "foundation wall",
            "cantilever",
            "posts or piers",
            "opening",
            "nothing",
        ]
    ] = NOT_GIVEN
    under_it: Maybe[Literal["blocking", "rim joist", "joist", "blocks between joists", "nothing"]] = NOT_GIVEN
    block_spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    opening_beside: Maybe[Annotated[Size, Between("2 in", "40 ft")]] = NOT_GIVEN
    portal: Maybe[Portal] = NOT_GIVEN


class BracedLine(Part):
    """A braced wall line: walls that together hold one story against wind and earthquake in one direction.

    `stories` are those of the whole house above ground, where they are not drawn. `horizontal joints` are those between
    panels of its sheathing, which need blocking behind them.
    """

    kind = "braced wall line"
    walls: tuple[WallId, ...] = ()
    openings: tuple[OpeningId, ...] = ()
    method: Maybe[Method] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("1 ft", "300 ft")]] = NOT_GIVEN
    wall_height: Maybe[Annotated[Size, Between("1 ft", "40 ft")]] = NOT_GIVEN
    to_next_line: Maybe[Annotated[Size, Between("1 in", "300 ft")]] = NOT_GIVEN
    lines: Maybe[Annotated[Number, Between(1, 30)]] = NOT_GIVEN
    stories_above: Maybe[Annotated[Count, Between(1, 4)]] = NOT_GIVEN
    stories: Maybe[Annotated[Number, Between(1, 4)]] = NOT_GIVEN
    eave_to_ridge: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    panels: tuple[BracedPanel, ...] = ()
    panel_thickness: Maybe[Annotated[Size, Between("1/16 in", "6 in")]] = NOT_GIVEN
    nails: Maybe[Nailing] = NOT_GIVEN
    stud_spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    end_hold_down: Maybe[Annotated[Force, Between("10 lb", "50000 lb")]] = NOT_GIVEN
    both_faces: Maybe[bool] = NOT_GIVEN
    gypsum_inside: Maybe[bool] = NOT_GIVEN
    horizontal_joints: Maybe[Literal["none", "blocked", "unblocked"]] = NOT_GIVEN
    fully_sheathed: Maybe[bool] = NOT_GIVEN
    end_conditions: Maybe[Literal["return panel", "hold-down", "long end panel", "none"]] = NOT_GIVEN
    roof_gap: Maybe[Annotated[Gap, Between("1/64 in", "12 ft")]] = NOT_GIVEN
    roof_gap_blocked: Maybe[bool] = NOT_GIVEN
    largest_room: Maybe[Annotated[Area, Between("10 sq ft", "10000 sq ft")]] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN


class FloorGuard(Part):
    """What keeps fire from the underside of a framed floor, and what is under it; `underside: []` says that it is bare."""

    kind = "floor underside"
    floor: Maybe[FloorId] = NOT_GIVEN
    joists: Maybe[Literal["lumber", "I-joist", "truss", "structural composite"]] = NOT_GIVEN
    joist_depth: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    underside: tuple[LayerText, ...] = ()
    below: Maybe[Literal["room", "unfinished basement", "crawl space", "sprinklered space"]] = NOT_GIVEN
    below_holds_storage_or_appliance: Maybe[bool] = NOT_GIVEN
    unprotected_area: Maybe[Annotated[Area, Between("1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    hung_ceiling: Maybe[bool] = NOT_GIVEN
    concealed_area: Maybe[Annotated[Area, Between("1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    draft_stopped: Maybe[bool] = NOT_GIVEN


class Wood(Part):
    """Wood that is near earth, concrete or weather, and what keeps it from decay.

    `space` is the deck, carport or porch that it is of, `location` where a post stands; the earth under it may be covered
    with a moisture barrier (`earth covered`).
    """

    kind = "wood"
    where: Literal[
        "on foundation wall", "crawl space joists", "crawl space girder", "girder pocket", "furring below grade",
        "under outdoor topping", "in the ground", "post base", "outdoor support",
    ]  # fmt: skip
    space: Maybe[SpaceId] = NOT_GIVEN
    location: Maybe[Literal["outdoors", "basement", "crawl space"]] = NOT_GIVEN
    treated: Maybe[bool] = NOT_GIVEN
    ground_contact_treated: Maybe[bool] = NOT_GIVEN
    above_ground: Maybe[Annotated[Level, Between("-60 ft", "60 ft")]] = NOT_GIVEN
    above_slab: Maybe[Annotated[Level, Between("-30 ft", "30 ft")]] = NOT_GIVEN
    earth_covered: Maybe[bool] = NOT_GIVEN
    air_space: Maybe[Annotated[Gap, Between("1/64 in", "6 ft")]] = NOT_GIVEN
    barrier: Maybe[bool] = NOT_GIVEN
    under_roof: Maybe[bool] = NOT_GIVEN
    cuts_treated: Maybe[bool] = NOT_GIVEN
    fasteners: Maybe[
        Literal["hot-dip galvanized", "mechanically galvanized", "stainless", "silicon bronze", "copper", "plain steel"]
    ] = NOT_GIVEN
    bolt_diameter: Maybe[Annotated[Size, Between("1/8 in", "2 in")]] = NOT_GIVEN


class TermiteProtection(Part):
    """What keeps termites out, and foam at the foundation."""

    kind = "termite protection"
    method: Maybe[
        Literal["soil treatment", "bait", "treated wood", "resistant wood", "physical barrier", "steel framing", "none"]
    ] = NOT_GIVEN
    foam_outside: Maybe[bool] = NOT_GIVEN
    foam_above_earth: Maybe[Annotated[Level, Between("-20 ft", "20 ft")]] = NOT_GIVEN
    foam_below_grade: Maybe[bool] = NOT_GIVEN
    noncombustible_or_treated_structure: Maybe[bool] = NOT_GIVEN
    foam_approved: Maybe[bool] = NOT_GIVEN


__all__ = [
    "BracedLine",
    "BracedPanel",
    "FireBlocks",
    "FloorGuard",
    "Length",
    "PlateCut",
    "Portal",
    "SillPlate",
    "StudCut",
    "TermiteProtection",
    "Uplift",
    "WallFraming",
    "Wood",
]
