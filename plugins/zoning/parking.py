"""Parking before and after the work. The jurisdiction sets every limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.zoning.lines import PARKING

from precheck import (
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    ParkingStall,
    Space,
    all_of,
    ask_unless_set,
    at_least,
    at_most,
    broken,
    does_not_apply,
    fact,
    given,
    is_missing,
    met,
    rule,
    when_given,
)

VEHICLES = frozenset(("garage", "carport"))


@fact
class Parking(Fact):
    """The stalls of the lot, where the work takes some or makes a room of a place for vehicles. `why` says so."""

    why: str
    before: int
    after: int
    covered: int | Missing
    enclosed: int | Missing
    drawn: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[Parking]:
        """Yield the parking of the lot once, where the work touches it."""
        stalls = house.subjects(ParkingStall)
        lost = [s.id for s in house.project.spaces if is_lost(s)]
        gone = [stall.id for stall in stalls if stall.is_removed]
        if lost or gone:
            stay = [stall for stall in stalls if not stall.is_removed]
            before = sum(stall.phase != "new" for stall in stalls)
            why = (
                f"{', '.join(lost)} no longer {'holds' if len(lost) == 1 else 'hold'} vehicles"
                if lost
                else f"taken away: {', '.join(gone)}"
            )
            covered, enclosed = count([s.covered for s in stay]), count([s.enclosed for s in stay])
            yield cls(house.project, why, before, len(stay), covered, enclosed, bool(stalls))

    @property
    def label(self) -> str:
        """What it is about."""
        return "parking on the lot"

    def number(self, of: int | Missing) -> int | Missing:
        """Return `of`, or its absence where no stall is drawn at all."""
        return of if self.drawn else self.about.absent(PARKING)


def is_lost(space: Space) -> bool:
    """Return whether a place for vehicles becomes something else, or goes; one that others made a room of long ago does not."""
    was_one, is_one = space.was in VEHICLES, space.use in VEHICLES
    return space.is_removed if is_one else was_one and not space.is_existing


def count(answers: list[bool | Missing]) -> int | Missing:
    """Return how many are true; an absence where one is not given."""
    return when_given(lambda *given: sum(given), *answers)


class ParkingLimits(Limits):
    minimum: Limit[int]
    minimum_covered: Limit[int]
    minimum_enclosed: Limit[int]


@rule("zoning.parking", stage="intake")
def parking(stalls: Parking, limit: ParkingLimits) -> Check:
    """When a garage or carport is converted, the lot keeps the parking spaces that its zone requires, covered ones included."""
    lacking = when_given(lambda fewest: fewest - stalls.after, limit.minimum.value)
    kept = all_of(
        ask_unless_set(limit.minimum)
        or at_least(stalls.number(stalls.after), limit.minimum).or_fix(lambda: _more(lacking)),
        ask_unless_set(limit.minimum_covered) or at_least(stalls.number(stalls.covered), limit.minimum_covered),
        ask_unless_set(limit.minimum_enclosed) or at_least(stalls.number(stalls.enclosed), limit.minimum_enclosed),
    )
    return kept if kept.why else kept.because(stalls.why)


def _more(stalls: Any) -> str:
    return f"show {stalls} more parking space{'' if stalls == 1 else 's'} on the lot, or ask for a variance"


class LostLimits(Limits):
    maximum: Limit[int]


@rule("zoning.parking-lost", stage="intake")
def parking_lost(stalls: Parking, limit: LostLimits) -> Check:
    """Parking spaces that the work takes are replaced, as far as the jurisdiction requires."""
    lost = stalls.number(max(stalls.before - stalls.after, 0))
    told = f"{stalls.before} stalls before, {stalls.after} after"
    over = when_given(lambda gone, most: gone - most, lost, limit.maximum.value)
    kept = at_most(lost, limit.maximum, told).or_fix(lambda: _more(over))
    if is_missing(limit.maximum.value):
        return does_not_apply("the town is asked how many spaces the lot must have")
    return kept.because(stalls.why)


@rule("zoning.stall-fits", stage="intake", existing="must comply")
def stall_fits(stall: ParkingStall, house: House) -> Check:
    """A parking space fits in the garage or carport that it is drawn in."""
    space = None if is_missing(stall.in_) else house.space(stall.in_)
    outline = None if space is None else house.outline(space)
    sides = given(stall.width, stall.length)
    if space is None or outline is None or is_missing(sides):
        return does_not_apply("it is drawn in no garage or carport, or its size is not given")
    across, along = (Length(max(line) - min(line)) for line in zip(*outline, strict=True))
    fits = min(sides) <= min(across, along) and max(sides) <= max(across, along)
    told = f"{space.id} is {across} x {along}, a space of {stall.width} x {stall.length} is drawn in it"
    return (
        met(told) if fits else broken(told).or_fix("draw the space at the size that is there, or elsewhere on the lot")
    )


class StallLimits(Limits):
    width: Limit[Length]
    length: Limit[Length]


@rule("zoning.stall-size", stage="intake")
def stall_size(stall: ParkingStall, limit: StallLimits) -> Check:
    """A parking space is as wide and as long as the zone requires."""
    return all_of(
        ask_unless_set(limit.width) or at_least(stall.width, limit.width),
        ask_unless_set(limit.length) or at_least(stall.length, limit.length),
    )
