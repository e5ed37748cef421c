"""Permits: what work is free of one, which ones the work at hand needs, and how long one lasts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from precheck import (
    Appliance,
    Area,
    Check,
    Duct,
    Excavation,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Project,
    Ratio,
    SmallWork,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    fact,
    if_stated,
    is_missing,
    less_than,
    met,
    required,
    rule,
    unsettled,
    when_given,
)

MASONRY = ("masonry", "concrete", "stone")


class ExemptLimits(Limits):
    accessory_area: Limit[Area]
    accessory_stories: Limit[int]
    fence_height: Limit[Length]
    masonry_fence_height: Limit[Length]
    retaining_height: Limit[Length]
    deck_area: Limit[Area]
    deck_height: Limit[Length]
    awning_projection: Limit[Length]
    tank_gallons: Limit[int]
    tank_height_to_width: Limit[Ratio]
    pool_depth: Limit[Length]
    volts: Limit[int]
    watts: Limit[int]
    kinds: Limit[tuple[str, ...]]
    otherwise: Limit[bool]


@rule("permits.exempt", stage="intake")
def exempt(work: SmallWork, limit: ExemptLimits) -> Check:
    """Small work may go without a building permit; all other work has one applied for.

    Work that is exempt still meets the code, zoning and flood rules, and may need permits of the trades.
    """
    if work.what in (limit.kinds.value or ()):
        return met("work of this kind needs no building permit")
    applied = required(work.permit, limit.otherwise)
    small = EXEMPT.get(work.what)
    if small is None or work.permit is True:
        return applied
    return any_of(small(work, limit), applied).or_fix("apply for a permit, or keep to the size that is exempt")


def _not(fact: bool | Missing, limit: Limit[Any], what: str) -> Check:
    """Check a fact, on which hangs too what `limit` exempts, is not so; `what` is exempt."""
    return unsettled(limit) or decide(fact, broken(f"no {what}"), met(what)).citing(limit)


def _accessory(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(
        at_most(work.area, limit.accessory_area),
        at_most(work.stories, limit.accessory_stories),
        _not(work.attached, limit.accessory_area, "structure that stands apart from the house"),
    )


def _retaining(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(
        at_most(work.height, limit.retaining_height),
        _not(work.surcharge, limit.retaining_height, "wall without surcharge"),
    )


def _deck(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(
        at_most(work.area, limit.deck_area),
        at_most(work.height, limit.deck_height),
        _not(work.attached, limit.deck_area, "deck that stands apart from the house"),
        _not(work.at_egress_door, limit.deck_area, "deck away from the required egress door"),
    )


def _awning(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(
        at_most(work.projection, limit.awning_projection),
        _not(work.extra_support, limit.awning_projection, "awning that the wall alone supports"),
    )


def _fence(work: SmallWork, limit: ExemptLimits) -> Check:
    usual = at_most(work.height, limit.fence_height)
    if limit.masonry_fence_height.value is None:
        return usual
    is_masonry = when_given(lambda material: material in MASONRY, work.material)
    return decide(is_masonry, at_most(work.height, limit.masonry_fence_height), usual)


def _tank(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(at_most(work.gallons, limit.tank_gallons), at_most(work.height_to_width, limit.tank_height_to_width))


def _wiring(work: SmallWork, limit: ExemptLimits) -> Check:
    return all_of(less_than(work.volts, limit.volts), at_most(work.watts, limit.watts))


EXEMPT: dict[str, Callable[[SmallWork, ExemptLimits], Check]] = {
    "accessory structure": _accessory,
    "fence": _fence,
    "retaining wall": _retaining,
    "deck": _deck,
    "awning": _awning,
    "water tank": _tank,
    "pool": lambda work, limit: less_than(work.height, limit.pool_depth),
    "low-voltage wiring": _wiring,
}


@fact
class NeededPermit(Fact):
    """A permit that the work at hand needs, and the part because of which it does."""

    project: Project
    permit: str
    why: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[NeededPermit]:
        """Yield each permit once, with the first part that calls for it."""
        changed = [p for p in house.project.parts if p.phase in ("new", "altered", "removed") and p.kind not in PAPER]
        for permit, calls_for in TRADES.items():
            part = next((part for part in changed if calls_for(part)), None)
            if part is not None:
                yield cls(house.project, house.project, permit, f"{part.label} is {part.phase}")

    @property
    def label(self) -> str:
        """The permit."""
        return f"{self.permit} permit"


PAPER = frozenset(
    ("sheet", "drawing note", "schedule row", "lot line", "setback", "work", "story", "floor", "parking stall", "driveway",
     "yard wall", "excavation")
)  # fmt: skip
WIRED = frozenset(("receptacle", "circuit", "light", "lighting outlet", "panel", "smoke alarm", "alarm"))


def _is_gas(part: Any) -> bool:
    return isinstance(part, Appliance) and part.fuel in ("natural gas", "propane")


def _heats(part: Any) -> bool:
    return isinstance(part, Appliance) and part.what in ("furnace", "boiler", "air handler", "room heater", "fireplace")


TRADES: dict[str, Callable[[Any], bool]] = {
    "building": lambda _: True,
    "electrical": lambda part: part.kind in WIRED,
    "plumbing": lambda part: part.kind == "fixture" or (isinstance(part, Appliance) and part.what == "water heater"),
    "mechanical": lambda part: isinstance(part, Duct) or _heats(part),
    "gas": _is_gas,
}


class NeededLimits(Limits):
    applied_for: Limit[bool]


@rule("permits.needed", stage="intake")
def needed(permit: NeededPermit, limit: NeededLimits) -> Check:
    """The permits that are listed hold one for each trade that the work takes, and the building permit.

    Where none are listed, the works ask for those of the trades; the building permit is what the drawings go in for.
    """
    submittal = permit.project.submittal
    if is_missing(submittal) or not submittal.permits:
        return does_not_apply("no permits are listed; the works that take one ask for it")
    check = required(permit.permit in submittal.permits, limit.applied_for).because(permit.why)
    return check.or_fix(f"apply for the {permit.permit} permit too")


class LifeLimits(Limits):
    days_to_start: Limit[int]
    days_idle: Limit[int]


@rule("permits.life", stage="intake")
def life(project: Project, limit: LifeLimits) -> Check:
    """A permit expires when work does not start in time, or stops for too long."""
    permit = project.submittal
    if is_missing(permit) or is_missing(permit.issued_on):
        return does_not_apply("no permit is issued")
    days = when_given(lambda start, issue: (start - issue).days, permit.started_on, permit.issued_on)
    started = at_most(days, limit.days_to_start, lambda: f"issued {permit.issued_on}, begun {permit.started_on}")
    idle = if_stated(permit.idle_days, at_most, limit.days_idle)
    not_begun = does_not_apply("the work has not begun") if is_missing(permit.started_on) else started
    return all_of(not_begun, idle)


class FenceLimits(Limits):
    deeper_than: Limit[Length]
    height: Limit[Length]


@rule("permits.excavation-fence", stage="foundation")
def excavation_fence(pit: Excavation, limit: FenceLimits) -> Check:
    """Where the jurisdiction says so, a fence stands around a pit or trench that is deep while it is open."""
    deep = when_given(lambda own, most: most is None or own > most, pit.depth, limit.deeper_than.value)
    fence = at_least(pit.fence_height, limit.height).or_fix(lambda: f"put a {limit.height.value} fence around it")
    return decide(deep, fence, does_not_apply("it is not so deep"))
