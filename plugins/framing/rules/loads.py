"""Loads: live loads by use, attics by how they are reached, dead loads from layers, and where prescriptive design ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.framing.drawn.loads import weight_of
from precheck_plugins.framing.drawn.setting import STAIR_ATTIC, use_of

from precheck import (
    Carried,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Pressure,
    Space,
    Speed,
    all_of,
    at_least,
    at_most,
    does_not_apply,
    fact,
    is_missing,
    look_at,
    met,
    not_shown,
    reads,
    rule,
)

ROOFING = ("rafter", "ridge beam", "hip or valley")


class LiveLimits(Limits):
    bedroom: Limit[Pressure]
    other_room: Limit[Pressure]
    attic_without_storage: Limit[Pressure]
    attic_with_limited_storage: Limit[Pressure]
    habitable_attic: Limit[Pressure]
    attic_with_fixed_stair: Limit[Pressure]
    stair: Limit[Pressure]
    deck: Limit[Pressure]
    garage: Limit[Pressure]


@fact
class FloorLoad(Fact):
    """A load on a member, with the space that it is of where one is named."""

    load: Carried
    space: Space | None
    use: Any
    reached_by_stair: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[FloorLoad]:
        """Yield every load that is spread over a floor, ceiling or deck."""
        for load in house.subjects(Carried):
            if load.use != "roof" and load.owner.role not in ROOFING and _is_spread(load):
                space = None if is_missing(load.space) else house.space(load.space)
                use = use_of(load, house.project)
                yield cls(load, load, space, use, use == STAIR_ATTIC and space is not None)


def _is_spread(load: Carried) -> bool:
    return (
        not load.is_by_foot_or_point and not all(map(is_missing, (load.use, load.space, load.live, load.dead)))
    ) or bool(load.layers)


@rule("loads.live")
def live(floor: FloorLoad, limit: LiveLimits) -> Check:
    """The live load that a floor is drawn for is at least that of its use.

    A fixed stair to an attic makes it 30 psf, whatever is stored there.
    """
    if is_missing(floor.use):
        return not_shown(floor.load.absent("use"))
    check = at_least(floor.load.live, getattr(limit, floor.use.replace(" ", "_")))
    return check.because("a fixed stair reaches the attic") if floor.reached_by_stair else check


class AtticLimits(Limits):
    storage_height: Limit[Length]
    without: Limit[Pressure] = reads("loads.live.attic-without-storage")
    limited: Limit[Pressure] = reads("loads.live.attic-with-limited-storage")


@rule("loads.attic-storage")
def attic_storage(floor: FloorLoad, limit: AtticLimits) -> Check:
    """An attic where storage fits is not drawn as one without: its clear height decides.

    Height is taken from the space where it gives one. Under the limit the lesser load will do.
    """
    if floor.use != "attic without storage":
        return does_not_apply("it is not drawn as an attic without storage")
    if floor.space is None:
        return not_shown(floor.load.absent("space"))
    height = floor.space.ceiling.height if not is_missing(floor.space.ceiling) else floor.space.absent("ceiling height")
    if is_missing(height) or limit.storage_height.value is None:
        return not_shown(height) if is_missing(height) else does_not_apply("no height is set")
    if height <= limit.storage_height.value:
        return met(f"clear height of {height} is not over {limit.storage_height.value}")
    return at_least(floor.load.live, limit.limited).because(f"storage fits: {height} clear height")


class DeadLimits(Limits):
    weights: Limit[Any]


@rule("loads.dead")
def dead(load: Carried, limit: DeadLimits) -> Check:
    """The dead load that a member is drawn for is no less than its layers weigh.

    Weights of usual materials are good practice, for an inch of thickness. The framing's own weight comes on top.
    """
    if not load.layers or is_missing(load.dead) or limit.weights.value is None:
        return does_not_apply("dead load and layers are not both given")
    weight = weight_of(load.layers, limit.weights.value)
    if is_missing(weight):
        return not_shown(weight)
    bound = replace(limit.weights, value=Pressure(Fraction(round(weight * 100), 100)))
    return at_least(load.dead, bound).because("the layers weigh that without the framing")


@fact
class FramedHouse(Fact):
    """A project that draws framing."""

    @classmethod
    def found_in(cls, house: House) -> Iterator[FramedHouse]:
        """Yield the project where it draws any member that is not there today."""
        if any(m.phase != "existing" and not m.is_removed for m in house.subjects(Member)):
            yield cls(house.project)


class SiteLimits(Limits):
    snow: Limit[Pressure]
    wind: Limit[Any]
    wind_itself: Limit[Any]
    ground_snow_load: Limit[Pressure] = reads("criteria.ground-snow-load")
    ultimate_wind_speed: Limit[Speed] = reads("criteria.ultimate-wind-speed")
    seismic: Limit[Any] = reads("loads.site.seismic")
    seismic_design_category: Limit[Any] = reads("criteria.seismic-design-category")


@rule("loads.site")
def site(framed: FramedHouse, limit: SiteLimits, house: House) -> Check:
    """Snow, wind and earthquake of the place are within what prescriptive framing covers; beyond, it is engineered."""
    return all_of(
        _within(house.criterion(limit.ground_snow_load.value, "ground_snow_load"), limit.snow, "ground snow load"),
        _wind(house.criterion(limit.ultimate_wind_speed.value, "ultimate_wind_speed"), limit),
        _category(house.criterion(limit.seismic_design_category.value, "seismic_design_category"), limit.seismic),
    )


def _wind(value: Any, limit: SiteLimits) -> Check:
    if value is not None and not is_missing(value) and value == limit.wind.value and limit.wind_itself.value is None:
        return look_at(Look.OFFICIAL, f"wind of {value} is engineered where a map of the code marks it")
    return _within(value, limit.wind, "ultimate wind speed")


def _within(value: Any, limit: Limit[Any], what: str) -> Check:
    if value is None or limit.value is None:
        return does_not_apply(f"no {what} is set")
    if is_missing(value) or value <= limit.value:
        return at_most(value, limit)
    return look_at(
        Look.ENGINEER,
        f"{what} of {value} is {value - limit.value} over the {limit.value} that prescriptive framing covers",
    )


def _category(value: Any, limit: Limit[Any]) -> Check:
    if is_missing(value):
        return not_shown(value)
    if value is None or limit.value is None:
        return does_not_apply("no seismic design category is set")
    if str(value) in limit.value:
        return look_at(Look.ENGINEER, f"seismic design category {value} is outside prescriptive framing")
    return met(f"seismic design category {value}")
