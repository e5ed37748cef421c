"""What members carry and bear on."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.part import Gap, LayerText, Level, LineWeight, Load, Size, SpaceId, Weight

LoadUse = Literal[
    "bedroom", "other room", "attic without storage", "attic with limited storage", "habitable attic",
    "attic with fixed stair", "stair", "deck", "garage", "roof",
]  # fmt: skip


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
    support). It lies on all of the member, or `from` one place `to` another, likewise from its first support. What is
    called roof is snow or roof live load. `masonry veneer` says that it is brick or stone, which must not crack. What other
    members that bear on it bring, and what it weighs itself, is worked out and not written here.
    """

    kind = "load"
    use: Maybe[LoadUse] = NOT_GIVEN
    space: Maybe[SpaceId] = NOT_GIVEN
    live: Maybe[Annotated[Load, Between("0.5 psf", "500 psf")]] = NOT_GIVEN
    dead: Maybe[Annotated[Load, Between("0.5 psf", "500 psf")]] = NOT_GIVEN
    layers: tuple[LayerText, ...] = ()
    tributary: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    dead_per_foot: Maybe[Annotated[LineWeight, Between("2 plf", "10000 plf")]] = NOT_GIVEN
    live_per_foot: Maybe[Annotated[LineWeight, Between("2 plf", "10000 plf")]] = NOT_GIVEN
    roof_per_foot: Maybe[Annotated[LineWeight, Between("2 plf", "10000 plf")]] = NOT_GIVEN
    masonry_veneer: Maybe[bool] = NOT_GIVEN
    from_: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    to: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    at: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    point_dead: Maybe[Annotated[Weight, Between("10 lb", "200000 lb")]] = NOT_GIVEN
    point_live: Maybe[Annotated[Weight, Between("10 lb", "200000 lb")]] = NOT_GIVEN
    point_roof: Maybe[Annotated[Weight, Between("10 lb", "200000 lb")]] = NOT_GIVEN

    @property
    def is_by_foot_or_point(self) -> bool:
        """Whether all of it is given along the member or at a point, and none of it over an area."""
        area = (self.live, self.dead, self.tributary)
        if self.layers or not all(map(is_missing, area)):
            return False
        varying = (self.live_per_foot, self.roof_per_foot, self.point_live, self.point_roof)
        named = not (is_missing(self.use) and is_missing(self.space))
        stated = varying if named else (*varying, self.dead_per_foot, self.point_dead)
        return not all(map(is_missing, stated))


class Bearing(Record):
    """What one end of a member (or its foot) bears on, and how.

    `on` names it; `onto` says what it is where it has no id. `at` is the distance from the first support of the
    bearing member to where this end lands; a row of members lands on all of it, or from `at` to `to`. An end that lands
    beside the middle of a post is `off center` by so much, `across` the depth or the breadth of the post. `hold down` is
    what a device holds this end down with, where loads elsewhere lift it.
    """

    kind = "bearing"
    on: Maybe[BearerId] = NOT_GIVEN
    onto: Maybe[
        Literal["bearing wall", "foundation wall", "footing", "pier", "slab", "existing framing", "ridge", "nothing"]
    ] = NOT_GIVEN
    length: Maybe[Annotated[Size, Between("1/16 in", "12 ft")]] = NOT_GIVEN
    material: Maybe[Literal["wood", "metal", "masonry", "concrete"]] = NOT_GIVEN
    hanger: Maybe[bool] = NOT_GIVEN
    at: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    to: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    off_center: Maybe[Annotated[Gap, Between("1/64 in", "3 ft")]] = NOT_GIVEN
    across: Maybe[Literal["depth", "breadth"]] = NOT_GIVEN
    hold_down: Maybe[Annotated[Weight, Between("1 lb", "40000 lb")]] = NOT_GIVEN


__all__ = ["BearerId", "Bearing", "Carried", "LoadUse", "MemberId"]
