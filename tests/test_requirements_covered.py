"""Each requirement of the lists drawn up beforehand has limits that a rule reads, or a line that says why it is not checked."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from precheck.files.record import Record, read_record
from precheck.files.source import read_file
from precheck.testing import code, editions, plugins

HERE = Path(__file__).parent
FILE = HERE / "published" / "requirements.yaml"


class Requirement(Record):
    """What is asked, and where the project answers it: limits, or a line of what is not checked as `topic/what`."""

    kind = "requirement"
    asks: str
    limits: tuple[str, ...] = ()
    not_checked: str = ""


class Requirements(Record):
    """The file, by field of the code."""

    kind = "list of requirements"
    life_safety: dict[str, Requirement]
    structure: dict[str, Requirement]
    envelope_and_services: dict[str, Requirement]


FOUND = read_record(Requirements, read_file(FILE))
FIELDS = {
    "life safety": FOUND.life_safety,
    "structure": FOUND.structure,
    "envelope and services": FOUND.envelope_and_services,
}
ALL = [(f"{field}/{key}", line) for field, lines in FIELDS.items() for key, line in lines.items()]
NAMED = sorted({name for _, line in ALL for name in line.limits})
UNCHECKED = sorted({line.not_checked for _, line in ALL if line.not_checked})


@cache
def reasons(edition: str) -> dict[str, str]:
    """Return why each `topic/what` of an edition is not checked."""
    return {f"{line.topic}/{line.what}": line.why for line in code(edition).not_checked}


def test_the_lists_are_whole() -> None:
    """One line for each requirement, so that none falls out unseen."""
    assert {field: len(lines) for field, lines in FIELDS.items()} == {
        "life safety": 251,
        "structure": 237,
        "envelope and services": 261,
    }


def test_each_requirement_is_answered_in_one_way() -> None:
    """Limits or a line of what is not checked, and never neither or both."""
    assert [key for key, line in ALL if bool(line.limits) == bool(line.not_checked)] == []
    assert [key for key, line in ALL if not line.asks.strip()] == []


@pytest.mark.parametrize("edition", editions())
def test_each_limit_that_is_named_is_in_the_edition(edition: str) -> None:
    """All four editions define each of them."""
    assert [name for name in NAMED if name not in code(edition).limits] == []


def test_each_requirement_binds_in_some_edition() -> None:
    """Of the limits that answer it one at least is in force, but for what only a jurisdiction brings in."""
    bound = {name for name in NAMED if any(code(edition).limits[name].value is not None for edition in editions())}
    loose = {name for _, line in ALL if line.limits and not bound & set(line.limits) for name in line.limits}
    assert loose == BROUGHT_IN_LOCALLY


BROUGHT_IN_LOCALLY = {
    "existing.appendix.adopted",
    "existing.sprinklers.added-area",
    "existing.sprinklers.altered-share",
}


def test_each_limit_that_is_named_is_read_by_a_rule() -> None:
    """A number that nothing reads checks nothing."""
    read = {name for rule in plugins().rules for name in rule.limit_names}
    assert [name for name in NAMED if name not in read] == []


@pytest.mark.parametrize("edition", editions())
def test_each_line_of_what_is_not_checked_stands_in_the_edition_with_its_reason(edition: str) -> None:
    """The line is what `precheck check` prints under what it does not check."""
    why = reasons(edition)
    assert [line for line in UNCHECKED if not why.get(line, "").strip()] == []


def test_most_requirements_are_checked() -> None:
    """What is not checked stays a short list."""
    assert sum(bool(line.limits) for _, line in ALL) / len(ALL) >= 0.94
