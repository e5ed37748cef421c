"""The limits that a rule reads as they are for one subject, where a place has another value for some parts only."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any, NamedTuple

from precheck.checks import Check, Look, look_at, not_shown
from precheck.files.missing import Missing, is_missing, missing_of
from precheck.rulesets.limit import ForSome, Limit
from precheck.rulesets.quantity import field_of_house
from precheck.survey import House


class Ways(NamedTuple):
    """The limits that may be due for a subject, one way or several, and what the project does not say to tell which."""

    ways: tuple[tuple[Limit[Any], ...], ...]
    unsaid: tuple[Missing, ...]
    unclear: tuple[ForSome, ...]

    @property
    def open(self) -> Check:
        """What to say where the ways come to different outcomes: what is missing, or that a person has to tell."""
        if self.unsaid:
            return not_shown(*self.unsaid)
        told = "; ".join(f"{one.limit.measures}: {one.limit.text} for {one}" for one in self.unclear)
        return look_at(Look.OFFICIAL, f"whether this is one of the parts with a value of their own ({told})")


def ways_for(limits: tuple[Limit[Any], ...], subject: Any, house: House) -> Ways:
    """Return which of the values of `limits` are due for `subject`; the value of all is the last where several may be."""
    possible: list[list[Limit[Any]]] = []
    unsaid: list[Missing] = []
    unclear: list[ForSome] = []
    for limit in limits:
        possible.append(may_be := [])
        for one in reversed(limit.for_some):
            holds = _holds(one, subject, house)
            if is_missing(holds):
                unsaid.append(holds)
            elif holds is None:
                unclear.append(one)
            if holds is not False:
                may_be.append(one.limit)
            if holds is True:
                break
        else:
            may_be.append(limit)
    return Ways(tuple(product(*possible)), tuple(unsaid), tuple(unclear))


def limit_for(limit: Limit[Any], subject: Any, house: House) -> Limit[Any] | None:
    """Return `limit` as it is for `subject`; None where that cannot be told."""
    if not limit.for_some:
        return limit
    ways = ways_for((limit,), subject, house).ways
    return ways[0][0] if len(ways) == 1 else None


def _holds(one: ForSome, subject: Any, house: House) -> bool | Missing | None:
    """Return whether `subject` is one of those parts; None where it leads to none of their kind, or to unlike ones."""
    field = field_of_house(one.part)
    parts = _parts(subject, one.part) if field is None else [getattr(house.project, field)]
    found = [part if is_missing(part) else one.holds(house, part) for part in parts]
    known = {answer for answer in found if not is_missing(answer)}
    unsaid = missing_of(*found)
    if unsaid is not None:
        return unsaid
    return known.pop() if len(known) == 1 else None


def _parts(subject: Any, kind: type[Any]) -> list[Any]:
    """Return the parts of a kind that a subject is, is about or lies within; else those that a fact names beside that."""
    own = [part for part in _up(subject) if isinstance(part, kind)]
    if own:
        return own[:1]
    beside = (part for value in getattr(subject, "__dict__", {}).values() for part in _each(value))
    found = {id(part): part for named in beside for part in _up(named) if isinstance(part, kind)}
    return list(found.values())


def _each(value: Any) -> tuple[Any, ...]:
    return value if isinstance(value, tuple) else (value,)


def _up(subject: Any) -> Iterator[Any]:
    """Yield a subject, the record that it is about, and those in which that lies."""
    yield subject
    record = getattr(subject, "about", subject)
    while record is not None:
        yield record
        record = getattr(record, "owner", None)
