"""Nothing absurd passes: a number of a house that passes, made a thousand times as large or as small, never passes still.

Most are refused when they are read, by the range of their field; a rule sees what is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from case_houses import FULL, TOPICS, Way, houses
from test_monotone import outcomes, put, times
from test_ranges import leaves

from precheck.checks import Outcome
from precheck.files.fields import fields_of
from precheck.files.mistakes import record_in
from precheck.project import Project
from precheck.project.between import Between

FACTORS = (Fraction(1000), Fraction(1, 1000))
A_CASE_EACH = not FULL
"""Whether one case of a rule is enough for each of its numbers."""
EXEMPT = {
    "cost of work": "what the work costs, and what the house is worth, may be little or much",
    "building value": "likewise",
    "gallons": "a tank may hold little",
}
"""Numbers that may well be a thousand times as large or as small."""


def ranges(kind: Any) -> list[Between]:
    """Return the ranges of the values that a field holds."""
    return [one for _, said in leaves(kind) for one in said if isinstance(one, Between)]


def says_where(field: Between) -> bool:
    """Return whether a number may lie on either side of zero: so it says where something is, for which near zero is usual."""
    return str(field.low).startswith("-")


def numbers(node: Any, model: Any = Project, way: Way = ()) -> Iterator[tuple[Way, str]]:
    """Yield the way to each number below `node`, a record of `model`, that says how much there is of something."""
    fields = {field.key: field for field in fields_of(model).values()}
    for key, value in node.items() if isinstance(node, dict) else ():
        field = fields.get(key)
        if field is None:
            continue
        below = record_in(field.annotation)
        found = ranges(field.kind)
        many = isinstance(value, list)
        for step, item in enumerate(value) if many else [(0, value)]:
            here = (*way, key, step) if many else (*way, key)
            if below is not None:
                yield from numbers(item, below, here)
            elif isinstance(item, str) and found and not says_where(found[0]):
                yield here, item


def scaled(text: str, factor: Fraction) -> str | None:
    """Return a number, or a width and height, so many times as large; None where that changes nothing, or leaves none."""
    sides = [times(side.strip(), factor) for side in text.split(" x ")]
    more = " x ".join(side for side in sides if side is not None)
    unchanged = None in sides or times(text, Fraction(1)) == more
    return None if unchanged or more == "0" else more


def still_passes(house: Any, way: Way, text: str, before: dict[str, Outcome]) -> Iterator[str]:
    """Yield the absurd values with which what passed before passes still."""
    for factor in FACTORS:
        if (more := scaled(text, factor)) is not None:
            after = outcomes(house, put(house.fragment, way, more))
            if any(before[label] is after.get(label) is Outcome.PASS for label in before):
                yield more


@pytest.mark.parametrize("topic", TOPICS)
def test_what_is_a_thousand_times_as_large_or_as_small_does_not_pass(topic: str) -> None:
    wrong, tried = [], set()
    for house in houses(topic):
        before: dict[str, Outcome] | None = None
        for way, text in numbers(house.fragment):
            name = (house.rule.name, *(step for step in way if isinstance(step, str)))
            if way[-1] in EXEMPT or (A_CASE_EACH and name in tried) or text[:1] == "-":
                continue
            before = outcomes(house, house.fragment) if before is None else before
            if Outcome.PASS in before.values():
                tried.add(name)
                wrong += [f"{name}: {text} as {more}" for more in still_passes(house, way, text, before)]
    assert wrong == []
