"""Framing: joists, rafters, beams, headers and posts with what they carry and bear on; roofs as they are framed."""

import re
from typing import Annotated, Literal

from annotated_types import Ge
from pydantic import AfterValidator

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.part import Count, Gap, LayerText, OpeningId, Part, Point, Size, SpaceId, StoryId, WallId
from precheck.units import Force, Length, Pressure, Slope

REPEATED = frozenset(("floor joist", "ceiling joist", "rafter", "deck joist"))
ROOFING = frozenset(("rafter", "ridge beam", "hip or valley"))
SINGLE = frozenset(("beam", "header", "ridge beam", "hip or valley", "trimmer"))

Role = Literal[
    "floor joist", "ceiling joist", "rafter", "deck joist", "beam", "header", "ridge beam", "ridge board",
    "hip or valley", "trimmer", "post",
]  # fmt: skip
LoadUse = Literal[
    "bedroom", "other room", "attic without storage", "attic with limited storage", "habitable attic",
    "attic with fixed stair", "stair", "deck", "garage", "roof",
]  # fmt: skip
Plies = Annotated[int, Ge(1)]
_SIZE = re.compile(r"\d{1,2}x\d{1,2}")


def _nominal(text: str) -> str:
    size = text.replace(" ", "").lower()
    if not _SIZE.fullmatch(size):
        raise ValueError(f"`{text}` is not a lumber size; write it like 2x10, with the number of pieces as `plies`")
    return size


Nominal = Annotated[str, AfterValidator(_nominal)]
"""A nominal lumber size such as ``2x10``."""


class MemberId(Reference):
    """The id of a member."""

    __slots__ = ()
    kinds = ("member",)


class BearerId(Reference):
    """The id of what a member bears on."""

    __slots__ = ()
    kinds = ("member", "wall", "support", "footing", "pier", "foundation wall", "wall line", "braced wall line")


class Carried(Record):
    """One load on a member.

    Spread over an area (`live` or `use`, `dead` or `layers`, and the `tributary` width where the member stands alone),
    along it (`dead per foot`, such as a wall), or at one point (`point dead` and `point live`, `at` from its first
    support). What is called roof is snow or roof live load. What other members that bear on it bring is worked out and not written here.
    """

    kind = "load"
    use: Maybe[LoadUse] = NOT_GIVEN
    space: Maybe[SpaceId] = NOT_GIVEN
    live: Maybe[Pressure] = NOT_GIVEN
    dead: Maybe[Pressure] = NOT_GIVEN
    layers: tuple[LayerText, ...] = ()
    tributary: Maybe[Size] = NOT_GIVEN
    dead_per_foot: Maybe[Force] = NOT_GIVEN
    live_per_foot: Maybe[Force] = NOT_GIVEN
    roof_per_foot: Maybe[Force] = NOT_GIVEN
    at: Maybe[Gap] = NOT_GIVEN
    point_dead: Maybe[Force] = NOT_GIVEN
    point_live: Maybe[Force] = NOT_GIVEN
    point_roof: Maybe[Force] = NOT_GIVEN


class Bearing(Record):
    """What one end of a member (or its foot) bears on, and how.

    `on` names it; `onto` says what it is where it has no id. `at` is the distance from the first support of the
    bearing member to where this end lands.
    """

    kind = "bearing"
    on: Maybe[BearerId] = NOT_GIVEN
    onto: Maybe[
        Literal["bearing wall", "foundation wall", "footing", "pier", "slab", "existing framing", "ridge", "nothing"]
    ] = NOT_GIVEN
    length: Maybe[Size] = NOT_GIVEN
    material: Maybe[Literal["wood", "metal", "masonry", "concrete"]] = NOT_GIVEN
    hanger: Maybe[bool] = NOT_GIVEN
    at: Maybe[Gap] = NOT_GIVEN


class Notch(Record):
    """A notch: its depth and length, how far its middle is from the nearest support, on which edge."""

    kind = "notch"
    depth: Maybe[Size] = NOT_GIVEN
    length: Maybe[Size] = NOT_GIVEN
    from_support: Maybe[Gap] = NOT_GIVEN
    at_end: bool = False
    edge: Maybe[Literal["top", "bottom"]] = NOT_GIVEN
    on_overhang: bool = False


class Hole(Record):
    """A bored hole: its diameter, and the wood left to the nearest edge, hole or notch."""

    kind = "hole"
    diameter: Maybe[Size] = NOT_GIVEN
    to_edge: Maybe[Gap] = NOT_GIVEN


class MakerData(Record):
    """A made product such as LVL or an I-joist: its true size and what the maker's document says of it."""

    kind = "maker's data"
    product: Literal["LVL", "I-joist", "glulam", "PSL", "LSL", "steel", "other"]
    grade: str = ""
    document: Maybe[str] = NOT_GIVEN
    breadth: Maybe[Size] = NOT_GIVEN
    depth: Maybe[Size] = NOT_GIVEN
    bending: Maybe[Pressure] = NOT_GIVEN
    shear: Maybe[Pressure] = NOT_GIVEN
    bearing: Maybe[Pressure] = NOT_GIVEN
    modulus: Maybe[Pressure] = NOT_GIVEN
    modulus_for_stability: Maybe[Pressure] = NOT_GIVEN
    longest_span: Maybe[Size] = NOT_GIVEN
    cuts_allowed: Maybe[bool] = NOT_GIVEN
    ply_fastening: Maybe[str] = NOT_GIVEN


class Sister(Record):
    """A member fixed along another one. It carries its share only where it runs from bearing to bearing."""

    kind = "sister"
    size: Maybe[Nominal] = NOT_GIVEN
    plies: Plies = 1
    species: Maybe[str] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    full_length: Maybe[bool] = NOT_GIVEN
    fastener_spacing: Maybe[Size] = NOT_GIVEN


Nail = Literal["6d common", "8d common", "10d common", "8d deformed", "other"]


class Nailing(Record):
    """Nails of panels: which, how far apart along the edges of a panel and within it. Others go by a `document`.

    `seen before cover` says that the drawings have the inspector see them hit the framing before a wrap or ceiling hides it.
    """

    kind = "nails"
    nail: Maybe[Nail] = NOT_GIVEN
    edge: Maybe[Size] = NOT_GIVEN
    field: Maybe[Size] = NOT_GIVEN
    document: Maybe[str] = NOT_GIVEN
    seen_before_cover: Maybe[bool] = NOT_GIVEN


class Sheathing(Record):
    """Panels on joists or rafters: the span rating and thickness stamped on them, and their nails."""

    kind = "sheathing"
    nails: Maybe[Nailing] = NOT_GIVEN
    rating: Maybe[str] = NOT_GIVEN
    thickness: Maybe[Size] = NOT_GIVEN
    edges_supported: Maybe[bool] = NOT_GIVEN


class HeaderCase(Record):
    """The row of the header tables that a header in an exterior bearing wall is read in."""

    kind = "table case"
    building_width: Maybe[Size] = NOT_GIVEN
    floors: Maybe[Count] = NOT_GIVEN
    top_braced: Maybe[bool] = NOT_GIVEN


class Member(Part):
    """A joist, rafter, beam, header or post, or a row of them alike at one spacing.

    `span` is the clear span on the horizontal, `overhang` what runs past the last support. `wet` is lumber that stays
    over 19 % moisture in use, `incised` lumber with cuts for treatment.

    `openings` name the doors and windows that it is over (a header alike over several is one), `wall` the wall that it is
    in or stands in for, `spaces` those whose floor, roof or frame it is part of, where the plan does not show that.

    In plan a member lies `from` its first support `to` its last, `over` the story whose walls or posts carry it; a row
    of them is drawn by its first piece, and `row to` is where the last piece leaves its first support. A post stands `at`
    one point.
    """

    kind = "member"
    role: Role
    openings: tuple[OpeningId, ...] = ()
    wall: Maybe[WallId] = NOT_GIVEN
    spaces: tuple[SpaceId, ...] = ()
    over: Maybe[StoryId] = NOT_GIVEN
    from_: Maybe[Point] = NOT_GIVEN
    to: Maybe[Point] = NOT_GIVEN
    row_to: Maybe[Point] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN
    size: Maybe[Nominal] = NOT_GIVEN
    plies: Plies = 1
    species: Maybe[str] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    graded: Maybe[Literal["today", "before 2013"]] = NOT_GIVEN
    maker: Maybe[MakerData] = NOT_GIVEN
    sound: Maybe[bool] = NOT_GIVEN
    sisters: tuple[Sister, ...] = ()
    spacing: Maybe[Size] = NOT_GIVEN
    span: Maybe[Size] = NOT_GIVEN
    overhang: Maybe[Size] = NOT_GIVEN
    slope: Maybe[Slope] = NOT_GIVEN
    carries: tuple[Carried, ...] = ()
    bears_on: tuple[Bearing, ...] = ()
    notches: tuple[Notch, ...] = ()
    holes: tuple[Hole, ...] = ()
    wet: bool = False
    incised: bool = False
    unbraced: Maybe[Gap] = NOT_GIVEN
    ceiling: Maybe[Literal["none", "gypsum", "plaster"]] = NOT_GIVEN
    finish: Maybe[Literal["tile", "stone", "other"]] = NOT_GIVEN
    sheathing: Maybe[Sheathing] = NOT_GIVEN
    ends_blocked: Maybe[bool] = NOT_GIVEN
    bridging_spacing: Maybe[Size] = NOT_GIVEN
    lap: Maybe[Size] = NOT_GIVEN
    table_case: Maybe[HeaderCase] = NOT_GIVEN
    bearing_wall: Maybe[bool] = NOT_GIVEN
    jack_studs: Maybe[Count] = NOT_GIVEN
    king_studs: Maybe[Count] = NOT_GIVEN
    height: Maybe[Size] = NOT_GIVEN
    fastening: Maybe[Literal["nailed", "bolted"]] = NOT_GIVEN
    base_connected: Maybe[bool] = NOT_GIVEN
    cap_connected: Maybe[bool] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN

    @property
    def is_repeated(self) -> bool:
        """Whether it stands for a row of members at one spacing."""
        return self.role in REPEATED

    @property
    def label_of_size(self) -> str:
        """Pieces and size, such as ``2-2x10``."""
        return f"{self.plies}-{self.size}" if self.plies > 1 else str(self.size)


__all__ = ["Bearing", "Carried", "Hole", "Length", "MakerData", "Member", "Notch", "Sister"]
