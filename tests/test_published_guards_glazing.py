"""Statements on handrails, guards and safety glazing that places publish, put to the real rules under their edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.reports import words
from precheck.source import Block, read_file
from precheck.testing import code, findings, overlay, plugins

FILE = Path(__file__).parent / "published" / "guards-glazing.yaml"
STATEMENTS: list[Any] = read_file(FILE)["statements"]
TOPICS = frozenset(("guards", "handrails", "glazing", "special-stairs", "stairways"))
CASES = [(s, n) for s in STATEMENTS for n in range(len(s["cases"]))]


def adopted(statement: Any, folder: Path) -> str:
    """Return the edition of a statement, or the path of an adoption of it with the amendments that the statement names."""
    if "amendments" not in statement:
        return str(statement["code"])
    lines = [f"jurisdiction: the place of {statement['id']}", f"adopts: {statement['code']}", "in force: 2020-01-01"]
    lines += ["by: as published", "amendments:", *(f"  - {_flow(a)}" for a in statement["amendments"])]
    path = folder / f"{statement['id']}.yaml"
    path.write_text("\n".join(lines) + "\n")
    return str(path)


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    return "[" + ", ".join(map(str, value)) + "]" if isinstance(value, list) else str(value)


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_rules_say_what_the_page_says(statement: Any, number: int, tmp_path: Path) -> None:
    case = statement["cases"][number]
    project = overlay(statement.get("base", Block((0, 0), str(FILE))), case["project"])
    found = findings(statement["rule"], project, adopted(statement, tmp_path))
    said = [f"{f.outcome.word}: {words.message(f)} {f.check.why}" for f in found]
    assert found, f"{statement['rule']} found nothing to judge"
    assert min(f.outcome for f in found).word == case["expect"], (statement["says"], said)


def test_no_statement_is_tested_against_the_page_its_limits_were_read_on() -> None:
    read_by = {rule.name: rule.limit_names for rule in plugins().rules}
    for statement in STATEMENTS:
        limits = code(str(statement["code"])).limits
        assert statement["source"]["url"] not in {limits[name].source for name in read_by[statement["rule"]]}


def test_every_statement_names_its_source_and_is_of_these_topics() -> None:
    assert len({s["id"] for s in STATEMENTS}) == len(STATEMENTS) >= 14
    for statement in STATEMENTS:
        assert statement["source"]["who"]
        assert statement["source"]["url"].startswith("http")
        assert statement["rule"].partition(".")[0] in TOPICS
        assert statement["cases"]
