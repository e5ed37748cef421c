"""Roofs as they are framed: rafters with their ridge and ties; openings through framing; trusses."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.missing import Missing, is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.carried import MemberId
from precheck.project.lumber import Nominal, Plies
from precheck.project.part import Count, Gap, Part, Size, SpaceId
from precheck.project.space import Rectangle
from precheck.units import Force, Length, Pressure, Slope, Speed


class Tie(Record):
    """What keeps opposite rafters from spreading: ceiling joists at the plate, or ties higher up."""

    kind = "tie"
    what: Literal["ceiling joists", "rafter ties", "none"]
    member: Maybe[MemberId] = NOT_GIVEN
    size: Maybe[Nominal] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "20 ft")]] = NOT_GIVEN
    height_above_plate: Maybe[Annotated[Gap, Between("1/16 in", "30 ft")]] = NOT_GIVEN
    nails: Maybe[Annotated[Count, Between(1, 100)]] = NOT_GIVEN
    lap: Maybe[Annotated[Size, Between("1/4 in", "20 ft")]] = NOT_GIVEN


class CollarTies(Record):
    """Ties in the upper part of the attic, or straps over the ridge."""

    kind = "collar ties"
    what: Literal["collar ties", "ridge straps", "none"]
    size: Maybe[Nominal] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "20 ft")]] = NOT_GIVEN
    below_ridge: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN


class Purlins(Record):
    """Purlins under rafters, with their braces."""

    kind = "purlins"
    size: Maybe[Nominal] = NOT_GIVEN
    brace_spacing: Maybe[Annotated[Size, Between("3 in", "40 ft")]] = NOT_GIVEN
    brace_length: Maybe[Annotated[Size, Between("3 in", "60 ft")]] = NOT_GIVEN
    brace_slope: Maybe[Annotated[Slope, Between("0.1:12", "200:12")]] = NOT_GIVEN


class RoofFrame(Part):
    """Opposite rafters that meet at a ridge, and what holds them together and down.

    `width` is outside to outside of the walls that bear the rafters; the loads are those of its rafters. `spaces` are
    those that it covers.
    """

    kind = "roof frame"
    spaces: tuple[SpaceId, ...] = ()
    rafters: Maybe[MemberId] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.1:12", "40:12")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("2 ft", "150 ft")]] = NOT_GIVEN
    ridge: Maybe[Literal["board", "beam", "none"]] = NOT_GIVEN
    ridge_size: Maybe[Nominal] = NOT_GIVEN
    offset_at_ridge: Maybe[Annotated[Gap, Between("1/64 in", "4 ft")]] = NOT_GIVEN
    tie: Maybe[Tie] = NOT_GIVEN
    collar_ties: Maybe[CollarTies] = NOT_GIVEN
    purlins: Maybe[Purlins] = NOT_GIVEN
    uplift_connector: Maybe[Annotated[Force, Between("5 lb", "50000 lb")]] = NOT_GIVEN
    enclosed: Maybe[bool] = NOT_GIVEN
    meets_old: Maybe[
        Literal["no", "boards on old rafters", "ledger on the wall", "valley", "new wall", "old sheathing alone"]
    ] = NOT_GIVEN


class StairId(Reference):
    """The id of a stair."""

    __slots__ = ()
    kinds = ("stair",)


class FramedOpening(Part):
    """An opening framed through joists or rafters: its header, its trimmers, and the joists cut off at it.

    `space` is the room whose floor, ceiling or roof it goes through, `rectangle` its place there in plan, `stair` the
    stair that comes up through it, and `joists run` which way the joists do that it cuts.

    `header` and `trimmers` name the members that carry them, where the opening is wide.
    """

    kind = "framed opening"
    through: Literal["floor", "ceiling", "roof"]
    space: Maybe[SpaceId] = NOT_GIVEN
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    stair: Maybe[StairId] = NOT_GIVEN
    joists_run: Maybe[Literal["along the page", "up the page"]] = NOT_GIVEN
    header: Maybe[MemberId] = NOT_GIVEN
    trimmers: tuple[MemberId, ...] = ()
    header_span: Maybe[Annotated[Size, Between("2 in", "60 ft")]] = NOT_GIVEN
    header_plies: Maybe[Plies] = NOT_GIVEN
    trimmer_plies: Maybe[Plies] = NOT_GIVEN
    from_bearing: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    header_hangers: Maybe[bool] = NOT_GIVEN
    tail_length: Maybe[Annotated[Size, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    tail_anchored: Maybe[bool] = NOT_GIVEN

    @property
    def header_drawn(self) -> Length | Missing:
        """The span of its headers as drawn: the side across the joists; an absence where plan or joists do not tell it."""
        box = self.rectangle
        if is_missing(box):
            return self.absent("header span")
        if box.width == box.depth:
            return box.width
        if is_missing(self.joists_run):
            return self.joists_run
        return box.depth if self.joists_run == "along the page" else box.width

    @property
    def header_reach(self) -> Length | Missing:
        """The span of its headers: as stated or as drawn, whichever is more."""
        drawn = self.header_drawn
        if is_missing(self.header_span) or is_missing(drawn):
            return drawn if is_missing(self.header_span) else self.header_span
        return max(self.header_span, drawn)


class TrussDesign(Record):
    """What the drawings of trusses say that they are designed for. Loads are those of top and bottom chord."""

    kind = "truss drawings"
    spacing: Maybe[Annotated[Size, Between("3 in", "20 ft")]] = NOT_GIVEN
    ground_snow: Maybe[Annotated[Pressure, Between("1 psf", "700 psf")]] = NOT_GIVEN
    top_live: Maybe[Annotated[Pressure, Between("1 psf", "700 psf")]] = NOT_GIVEN
    top_dead: Maybe[Annotated[Pressure, Between("0.5 psf", "500 psf")]] = NOT_GIVEN
    bottom_dead: Maybe[Annotated[Pressure, Between("0.5 psf", "500 psf")]] = NOT_GIVEN
    wind: Maybe[Annotated[Speed, Between("50 mph", "250 mph")]] = NOT_GIVEN
    exposure: Maybe[str] = NOT_GIVEN
    bearing: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN
    reactions: Maybe[bool] = NOT_GIVEN
    bracing: Maybe[bool] = NOT_GIVEN


class Truss(Part):
    """Trusses: whether they are cut or loaded with more than they were made for, and the papers that go with them.

    `spacing` and `bearing` are as the plans draw them. `ends held` is what keeps their ends from rolling, `spaces` are
    those that they cover.
    """

    kind = "truss"
    spaces: tuple[SpaceId, ...] = ()
    slope: Maybe[Annotated[Slope, Between("0.1:12", "40:12")]] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "20 ft")]] = NOT_GIVEN
    bearing: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN
    ends_held: Maybe[Literal["blocking", "rim or end panels", "as their drawings show", "nothing"]] = NOT_GIVEN
    design: Maybe[TrussDesign] = NOT_GIVEN
    cut: Maybe[bool] = NOT_GIVEN
    load_added: Maybe[bool] = NOT_GIVEN
    approved: Maybe[bool] = NOT_GIVEN
    drawings: Maybe[bool] = NOT_GIVEN
