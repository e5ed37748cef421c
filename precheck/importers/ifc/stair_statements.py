"""What is stated of risers and treads, held against what the geometry shows: taken, corrected, or left out and told."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.model import Model
from precheck.importers.ifc.plan import Plan
from precheck.importers.measures import unit_that_fits

AGREES = 0.003  # meters by which a riser or tread may be off what the geometry shows
SENSE = {"riser": (0.05, 0.4), "tread": (0.1, 1.0)}  # meters; beyond, a number is no riser or tread of a house


class Said(NamedTuple):
    """A statement of a length: the number as written, what it is in meters, and where it stands."""

    number: float
    meters: float
    told: str
    entity: str


class Shown(NamedTuple):
    """What bears out a statement: a length, and how it is known."""

    meters: float
    how: str


def risers_stated(model: Model, stair: Any, flight: Any, part: str) -> Value | None:
    """Return the number of risers that is stated."""
    for name in ("NumberOfRisers", "NumberOfRiser"):
        number = getattr(flight, name, None)
        if number:
            return Value(str(int(number)), f"#{flight.id()} {name}", str(flight.id()))
    for owner in (flight, stair):
        for found in model.given(owner, "risers", part):
            if isinstance(found.value, int | float) and found.value >= 1:
                return Value(str(int(found.value)), found.told, str(found.entity))
    return None


def said_of(model: Model, stair: Any, flight: Any, field: str, attribute: str, part: str) -> Iterator[Said]:
    """Yield what is stated of a riser or tread: property sets first, then the attribute of the flight."""
    for owner in dict.fromkeys((flight, stair)):
        for found in model.given(owner, field, part):
            if found.si is not None:
                yield Said(float(found.value), found.si, found.told, str(found.entity))
    number = getattr(flight, attribute, None)
    if number:
        yield Said(float(number), float(number) * model.meter, f"#{flight.id()} {attribute}", str(flight.id()))


def settled(plan: Plan, field: str, said: list[Said], shown: list[Shown], part: str) -> Entry:
    """Return the riser or tread that is borne out; tell of every statement that is not."""
    draft = plan.model.draft
    if not said:
        if shown:
            return {field: Value(plan.length(shown[0].meters), shown[0].how)}
        return {}
    borne = [one for one in said if _borne_out(one.meters, field, said, shown)]
    for one in said:
        if one not in borne:
            what, numbers = _contradiction(plan, field, one, borne, shown)
            draft.doubt(what, f"{part} ({numbers})")
    if borne:
        proof = "; ".join(one.how for one in shown) or "nothing to hold it against"
        if not shown:
            draft.doubt(f"the {field} is stated, and nothing in the model to hold it against", part)
        return {field: Value(plan.length(borne[0].meters), f"{borne[0].told}; {proof}", borne[0].entity)}
    return _corrected(plan, field, said, shown)


def _corrected(plan: Plan, field: str, said: list[Said], shown: list[Shown]) -> Entry:
    """Return what a statement means that all the evidence bears out once it is taken in another unit."""
    for one in said:
        if shown and all(unit_that_fits(one.number, s.meters, AGREES) for s in shown):
            told = f"{one.told}, corrected from {one.number:.4g}; {'; '.join(s.how for s in shown)}"
            return {field: Value(plan.length(shown[0].meters), told, one.entity)}
    return {}


def _borne_out(meters: float, field: str, said: list[Said], shown: list[Shown]) -> bool:
    if shown:
        return all(abs(meters - one.meters) <= AGREES for one in shown)
    low, high = SENSE[field]
    return low <= meters <= high and all(abs(meters - one.meters) <= AGREES for one in said)


def _contradiction(plan: Plan, field: str, one: Said, borne: list[Said], shown: list[Shown]) -> tuple[str, str]:
    """Return what became of a statement that is not borne out, and the numbers that say so."""
    evidence = [*shown, *(Shown(other.meters, other.told.split(" ", 1)[-1]) for other in borne)]
    unit = next((u for s in evidence if (u := unit_that_fits(one.number, s.meters, AGREES))), None)
    shown_as: dict[str, list[str]] = {}
    for s in evidence[:2]:
        shown_as.setdefault(plan.length(s.meters), []).append(s.how)
    numbers = "; ".join([f"{one.told.split(' ', 1)[-1]} is {one.number:.4g}",
                         *(f"{size} by {' and '.join(how)}" for size, how in shown_as.items())])  # fmt: skip
    if unit:
        return (
            f"a {field} is written in {unit}, which the file does not declare; {'not used' if borne else 'corrected'}",
            numbers,
        )
    if evidence:
        return f"a {field} is stated that the model contradicts; {'not used' if borne else 'not shown'}", numbers
    return f"a {field} is stated that none can be, and nothing else shows it; not shown", numbers


__all__ = ["AGREES", "Said", "Shown", "risers_stated", "said_of", "settled"]
