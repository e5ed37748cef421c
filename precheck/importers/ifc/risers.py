"""Every riser of a flight, the first from the finished floor below and the last to the finished floor above."""

from __future__ import annotations

from itertools import pairwise
from statistics import median
from typing import Any, NamedTuple

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.stair_statements import AGREES

SAME = 0.02  # meters within which a level face of a flight is the floor itself, and no tread on it
MOST = 1.6  # risers; beyond, a tread is missing in the model


class FlightEnds(NamedTuple):
    """The floors or landings that a flight leads from and to; None where none is modeled."""

    below: float | None
    above: float | None


def floors_of_flights(plan: Plan, stair: Any, levels: list[list[float]], between: list[str]) -> list[FlightEnds]:
    """Return the floors at the ends of each flight, from the bottom up: of the two spaces, and the landings between."""
    rooms = {room.id: plan.floor_of(room) for room in plan.rooms}
    landings = sorted(_landings(plan, stair))
    found = []
    for index, own in enumerate(levels):
        first, last = index == 0, index == len(levels) - 1
        below = rooms.get(between[0]) if first else _between(landings, levels[index - 1], own)
        above = rooms.get(between[1]) if last else _between(landings, own, levels[index + 1])
        found.append(FlightEnds(below, above))
    return found


def _landings(plan: Plan, stair: Any) -> list[float]:
    parts = [part for relation in stair.IsDecomposedBy or () for part in relation.RelatedObjects]
    shapes = [plan.model.shape(part) for part in parts if part.is_a("IfcSlab")]
    return [shape.top for shape in shapes if shape is not None]


def _between(landings: list[float], lower: list[float], upper: list[float]) -> float | None:
    """Return the level of the landing between two flights: as modeled, else the last tread of the lower one."""
    if not lower or not upper:
        return None
    fits = [level for level in landings if lower[-1] - SAME <= level <= upper[0] + SAME]
    return fits[0] if fits else None


def with_uneven_risers(plan: Plan, own: Entry, levels: list[float], ends: FlightEnds, part: str) -> Entry:
    """Return the flight `own` with all its risers in place of one where they are not alike; without any where one is missing."""

    def replaced(heights: Entry) -> Entry:
        return {key: value for key, value in own.items() if key != "riser"} | heights

    if None in ends:
        plan.model.draft.doubt(
            "a landing between its flights is not modeled: the risers to and from it are not shown", part
        )
    treads = [level for level in levels if ends.below is None or level > ends.below + SAME]
    treads = [level for level in treads if ends.above is None or level < ends.above - SAME]
    if len(treads) < 2:
        return own
    rises = [b - a for a, b in pairwise(_stops(treads, ends))]
    usual = median(b - a for a, b in pairwise(treads))
    if max(rises) > MOST * usual:
        told = f"{part} ({plan.length(max(rises))}, others {plan.length(usual)})"
        plan.model.draft.doubt(
            "between two of its levels there is room for another tread; its risers are not shown", told
        )
        return replaced({})
    if max(abs(rise - usual) for rise in rises) <= AGREES:
        return own
    told = f"{part} (first {plan.length(rises[0])}, last {plan.length(rises[-1])}, others {plan.length(usual)})"
    plan.model.draft.doubt(
        "its risers are not alike: the stair or the finished floors at its ends are drawn wrong", told
    )
    listed = ", ".join(plan.length(rise) for rise in rises)
    return replaced({"riser heights": Value(f"[{listed}]", "floor to treads to floor, as modeled")})


def _stops(treads: list[float], ends: FlightEnds) -> list[float]:
    return [level for level in (ends.below, *treads, ends.above) if level is not None]


__all__ = ["floors_of_flights", "with_uneven_risers"]
