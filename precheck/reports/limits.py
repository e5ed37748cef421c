"""The limits in effect, for machines: name, measure, sense, value, unit, section, basis and source of each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from precheck.files.missing import is_missing
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import ForSome, Limit
from precheck.units import Length, Measure

_NUMBER = re.compile(r"(-?(?:\d+ )?\d+/\d+|-?\d+(?:\.\d+)?)\s*(.*)")  # as limits write it: 7 3/4 in, 0.12, 150 %
_BEFORE = re.compile(r"([RU])-?(\d+(?:\.\d+)?)")  # R-13, U-0.32
_INCH = Length.parse("1 in")


def as_data(code: AdoptedCode, limits: Iterable[Limit[Any]]) -> dict[str, Any]:
    """Return `limits` of `code` as plain data, in the order of their names."""
    return {
        "code": {"jurisdiction": code.name, "chain": [step.name for step in code.chain], "partial": code.partial},
        "limits": [_limit(limit) for limit in sorted(limits, key=lambda limit: limit.name)],
    }


def _limit(limit: Limit[Any]) -> dict[str, Any]:
    return {
        "name": limit.name,
        "measure": limit.measures,
        "sense": limit.sense,
        "kind": limit.kind,
        **_said(limit.value),
        "text": limit.text,
        "section": limit.section,
        "advised": limit.advised,
        "basis": limit.basis,
        "source": limit.source,
        "place": _place(limit),
        "for_some": [_for_some(one) for one in limit.for_some],
    }


def _for_some(one: ForSome) -> dict[str, Any]:
    """Return another value of a limit, with the parts that it is for."""
    parts = {"part": one.part.kind, "where": one.where}
    return {**parts, **_said(one.limit.value), "text": one.limit.text, "place": _place(one.limit)}


def _said(value: Any) -> dict[str, Any]:
    number, unit = _value(value)
    return {"value": number, "unit": unit}


def _place(limit: Limit[Any]) -> str:
    place = limit.history[-1].place if limit.history else None
    return f"{place.file}:{place.line}" if place is not None else ""


def _value(value: Any) -> tuple[Any, str]:
    """Return a value and its unit: a number where it is one, and null where it is void or has yet to be set."""
    if value is None or is_missing(value):
        return None, ""
    if isinstance(value, Measure):
        return _number(value)
    return _plain(value), ""


def _number(value: Measure) -> tuple[Any, str]:
    if isinstance(value, Length) and not value.is_metric:
        return _decimal(Fraction(value / _INCH)), "in"
    text = str(value)
    if led := _BEFORE.fullmatch(text):
        return _decimal(Fraction(led[2])), led[1]
    found = _NUMBER.fullmatch(text)
    return (_decimal(sum(map(Fraction, found[1].split()), Fraction())), found[2]) if found else (text, "")


def _decimal(number: Fraction) -> int | float:
    return number.numerator if number.denominator == 1 else float(number)


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {str(key): _plain(row) for key, row in value.items()}
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value if isinstance(value, bool | int | str) else None if value is None or is_missing(value) else str(value)
