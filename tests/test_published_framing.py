"""Published span cells and statements about framing, put to the real rules under the right edition."""

from __future__ import annotations

from csv import DictReader
from pathlib import Path
from typing import Any

import pytest

from precheck.reports import words
from precheck.review import Finding
from precheck.source import Block, read_text
from precheck.testing import findings, overlay, plugins

FILE = Path(__file__).parent / "published" / "framing.yaml"
PUBLISHED: Any = read_text(FILE.read_text("utf-8"), FILE.name)
SPANS: list[Any] = PUBLISHED["spans"]
STATEMENTS: list[Any] = PUBLISHED["statements"]
CASES = [(s, n) for s in STATEMENTS for n in range(len(s["cases"]))]
ENGINE_CELLS = Path(__file__).parent / "framing" / "data" / "span_cells.csv"
MEMBER = ("role", "species", "graded", "grade", "size", "spacing", "wet")
LOAD = ("use", "live", "dead")


def joist(cell: Any, span_in: int) -> Block:
    member = [f"{key}: {cell[key]}" for key in MEMBER if key in cell]
    load = ", ".join(f"{key}: {cell[key]}" for key in LOAD if key in cell)
    roof = ['slope: "3.5:12"', "ceiling: gypsum"] if cell["role"] == "rafter" else []
    fields = ", ".join([*member, *roof, f"span: {span_in} in", f"carries: [{{{load}}}]"])
    text = f"design criteria: {{ground snow load: 0 psf}}\nmembers: [{{id: J1, phase: new, {fields}}}]\n"
    block = read_text(text, cell["id"])
    assert isinstance(block, Block)
    return block


def said_of(cell: Any, span_in: int) -> list[Finding]:
    found = findings(cell["rule"], joist(cell, span_in), "irc-2018")
    assert len(found) == 1
    return found


@pytest.mark.parametrize("cell", SPANS, ids=[cell["id"] for cell in SPANS])
def test_a_member_of_a_printed_cell_passes_at_its_span_and_fails_an_inch_beyond(cell: Any) -> None:
    span = int(cell["span"])
    at, beyond = said_of(cell, span)[0], said_of(cell, span + 1)[0]
    assert at.outcome.word in ("pass", "warn"), words.message(at)
    assert beyond.outcome.word == "fail", words.message(beyond)


def test_no_cell_is_one_that_the_engineering_was_tested_on() -> None:
    rows = list(DictReader(ENGINE_CELLS.read_text("utf-8").splitlines()))
    known = {
        (r["species"], r["grade"], r["size"], float(r["spacing_in"]), r["dead_psf"])
        for r in rows
        if "2308" in r["table_id"]
    }
    decks = {(r["species"], r["size"], float(r["spacing_in"])) for r in rows if "DCA" in r["table_id"]}
    for cell in SPANS:
        spacing = float(str(cell["spacing"]).split()[0])
        assert (cell["species"], cell["grade"], cell["size"], spacing, str(cell["dead"]).split()[0]) not in known, cell[
            "id"
        ]
        assert cell["role"] != "deck joist" or (cell["species"], cell["size"], spacing) not in decks, cell["id"]


def adopted(statement: Any, folder: Path) -> str:
    """Return the edition of a statement, or an adoption of it with the amendments that the statement names."""
    if "amendments" not in statement:
        return str(statement["code"])
    lines = [f"jurisdiction: the place of {statement['id']}", f"adopts: {statement['code']}", "in force: 2020-01-01"]
    lines += ["by: as published", "amendments:"]
    lines += [
        "  - {" + ", ".join(f"{k}: {v}" for k, v in amendment.items()) + "}" for amendment in statement["amendments"]
    ]
    path = folder / f"{statement['id']}.yaml"
    path.write_text("\n".join(lines) + "\n")
    return str(path)


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_rules_say_what_the_page_says(statement: Any, number: int, tmp_path: Path) -> None:
    case = statement["cases"][number]
    project = overlay(statement.get("base", Block((0, 0), FILE.name)), case["project"])
    found = findings(statement["rule"], project, adopted(statement, tmp_path))
    said = [f"{f.outcome.word}: {words.message(f)} {f.check.why}" for f in found]
    assert found, f"{statement['rule']} found nothing to judge"
    assert min(f.outcome for f in found).word == case["expect"], (statement["says"], said)


def test_every_statement_and_cell_names_its_source_and_a_rule_that_exists() -> None:
    names = {rule.name for rule in plugins().rules}
    assert len(SPANS) + len(STATEMENTS) >= 30
    for one in (*SPANS, *STATEMENTS):
        source = one["source"] if isinstance(one["source"], dict) else PUBLISHED["sources"][one["source"]]
        assert source["who"]
        assert source["url"].startswith("http")
        assert one["rule"] in names
