"""The climate zone of the title sheet and that of the jurisdiction."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck.files.source import Block, read_file
from precheck.testing import findings, overlay

FILE = Path(__file__).parent / "published" / "envelope-services.yaml"


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
    statement = next(s for s in read_file(FILE)["statements"] if s["id"] == "boise-slab")
    project = overlay(statement["base"], statement["cases"][0]["project"])
    found = findings(statement["rule"], project, adopted(tmp_path, "climate zone: '2'"))
    assert [f.outcome.word for f in found] == ["does not apply"]
