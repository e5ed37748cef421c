"""Published span cells that the engineering was not tested on, put to the real rules."""

from __future__ import annotations

from csv import DictReader
from pathlib import Path
from typing import Any

import pytest

from precheck.files.source import Block, read_text
from precheck.reports import words
from precheck.review.finding import Finding
from precheck.testing import findings, plugins

FILE = Path(__file__).parent / "published" / "framing.yaml"
PUBLISHED: Any = read_text(FILE.read_text("utf-8"), FILE.name)
SPANS: list[Any] = PUBLISHED["spans"]
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


def test_every_cell_names_its_source_and_a_rule_that_exists() -> None:
    names = {rule.name for rule in plugins().rules}
    assert len(SPANS) >= 20
    for cell in SPANS:
        source = PUBLISHED["sources"][cell["source"]]
        assert source["who"]
        assert source["url"].startswith("http")
        assert cell["rule"] in names
