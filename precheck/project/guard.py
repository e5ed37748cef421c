"""Guards at open sides, and ramps."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.handrail import Handrail
from precheck.project.lumber import Nominal
from precheck.project.part import Count, Gap, Number, Part, Side, Size
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
    above_fixing: Maybe[Annotated[Size, Between("1 in", "15 ft")]] = NOT_GIVEN
    wet: Maybe[bool] = NOT_GIVEN
    incised: Maybe[bool] = NOT_GIVEN


class GuardFixing(Record):
    """How a guard is fixed: the loads that it holds with its posts and their fixings, and the document that shows it.

    On a deck the posts are fixed `to joists` or blocking, and not to the rim alone; `notched` wood posts are cut there.
    `post size` is their nominal size, such as 4x4.
    """

    kind = "fixing"
    top_load: Maybe[Annotated[Force, Between("1 lb", "10000 lb")]] = NOT_GIVEN
    infill_load: Maybe[Annotated[Force, Between("1 lb", "10000 lb")]] = NOT_GIVEN
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
    drop: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    drop_measured_out: Maybe[Annotated[Gap, Between("1 in", "20 ft")]] = NOT_GIVEN
    none: bool = False
    what: Maybe[Literal["guard", "wall", "insect screen"]] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("2 in", "12 ft")]] = NOT_GIVEN
    opening: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN
    triangle_opening: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN
    serves_as_handrail: Maybe[bool] = NOT_GIVEN
    glass: Maybe[Literal["none", "infill", "structural panels"]] = NOT_GIVEN
    safety_glazing: Maybe[bool] = NOT_GIVEN
    laminated: Maybe[bool] = NOT_GIVEN
    top_rail: Maybe[bool] = NOT_GIVEN
    panels_under_rail: Maybe[Annotated[Number, Between(1, 100)]] = NOT_GIVEN
    fixing: Maybe[GuardFixing] = NOT_GIVEN


class RampLanding(Record):
    """A landing of a ramp."""

    kind = "landing"
    where: Literal["top", "bottom", "door", "turn"]
    none: bool = False
    length: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN


class Ramp(Part):
    """A ramp between two spaces, or between a space and the outside."""

    kind = "ramp"
    between: tuple[Side, Side]
    width: Maybe[Annotated[Size, Between("6 in", "40 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.1%", "100%")]] = NOT_GIVEN
    rise: Maybe[Annotated[Size, Between("1/4 in", "20 ft")]] = NOT_GIVEN
    run: Maybe[Annotated[Size, Between("3 in", "200 ft")]] = NOT_GIVEN
    serves_required_egress: Maybe[bool] = NOT_GIVEN
    site_too_steep: Maybe[bool] = NOT_GIVEN
    open_sides: Maybe[Annotated[Count, Between(1, 2)]] = NOT_GIVEN
    turns: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    landings: tuple[RampLanding, ...] = ()
    handrails: tuple[Handrail, ...] = ()
    has_handrail: Maybe[bool] = NOT_GIVEN
