"""Stairs: flights with their risers, treads and winders, and the landings between them."""

from __future__ import annotations

from typing import Any, Literal

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.handrail import Handrail, SpaceBeneath, StairLighting
from precheck.project.part import Count, Gap, Part, Side, Size
from precheck.project.space import Rectangle
from precheck.units import Angle, Area, Length, Slope


class Winders(Record):
    """The tapered treads of a turn."""

    kind = "winders"
    count: Maybe[Count] = NOT_GIVEN
    depths_at_walkline: tuple[Size, ...] = ()
    narrow_end: Maybe[Gap] = NOT_GIVEN
    walkline_offset: Maybe[Size] = NOT_GIVEN


class Nosing(Record):
    """The front edge of the treads."""

    kind = "nosing"
    projection: Maybe[Gap] = NOT_GIVEN
    projections: tuple[Gap, ...] = ()
    radius: Maybe[Gap] = NOT_GIVEN
    bevel: Maybe[Gap] = NOT_GIVEN


class Flight(Record):
    """Risers and treads between two landings or floors. Heights and depths are one for all, or a list as measured."""

    kind = "flight"
    risers: Maybe[Count] = NOT_GIVEN
    rise: Maybe[Size] = NOT_GIVEN
    riser: Maybe[Size] = NOT_GIVEN
    riser_heights: tuple[Size, ...] = ()
    tread: Maybe[Size] = NOT_GIVEN
    tread_depths: tuple[Size, ...] = ()
    run_available: Maybe[Size] = NOT_GIVEN
    headroom: Maybe[Size] = NOT_GIVEN
    opening_intrusion: Maybe[Gap] = NOT_GIVEN
    width: Maybe[Size] = NOT_GIVEN
    width_below_rail: Maybe[Size] = NOT_GIVEN
    rails: Maybe[Count] = NOT_GIVEN
    riser_angle: Maybe[Angle] = NOT_GIVEN
    pitch: Maybe[Angle] = NOT_GIVEN
    open_sides: Maybe[Count] = NOT_GIVEN
    handrails: tuple[Handrail, ...] = ()
    walkline_radius: Maybe[Size] = NOT_GIVEN
    tread_and_nosing: Maybe[Size] = NOT_GIVEN
    tread_width: Maybe[Size] = NOT_GIVEN
    open_risers: Maybe[bool] = NOT_GIVEN
    open_riser_gap: Maybe[Gap] = NOT_GIVEN
    open_riser_drop: Maybe[Gap] = NOT_GIVEN
    tread_slope: Maybe[Slope] = NOT_GIVEN
    nosing: Maybe[Nosing] = NOT_GIVEN
    winders: Maybe[Winders] = NOT_GIVEN
    uniform: Maybe[bool] = NOT_GIVEN


class StairLanding(Record):
    """A landing of a stair: at its top, its bottom, or between two flights; `drains` where it must shed rain."""

    kind = "landing"
    where: Literal["top", "bottom", "between"]
    depth: Maybe[Size] = NOT_GIVEN
    width: Maybe[Size] = NOT_GIVEN
    slope: Maybe[Slope] = NOT_GIVEN
    drains: Maybe[bool] = NOT_GIVEN
    area: Maybe[Area] = NOT_GIVEN
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
    total_rise: Maybe[Size] = NOT_GIVEN
    risers: Maybe[Count] = NOT_GIVEN
    width: Maybe[Size] = NOT_GIVEN
    headroom: Maybe[Size] = NOT_GIVEN
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    climbs: Maybe[Literal["left", "right", "up the page", "down the page"]] = NOT_GIVEN
    means_of_egress: Maybe[bool] = NOT_GIVEN
    only_way_to_kitchen_or_bath: Maybe[bool] = NOT_GIVEN
    open_sides: Maybe[Count] = NOT_GIVEN
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
