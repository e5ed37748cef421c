"""Carbon monoxide alarms: what makes them due, and in which places."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.alarms.places import Bedroom, alarms_in, choices, enough, if_due, if_due_in
from precheck_plugins.alarms.rules.smoke import outside, shown
from precheck_plugins.alarms.stories import LivedInStory

from precheck import (
    Appliance,
    Check,
    Door,
    DwellingUnit,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Space,
    broken,
    does_not_apply,
    is_missing,
    met,
    missing_of,
    not_shown,
    reads,
    rule,
)

GAS = "carbon monoxide"
FUEL, GARAGE = "fuel-burning appliance", "attached garage"
OUTDOOR = frozenset(("porch", "deck", "carport"))


class DueLimits(Limits):
    sources: Limit[tuple[str, ...]]
    exempt_work: Limit[tuple[str, ...]]
    added_bedroom: Limit[bool]
    stories: Limit[int]
    open_sides: Limit[int] = reads("separation.open-sides.minimum")


@rule("alarms.carbon-monoxide-due", stage="intake", existing="must comply")
def carbon_monoxide_due(unit: DwellingUnit, limit: DueLimits) -> Check:
    """A dwelling that burns fuel or has an attached garage with a door into it has carbon monoxide alarms.

    In an existing dwelling the work makes them due, as it does smoke alarms. A garage that the work makes into rooms no
    longer counts; a fuel-burning appliance that stays does.
    """
    return _if_due(unit, limit, shown(unit, GAS))


@rule("alarms.fuel-agrees", stage="intake", existing="must comply")
def fuel_agrees(appliance: Appliance, house: House) -> Check:
    """No appliance burns fuel in a house that is said to burn none; one that may burn it is asked for its fuel there."""
    dwelling = house.project.dwelling
    stated = dwelling if is_missing(dwelling) else dwelling.fuel_burning_appliance
    burns = appliance.burns_fuel
    if burns is False or is_missing(stated):
        return does_not_apply("whether the house burns fuel is said once, or the appliance burns none")
    if stated:
        return met("the house is said to burn fuel")
    if is_missing(burns):
        return not_shown(burns)
    return broken(f"the house is said to burn no fuel, and {appliance.label} burns {appliance.fuel}").or_fix(
        "make the sheets agree: correct `fuel burning appliance`, or the fuel"
    )


class OutsideLimits(Limits):
    minimum: Limit[int]
    within: Limit[Length]
    sources: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.sources")
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.carbon-monoxide-due.added-bedroom")
    stories: Limit[int] = reads("alarms.carbon-monoxide-due.stories")
    open_sides: Limit[int] = reads("separation.open-sides.minimum")


@rule("alarms.carbon-monoxide-outside-bedroom", stage="rough-in", existing="must comply")
def carbon_monoxide_outside(need: Bedroom, limit: OutsideLimits) -> Check:
    """Just outside each sleeping area there is a carbon monoxide alarm."""
    check = outside(need, GAS, limit.minimum, limit.within)
    return need.in_unit(lambda unit: _if_due(unit, limit, check))


class StoryLimits(Limits):
    minimum: Limit[int]
    sources: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.sources")
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.carbon-monoxide-due.added-bedroom")
    stories: Limit[int] = reads("alarms.carbon-monoxide-due.stories")
    open_sides: Limit[int] = reads("separation.open-sides.minimum")


@rule("alarms.carbon-monoxide-on-each-story", stage="rough-in", existing="must comply")
def carbon_monoxide_on_each_story(need: LivedInStory, limit: StoryLimits) -> Check:
    """Each story has a carbon monoxide alarm where the jurisdiction asks for it; the model code does not."""
    if limit.minimum.value is None:
        return does_not_apply(limit.minimum.why_void or "the adopted code does not ask for it")
    if need.story is None:
        return not_shown(need.house.project.absent("stories"))
    alarms = alarms_in(need.house, need.spaces)
    found = enough(need.house, alarms, GAS, limit.minimum, f"add a carbon monoxide alarm on {need.label}")
    return need.in_unit(lambda unit: _if_due(unit, limit, need.if_known(found)))


class InRoomLimits(Limits):
    minimum: Limit[int]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.carbon-monoxide-due.added-bedroom")


@rule("alarms.carbon-monoxide-in-bedroom", stage="rough-in", existing="must comply")
def carbon_monoxide_in(need: Bedroom, limit: InRoomLimits) -> Check:
    """A bedroom with a fuel-burning appliance in it, or in the bathroom entered from it, has an alarm inside."""
    burning = [a for a in appliances(need.house) if a.space in {s.id for s in (need.room, *need.bathrooms)}]
    if not burning:
        return does_not_apply("no appliance is drawn in the room or its bathroom")
    unknown = missing_of(*(a.burns_fuel for a in burning))
    if not any(a.burns_fuel is True for a in burning):
        return not_shown(unknown) if unknown is not None else does_not_apply("no appliance there burns fuel")
    inside = alarms_in(need.house, (need.room,))
    check = enough(need.house, inside, GAS, limit.minimum, f"add a carbon monoxide alarm in {need.room.id}")
    kinds = exempt(limit.exempt_work, limit.added_bedroom)
    why = f"{next(a.label for a in burning if a.burns_fuel is True)} burns fuel there"
    return need.in_unit(lambda unit: if_due_in(unit, kinds, check, why))


def exempt(kinds: Limit[tuple[str, ...]], added_bedroom: Limit[bool]) -> tuple[str, ...]:
    """Return the kinds of work that make no carbon monoxide alarms due."""
    listed = choices(kinds)
    return listed if added_bedroom.value is not None else (*listed, "added bedroom")


def appliances(house: House) -> tuple[Appliance, ...]:
    """Return the appliances that are there when the work is done."""
    return tuple(a for a in house.project.appliances if not a.is_removed)


def _if_due(unit: DwellingUnit, limit: DueLimits | OutsideLimits | StoryLimits, check: Check) -> Check:
    kinds, scope = exempt(limit.exempt_work, limit.added_bedroom), unit.scope
    source = source_of(unit, choices(limit.sources), limit.open_sides, limit.stories)
    if source is None:
        return does_not_apply(f"nothing in {unit.called} burns fuel, and no attached garage opens into it")
    due = scope.makes_due(kinds)
    if is_missing(source):
        unsettled = if_due(source, check, scope.why_due(kinds), "")
        return unsettled if due is not False else does_not_apply(scope.why_not_due())
    return if_due_in(unit, kinds, check, source)


def source_of(
    unit: DwellingUnit, sources: tuple[str, ...], open_sides: Limit[int], stories: Limit[int]
) -> str | Missing | None:
    """Return what in `unit` gives off carbon monoxide, or how tall the house is where that alone asks for alarms; or None."""
    fuel = fuel_burning(unit) if FUEL in sources else None
    garages = list(_garages(unit, open_sides)) if GARAGE in sources else []
    tall = _tall(unit.house, stories)
    sure = next((s for s in (fuel, *garages, tall) if isinstance(s, str)), None)
    return sure or missing_of(fuel, *garages, tall)


def _tall(house: House, stories: Limit[int]) -> str | Missing | None:
    fewest = stories.value
    if fewest is None or is_missing(fewest):
        return fewest
    drawn = [s for s in house.project.stories if not s.is_removed]
    sure = [s for s in drawn if s.level in ("ground", "upper")]
    unknown = [s.level for s in drawn if is_missing(s.level)] if drawn else [house.project.absent("stories")]
    if len(sure) >= fewest:
        return f"the house has {len(sure)} stories"
    return missing_of(*unknown) if not drawn or len(sure) + len(unknown) >= fewest else None


def fuel_burning(unit: DwellingUnit) -> str | Missing | None:
    """Return what burns fuel: an appliance of the list, or as stated of the dwelling; None where nothing does."""
    house = unit.house
    burning = [(a, unit.holds(a)) for a in appliances(house) if a.burns_fuel is True]
    if sure := next((a for a, here in burning if here is True), None):
        return f"{sure.label} burns fuel"
    dwelling = house.project.dwelling
    stated = (
        house.project.absent("fuel burning appliance of dwelling")
        if is_missing(dwelling)
        else dwelling.fuel_burning_appliance
    )
    if stated is True:
        return _in_which(unit, burning)
    own = [a.burns_fuel for a in appliances(house) if unit.holds(a) is not False]
    unknown = [burns for burns in own if is_missing(burns)]
    asked = unknown if unknown else (stated,)  # the appliances drawn may tell of the house
    return missing_of(*(here for _, here in burning), *asked)


def _in_which(unit: DwellingUnit, burning: list[tuple[Appliance, bool | Missing]]) -> str | Missing | None:
    """Return whether `unit` is that in a house with a fuel-burning appliance which has it, as its own appliances tell."""
    if not unit.name:
        return "the house has a fuel-burning appliance"
    own = [a for a in appliances(unit.house) if unit.holds(a) is True]
    told = [a.burns_fuel for a in own] or [unit.lacks("appliances")]
    return missing_of(*(here for _, here in burning), *told)


def _garages(unit: DwellingUnit, open_sides: Limit[int]) -> Iterator[str | Missing]:
    """Yield each attached garage that a door joins to `unit`; an absence where a carport may count, or may be of it."""
    house = unit.house
    for space in house.spaces:
        if space.is_vehicle and space.detached is not True and (doors := _doors_into_house(space, house)):
            counts = _counts_as_garage(space, open_sides)
            into = [(door, unit.has(room)) for door, room in doors]
            sure = next((door for door, here in into if here is True), None)
            unsaid = missing_of(*(here for _, here in into))
            if counts is not False and sure is not None:
                yield counts if is_missing(counts) else f"{sure.label} joins {space.label} to {unit.called}"
            elif counts is not False and unsaid is not None:
                yield unsaid + counts


def garages_joined(unit: DwellingUnit) -> list[str]:
    """Return the attached garages that a door joins to `unit`; of a carport the rules ask how open it is."""
    house = unit.house
    garages = (s for s in house.spaces if s.use == "garage" and s.detached is not True)
    joined = ((garage, room) for garage in garages for _, room in _doors_into_house(garage, house))
    return [garage.label for garage, room in joined if unit.has(room) is True]


def _counts_as_garage(space: Space, open_sides: Limit[int]) -> bool | Missing:
    if space.use == "garage":
        return True
    if is_missing(space.open_sides):
        return space.open_sides
    fewest = open_sides.value
    return fewest if is_missing(fewest) else fewest is not None and space.open_sides < fewest


def _doors_into_house(garage: Space, house: House) -> list[tuple[Door, Space]]:
    """Return the doors out of `garage` into rooms of the house, each with its room."""
    doors = [d for d in house.project.doors if garage.id in d.between and not d.is_removed]
    rooms = [(d, s) for d in doors for s in house.sides(d) if s is not None and s is not garage]
    return [(d, s) for d, s in rooms if s.use not in OUTDOOR and not s.is_vehicle]
