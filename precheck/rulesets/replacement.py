"""A value that a place puts in the place of the code's, held to the last cell: rows, kinds, words, and slips of the pen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from precheck.files.mistakes import nearest
from precheck.files.source import Block, Items, Place, Problem
from precheck.rulesets.common import as_yaml
from precheck.rulesets.limit import Limit, same_kind
from precheck.rulesets.quantity import choices_of_parts
from precheck.units import Measure, Ratio
from precheck.units.deflection import SpanOverDeflection

FAR_OFF = (
    10  # times the value that is replaced: a decimal point or a unit that slipped, unless the ruleset says it is meant
)


PART = "1/"  # what begins a share that is written as a part


def doubts(
    place: Place, limit: Limit[Any], written: Any, value: Any, before: Any, declared: tuple[str, ...], meant: bool
) -> Iterator[Problem]:
    """Yield what is wrong with `value`, `written` at `place`, in the place of `before`, a value or a cell of `limit`.

    `declared` are the words that the ruleset says are new; `meant` says that a value far off is no slip.
    """
    if isinstance(value, Mapping) and isinstance(before, Mapping):
        yield from _rows(place, limit, written, value, before, declared, meant)
    elif not _can_replace(value, before):
        yield Problem(place, f"`{as_yaml(value)}` cannot replace `{as_yaml(before)}`; write a value of the same kind")
    elif isinstance(value, tuple) and isinstance(before, tuple):
        yield from _words(place, written, value, before, declared)
    elif isinstance(value, str) and isinstance(before, str) and not _has_digit(value):
        yield from _words(place, written, (value,), (before,), declared)
    elif not meant and (times := _far_off(value, before)):
        what = f"`{as_yaml(value)}` is {times} `{as_yaml(before)}`, the value in effect"
        yield Problem(place, f"{what}; correct it, or write `meant: yes` beside it if it is right")


def as_part(value: Any, before: Any) -> Any:
    """Return `value` as the part that `before` is written as, where a ruleset of before gives the number to divide by.

    So 300 for what the code writes as 1/150 is 1/300, and 480 for L/360 is L/480.
    """
    if type(value) is not int or value < 1:
        return value
    if isinstance(before, SpanOverDeflection):
        return SpanOverDeflection(value)
    is_part = isinstance(before, Ratio) and str(before.text).startswith(PART)
    return Ratio(Fraction(1, value), f"{PART}{value}") if is_part else value


def _rows(
    place: Place, limit: Limit[Any], written: Any, value: Any, before: Any, declared: tuple[str, ...], meant: bool
) -> Iterator[Problem]:
    for row in value.keys() - before.keys():
        at = written.place_of(row) if isinstance(written, Block) else place
        yield Problem(
            at, f"`{limit.name}` has no row `{row}`{nearest(row, before) or '; its rows: ' + ', '.join(before)}"
        )
    if lacking := [row for row in before if row not in value]:
        rest = ", ".join(f"`{row}: {as_yaml(before[row])}`" for row in lacking[:6])
        yield Problem(place, f"rows are missing: write {rest} too, or amend one row by `row:` beside `amend:`")
    for row in value.keys() & before.keys():
        at = written.place_of(row) if isinstance(written, Block) else place
        inner = written[row] if isinstance(written, dict) else value[row]
        yield from doubts(at, limit, inner, value[row], before[row], declared, meant)


def _words(place: Place, written: Any, words: Any, before: Any, declared: tuple[str, ...]) -> Iterator[Problem]:
    """Hold words to those that projects know; a list with words that no field offers is one of free words, and open."""
    known = choices_of_parts()
    if not known.issuperset(before):
        return
    for number, word in enumerate(words):
        if isinstance(word, str) and word not in known and word not in declared:
            at = written.place_of(number) if isinstance(written, Items) else place
            told = f"`{word}` is a word that no part of a project has, so nothing could meet it{nearest(word, known)}"
            yield Problem(at, f"{told}; write one that is known, or list it under `new words:` beside `to:`")


def _can_replace(value: Any, before: Any) -> bool:
    """Whether one takes the other's place: alike in kind, or both about insulation, which is a measure or a recipe."""
    if same_kind(value, before):
        return True
    recipe = next((one for one in (value, before) if isinstance(one, str)), "")
    return _has_digit(recipe) and any(isinstance(one, Measure) for one in (value, before))


def _far_off(value: Any, before: Any) -> str:
    new, old = (one.n if isinstance(one, Measure) else one for one in (value, before))
    if any(type(one) not in (int, Fraction) or one <= 0 for one in (new, old)):
        return ""
    times = Fraction(new) / old
    if Fraction(1, FAR_OFF) < times < FAR_OFF:
        return ""
    return f"{float(times):,.0f} times" if times > 1 else f"one {float(1 / times):,.0f}th of"


def _has_digit(text: str) -> bool:
    return any(character.isdigit() for character in text)
