"""What an amendment says was there, held against what is: on the day itself, else on the day when it was written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import Any, NamedTuple

from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.source import Problem
from precheck.rulesets.common import as_yaml, known_names, refuse, value_at, written_as
from precheck.rulesets.files import Amendment
from precheck.rulesets.limit import Limit
from precheck.rulesets.replacement import as_part
from precheck.rulesets.some_parts import Aim
from precheck.rulesets.vocabulary import Vocabulary


class Parent(NamedTuple):
    """What an adoption amends: its names of before, what can be looked at, its limits when an amendment was written.

    These, looked up where needed, are those of the day of the adoption and of the day given, for each edition that may be used then.
    """

    formerly: Mapping[str, str]
    words: Vocabulary
    limits_then: Callable[[date], Iterable[Mapping[str, Limit[Any]]]]


def held_to_was(
    amendment: Amendment, limit: Limit[Any], needed: bool, parent: Parent, told: list[Problem], aim: Aim
) -> Limit[Any]:
    """Hold `was` against the value in effect. What the parent changed since is `told`, and the amendment goes on to hold.

    `aim` finds in a limit of that day what is amended of it. Raises `Unusable` where it was not the value on the day of the
    adoption either.
    """
    place, text = amendment.place_of("was"), _text_now(amendment, limit)
    if amendment.was is None:
        if needed:
            raise refuse(place, f"`was` is not given; write `was: {text}`, the value that is replaced")
        return limit
    if _is_value(amendment, limit):
        return limit
    was, origin = written_as(amendment.was), limit.history[-1]
    then = (limits.get(limit.name) for limits in parent.limits_then(amendment.begins))
    if not any(one is not None and _is_value(amendment, aim(one)) for one in then):
        wrong = f"`was: {was}` does not match: the value in effect is {text} ({origin.source}, {origin.place})"
        raise refuse(place, f"{wrong}; write `was: {text}`")
    since = f" from {origin.since} on" if origin.since else ""
    changed = (
        f"{limit.name} was {was} when this was written; {origin.source} has made it {text}{since} ({origin.place})"
    )
    told.append(Problem(place, f"{changed}. The amendment still holds: decide anew, and write `was: {text}`"))
    return limit


def _is_value(amendment: Amendment, limit: Limit[Any]) -> bool:
    """Return whether what the amendment says was there is what `limit` holds."""
    was = as_part(value_at(amendment.place_of("was"), amendment.was, limit.measures), cell(amendment, limit))
    return was == cell(amendment, limit) or written_as(amendment.was) == _text_now(amendment, limit)


def rows_of(amendment: Amendment) -> tuple[str, ...]:
    """Return the rows that lead to the one cell that is amended; none where the whole value is."""
    if is_missing(amendment.row):
        return ()
    return (amendment.row,) if isinstance(amendment.row, str) else amendment.row


def cell(amendment: Amendment, limit: Limit[Any]) -> Any:
    """Return what is amended: the value of `limit`, or the cell that `row` leads to. Raises `Unusable`."""
    value = limit.value
    for row in rows_of(amendment):
        if not isinstance(value, Mapping) or row not in value:
            known = nearest(row, value) or known_names(value) if isinstance(value, Mapping) else "; leave `row` out"
            raise refuse(amendment.place_of("row"), f"`{limit.name}` has no row `{row}`{known}")
        value = value[row]
    return value


def _text_now(amendment: Amendment, limit: Limit[Any]) -> str:
    """Return what is amended as a ruleset would write it."""
    listed = isinstance(limit.value, Mapping | tuple)
    return as_yaml(cell(amendment, limit)) if rows_of(amendment) or listed else limit.text
