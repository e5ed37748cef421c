"""Stairs that lead from a garage straight into the house, which are openings in the separation like doors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.separation.boundaries import OUTDOOR, if_garage, phase_among

from precheck import (
    Check,
    Duration,
    Fact,
    House,
    Limit,
    Limits,
    Space,
    Stair,
    at_most,
    decide,
    fact,
    not_shown,
    reads,
    rule,
    when_given,
)

UNDER_A_HATCH = "pull-down"
NO_ROOM = ("attic", "crawl space")


@fact
class GarageStair(Fact):
    """A stair between a place for vehicles and a room, at which no door between both is drawn."""

    stair: Stair
    vehicles: Space
    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[GarageStair]:
        """Yield every such stair; a pull-down stair is a hatch."""
        closed = {frozenset(door.between) for door in house.project.doors if not door.is_removed}
        for stair in house.subjects(Stair):
            pair = [space for side in stair.between if (space := house.space(side)) and not space.is_removed]
            vehicles = [space for space in pair if space.is_vehicle]
            if len(pair) != 2 or len(vehicles) != 1 or stair.is_removed or frozenset(stair.between) in closed:
                continue
            room = next(space for space in pair if not space.is_vehicle)
            if stair.form != UNDER_A_HATCH and room.use not in OUTDOOR and room.use not in NO_ROOM:
                yield cls(stair, stair, vehicles[0], room)

    @property
    def phase(self) -> Any:
        """An old stair that the work leads into a room is as good as new."""
        return phase_among(self.stair, self.vehicles, self.room)


class StairLimits(Limits):
    openings: Limit[int] = reads("separation.bedroom.openings")
    rating: Limit[Duration] = reads("separation.door.rating")
    open_sides: Limit[int] = reads("separation.open-sides.minimum")


@rule("separation.stair")
def stair(way: GarageStair, limit: StairLimits) -> Check:
    """A stair from a garage leads into no bedroom, and a door parts it from any other room."""
    how = f"{way.stair.id} joins {way.vehicles.id} and {way.room.id}"
    into_bedroom = at_most(1, limit.openings, how).or_fix(f"lead the way from {way.vehicles.id} through a hall")
    door = not_shown(way.stair.absent(f"door between {way.vehicles.id} and {way.room.id}")).citing(limit.rating)
    sleeping = when_given(lambda use: use == "bedroom", way.room.use)
    return if_garage(way.vehicles, limit.open_sides, decide(sleeping, into_bedroom, door))
