"""What is published about attics, roofs, walls, energy, air, plumbing and wiring, put to the rules under its edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.reports import words
from precheck.source import Block, read_file
from precheck.testing import code, findings, overlay, plugins

FILE = Path(__file__).parent / "published" / "envelope-services.yaml"
STATEMENTS: list[Any] = read_file(FILE)["statements"]
TOPICS = {"attic-ventilation", "cladding", "electrical", "energy", "plumbing", "roofing", "ventilation"}
CASES = [(s, n) for s in STATEMENTS for n in range(len(s["cases"]))]


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_rules_say_what_the_page_says(statement: Any, number: int) -> None:
    case = statement["cases"][number]
    project = overlay(statement.get("base", Block((0, 0), str(FILE))), case["project"])
    found = findings(statement["rule"], project, str(statement["code"]))
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


def adopted(folder: Path, criteria: str) -> str:
    """Return the path of an adoption of the 2021 code that sets `criteria`."""
    path = folder / "place.yaml"
    head = "jurisdiction: Alder Flats\nadopts: irc-2021\nin force: 2024-01-01\nby: Ordinance 1\n"
    path.write_text(f"{head}design criteria: {{{criteria}}}\n")
    return str(path)


@pytest.mark.parametrize(("zone", "outcome"), [("5A", "pass"), ("4A", "fail")])
def test_the_climate_zone_on_the_title_sheet_is_held_against_the_jurisdictions(
    zone: str, outcome: str, tmp_path: Path
) -> None:
    stated = Block((0, 0), "sheet")
    stated["design criteria"] = Block((0, 0), "sheet")
    stated["design criteria"]["climate zone"] = zone
    found = findings("energy.climate-zone", stated, adopted(tmp_path, "climate zone: 5A"))
    assert [f.outcome.word for f in found] == [outcome]


def test_the_jurisdictions_climate_zone_goes_before_the_title_sheets(tmp_path: Path) -> None:
    statement = next(s for s in STATEMENTS if s["id"] == "boise-slab")
    project = overlay(statement["base"], statement["cases"][0]["project"])
    found = findings(statement["rule"], project, adopted(tmp_path, "climate zone: '2'"))
    assert [f.outcome.word for f in found] == ["does not apply"]
