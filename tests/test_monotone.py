"""No value that fails, or is not enough to decide, lies between two that pass, over every number of every case of every rule.

So a value that gets worse never makes anything better: where it fails, what is ten or a thousand times worse does not pass.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from case_houses import FULL, TOPICS, TRIED, CaseHouse, Tried, Way, changed
from house_changes import written

from precheck import Length, Measure
from precheck.checks import Outcome
from precheck.files.source import Block, Unusable
from precheck.units import Ratio, recognize
from precheck.units.kinds import PlainNumber

TIMES = (Fraction(1, 1000), Fraction(1, 10), Fraction(1), Fraction(10), Fraction(1000))
FINER = (Fraction(1, 1000), Fraction(1, 12), Fraction(1, 2), Fraction(1), Fraction(2), Fraction(12), Fraction(1000))
BETWEEN = re.compile("P[FN]+P")
SIGNS = {Outcome.PASS: "P", Outcome.FAIL: "F", Outcome.NOT_SHOWN: "N"}
EXEMPT = {
    ("framing.strength", "at"): "a load in the middle of a span weighs more on it than one near either end",
    ("framing.deflection", "at"): "likewise",
    ("plan.opening-place", "sill height"): "a window may lie below another one or above it, and not over it",
    ("fire-separation.projections", "distance"): "within 2 ft of the line a detached garage may have an eave of 4 in",
}
"""Numbers that say where something is, and not how much of it there is; the sides of a `rectangle` all do."""


def numbers(node: Any, way: Way = ()) -> Iterator[tuple[Way, str]]:
    """Yield the way to each number or measure below `node`, with what is written there."""
    inner = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in inner:
        if isinstance(value, str) and value[:1].isdigit() and isinstance(key, str):
            yield (*way, key), value
        else:
            yield from numbers(value, (*way, key))


def times(text: str, factor: Fraction) -> str | None:
    """Return a number or measure so many times as large, as a file writes it; None where it is no such thing."""
    if text.isdigit():
        return str(int(int(text) * factor))
    found = recognize(text)
    if isinstance(found, Length):
        return written(int(found.n * factor))
    if isinstance(found, PlainNumber):
        return f"{float(found.n * factor):.6f}"
    if isinstance(found, Ratio):
        return f"{float(found.n * factor * 100):.6f} %"  # which slopes and shares take
    return str(found * factor).removeprefix("about ") if isinstance(found, Measure) else None


def put(fragment: Block, way: Way, value: str) -> Block:
    """Return the fragment with another value at the end of the `way`."""
    copy: Block = changed(fragment, None, lambda *_: None)
    at: Any = copy
    for step in way[:-1]:
        at = at[step]
    at[way[-1]] = value
    return copy


def outcomes(house: CaseHouse, fragment: Block) -> dict[str, Outcome]:
    """Return the outcomes by what they are about; none where the file is refused."""
    try:
        found = house._replace(fragment=fragment).findings()
    except Unusable:
        return {}
    return {str(getattr(f.subject, "label", "")): f.outcome for f in found}


@TRIED
@pytest.mark.parametrize("topic", TOPICS)
def test_no_failing_value_lies_between_two_that_pass(topic: str, tried: Tried) -> None:
    wrong = []
    for house in tried(topic):
        for way, text in numbers(house.fragment):
            if (house.rule.name, way[-1]) in EXEMPT or "rectangle" in way or times(text, Fraction(1)) is None:
                continue
            tried = [
                outcomes(house, put(house.fragment, way, times(text, factor) or text))
                for factor in (FINER if FULL else TIMES)
            ]
            for label in {label for found in tried for label in found}:
                signs = "".join(SIGNS.get(found.get(label, Outcome.ERROR), "") for found in tried)
                if BETWEEN.search(signs):
                    wrong.append(f"{house.rule.name}, {house.case}: {way} {text}: {signs}")
                assert Outcome.ERROR not in {found.get(label) for found in tried}, f"{house.rule.name}: {way}"
    assert wrong == []
