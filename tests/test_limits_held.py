"""Every number of the code is held from both sides: shifted by one of its last digit, a case beside a rule comes out otherwise.

So each comparison has a case at its limit and one just beyond. Held are the cases of all rules that read the limit, for
each value that the editions give it; the cells of tables are not among them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any, NamedTuple

import pytest
from mistakes import NUMBER, ROOT, shifted

from precheck import House, Limit, Measure, Rule, testing
from precheck.files.record import read_record
from precheck.files.source import Block, read_file
from precheck.project import project_from
from precheck.review.run import run
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import frozen, value_of
from precheck.runs import cases

PLUGINS = ROOT / "plugins"
TOPICS = sorted({path.stem for path in (ROOT / "rulesets" / "codes" / "irc").glob("*.yaml")} - {"editions"})
SAMPLE = ("guards", "stairways")
EDITIONS = ("irc-2021", "irc-2024", "irc-2018", "irc-2015")
EXEMPT = {
    ("escape.width.existing", "21 in"): "a window 20 in wide is wide enough for any bedroom",
    ("flood.openings.minimum", "1"): "one opening stands in one wall, and two walls are asked for",
    ("framing.deflection.tile", "359"): "no floor may bend more, whatever is on it",
}
"""Numbers that a limit may be given without changing an outcome, with the reason."""


class Shift(NamedTuple):
    """A limit whose number was shifted in an edition of the code."""

    edition: str
    limit: Limit[Any]
    other: Limit[Any]
    to: str

    def made_in(self, code: AdoptedCode) -> AdoptedCode:
        """Return `code` with the other number in it, where it has this one."""
        limits = code.limits
        here = limits[self.limit.name].text == self.limit.text
        return replace(code, limits=frozen({**limits, self.limit.name: self.other})) if here else code

    @property
    def told(self) -> str:
        """Say what was made of it."""
        return f"{self.limit.name} in {self.edition}: {self.limit.text} -> {self.to}"


@cache
def rules() -> dict[str, Rule]:
    """Return all rules by name."""
    return {rule.name: rule for rule in testing.plugins().rules}


@cache
def readers() -> dict[str, list[testing.CaseFile]]:
    """Return the case files of the rules that read each limit."""
    found = defaultdict(list)
    for path in sorted(PLUGINS.glob("*/cases/*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        for name in rules()[file.rule].limit_names:
            found[name].append(file)
    return found


@cache
def houses(rule: str) -> list[tuple[testing.Case, House]]:
    """Return the cases of a rule, each with its house."""
    found = []
    for file in {id(file): file for files in readers().values() for file in files if file.rule == rule}.values():
        for case in file.cases:
            nothing = Block((0, 0), "case")
            block = testing.overlay(file.base or nothing, case.given or nothing)
            block.setdefault("project", "case")
            found.append((case, House(project_from(block, testing.plugins().added))))
    return found


def texts_beside(text: str) -> Iterator[str]:
    """Yield a value with its last number one up and one down; that of a slope is its rise. None of a thing is no limit."""
    text = text.replace(",", "")
    number = [*NUMBER.finditer(text.partition(":")[0])][-1]
    for other in (shifted(number[0]), shifted(number[0], -1)):
        if not other.startswith("-") and other != "0":
            yield text[: number.start()] + other + text[number.end() :]


def asked(limit: Limit[Any]) -> Any:
    """Return what a limit asks of what is drawn in inches: the milder of its value and the metric figure for the same."""
    if limit.metric is None or abs(limit.metric - limit.value) > limit.metric.rounding:
        return limit.value
    return (max if limit.sense == "maximum" else min)(limit.value, limit.metric)


def shifted_limits(topic: str) -> Iterator[Shift]:
    """Yield the limits of a topic that are numbers, shifted either way, for each value that an edition gives."""
    seen = set()
    for edition in EDITIONS:
        code = testing.code(edition)
        for name in sorted(name for name in readers() if name.startswith(f"{topic}.")):
            limit = code.limits[name]
            number = isinstance(limit.value, Measure | int) and limit.value is not True
            if number and (name, limit.text) not in seen:
                seen.add((name, limit.text))
                shifts = (Shift(edition, limit, with_text(limit, text), text) for text in texts_beside(limit.text))
                yield from (s for s in shifts if (name, s.to) not in EXEMPT and asked(s.other) != asked(limit))


def with_text(limit: Limit[Any], text: str) -> Limit[Any]:
    """Return the limit with the value that a ruleset writes as `text`."""
    return replace(limit, value=value_of(text, limit.measures))


def is_noticed(shift: Shift) -> bool:
    """Return whether a case comes out otherwise than it expects."""
    name = shift.limit.name
    for file in sorted(readers()[name], key=lambda file: not name.startswith(f"{file.rule}.")):
        for case, house in houses(file.rule):
            under = case.code if isinstance(case.code, str) else shift.edition
            found = list(run(rules()[file.rule], house, shift.made_in(testing.code(under))))
            expected = testing.expected(case.expect, under)
            if cases.wrong(found, expected, case.says, case.fix, case.needs, case.changes):
                return True
    return False


@pytest.mark.parametrize(
    "topic", [topic if topic in SAMPLE else pytest.param(topic, marks=pytest.mark.long) for topic in TOPICS]
)
def test_a_number_one_up_or_down_is_noticed_by_a_case(topic: str) -> None:
    assert [shift.told for shift in shifted_limits(topic) if not is_noticed(shift)] == []


@pytest.mark.long
def test_many_numbers_are_shifted() -> None:
    assert sum(1 for topic in TOPICS for _ in shifted_limits(topic)) > 1500
