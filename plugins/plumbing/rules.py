"""Plumbing: room around fixtures, showers and tubs, standpipes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Area,
    Check,
    Fact,
    Fixture,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Slope,
    Temperature,
    all_of,
    any_of,
    at_least,
    at_most,
    does_not_apply,
    fact,
    first_given,
    if_stated,
    is_missing,
    one_of,
    required,
    rule,
    when_given,
)

SHOWERS = ("shower", "tub with shower")


class RoomLimits(Limits):
    to_wall: Limit[Length]
    to_next: Limit[Length]
    in_front: Limit[Length]


@fact
class FixtureAmong(Fact):
    """A fixture; `beside_new` says that it stays, and that all the others of its room are new."""

    fixture: Fixture
    beside_new: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[FixtureAmong]:
        """Yield every fixture."""
        standing = [one for one in house.subjects(Fixture) if not one.is_removed]
        for fixture in house.subjects(Fixture):
            others = [one for one in standing if one.space == fixture.space and one is not fixture]
            all_new = bool(others) and all(one.phase == "new" for one in others)
            yield cls(fixture, fixture, fixture.is_existing and all_new)

    @property
    def phase(self) -> Any:
        """``altered`` for an old one whose next fixture is new."""
        return "altered" if self.beside_new else self.fixture.phase


@rule("plumbing.fixture-room", stage="rough-in")
def fixture_room(among: FixtureAmong, limit: RoomLimits) -> Check:
    """Toilets, bidets and lavatories have their side and front clearances; an old one from the new one beside it."""
    fixture = among.fixture
    if fixture.what not in ("toilet", "bidet", "lavatory"):
        return does_not_apply("the rule is about toilets, bidets and lavatories")
    apart = if_stated(fixture.to_next_fixture, at_least, limit.to_next)
    beside = at_least(fixture.to_wall, limit.to_wall, "from the center line")
    front = at_least(fixture.clear_in_front, limit.in_front)
    free = all_of(
        apart.or_fix(
            lambda: f"set the fixtures {limit.to_next.value} apart, center to center",
            lambda: [NewValue(fixture, "to_next_fixture", limit.to_next.value)],
        ),
        front.or_fix(
            lambda: f"keep {limit.in_front.value} clear in front of the fixture",
            lambda: [NewValue(fixture, "clear_in_front", limit.in_front.value)],
        ),
    )
    if among.beside_new:
        return free
    walled = beside.or_fix(
        lambda: f"move the fixture {limit.to_wall.value} from the wall",
        lambda: [NewValue(fixture, "to_wall", limit.to_wall.value)],
    )
    return all_of(walled, free)


class ShowerLimits(Limits):
    area: Limit[Area]
    side: Limit[Length]
    narrow_side: Limit[Length]
    area_when_narrow: Limit[Area]
    full_size_height: Limit[Length]
    opening: Limit[Length]


def _squared(fixture: Fixture, side: Length) -> list[NewValue]:
    """Return the sides that are too short made longer; a floor area that is stated has to be measured anew."""
    sides = (("inside_width", fixture.inside_width), ("inside_depth", fixture.inside_depth))
    short = [NewValue(fixture, name, side) for name, own in sides if is_missing(own) or own < side]
    return short if is_missing(fixture.floor_area) else []


@rule("plumbing.shower-size", stage="rough-in")
def shower_size(fixture: Fixture, limit: ShowerLimits) -> Check:
    """A shower has its minimum floor area and size; a narrower one needs more area.

    One that takes the place of a tub may keep the tub's size.
    """
    if fixture.what != "shower":
        return does_not_apply("not a shower")
    if fixture.replaces_tub is True:
        return does_not_apply("it takes the place of a tub, whose size it may keep")
    drawn = when_given(lambda width, depth: width * depth, fixture.inside_width, fixture.inside_depth)
    least = when_given(min, fixture.floor_area, drawn)
    area = first_given(least, fixture.floor_area, drawn)
    side = when_given(min, fixture.inside_width, fixture.inside_depth)
    usual = all_of(at_least(area, limit.area), at_least(side, limit.side))
    narrow = all_of(at_least(area, limit.area_when_narrow), at_least(side, limit.narrow_side))
    return all_of(
        any_of(usual, narrow).or_fix(
            f"make it {limit.side.value} square or larger", lambda: _squared(fixture, limit.side.value)
        ),
        does_not_apply("floor area: not stated" if is_missing(fixture.floor_area) else "floor area: counted"),
        if_stated(fixture.size_held_to, at_least, limit.full_size_height),
        if_stated(fixture.opening, at_least, limit.opening),
    )


class FinishLimits(Limits):
    maximum_temperature: Limit[Temperature]
    doors: Limit[tuple[str, ...]]
    minimum_slope: Limit[Slope]
    maximum_slope: Limit[Slope]


@rule("plumbing.shower-finish", stage="final")
def shower_finish(fixture: Fixture, limit: FinishLimits) -> Check:
    """A shower has an anti-scald valve, a door that opens out, and a floor that slopes to the drain."""
    if fixture.what not in SHOWERS:
        return does_not_apply("not a shower")
    swing = if_stated(fixture.door, one_of, limit.doors).or_fix(
        "change the swing of the shower door to open out", lambda: [NewValue(fixture, "door", "opens out")]
    )
    sloped = all_of(
        at_least(fixture.floor_slope, limit.minimum_slope), at_most(fixture.floor_slope, limit.maximum_slope)
    )
    built = fixture.what == "shower" and fixture.site_built_floor is True
    unsaid = fixture.what == "shower" and is_missing(fixture.site_built_floor)
    floor = sloped if built else does_not_apply("site-built floor: not stated" if unsaid else "no site-built floor")
    return all_of(if_stated(fixture.valve_limit, at_most, limit.maximum_temperature), swing, floor)


class SupplyLimits(Limits):
    given: Limit[bool]


@rule("plumbing.hot-and-cold", stage="rough-in")
def hot_and_cold(fixture: Fixture, limit: SupplyLimits) -> Check:
    """A fixture that is not a toilet has hot and cold water, where the plans say of it what it has.

    Where they do not, the pipes that serve its room are asked for.
    """
    if fixture.what == "toilet":
        return does_not_apply("a toilet takes cold water alone")
    return if_stated(fixture.hot_and_cold, required, limit.given).or_fix(
        "run hot and cold water to the fixture", lambda: [NewValue(fixture, "hot_and_cold", "yes")]
    )


class StandpipeLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]


@rule("plumbing.standpipe", stage="rough-in")
def standpipe(fixture: Fixture, limit: StandpipeLimits) -> Check:
    """A clothes washer standpipe has its height above the trap."""
    if fixture.what != "clothes washer":
        return does_not_apply("not a clothes washer")
    low, high = (
        if_stated(fixture.standpipe, at_least, limit.minimum),
        if_stated(fixture.standpipe, at_most, limit.maximum),
    )
    return all_of(
        low.or_fix(
            lambda: f"use a {limit.minimum.value} standpipe",
            lambda: [NewValue(fixture, "standpipe", limit.minimum.value)],
        ),
        high.or_fix(
            lambda: f"use a {limit.maximum.value} standpipe",
            lambda: [NewValue(fixture, "standpipe", limit.maximum.value)],
        ),
    )
