"""A state that locks and adopts no code of its own: its locks hold over each place that is held to it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

LAW = "jurisdiction: Ash State\nin force: %s\nby: Act 1\namendments:\n  - {lock: %s, localities: may not require more, by: Act 1 sec. 3}\n"
CITY = "jurisdiction: Ash City\nadopts: %s\nheld to: [Ash State]\nin force: 2025-01-01\nby: City Code 1\namendments:\n"
RISER = "stairs.riser-height.maximum"
LOWER = f"  - {{amend: {RISER}, was: 7 3/4 in, to: 7 in, by: City Code 2}}\n"
HIGHER = f"  - {{amend: {RISER}, was: 7 3/4 in, to: 8 in, by: City Code 2}}\n"


def place(folder: Path, name: str, text: str) -> Path:
    """Write the one adoption file of a place and return its path."""
    path = folder / "jurisdictions" / name / f"{text.partition('in force: ')[2][:10]}.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


def under_law(
    folder: Path, amendment: str, day: str = "2024-01-01", lock: str = RISER, edition: str = "irc-2021"
) -> Path:
    """Return the file of a city with one amendment, in a state with a law of one lock."""
    place(folder, "ash-state", LAW % (day, lock))
    return place(folder, "ash-city", CITY % edition + amendment)


def adopted(folder: Path, name: str = "Ash City", on: date | None = None):
    """Return the code of a place."""
    return Library((folder, *load_plugins().rulesets)).adopt(name, on)


def verified(path: Path) -> Result:
    """Verify an adoption file."""
    return CliRunner().invoke(cli, ["ruleset", "verify", str(path)])


def test_a_city_may_not_break_the_lock_of_the_law_that_it_is_held_to(tmp_path: Path) -> None:
    with pytest.raises(Unusable, match="may not be changed in this way: Ash State locks"):
        adopted(under_law(tmp_path, LOWER).parents[2])
    code = adopted(under_law(tmp_path, HIGHER).parents[2])
    assert code.limits[RISER].text == "8 in"
    assert [step.name for step in code.chain] == ["irc-2021", "Ash City"]
    assert [lock.jurisdiction for lock in code.locks] == ["Ash State"]


def test_a_law_that_came_later_sets_aside_what_the_city_had_and_one_that_is_to_come_does_not(tmp_path: Path) -> None:
    under_law(tmp_path, LOWER, day="2026-07-01")
    assert adopted(tmp_path, on=date(2026, 6, 30)).limits[RISER].text == "7 in"
    later = adopted(tmp_path, on=date(2026, 7, 1))
    assert later.limits[RISER].text == "7 3/4 in"
    assert any("does not hold from 2026-07-01 on: Ash State locks" in note for _, note in later.caveats)


def test_whoever_adopts_a_county_that_is_held_to_a_law_is_held_to_it_too(tmp_path: Path) -> None:
    county = under_law(tmp_path, HIGHER)
    place(tmp_path, "ash-county", county.read_text().replace("Ash City", "Ash County"))
    place(
        tmp_path, "ash-city", (CITY % "Ash County").replace("held to: [Ash State]\n", "") + LOWER.replace("7 3/4", "8")
    )
    with pytest.raises(Unusable, match="Ash State locks"):
        adopted(tmp_path)


def test_what_a_law_locks_need_not_be_in_every_edition(tmp_path: Path) -> None:
    under_law(tmp_path, HIGHER, lock="section R311.7.5.1", edition="irc-2024")
    code = adopted(tmp_path)
    assert code.limits[RISER].text == "8 in"
    assert any("no limit stands under section R311.7.5.1" in str(told) for told in code.renamed)
    assert verified(tmp_path / "jurisdictions/ash-state/2024-01-01.yaml").exit_code == 0


def test_verify_tells_that_a_law_adopts_no_code_and_what_it_locks(tmp_path: Path) -> None:
    under_law(tmp_path, HIGHER)
    found = verified(tmp_path / "jurisdictions/ash-state/2024-01-01.yaml")
    said = " ".join(found.output.split())
    assert found.exit_code == 0, said
    assert "its locks hold over each place that names it under `held to`" in said
    assert "Ash State adopts no code of its own, in force 2024-01-01, by Act 1." in said
    assert f"line 5: locks {RISER}: localities may not require more" in said
    assert verified(tmp_path / "jurisdictions/ash-city/2025-01-01.yaml").exit_code == 0


def test_nothing_is_checked_by_a_law_alone(tmp_path: Path) -> None:
    under_law(tmp_path, HIGHER)
    with pytest.raises(Unusable, match="under `held to`; check by the code of one of these"):
        adopted(tmp_path, "Ash State")


@pytest.mark.parametrize(
    ("law", "line", "says"),
    [
        (LAW % ("2024-01-01", "stairs.riser-hight.maximum"), 5, "did you mean `stairs.riser-height.maximum`?"),
        (LAW % ("2024-01-01", "section R999"), 5, "no limit stands under section R999"),
        ((LAW % ("2024-01-01", RISER)) + HIGHER, 1, "`adopts` is not given; write an edition, such as irc-2021"),
        ("jurisdiction: Ash State\nin force: 2024-01-01\nby: Act 1\n", 1, "`adopts` is not given"),
        (
            (LAW % ("2024-01-01", RISER)) + "design criteria: {frost depth: 30 in}\n",
            6,
            "`design criteria` needs a code",
        ),
        ((LAW % ("2024-01-01", RISER)) + "held to: [Elm State]\n", 6, "`held to` needs a code"),
    ],
)
def test_what_makes_no_law_is_refused_at_its_line(tmp_path: Path, law: str, line: int, says: str) -> None:
    path = place(tmp_path, "ash-state", law)
    found = verified(path)
    assert found.exit_code == 2, found.output
    assert f"{path}:{line}:" in found.stderr
    assert says in found.stderr


@pytest.mark.parametrize(
    ("named", "says"),
    [
        ("Ash Stat", "no law is called `Ash Stat`; did you mean `ash-state`?"),
        ("Ash County", "`Ash County` adopts a code of its own; name it under `adopts`"),
    ],
)
def test_a_place_is_held_to_a_law_that_there_is(tmp_path: Path, named: str, says: str) -> None:
    city = under_law(tmp_path, HIGHER)
    place(
        tmp_path,
        "ash-county",
        (CITY % "irc-2021").replace("held to: [Ash State]\n", "").replace("City", "County") + HIGHER,
    )
    city.write_text(city.read_text().replace("[Ash State]", f"[{named}]"))
    found = verified(city)
    assert (found.exit_code, says in found.stderr, f"{city}:3:1" in found.stderr) == (2, True, True), found.stderr
