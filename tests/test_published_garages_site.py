"""What is published about garages, appliances, access, the site and the package, put to the rules under its edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.reports import words
from precheck.source import Block, read_file
from precheck.testing import code, findings, overlay, plugins

FILE = Path(__file__).parent / "published" / "garages-site.yaml"
STATEMENTS: list[Any] = read_file(FILE)["statements"]
TOPICS = {"garages", "appliances", "access", "address", "fire-separation", "zoning", "flood", "permits", "package"}
CASES = [(s, n) for s in STATEMENTS for n in range(len(s["cases"]))]


def adopted(statement: Any, folder: Path) -> str:
    """Return the edition of a statement, or the path of an adoption that amends it as the statement says."""
    if "amendments" not in statement:
        return str(statement["code"])
    head = [f"jurisdiction: the place of {statement['id']}", f"adopts: {statement['code']}"]
    acts = [", ".join(f"{key}: '{value}'" for key, value in act.items()) for act in statement["amendments"]]
    path = folder / f"{statement['id']}.yaml"
    lines = [*head, "in force: 2020-01-01", "by: as published", "amendments:", *(f"  - {{{act}}}" for act in acts)]
    path.write_text("\n".join(lines) + "\n")
    return str(path)


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_rules_say_what_the_page_says(statement: Any, number: int, tmp_path: Path) -> None:
    case = statement["cases"][number]
    project = overlay(statement.get("base", Block((0, 0), str(FILE))), case["project"])
    found = findings(statement["rule"], project, adopted(statement, tmp_path))
    said = [f"{f.outcome.word}: {words.message(f)} {f.check.why} {words.needs(f)}" for f in found]
    assert found, f"{statement['rule']} found nothing to judge"
    assert min(f.outcome for f in found).word == case["expect"], (statement["says"], said)


def test_no_statement_is_tested_against_the_page_its_limits_were_read_on() -> None:
    read_by = {rule.name: rule.limit_names for rule in plugins().rules}
    for statement in STATEMENTS:
        limits = code(str(statement["code"])).limits
        assert statement["source"]["url"] not in {limits[name].source for name in read_by[statement["rule"]]}


def test_statements_are_of_these_topics_and_each_names_its_source() -> None:
    assert len({s["id"] for s in STATEMENTS}) == len(STATEMENTS) >= 40
    assert {s["rule"].partition(".")[0] for s in STATEMENTS} == TOPICS
    assert all(s["source"]["who"] and s["source"]["url"].startswith("http") for s in STATEMENTS)


def test_the_statements_come_to_each_outcome_that_a_person_acts_on() -> None:
    expected = {case["expect"] for statement in STATEMENTS for case in statement["cases"]}
    assert {"pass", "warn", "fail", "not shown", "does not apply"} <= expected
