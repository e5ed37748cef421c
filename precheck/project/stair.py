"""Stairs: flights with their risers, treads and winders, and the landings between them."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.handrail import Handrail, SpaceBeneath, StairLighting
from precheck.project.part import Count, Gap, Number, Part, Side, Size
from precheck.project.space import Rectangle
from precheck.units import Angle, Area, Length, Slope


class Winders(Record):
    """The tapered treads of a turn."""

    kind = "winders"
    count: Maybe[Annotated[Number, Between(1, 30)]] = NOT_GIVEN
    depths_at_walkline: tuple[Annotated[Size, Between("1 in", "4 ft")], ...] = ()
    narrow_end: Maybe[Annotated[Gap, Between("1/8 in", "3 ft")]] = NOT_GIVEN
    walkline_offset: Maybe[Annotated[Size, Between("1 in", "4 ft")]] = NOT_GIVEN


class Nosing(Record):
    """The front edge of the treads."""

    kind = "nosing"
    projection: Maybe[Annotated[Gap, Between("1/16 in", "6 in")]] = NOT_GIVEN
    projections: tuple[Annotated[Gap, Between("1/16 in", "6 in")], ...] = ()
    radius: Maybe[Annotated[Gap, Between("1/64 in", "6 in")]] = NOT_GIVEN
    bevel: Maybe[Annotated[Gap, Between("1/64 in", "6 in")]] = NOT_GIVEN


class Flight(Record):
    """Risers and treads between two landings or floors. Heights and depths are one for all, or a list as measured."""

    kind = "flight"
    risers: Maybe[Annotated[Number, Between(1, 60)]] = NOT_GIVEN
    rise: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    riser: Maybe[Annotated[Size, Between("2 in", "2 ft")]] = NOT_GIVEN
    riser_heights: tuple[Annotated[Size, Between("1/2 in", "2 ft")], ...] = ()
    tread: Maybe[Annotated[Size, Between("2 in", "3 ft")]] = NOT_GIVEN
    tread_depths: tuple[Annotated[Size, Between("2 in", "6 ft")], ...] = ()
    run_available: Maybe[Annotated[Size, Between("2 in", "60 ft")]] = NOT_GIVEN
    headroom: Maybe[Annotated[Size, Between("2 ft", "40 ft")]] = NOT_GIVEN
    opening_intrusion: Maybe[Annotated[Gap, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("6 in", "20 ft")]] = NOT_GIVEN
    width_below_rail: Maybe[Annotated[Size, Between("6 in", "20 ft")]] = NOT_GIVEN
    rails: Maybe[Annotated[Count, Between(1, 4)]] = NOT_GIVEN
    riser_angle: Maybe[Annotated[Angle, Between("1 deg", "89 deg")]] = NOT_GIVEN
    pitch: Maybe[Annotated[Angle, Between("1 deg", "89 deg")]] = NOT_GIVEN
    open_sides: Maybe[Annotated[Count, Between(1, 2)]] = NOT_GIVEN
    handrails: tuple[Handrail, ...] = ()
    walkline_radius: Maybe[Annotated[Size, Between("2 in", "20 ft")]] = NOT_GIVEN
    tread_and_nosing: Maybe[Annotated[Size, Between("2 in", "3 ft")]] = NOT_GIVEN
    tread_width: Maybe[Annotated[Size, Between("2 in", "20 ft")]] = NOT_GIVEN
    open_risers: Maybe[bool] = NOT_GIVEN
    open_riser_gap: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    open_riser_drop: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    tread_slope: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN
    nosing: Maybe[Nosing] = NOT_GIVEN
    winders: Maybe[Winders] = NOT_GIVEN
    uniform: Maybe[bool] = NOT_GIVEN


class StairLanding(Record):
    """A landing of a stair: at its top, its bottom, or between two flights; `drains` where it must shed rain."""

    kind = "landing"
    where: Literal["top", "bottom", "between"]
    depth: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("1 in", "100 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN
    drains: Maybe[bool] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("0.5 sq ft", "2000 sq ft")]] = NOT_GIVEN
    shape: Maybe[Literal["rectangle", "other"]] = NOT_GIVEN
    door_swings_over_steps: Maybe[bool] = NOT_GIVEN
    none: bool = False


class Stair(Part):
    """A stair between two spaces, in flights from the bottom up; `rectangle` and `climbs` place it in plan.

    `no room for lower pitch` says of a stair that stands that the space there is allows no gentler one.
    """

    kind = "stair"
    between: tuple[Side, Side]
    form: Maybe[Literal["straight", "turning", "spiral", "alternating tread", "ship's ladder", "pull-down"]] = NOT_GIVEN
    total_rise: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    risers: Maybe[Annotated[Number, Between(1, 60)]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("6 in", "20 ft")]] = NOT_GIVEN
    headroom: Maybe[Annotated[Size, Between("2 ft", "40 ft")]] = NOT_GIVEN
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    climbs: Maybe[Literal["left", "right", "up the page", "down the page"]] = NOT_GIVEN
    means_of_egress: Maybe[bool] = NOT_GIVEN
    only_way_to_kitchen_or_bath: Maybe[bool] = NOT_GIVEN
    open_sides: Maybe[Annotated[Count, Between(1, 2)]] = NOT_GIVEN
    handrails: tuple[Handrail, ...] = ()
    has_handrail: Maybe[bool] = NOT_GIVEN
    lighting: Maybe[StairLighting] = NOT_GIVEN
    beneath: Maybe[SpaceBeneath] = NOT_GIVEN
    no_room_for_lower_pitch: Maybe[bool] = NOT_GIVEN
    flights: tuple[Flight, ...] = ()
    landings: tuple[StairLanding, ...] = ()

    @classmethod
    def as_meant(cls, written: Any) -> Any:
        """Return the stair with a flight: one whose flights are not drawn apart is one flight."""
        return {**written, "flights": ({},)} if isinstance(written, dict) and not written.get("flights") else written

    @property
    def is_common_form(self) -> bool:
        """Whether the general rules for stairs apply: not a spiral, alternating treads, a ship's or pull-down ladder."""
        return is_missing(self.form) or self.form in ("straight", "turning")


__all__ = ["Flight", "Length", "Nosing", "Stair", "StairLanding", "Winders"]
