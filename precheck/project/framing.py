"""Framing: joists, rafters, beams, headers and posts with what they carry and bear on; roofs as they are framed."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.missing import Missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.carried import Bearing, Carried
from precheck.project.lumber import MakerData, MeasuredSize, Nominal, Plies, Sister
from precheck.project.on_wall import AlongWall
from precheck.project.part import Count, Gap, OpeningId, Part, Phase, Point, Size, SpaceId, StoryId, WallId
from precheck.units import Length, Slope

REPEATED = frozenset(("floor joist", "ceiling joist", "rafter", "deck joist"))
ROOFING = frozenset(("rafter", "ridge beam", "hip or valley"))
SINGLE = frozenset(("beam", "header", "ridge beam", "hip or valley", "trimmer"))

Role = Literal[
    "floor joist", "ceiling joist", "rafter", "deck joist", "beam", "header", "ridge beam", "ridge board",
    "hip or valley", "trimmer", "post",
]  # fmt: skip


class Notch(Record):
    """A notch: its depth and length, how far its middle is from the nearest support, on which edge."""

    kind = "notch"
    phase: Maybe[Phase] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/16 in", "3 ft")]] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("1/16 in", "10 ft")]] = NOT_GIVEN
    from_support: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN
    at_end: bool = False
    edge: Maybe[Literal["top", "bottom"]] = NOT_GIVEN
    on_overhang: bool = False


class Hole(Record):
    """A bored hole: its diameter, and the wood left to the nearest edge, hole or notch."""

    kind = "hole"
    phase: Maybe[Phase] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    to_edge: Maybe[Annotated[Gap, Between("1/16 in", "4 ft")]] = NOT_GIVEN


Nail = Literal["6d common", "8d common", "10d common", "8d deformed", "other"]


class Nailing(Record):
    """Nails of panels: which, how far apart along the edges of a panel and within it. Others go by a `document`.

    `seen before cover` says that the drawings have the inspector see them hit the framing before a wrap or ceiling hides it.
    """

    kind = "nails"
    nail: Maybe[Nail] = NOT_GIVEN
    edge: Maybe[Annotated[Size, Between("1/2 in", "4 ft")]] = NOT_GIVEN
    field: Maybe[Annotated[Size, Between("1/2 in", "4 ft")]] = NOT_GIVEN
    document: Maybe[str] = NOT_GIVEN
    seen_before_cover: Maybe[bool] = NOT_GIVEN


class Sheathing(Record):
    """Panels on joists or rafters: the span rating and thickness stamped on them, and their nails."""

    kind = "sheathing"
    nails: Maybe[Nailing] = NOT_GIVEN
    rating: Maybe[str] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/16 in", "6 in")]] = NOT_GIVEN
    edges_supported: Maybe[bool] = NOT_GIVEN


class HeaderCase(Record):
    """The row of the header tables that a header in an exterior bearing wall is read in."""

    kind = "table case"
    building_width: Maybe[Annotated[Size, Between("4 ft", "150 ft")]] = NOT_GIVEN
    floors: Maybe[Annotated[Count, Between(1, 4)]] = NOT_GIVEN
    top_braced: Maybe[bool] = NOT_GIVEN


SPANS = "6 in", "100 ft"
"""The range of the spans that any member has."""


class Member(Part):
    """A joist, rafter, beam, header or post, or a row of them alike at one spacing.

    `span` is the clear span on the horizontal, or `spans` those of a member that runs on over more supports; `overhang` is
    what runs past the last support, `first overhang` past the first. `wet` is lumber that stays over 19 % moisture in use,
    `incised` lumber with cuts for treatment: that of a deck counts as both until the file says otherwise. `measured` is
    the true size where it is not the dressed one. Joists may hang on the side of a beam and not lie on top (`loaded on`).

    `framing anchors` may hold a header where one jack stud would. A post may stand in an enclosed crawl space.

    A post is free to bend over its `height`, or over the lesser lengths `free across depth` and `free across breadth` of its
    size. Plies `fastened to standard` are nailed or bolted as the wood standard lays out for built-up columns.

    `openings` name the doors and windows that it is over (a header alike over several is one), `wall` the wall that it is
    in or stands in for, `spaces` those whose floor, roof or frame it is part of, where the plan does not show that.

    In plan a member lies `from` its first support `to` its last, which is its span where none is stated, `over` the story
    whose walls or posts carry it; a row of them is drawn by its first piece, and `row to` is where the last piece leaves
    its first support. A post stands `at` one point. `on` gives either as one measures it, on a wall of a room so far from
    a corner.
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
    on: Maybe[AlongWall] = NOT_GIVEN
    size: Maybe[Nominal] = NOT_GIVEN
    plies: Plies = 1
    species: Maybe[str] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    graded: Maybe[Literal["today", "before 2013"]] = NOT_GIVEN
    maker: Maybe[MakerData] = NOT_GIVEN
    measured: Maybe[MeasuredSize] = NOT_GIVEN
    sound: Maybe[bool] = NOT_GIVEN
    sisters: tuple[Sister, ...] = ()
    spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    span: Maybe[Annotated[Size, Between(*SPANS)]] = NOT_GIVEN
    spans: tuple[Annotated[Size, Between(*SPANS)], ...] = ()
    overhang: Maybe[Annotated[Size, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    first_overhang: Maybe[Annotated[Size, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.1:12", "40:12")]] = NOT_GIVEN
    carries: tuple[Carried, ...] = ()
    bears_on: tuple[Bearing, ...] = ()
    notches: tuple[Notch, ...] = ()
    holes: tuple[Hole, ...] = ()
    loaded_on: Maybe[Literal["top", "side"]] = NOT_GIVEN
    wet: Maybe[bool] = NOT_GIVEN
    incised: Maybe[bool] = NOT_GIVEN
    unbraced: Maybe[Annotated[Gap, Between("1/16 in", "60 ft")]] = NOT_GIVEN
    ceiling: Maybe[Literal["none", "gypsum", "plaster"]] = NOT_GIVEN
    finish: Maybe[Literal["tile", "stone", "other"]] = NOT_GIVEN
    sheathing: Maybe[Sheathing] = NOT_GIVEN
    ends_blocked: Maybe[bool] = NOT_GIVEN
    bridging_spacing: Maybe[Annotated[Size, Between("6 in", "60 ft")]] = NOT_GIVEN
    lap: Maybe[Annotated[Size, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    table_case: Maybe[HeaderCase] = NOT_GIVEN
    bearing_wall: Maybe[bool] = NOT_GIVEN
    jack_studs: Maybe[Annotated[Count, Between(1, 12)]] = NOT_GIVEN
    king_studs: Maybe[Annotated[Count, Between(1, 12)]] = NOT_GIVEN
    framing_anchors: Maybe[bool] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    free_across_depth: Maybe[Annotated[Size, Between("1/2 in", "60 ft")]] = NOT_GIVEN
    free_across_breadth: Maybe[Annotated[Size, Between("1/2 in", "60 ft")]] = NOT_GIVEN
    fastening: Maybe[Literal["nailed", "bolted"]] = NOT_GIVEN
    fastened_to_standard: Maybe[bool] = NOT_GIVEN
    in_crawl_space: Maybe[bool] = NOT_GIVEN
    base_connected: Maybe[bool] = NOT_GIVEN
    cap_connected: Maybe[bool] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN

    @property
    def length_of_spans(self) -> Length | Missing:
        """The length from the first support to the last."""
        return sum(self.spans[1:], self.spans[0]) if self.spans else self.span

    @property
    def is_repeated(self) -> bool:
        """Whether it stands for a row of members at one spacing."""
        return self.role in REPEATED

    @property
    def label_of_size(self) -> str:
        """Pieces and size, such as ``2-2x10``."""
        return f"{self.plies}-{self.size}" if self.plies > 1 else str(self.size)


__all__ = ["Hole", "Member", "Nailing", "Notch", "Sheathing"]
