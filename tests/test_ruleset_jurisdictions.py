"""The rulesets of real places: each loads, verifies, says that it is partial, and names where its amendments were read."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import precheck_rulesets
import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.files.missing import is_missing
from precheck.files.record import read_record
from precheck.files.source import Unusable, read_file
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Adoption, Library, slug

FOLDER = Path(precheck_rulesets.__file__).parent / "jurisdictions"
FILES = sorted(FOLDER.glob("*/*.yaml"))
REAL = [path for path in FILES if not read_record(Adoption, read_file(path)).demo]
NAMES = [f"{path.parent.name} {path.stem}" for path in REAL]


def test_twenty_places_of_fourteen_states_are_there() -> None:
    places = {path.parent.name for path in REAL}
    assert len(places) >= 20
    assert len({_state(name) for name in places}) >= 14


def _state(name: str) -> str:
    known = ["pennsylvania", "new-mexico", "virginia", "new-jersey", "michigan", "arizona", "iowa", "south-dakota",
             "tennessee", "california", "oregon", "indiana", "kansas", "maryland", "minnesota"]  # fmt: skip
    return next(state for state in known if name.endswith(state))


@pytest.mark.parametrize("path", FILES, ids=[f"{p.parent.name}/{p.stem}" for p in FILES])
def test_it_verifies_with_its_cases_and_is_filed_under_its_name_and_date(path: Path) -> None:
    found = CliRunner().invoke(cli, ["ruleset", "verify", str(path)])
    assert found.exit_code == 0, found.output
    adoption = read_record(Adoption, read_file(path))
    assert (slug(adoption.jurisdiction), str(adoption.in_force)) == (path.parent.name, path.stem)


@pytest.mark.parametrize("path", REAL, ids=NAMES)
def test_it_says_that_it_is_partial_and_where_it_was_read(path: Path) -> None:
    adoption = read_record(Adoption, read_file(path))
    assert adoption.partial
    assert adoption.source.startswith("http")
    assert len(adoption.note) > 40
    assert all(amendment.by for amendment in adoption.amendments)


@pytest.mark.parametrize("path", REAL, ids=NAMES)
def test_whoever_changes_a_value_shows_by_a_case_what_comes_of_it(path: Path) -> None:
    adoption = read_record(Adoption, read_file(path))
    changes = [one for one in adoption.amendments if is_missing(one.lock)]
    assert bool(adoption.cases) == bool(changes)


LOCAL = "jurisdiction: Ash City\nadopts: %s\nin force: 2026-01-01\nby: City Code 1\namendments:\n  - {%s, by: City Code 2}\n"


@pytest.mark.parametrize(
    ("state", "amendment", "refused"),
    [
        (
            "South Dakota",
            "amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 7 in",
            "South Dakota locks whole code",
        ),
        ("South Dakota", "amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 8 in", ""),
        ("South Dakota", "amend: zoning.setback.front, was: set locally, to: 25 ft", ""),
        ("Maryland", "delete: section R313", "Maryland locks section R313"),
        ("Maryland", "amend: energy.insulation.floor, row: zone 4, was: R-19, to: R-13", "Maryland locks chapter 11"),
        ("Maryland", "amend: energy.insulation.floor, row: zone 4, was: R-19, to: R-30", ""),
    ],
)
def test_what_a_state_lets_its_cities_change_is_all_that_they_can_change(
    tmp_path: Path, state: str, amendment: str, refused: str
) -> None:
    path = tmp_path / "ash.yaml"
    path.write_text(LOCAL % (state, amendment))
    found = CliRunner().invoke(cli, ["ruleset", "verify", str(path)])
    assert (found.exit_code, refused in found.stderr) == (2 if refused else 0, True), found.output


def test_in_the_year_after_a_new_edition_virginia_leaves_the_choice() -> None:
    rulesets = Library(load_plugins().rulesets)
    days = (date(2024, 1, 17), date(2024, 1, 18), date(2025, 1, 17), date(2025, 1, 18))
    assert [rulesets.adopt("Virginia", day).edition for day in days] == ["irc-2018", *["irc-2021"] * 3]
    assert rulesets.adopt("Virginia", date(2025, 1, 17), "irc-2018").limits["stairs.tread-depth.minimum"].text == "9 in"
    with pytest.raises(Unusable, match="`Virginia` does not take irc-2018 on 2025-01-18, but irc-2021"):
        rulesets.adopt("Virginia", date(2025, 1, 18), "irc-2018")
