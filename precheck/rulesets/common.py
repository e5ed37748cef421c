"""What reading limits shares: refusing with a place, values, tolerances, and names that are near."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from precheck.files.missing import is_missing
from precheck.files.source import Place, Problem, Unusable
from precheck.rulesets.files import Amendment
from precheck.rulesets.limit import value_of
from precheck.units import Measure, NotationError


def refuse(place: Place | None, what: str) -> Unusable:
    """Return the error that says `what` is wrong at `place`."""
    return Unusable([Problem(place or Place("", 1, 1), what)])


def value_at(place: Place, written: Any, measures: str) -> Any:
    """Return the value `written` at `place`. Raises `Unusable`."""
    try:
        return value_of(written, measures)
    except NotationError as error:
        raise refuse(place, str(error)) from None


def tolerance_of(record: Amendment) -> Measure | None:
    """Return the field tolerance that an amendment gives. Raises `Unusable`."""
    if is_missing(record.tolerance):
        return None
    value = value_at(record.place_of("tolerance"), record.tolerance, "field tolerance")
    if isinstance(value, Measure):
        return value
    raise refuse(record.place_of("tolerance"), f"`{record.tolerance}` is no measure; write it like 1/8 in")


def written_as(value: Any) -> str:
    """Return a value as its file writes it, on one line."""
    if isinstance(value, dict):
        return ", ".join(f"{key}: {written_as(row)}" for key, row in value.items())
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


def as_yaml(value: Any) -> str:
    """Return a value as a ruleset can write it on one line: `{zone 5: R-30, zone 6: R-38}`, `[a, b]`, `36 in`."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{row}: {as_yaml(cell)}" for row, cell in value.items()) + "}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(as_yaml, value))}]"
    return "required" if value is True else "not required" if value is None else str(value)


def known_names(names: Iterable[str]) -> str:
    """Return the end of a message that lists the names there are."""
    listed = list(names)
    return f"; known: {', '.join(listed[:16])}" if listed else ""
