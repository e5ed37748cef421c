"""Where rooms on different levels open into each other: the step, stair or ramp between their floors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from precheck_plugins.stairs.layout import fewest_risers

from precheck import (
    Check,
    Door,
    Fact,
    House,
    Length,
    Limits,
    Missing,
    Ramp,
    Settled,
    Space,
    Stair,
    at_most,
    fact,
    is_missing,
    met,
    reads,
    rule,
)

ELSEWHERE = frozenset(("garage", "carport", "porch", "deck", "attic", "crawl space"))  # rules for doors judge those
NO_WAY = frozenset(("vehicle", "hatch"))


class Joint(NamedTuple):
    """Two rooms that open into each other by a door, or without one, and the stair or ramp between them."""

    one: Space
    other: Space
    door: Door | None
    steps: Stair | Ramp | None
    difference: Length | Missing

    @property
    def drawn_by(self) -> Stair | Ramp | Door | Space:
        """What shows how one gets from the one to the other."""
        return self.steps or self.door or self.one


@fact
class FloorStep(Fact):
    """Two rooms that open into each other whose floors lie at different levels."""

    one: Space
    other: Space
    steps: Stair | Ramp | None
    difference: Length
    levels: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[FloorStep]:
        """Yield each pair whose floor levels are known and differ."""
        for joint in joints_of(house):
            apart = joint.difference
            if not is_missing(apart) and apart.n:
                levels = " and ".join(f"{s.id} at {house.finished_floor(s)}" for s in (joint.one, joint.other))
                yield cls(joint.door or joint.one, joint.one, joint.other, joint.steps, apart, levels)


def joints_of(house: House) -> Iterator[Joint]:
    """Yield the pairs of rooms inside the house that open into each other when the work is done, each door once."""
    for door in house.subjects(Door):
        if not door.is_removed and door.operation not in NO_WAY:
            yield from _joint(house.space(door.between[0]), house.space(door.between[1]), door, house)
    seen: set[frozenset[str]] = set()
    for space in house.spaces:
        for other in space.open_to:
            pair = frozenset((space.id, str(other)))
            if pair not in seen:
                seen.add(pair)
                yield from _joint(space, house.space(other), None, house)


def _joint(one: Space | None, other: Space | None, door: Door | None, house: House) -> Iterator[Joint]:
    if one is None or other is None or one.is_removed or other.is_removed or {one.use, other.use} & ELSEWHERE:
        return
    difference = house.finished_floor(one) - house.finished_floor(other)
    yield Joint(one, other, door, _steps(one, other, house), difference if is_missing(difference) else abs(difference))


def _steps(one: Space, other: Space, house: House) -> Stair | Ramp | None:
    """Return the stair or ramp that joins the two, or that lies wholly within one of them."""
    ways = [way for way in (*house.subjects(Stair), *house.subjects(Ramp)) if not way.is_removed]
    ids = {one.id, other.id}
    joining = [way for way in ways if set(way.between) <= ids]
    return joining[0] if joining else None


class StepLimits(Limits):
    riser: Settled[Length] = reads("stairs.riser-height.maximum")


@rule("stairs.step-between-floors", stage="framing")
def step_between_floors(joint: FloorStep, limit: StepLimits) -> Check:
    """Where the floors of two rooms that open into each other differ by more than one riser, steps are drawn.

    So is a part of a converted garage that stays at the level of the old slab.
    """
    if joint.steps is not None:
        return met(f"{joint.steps.label} joins the two floors")
    count = fewest_risers(joint.difference, limit.riser.value)
    steps = f"draw steps of {count} risers with a landing at the door, or bring the floors to one level"
    one_step = at_most(joint.difference, limit.riser, lambda: joint.levels).or_fix(steps, decide="how the plan changes")
    return one_step.because(f"{joint.one.id} and {joint.other.id} open into each other, and no steps are drawn")
