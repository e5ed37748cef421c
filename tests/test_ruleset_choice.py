"""A place that leaves the choice between two editions for a time, and one whose adoption ends."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

MAIN = "from precheck.cli import main; main()"
OLD = "jurisdiction: Ash County\nadopts: irc-2021\nin force: 2024-01-01\nuntil: 2026-06-30\nby: Ordinance 1\n"
NEW = "jurisdiction: Ash County\nadopts: irc-2024\nin force: 2026-01-01\nby: Ordinance 2\n"
CITY = "jurisdiction: Ash City\nadopts: Ash County\nin force: 2025-01-01\nby: City Code 1\n"
HOUSE = """project: Ash Street
jurisdiction: Ash City
applied on: %s
%s
spaces: [{id: hall}, {id: loft}]
stairs: [{id: S1, phase: new, between: [hall, loft], total rise: 104 in, risers: 13}]
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder of rulesets: a county with two adoptions, the older of them with a last day, and its city."""
    for place, day, text in (
        ("ash-county", "2024-01-01", OLD), ("ash-county", "2026-01-01", NEW), ("ash-city", "2025-01-01", CITY),
    ):  # fmt: skip
        path = tmp_path / "jurisdictions" / place / f"{day}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return tmp_path


def adopt(folder: Path, name: str, on: date | None, edition: str | None = None):
    """Return the code of `name` with the rulesets of `folder`."""
    return Library((folder, *load_plugins().rulesets)).adopt(name, on, edition)


def check(folder: Path, day: str, more: str = "", *options: str) -> subprocess.CompletedProcess[str]:
    """Check a house in the city, applied for on `day`."""
    house = folder / "house.yaml"
    house.write_text(HOUSE % (day, more))
    given = ["check", str(house), "--rulesets", str(folder), "--topic", "stairs", *options]
    return subprocess.run([sys.executable, "-c", MAIN, *given], capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    ("name", "on", "chosen", "edition"),
    [
        ("Ash County", date(2025, 12, 31), None, "irc-2021"),
        ("Ash County", date(2026, 1, 1), None, "irc-2024"),
        ("Ash County", date(2026, 6, 30), "irc-2021", "irc-2021"),
        ("Ash County@irc-2021", date(2026, 6, 30), None, "irc-2021"),
        ("Ash City", date(2026, 3, 1), None, "irc-2024"),
        ("Ash City", date(2026, 3, 1), "IRC 2021", "irc-2021"),
        ("Ash City", date(2026, 7, 1), None, "irc-2024"),
    ],
)
def test_between_two_days_either_edition_may_be_used_and_the_newest_is_where_nobody_chooses(
    folder: Path, name: str, on: date, chosen: str | None, edition: str
) -> None:
    assert adopt(folder, name, on, chosen).edition == edition


def test_a_report_names_which_edition_was_applied_and_which_is_allowed_too(folder: Path) -> None:
    said = " ".join(check(folder, "2026-03-01").stdout.split())
    assert "Ash City < Ash County < irc-2024" in said
    assert (
        "Ash County leaves the choice on 2026-03-01: applied is irc-2024 (adopted 2026-01-01), the newest; allowed is also "
        "irc-2021 (adopted 2024-01-01, until 2026-06-30). To choose, write `code edition: irc-2021` in the project."
    ) in said
    chosen = " ".join(check(folder, "2026-03-01", "code edition: irc-2021").stdout.split())
    assert "Ash City < Ash County < irc-2021" in chosen
    assert "applied is irc-2021 (adopted 2024-01-01, until 2026-06-30), as chosen; allowed is also irc-2024" in chosen
    by_option = check(folder, "2026-03-01", "", "--ruleset", "Ash City@irc-2021")
    assert "as chosen" in " ".join(by_option.stdout.split())
    assert "leaves the choice" not in check(folder, "2026-07-01").stdout


@pytest.mark.parametrize("report", ["json", "sarif", "markdown", "html", "junit", "github"])
def test_every_format_tells_of_the_choice(folder: Path, report: str) -> None:
    assert "leaves the choice on 2026-03-01" in check(folder, "2026-03-01", "", "--report", report).stdout


@pytest.mark.parametrize(
    ("day", "edition", "says"),
    [
        ("2026-07-01", "irc-2021", "`Ash City` does not take irc-2021 on 2026-07-01, but irc-2024"),
        ("2026-03-01", "irc-2018", "`Ash City` does not take irc-2018 on 2026-03-01, but irc-2021 or irc-2024"),
        ("2026-03-01", "irc-2012", "no edition is called `irc-2012`; did you mean `irc-20"),
    ],
)
def test_an_edition_that_the_place_does_not_take_is_refused_at_its_line(
    folder: Path, day: str, edition: str, says: str
) -> None:
    found = check(folder, day, f"code edition: {edition}")
    assert found.returncode == 2
    assert f"{folder / 'house.yaml'}:4:1: " in found.stderr
    assert says in found.stderr


def test_compare_takes_an_edition_that_may_be_chosen(folder: Path) -> None:
    given = ["ruleset", "compare", "Ash City@irc-2021@2026-03-01", "Ash City@2026-03-01", "--rulesets", str(folder)]
    said = CliRunner().invoke(cli, given).output
    assert "From: Ash City < Ash County < irc-2021, as of 2026-03-01" in said
    assert "To:   Ash City < Ash County < irc-2024, as of 2026-03-01" in said


def test_two_files_of_a_place_from_the_same_day_are_refused(folder: Path) -> None:
    (folder / "jurisdictions" / "ash-county" / "2026-01-01.yml").write_text(NEW.replace("2024", "2018"))
    with pytest.raises(
        Unusable, match=r"2026-01-01.yml:3:1: `Ash County` has another file in force from 2026-01-01, .*yaml"
    ):
        adopt(folder, "Ash County", date(2026, 2, 1))


def test_an_adoption_that_ended_with_none_after_it_is_no_code_to_check_by(folder: Path) -> None:
    new = folder / "jurisdictions" / "ash-county" / "2026-01-01.yaml"
    new.write_text(NEW.replace("by:", "until: 2026-09-30\nby:"))
    assert adopt(folder, "Ash County", date(2026, 9, 30)).edition == "irc-2024"
    with pytest.raises(
        Unusable, match="the last adoption of `Ash County` ended on 2026-09-30; add the one that follows"
    ):
        adopt(folder, "Ash County", date(2026, 10, 1))


def test_a_gap_between_two_adoptions_is_told(folder: Path) -> None:
    new = folder / "jurisdictions" / "ash-county" / "2026-01-01.yaml"
    new.rename(new.with_name("2026-08-01.yaml")).write_text(NEW.replace("2026-01-01", "2026-08-01"))
    with pytest.raises(
        Unusable, match="no adoption in force on 2026-07-15; one ended before, the next begins 2026-08-01"
    ):
        adopt(folder, "Ash County", date(2026, 7, 15))


def test_verify_holds_an_adoption_to_its_days_and_its_child_to_each_edition_of_the_choice(folder: Path) -> None:
    city = folder / "jurisdictions" / "ash-city" / "2025-01-01.yaml"
    city.write_text(
        CITY + "amendments:\n  - {amend: escape.sill.maximum, was: 44 in, to: 40 in, by: C 2, from: 2026-02-01}\n"
    )
    assert CliRunner().invoke(cli, ["ruleset", "verify", str(city)]).exit_code == 0
    old = folder / "jurisdictions" / "ash-county" / "2024-01-01.yaml"
    old.write_text(
        OLD + "amendments:\n  - {amend: escape.sill.maximum, was: 44 in, to: 46 in, by: O 1}\n"
        "  - {delete: chapter 11, by: O 1, from: 2026-07-01}\n"
    )
    found = CliRunner().invoke(cli, ["ruleset", "verify", str(old)])
    assert (found.exit_code, "`from: 2026-07-01` is after the adoption ends (2026-06-30)" in found.stderr) == (2, True)
    old.write_text(old.read_text().replace("  - {delete: chapter 11, by: O 1, from: 2026-07-01}\n", ""))
    found = CliRunner().invoke(cli, ["ruleset", "verify", str(city)])
    assert found.exit_code == 0, found.stderr
    assert "escape.sill.maximum was 44 in when this was written; O 1 has made it 46 in" in " ".join(
        found.stdout.split()
    )
    old.write_text(OLD.replace("2026-06-30", "2023-06-30"))
    found = CliRunner().invoke(cli, ["ruleset", "verify", str(old)])
    assert "`until: 2023-06-30` is before the adoption is in force (2024-01-01)" in found.stderr
