"""The site: the lot and its lines, distances to them, easements, what covers the lot, parking, flood, address."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Level, OpeningId, Part, Point, Size, SpaceId
from precheck.units import Area, Duration, Slope

FenceMaterial = Literal["wood", "vinyl", "metal", "chain link", "masonry", "concrete", "stone", "other"]
ROOFED = frozenset(("house", "garage", "carport", "porch", "patio cover", "shed", "addition", "other building"))


class Lot(Record):
    """The lot as a whole, and where it stands with zoning and flood maps.

    `front yard` is its area, and `paved front yard` what of that is paved; `septic bedrooms` are those that the permit of
    the septic system allows.
    """

    kind = "lot"
    area: Maybe[Annotated[Area, Between("200 sq ft", "43560000 sq ft")]] = NOT_GIVEN
    easements_on_record: Maybe[Annotated[Count, Between(1, 50)]] = NOT_GIVEN
    building_height: Maybe[Annotated[Size, Between("5 ft", "100 ft")]] = NOT_GIVEN
    zoning_approved: Maybe[bool] = NOT_GIVEN
    flood_hazard_area: Maybe[bool] = NOT_GIVEN
    base_flood_level: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    design_flood_level: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    cost_of_work: Maybe[Annotated[Count, Between(1, 20000000)]] = NOT_GIVEN
    building_value: Maybe[Annotated[Count, Between(1, 100000000)]] = NOT_GIVEN
    historic: Maybe[bool] = NOT_GIVEN
    wildfire_area: Maybe[bool] = NOT_GIVEN
    legal_description: Maybe[str] = NOT_GIVEN
    lowest_floor_surveyed: Maybe[bool] = NOT_GIVEN
    front_yard: Maybe[Annotated[Area, Between("5 sq ft", "1000000 sq ft")]] = NOT_GIVEN
    paved_front_yard: Maybe[Annotated[Area, Between("1 sq ft", "100000 sq ft")]] = NOT_GIVEN
    septic_bedrooms: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN


class LotLineId(Reference):
    """The id of a lot line."""

    __slots__ = ()
    kinds = ("lot line",)


class LotLine(Part):
    """One line of the lot, drawn in the coordinates of the plan or only named. `beyond` is what lies across it."""

    kind = "lot line"
    side: Maybe[Literal["front", "side", "street side", "rear"]] = NOT_GIVEN
    from_: Maybe[Point] = NOT_GIVEN
    to: Maybe[Point] = NOT_GIVEN
    beyond: Maybe[Literal["lot", "street", "alley", "public way"]] = NOT_GIVEN
    width_beyond: Maybe[Annotated[Size, Between("1 ft", "1000 ft")]] = NOT_GIVEN


class Setback(Part):
    """The distance of one side of a space from a lot line as dimensioned, and how that side is built against fire.

    `wall_height` is from the ground there to the eave.
    """

    kind = "setback"
    of: SpaceId
    line: LotLineId
    distance: Maybe[Annotated[Gap, Between("1/4 in", "900 ft")]] = NOT_GIVEN
    overhang: Maybe[Annotated[Gap, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    wall_height: Maybe[Annotated[Size, Between("1 ft", "60 ft")]] = NOT_GIVEN
    square_to_line: bool = False
    open_side: bool = False
    wall_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN
    rated_from_both_sides: Maybe[bool] = NOT_GIVEN
    overhang_underside: Maybe[
        Literal["unprotected", "fire-rated", "heavy timber", "fire-retardant-treated wood", "fireblocked"]
    ] = NOT_GIVEN
    wall_area: Maybe[Annotated[Area, Between("1 sq ft", "10000 sq ft")]] = NOT_GIVEN
    opening_area: Maybe[Annotated[Area, Between("0.2 sq ft", "5000 sq ft")]] = NOT_GIVEN
    openings: tuple[OpeningId, ...] = ()
    penetrations: Maybe[Literal["none", "protected", "unprotected"]] = NOT_GIVEN


class Easement(Part):
    """A recorded easement: along a lot line with its width, or only named with the spaces that reach into it."""

    kind = "easement"
    along: Maybe[LotLineId] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("6 in", "500 ft")]] = NOT_GIVEN
    purpose: str = ""
    built_over_by: tuple[SpaceId, ...] = ()


class CoveredArea(Part):
    """What covers part of the lot: a building or roof, or paving."""

    kind = "covered area"
    what: Literal[
        "house", "garage", "carport", "porch", "patio cover", "shed", "addition", "other building", "driveway", "walk",
        "patio", "pool", "other paving",
    ]  # fmt: skip
    area: Maybe[Annotated[Area, Between("1 sq ft", "100000 sq ft")]] = NOT_GIVEN

    @property
    def is_roofed(self) -> bool:
        """Whether it counts as building coverage, and not as paving alone."""
        return self.what in ROOFED


class ParkingStall(Part):
    """One parking stall on the lot; its phase says whether it is there before the work, after it, or both."""

    kind = "parking stall"
    width: Maybe[Annotated[Size, Between("3 ft", "100 ft")]] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("3 ft", "200 ft")]] = NOT_GIVEN
    covered: Maybe[bool] = NOT_GIVEN
    enclosed: Maybe[bool] = NOT_GIVEN
    in_: Maybe[SpaceId] = NOT_GIVEN
    in_front_yard: Maybe[bool] = NOT_GIVEN


class Driveway(Part):
    """A driveway: how wide, how steep and how far from the side line it is, its cut at the street and the walk it crosses."""

    kind = "driveway"
    surface: Maybe[Literal["concrete", "asphalt", "pavers", "gravel", "soil"]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("2 ft", "100 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01%", "100%")]] = NOT_GIVEN
    from_side_line: Maybe[Annotated[Gap, Between("1/4 in", "500 ft")]] = NOT_GIVEN
    cut_width: Maybe[Annotated[Size, Between("2 ft", "100 ft")]] = NOT_GIVEN
    sidewalk_width: Maybe[Annotated[Size, Between("1 ft", "40 ft")]] = NOT_GIVEN
    sidewalk_carried_across: Maybe[bool] = NOT_GIVEN


class EasementId(Reference):
    """The id of an easement."""

    __slots__ = ()
    kinds = ("easement",)


class YardWall(Part):
    """A fence or wall in the yard, and where it stands: `inside_line` is below zero where it stands beyond the lot line.

    One that holds earth is drawn as a retaining wall too.
    """

    kind = "yard wall"
    what: Literal["fence", "garden wall", "retaining wall"]
    material: Maybe[FenceMaterial] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    line: Maybe[LotLineId] = NOT_GIVEN
    inside_line: Maybe[Annotated[Level, Between("-500 ft", "500 ft")]] = NOT_GIVEN
    clear_of_easements: Maybe[bool] = NOT_GIVEN
    in_easements: tuple[EasementId, ...] = ()


class YardEquipment(Part):
    """A machine that stands on the ground outside, and the clear way that is left beside it."""

    kind = "yard equipment"
    what: Literal["air conditioner", "heat pump", "generator", "pool equipment", "tank", "other"]
    yard: Maybe[Literal["front", "side", "street side", "rear"]] = NOT_GIVEN
    clear_way: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN


class Excavation(Part):
    """A pit or trench that stays open while the work goes on, and the fence around it."""

    kind = "excavation"
    depth: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    fence_height: Maybe[Annotated[Gap, Between("3 in", "20 ft")]] = NOT_GIVEN


class FloodOpening(Part):
    """An opening that lets flood water into an enclosure below the flood level and out again."""

    kind = "flood opening"
    space: SpaceId
    wall: str = ""
    net_area: Maybe[Annotated[Area, Between("1 sq in", "100 sq ft")]] = NOT_GIVEN
    serves: Maybe[Annotated[Area, Between("1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    engineered: Maybe[bool] = NOT_GIVEN
    above_grade: Maybe[Annotated[Gap, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    least_side: Maybe[Annotated[Size, Between("1/8 in", "20 ft")]] = NOT_GIVEN


class AddressSign(Part):
    """The street number on the house, or the sign that shows it where the house cannot be seen."""

    kind = "address sign"
    character_height: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN
    stroke: Maybe[Annotated[Size, Between("1/64 in", "6 in")]] = NOT_GIVEN
    contrasting: Maybe[bool] = NOT_GIVEN
    legible_from_street: Maybe[bool] = NOT_GIVEN


__all__ = [
    "AddressSign",
    "CoveredArea",
    "Driveway",
    "Easement",
    "Excavation",
    "FloodOpening",
    "Lot",
    "LotLine",
    "ParkingStall",
    "Setback",
    "YardEquipment",
    "YardWall",
]
