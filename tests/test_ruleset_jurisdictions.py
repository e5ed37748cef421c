"""The rulesets of real places: each loads, verifies, says that it is partial, and names where its amendments were read."""

from __future__ import annotations

from pathlib import Path

import precheck_rulesets
import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.files.record import read_record
from precheck.files.source import read_file
from precheck.rulesets import Adoption, slug

FOLDER = Path(precheck_rulesets.__file__).parent / "jurisdictions"
FILES = sorted(FOLDER.glob("*/*.yaml"))
REAL = [path for path in FILES if not read_record(Adoption, read_file(path)).demo]
NAMES = [path.parent.name for path in REAL]


def test_at_least_twelve_places_of_ten_states_are_there() -> None:
    assert len(set(NAMES)) >= 12
    assert len({_state(name) for name in NAMES}) >= 10


def _state(name: str) -> str:
    known = ["pennsylvania", "new-mexico", "virginia", "new-jersey", "michigan", "arizona", "iowa", "south-dakota",
             "tennessee", "california", "oregon"]  # fmt: skip
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
