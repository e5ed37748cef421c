"""An edition as plain lists and text, and back: what a prepared file holds.

A measure is its dimension, number and text; a table is a mapping; a list and what a place has yet to set begin with a word.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from precheck.files.missing import Missing, Need
from precheck.files.source import Place
from precheck.rulesets.adopted import AdoptedCode, ChainLink
from precheck.rulesets.limit import Event, Limit, Takes, frozen
from precheck.rulesets.model_code import Unchecked
from precheck.units import Measure
from precheck.units.deflection import SpanOverDeflection
from precheck.units.kinds import KINDS

LIST, NEED, DEFLECTION = "list", "need", "deflection"
_PLAIN = (str, int, type(None))


def packed(code: AdoptedCode) -> dict[str, Any]:
    """Return the edition `code`, which no place has amended, as plain lists and text."""
    files: dict[str, int] = {}
    limits = [_limit(limit, files) for limit in code.limits.values()]
    return {
        "name": code.name,
        "place": list(code.chain[0].place),
        "limits": limits,
        "not checked": [list(item) for item in code.not_checked],
        "lacks": sorted(code.lacks),
        "formerly": dict(code.formerly),
        "trades": dict(code.trades),
        "files": list(files),
    }


def unpacked(plain: dict[str, Any]) -> AdoptedCode:
    """Return the edition that `packed` gave as `plain`. Raises `LookupError`, `TypeError` or `ValueError` where it did not."""
    files = plain["files"]
    limits = {row[0]: _of_limit(row, files) for row in plain["limits"]}
    return AdoptedCode(
        plain["name"],
        None,
        (ChainLink(plain["name"], "", None, False, Place(*plain["place"])),),
        frozen(limits),
        tuple(Unchecked(*item) for item in plain["not checked"]),
        lacks=frozenset(plain["lacks"]),
        formerly=MappingProxyType(plain["formerly"]),
        trades=MappingProxyType(plain["trades"]),
    )


def _limit(limit: Limit[Any], files: dict[str, int]) -> list[Any]:
    takes = limit.takes
    return [
        limit.name, _value(limit.value), limit.section, limit.measures, limit.advised, _value(limit.tolerance), limit.basis,
        limit.source, limit.why_void, [_event(event, files) for event in limit.history], limit.sense, limit.kind, limit.note,
        _value(limit.metric), takes and [takes.show_on, takes.asked, takes.firm, takes.not_checked],
    ]  # fmt: skip


def _of_limit(row: list[Any], files: list[str]) -> Limit[Any]:
    (name, value, section, measures, advised, tolerance, basis, source, why_void, history, sense, kind, note, metric,
     takes) = row  # fmt: skip
    return Limit(name, _of_value(value), section, measures, advised, _of_value(tolerance), basis, source, why_void,
                 tuple([Event(act, text, by, Place(files[file], line, column)) for act, text, by, file, line, column in history]),
                 sense, kind, note, _of_value(metric), takes and Takes(*takes))  # fmt: skip


def _event(event: Event, files: dict[str, int]) -> list[Any]:
    file, line, column = event.place
    return [event.act, event.value, event.source, files.setdefault(file, len(files)), line, column]


def _value(value: Any) -> Any:
    if isinstance(value, Measure):
        number = Fraction(value.n)
        return [value.dimension, number.numerator, number.denominator, value.text]
    if isinstance(value, Mapping):
        return {key: _value(row) for key, row in value.items()}
    if isinstance(value, tuple):
        return [LIST, [_value(item) for item in value]]
    if isinstance(value, Missing):
        return [NEED, [list(need) for need in value.needs]]
    if isinstance(value, SpanOverDeflection):
        return [DEFLECTION, int(value)]
    if isinstance(value, _PLAIN):
        return value
    raise TypeError(f"{value!r} is no value of a limit")


def _of_value(plain: Any) -> Any:
    if plain.__class__ is dict:
        return MappingProxyType({key: _of_value(row) for key, row in plain.items()})
    if plain.__class__ is not list:
        return plain
    if plain[0] == LIST:
        return tuple([_of_value(item) for item in plain[1]])
    if plain[0] == DEFLECTION:
        return SpanOverDeflection(plain[1])
    if plain[0] == NEED:
        return Missing(*(Need(*need) for need in plain[1]))
    dimension, number, parts, text = plain
    return KINDS[dimension](number if parts == 1 else Fraction(number, parts), text)
