"""What others have published about the five first topics comes out of the program as they say it.

Each statement is a small project with the outcome that follows from it. None rests on a page from which the limits that
the rule reads were taken. Where a place amended the code, its amendment is written as an adoption and resolved like any.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.project import project_from
from precheck.record import Record, read_record
from precheck.reports import words
from precheck.review import review
from precheck.rulesets import AdoptedCode, Library
from precheck.source import read_file
from precheck.testing import code, plugins

FILE = Path(__file__).parent / "published" / "statements.yaml"


class Source(Record):
    """Who published it, and where and when it was read."""

    kind = "source"
    who: str
    url: str
    section: str = ""
    read: str


class Statement(Record):
    """One published statement, as a project and what must come of it."""

    kind = "statement"
    id: str
    says: str
    source: Source
    code: str
    jurisdiction: str = ""
    amended: dict[str, str] = {}  # noqa: RUF012 # pydantic copies it
    rule: str
    project: Any
    expect: str
    note: str = ""


class Statements(Record):
    """The file of statements."""

    kind = "file of statements"
    statements: tuple[Statement, ...]


ALL = read_record(Statements, read_file(FILE)).statements


def adopted(statement: Statement, folder: Path) -> AdoptedCode:
    """Return the code of the place: its adoption of the edition, written to `folder` and resolved from there."""
    if not statement.amended:
        return code(statement.code)
    edition = code(statement.code).limits
    acts = [
        f"  - {{amend: {name}, was: '{_quoted(edition[name].text)}', to: '{_quoted(to)}', by: as published}}"
        for name, to in statement.amended.items()
    ]
    head = f"jurisdiction: The place\nadopts: {statement.code}\nin force: 2020-01-01\nby: as published\namendments:\n"
    place = folder / "jurisdictions" / "the-place"
    place.mkdir(parents=True)
    (place / "2020-01-01.yaml").write_text(head + "\n".join(acts) + "\n", encoding="utf-8")
    return Library((folder, *plugins().rulesets)).adopt("the-place")


def _quoted(text: str) -> str:
    return text.replace("'", "''")


@pytest.mark.parametrize("statement", ALL, ids=lambda statement: statement.id)
def test_the_program_says_what_was_published(statement: Statement, tmp_path: Path) -> None:
    """The worst that the rule finds is what the statement says, under the code that it speaks of."""
    in_force = adopted(statement, tmp_path)
    statement.project.setdefault("project", statement.id)
    reviewed = review(project_from(statement.project), in_force, plugins(), [statement.rule.partition(".")[0]])
    found = [finding for finding in reviewed.findings if finding.rule.name == statement.rule]
    assert found, f"nothing in this project is what {statement.rule} is about"
    came_to = min(finding.outcome for finding in found).word
    assert came_to == statement.expect, [words.message(finding) for finding in found]
    for finding in found:
        assert statement.source.url not in {limit.source for limit in finding.limits}


@pytest.mark.parametrize("statement", [s for s in ALL if s.amended], ids=lambda statement: statement.id)
def test_an_amendment_is_what_makes_the_finding(statement: Statement, tmp_path: Path) -> None:
    """The amended value is the one in effect, and its history still tells the edition's."""
    in_force = adopted(statement, tmp_path)
    for name, to in statement.amended.items():
        limit = in_force.limits[name]
        assert limit.text == to
        assert [event.act for event in limit.history] == ["set", "amended"]
        assert limit.history[0].value == code(statement.code).limits[name].text != to


def test_there_are_enough_of_them() -> None:
    """Every topic is spoken of, some of it as amended, and each statement has an id of its own."""
    assert len({statement.id for statement in ALL}) == len(ALL) >= 60
    topics = {statement.rule.partition(".")[0] for statement in ALL}
    assert topics == {"stairs", "doors", "escape", "ceilings", "separation"}
    assert sum(bool(statement.amended) for statement in ALL) >= 15
