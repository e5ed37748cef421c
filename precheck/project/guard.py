"""Guards at open sides, and ramps."""

from __future__ import annotations

from typing import Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.handrail import Handrail
from precheck.project.lumber import Nominal
from precheck.project.part import Count, Gap, Part, Side, Size
from precheck.units import Force, Slope


class WalkedOn(Reference):
    """The id of what has an open side: a space, a stair, a ramp, or a door with a landing outside."""

    __slots__ = ()
    kinds = ("space", "stair", "ramp", "door")


class GuardPost(Record):
    """A wood post of a guard; `above fixing` is from its upper fastener up to the top of the guard."""

    kind = "guard post"
    size: Maybe[Nominal] = NOT_GIVEN
    species: Maybe[str] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    above_fixing: Maybe[Size] = NOT_GIVEN
    wet: Maybe[bool] = NOT_GIVEN
    incised: Maybe[bool] = NOT_GIVEN


class GuardFixing(Record):
    """How a guard is fixed: the loads that it holds with its posts and their fixings, and the document that shows it.

    On a deck the posts are fixed `to joists` or blocking, and not to the rim alone; `notched` wood posts are cut there.
    `post size` is their nominal size, such as 4x4.
    """

    kind = "fixing"
    top_load: Maybe[Force] = NOT_GIVEN
    infill_load: Maybe[Force] = NOT_GIVEN
    document: Maybe[str] = NOT_GIVEN
    to_joists: Maybe[bool] = NOT_GIVEN
    wood_posts: Maybe[bool] = NOT_GIVEN
    post_size: Maybe[str] = NOT_GIVEN
    notched: Maybe[bool] = NOT_GIVEN
    post: Maybe[GuardPost] = NOT_GIVEN


class Guard(Part):
    """The guard, or the lack of one (`none`), along an open side; `drop` is to the floor or grade below it."""

    kind = "guard"
    along: WalkedOn
    level: Maybe[bool] = NOT_GIVEN
    drop: Maybe[Gap] = NOT_GIVEN
    drop_measured_out: Maybe[Gap] = NOT_GIVEN
    none: bool = False
    what: Maybe[Literal["guard", "wall", "insect screen"]] = NOT_GIVEN
    height: Maybe[Size] = NOT_GIVEN
    opening: Maybe[Gap] = NOT_GIVEN
    triangle_opening: Maybe[Gap] = NOT_GIVEN
    serves_as_handrail: Maybe[bool] = NOT_GIVEN
    glass: Maybe[Literal["none", "infill", "structural panels"]] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    laminated: Maybe[bool] = NOT_GIVEN
    top_rail: Maybe[bool] = NOT_GIVEN
    panels_under_rail: Maybe[Count] = NOT_GIVEN
    fixing: Maybe[GuardFixing] = NOT_GIVEN


class RampLanding(Record):
    """A landing of a ramp."""

    kind = "landing"
    where: Literal["top", "bottom", "door", "turn"]
    none: bool = False
    length: Maybe[Size] = NOT_GIVEN
    width: Maybe[Size] = NOT_GIVEN


class Ramp(Part):
    """A ramp between two spaces, or between a space and the outside."""

    kind = "ramp"
    between: tuple[Side, Side]
    width: Maybe[Size] = NOT_GIVEN
    slope: Maybe[Slope] = NOT_GIVEN
    rise: Maybe[Size] = NOT_GIVEN
    run: Maybe[Size] = NOT_GIVEN
    serves_required_egress: Maybe[bool] = NOT_GIVEN
    site_too_steep: Maybe[bool] = NOT_GIVEN
    open_sides: Maybe[Count] = NOT_GIVEN
    turns: Maybe[Count] = NOT_GIVEN
    landings: tuple[RampLanding, ...] = ()
    handrails: tuple[Handrail, ...] = ()
    has_handrail: Maybe[bool] = NOT_GIVEN
