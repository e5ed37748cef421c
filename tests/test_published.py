"""What others have published comes out of the program as they say it.

Each statement of `published/*.yaml` is a small project, or several, with the outcome that follows, in our own words and
with its source. None rests on a page from which the limits that the rule reads were taken. Where a place amended the
code, its amendments are written as an adoption and resolved like any.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from precheck.files.source import Block, read_file
from precheck.reports import words
from precheck.testing import code, findings, overlay, plugins

FOLDER = Path(__file__).parent / "published"
FILES = {path.stem: read_file(path, path.name).get("statements", ()) for path in sorted(FOLDER.glob("*.yaml"))}
STATEMENTS = [statement for statements in FILES.values() for statement in statements]
CASES = [(s, n) for s in STATEMENTS for n in range(len(s.get("cases", (s,))))]
LEAST = {  # so that nobody thins them out unseen: statements by file
    "statements": 100, "guards-glazing": 28, "rooms-alarms": 30, "garages-site": 50, "envelope-services": 40, "framing": 10,
    "foundations-walls": 15, "local-rules": 28, "structure": 28,
}  # fmt: skip


def adopted(statement: Any, folder: Path) -> str:
    """Return the edition of a statement, or the path of an adoption that amends it as the statement says."""
    acts = [*statement.get("amendments", ()), *_amended(statement)]
    if not acts:
        return str(statement["code"])
    head = [f"jurisdiction: the place of {statement['id']}", f"adopts: {statement['code']}", "in force: 2020-01-01"]
    path = folder / f"{statement['id']}.yaml"
    lines = [*head, "by: as published", "amendments:", *(f"  - {_flow(act)}" for act in acts)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return str(path)


def _amended(statement: Any) -> list[dict[str, str]]:
    limits = code(str(statement["code"])).limits
    changes = statement.get("amended", {}).items()
    return [{"amend": name, "was": limits[name].text, "to": to, "by": "as published"} for name, to in changes]


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return "'" + str(value).replace("'", "''") + "'"


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_program_says_what_was_published(statement: Any, number: int, tmp_path: Path) -> None:
    case = statement.get("cases", (statement,))[number]
    project = overlay(statement.get("base", Block((0, 0), "")), case["project"])
    found = findings(statement["rule"], project, adopted(statement, tmp_path))
    said = [f"{f.outcome.word}: {words.message(f)} {f.check.why} {words.needs(f)}" for f in found]
    assert found, f"nothing in this project is what {statement['rule']} is about"
    assert min(f.outcome for f in found).word == case["expect"], (statement["says"], said)


def test_no_statement_is_tested_against_the_page_its_limits_were_read_on() -> None:
    read_by = {rule.name: rule.limit_names for rule in plugins().rules}
    for statement in STATEMENTS:
        limits = code(str(statement["code"])).limits
        assert statement["source"]["url"] not in {limits[n].source for n in read_by[statement["rule"]]}, statement["id"]


def test_every_statement_has_an_id_of_its_own_and_names_its_source() -> None:
    twice = [name for name, count in Counter(s["id"] for s in STATEMENTS).items() if count > 1]
    assert twice == []
    for statement in STATEMENTS:
        assert statement["says"]
        assert statement["source"]["who"]
        assert statement["source"]["url"].startswith("http")


def test_there_are_enough_of_them_and_they_come_to_each_outcome_that_a_person_acts_on() -> None:
    assert {name: len(FILES[name]) >= least for name, least in LEAST.items()} == dict.fromkeys(LEAST, True)
    assert sum("amended" in s or "amendments" in s for s in STATEMENTS) >= 45
    expected = {case["expect"] for s in STATEMENTS for case in s.get("cases", (s,))}
    assert {"pass", "warn", "fail", "not shown", "does not apply"} <= expected


@pytest.mark.parametrize("statement", [s for s in STATEMENTS if "amended" in s], ids=lambda s: s["id"])
def test_an_amendment_is_what_makes_the_finding(statement: Any, tmp_path: Path) -> None:
    limits, edition = code(adopted(statement, tmp_path)).limits, code(str(statement["code"])).limits
    for name, to in statement["amended"].items():
        assert limits[name].text == to != edition[name].text
        before = [event.act for event in edition[name].history]
        assert [event.act for event in limits[name].history] == [*before, "amended"]
