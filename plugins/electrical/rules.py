"""Receptacles along the walls of rooms, along counters, on islands and peninsulas."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import Any

from precheck_plugins.electrical.spacing import Move, move_in, remedy
from precheck_plugins.electrical.walls import FloorLine, RoomWalls

from precheck import (
    Area,
    Check,
    Counter,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Receptacle,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    every,
    is_missing,
    met,
    required,
    rule,
    when_given,
)


class WallLimits(Limits):
    reach: Limit[Length]
    minimum_width: Limit[Length]
    in_each: Limit[bool]
    maximum_height: Limit[Length]
    floor_from_wall: Limit[Length]


@rule("electrical.wall-receptacles", stage="rough-in")
def wall_receptacles(room: RoomWalls, limit: WallLimits) -> Check:
    """Receptacles along the walls of habitable rooms are spaced so that one is in reach of each point.

    Measured along the floor line, around corners, from door to door: doors, fireplaces, fixed cabinets and wide ways
    through break a wall. Fixed glass does not: the fixed panel of a sliding door is drawn as a window, and the door as
    wide as what slides. A receptacle counts where it is not above the highest place, not switched in place of a light,
    not part of an appliance or luminaire, not for a counter, and, in the floor, close to the wall. One whose height is
    not drawn is taken to be at the usual height.
    """
    stated = room.space.farthest_wall_from_receptacle
    outlets = tuple(r for r in room.outlets if _counts(r, limit.maximum_height.value))
    found = room.wall_spaces(limit.minimum_width.value, outlets, limit.floor_from_wall.value)
    if isinstance(found, Missing) or not room.outlets:
        lacks = found if room.outlets else room.space.absent("receptacles along its walls")
        unplaced = room.outline is None or (bool(outlets) and all(is_missing(outlet.at) for outlet in outlets))
        return at_most(stated if unplaced else (lacks if is_missing(stated) else stated), limit.reach, "as stated")
    walls = [(stretch, _wall(stretch, limit)) for stretch in found]
    failing = [stretch for stretch, check in walls if check.outcome < Outcome.PASS]
    served = every((check for _, check in walls), "no wall of this room is wide enough to need a receptacle")
    return served.because(f"{room.space.id} is a habitable room").or_fix(
        lambda: "; ".join(remedy(stretch, limit.reach.value) for stretch in failing),
        lambda: _moved(room, [move_in(stretch, limit.reach.value) for stretch in failing]),
        decide="where it goes",
    )


def _moved(room: RoomWalls, moves: list[Move | None]) -> list[NewValue]:
    """Return the new places of receptacles, where moving some serves all walls."""
    outlets, line = {outlet.id: outlet for outlet in room.outlets}, FloorLine(room.outline or ())
    found = [NewValue(outlets[move.name], "at", line.point(move.to)) for move in moves if move is not None]
    return found if len(found) == len(moves) else []


def _wall(stretch: Any, limit: WallLimits) -> Check:
    has_one = required(bool(stretch.receptacles), limit.in_each, f"in the {stretch.length} {stretch.after}")
    how = f"{stretch.length} of wall {stretch.after}, {len(stretch.receptacles)} in it"
    near = at_most(stretch.farthest, limit.reach, how) if stretch.receptacles else does_not_apply("no receptacle in it")
    return all_of(has_one, near)


def _counts(receptacle: Receptacle, highest: Length) -> bool:
    high = not is_missing(receptacle.height) and receptacle.height > highest
    other = receptacle.switched_in_place_of_light is True or receptacle.part_of_appliance is True
    return not high and not other and (is_missing(receptacle.serves) or receptacle.serves == "walls")


class CounterLimits(Limits):
    reach: Limit[Length]
    minimum_width: Limit[Length]
    above: Limit[Length]


@rule("electrical.counter-receptacles", stage="rough-in")
def counter_receptacles(counter: Counter, limit: CounterLimits) -> Check:
    """Kitchen counters have receptacles along the wall, spaced so that one is in reach of each point."""
    if counter.form != "wall":
        return does_not_apply("an island or peninsula has a rule of its own")
    wide = at_least(counter.length, limit.minimum_width)
    if wide.outcome == wide.outcome.FAIL:
        return does_not_apply(f"the counter is narrower than {limit.minimum_width.value}")
    places = sorted(counter.receptacles_at)
    farthest = when_given(lambda length: _farthest(length, places), counter.length)
    shown = farthest if places else counter.absent("receptacles at")
    count = when_given(lambda length: ceil(length / (limit.reach.value * 2)), counter.length)
    near = at_most(shown, limit.reach, f"{len(places)} along {counter.length}")
    fix = f"give this counter {count} or more, none over {limit.reach.value} from an end nor twice that apart"
    spread = when_given(_spread, counter.length, count)
    near = near.or_fix(fix, lambda: [NewValue(counter, "receptacles_at", spread)])
    return all_of(near, at_most(counter.height_above, limit.above))


def _spread(length: Length, count: int) -> tuple[Length, ...]:
    """Return places for so many receptacles along a counter, each in the middle of its share."""
    return tuple((length * Fraction(2 * index + 1, 2 * count)).rounded_down() for index in range(count))


def _farthest(length: Length, places: list[Length]) -> Length:
    between = [(b - a) / 2 for a, b in pairwise(places)]
    return max([places[0], length - places[-1], *between]) if places else length


class IslandLimits(Limits):
    long_side: Limit[Length]
    short_side: Limit[Length]
    minimum: Limit[int]
    first_area: Limit[Area]
    further_area: Limit[Area]
    provision: Limit[bool]


@rule("electrical.island-receptacles", stage="rough-in")
def island_receptacles(counter: Counter, limit: IslandLimits) -> Check:
    """Islands and peninsulas have the receptacles of the edition, or provision for one later."""
    if counter.form == "wall":
        return does_not_apply("a counter along a wall has a rule of its own")
    sized = all_of(at_least(counter.length, limit.long_side), at_least(counter.depth, limit.short_side))
    if sized.outcome == sized.outcome.FAIL:
        return does_not_apply("the counter is too small to need one")
    if limit.minimum.value is None:
        none = counter.receptacles if is_missing(counter.receptacles) else counter.receptacles == 0
        return decide(none, required(counter.provision_for_later, limit.provision), met("has one"))
    area = when_given(lambda length, depth: length * depth, counter.length, counter.depth)
    fewest = replace(limit.minimum, value=when_given(lambda whole: _by_area(whole, limit), area))
    return at_least(counter.receptacles, fewest, f"counter of {area}")


def _by_area(area: Area, limit: IslandLimits) -> int:
    first, further = limit.first_area.value, limit.further_area.value
    beyond = 0 if first is None or area <= first else ceil((area - first) / further)
    return beyond + int(limit.minimum.value)
