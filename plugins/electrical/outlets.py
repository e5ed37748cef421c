"""Receptacles of single rooms and places: basins, halls, laundries, garages, outdoors, equipment."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.electrical.rooms import RoomOutlets

from precheck import (
    Check,
    Door,
    DwellingUnit,
    Fixture,
    House,
    Length,
    Limit,
    Limits,
    Receptacle,
    Space,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    missing_of,
    not_shown,
    one_of,
    rule,
    when_given,
)

SINGLE_BAY = Length.parse("10 ft")  # the widest vehicle door that is drawn for one car


class BasinLimits(Limits):
    within: Limit[Length]
    below_counter: Limit[Length]


@rule("electrical.basin-receptacle", stage="rough-in")
def basin_receptacle(room: RoomOutlets, limit: BasinLimits, house: House) -> Check:
    """A bathroom has a receptacle close to each lavatory. Of more receptacles than lavatories the nearest count."""
    if room.space.use != "bathroom":
        return does_not_apply("not a bathroom")
    basins = [r for r in room.outlets if r.serves == "basin"]
    if not basins:
        return at_most(room.space.absent("receptacle that serves the basin"), limit.within)
    each = [
        all_of(
            met(f"{r.label}: at the basin"),
            if_stated(r.to_basin, at_most, limit.within),
            if_stated(r.below_counter, at_most, limit.below_counter),
        )
        for r in basins
    ]
    lavatories = [
        f for f in house.subjects(Fixture) if f.space == room.space.id and f.what == "lavatory" and not f.is_removed
    ]
    return all_of(*sorted(each, key=lambda check: -check.outcome)[: max(1, len(lavatories))])


class OneLimits(Limits):
    hall_from: Limit[Length]
    hall: Limit[int]
    laundry: Limit[int]
    laundry_within: Limit[Length]
    each_bay: Limit[int]
    garage_maximum: Limit[Length]
    basement: Limit[int]


@rule("electrical.room-receptacle", stage="rough-in")
def room_receptacle(room: RoomOutlets, limit: OneLimits, house: House) -> Check:
    """Long halls, laundries, garages and unfinished basements have a receptacle."""
    use = room.space.use
    if use == "hall":
        return _hall(room, limit, house)
    if use == "laundry":
        return _laundry(room, limit)
    if use == "garage":
        return _garage(room, limit, house)
    if use in ("storage", "utility", "workshop") and house.story_level(room.space) == "basement":
        return at_least(room.count(room.outlets), limit.basement)
    return does_not_apply("no receptacle is asked of this room besides those along its walls")


def _laundry(room: RoomOutlets, limit: OneLimits) -> Check:
    machines = [r for r in room.outlets if r.serves == "laundry"]
    near = [if_stated(r.to_equipment, at_most, limit.laundry_within) for r in machines]
    return all_of(at_least(room.count(machines), limit.laundry), *(near and [any_of(*near)]))


def _garage(room: RoomOutlets, limit: OneLimits, house: House) -> Check:
    doors = [d for d in house.subjects(Door) if room.space.id in d.between and d.operation == "vehicle"]
    wide = [when_given(lambda size: size.width > SINGLE_BAY, door.unit_size) for door in doors]
    count = room.count(room.outlets)
    few, many = (
        at_least(count, replace(limit.each_bay, value=max(1, len(doors) + more) * limit.each_bay.value))
        for more in (wide.count(True), len(wide) - wide.count(False))
    )
    return all_of(
        few if (unsaid := missing_of(*wide)) is None else decide(unsaid, many, few),
        *(if_stated(r.height, at_most, limit.garage_maximum) for r in room.outlets),
    )


def _hall(room: RoomOutlets, limit: OneLimits, house: House) -> Check:
    outline = house.outline(room.space)
    spans = [Length(max(c) - min(c)) for c in zip(*outline, strict=True)] if outline else []
    length = max(spans) if spans else room.space.absent("outline")
    due = at_least(room.count(room.outlets), limit.hall)
    if is_missing(length):
        return due if due.is_met else not_shown(length)
    long = length >= limit.hall_from.value
    return due.because(f"the hall is {length} long") if long else does_not_apply(f"the hall is only {length} long")


class OutdoorLimits(Limits):
    sides: Limit[tuple[str, ...]]
    maximum: Limit[Length]
    at_each_deck: Limit[int]


@rule("electrical.outdoor-receptacles", stage="final")
def outdoor_receptacles(unit: DwellingUnit, limit: OutdoorLimits, house: House) -> Check:
    """The house has outdoor receptacles at front and back, and one at each new porch or deck.

    Each dwelling unit has its own; those in a space that the units share serve each of them.
    """
    porches = [s for s in house.spaces if s.use in ("porch", "deck")]
    on_them = {porch.id for porch in porches}
    drawn = [
        r for r in house.subjects(Receptacle) if not r.is_removed and (r.serves == "outdoors" or r.space in on_them)
    ]
    outside = [r for r in drawn if unit.holds(r) is not False]
    decks = [porch for porch in porches if not porch.is_existing and unit.has(porch) is not False]
    if not outside and not decks:
        return does_not_apply("no outdoor receptacle, porch or deck is drawn")
    at_decks = [_at_deck(deck, outside, limit) for deck in decks]
    heights = [if_stated(r.height, at_most, limit.maximum) for r in outside]
    from_grade = [r for r in outside if r.reached_from_grade is True or is_missing(r.reached_from_grade)]
    asked = outside and unit.scope.new_house is not False  # an old house keeps what it has
    sides = [_side(unit, side, from_grade, limit) for side in limit.sides.value] if asked else []
    unsaid = [r for r in outside if is_missing(r.reached_from_grade)]
    told = [does_not_apply(f"whether {r.label} is reached from grade: not stated") for r in unsaid if sides]
    return all_of(*at_decks, *heights, *sides, *told)


def _at_deck(deck: Space, outside: list[Receptacle], limit: OutdoorLimits) -> Check:
    count = sum(r.space == deck.id for r in outside)
    return at_least(count or deck.absent("receptacle"), limit.at_each_deck)


def _side(unit: DwellingUnit, side: str, outlets: list[Receptacle], limit: OutdoorLimits) -> Check:
    there = [unit.holds(r) for r in outlets if r.side == side]
    unsaid = missing_of(*there)
    if unsaid is None:
        unsaid = unit.lacks(f"outdoor receptacle at the {side}")
    return one_of(side if True in there else unsaid, limit.sides)
