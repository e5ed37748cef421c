"""What a state keeps its counties and cities from changing, and what becomes of those who did."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

STATE = "jurisdiction: Ash State\nadopts: irc-2021\nin force: 2024-01-01\nby: Act 1\namendments:\n"
CITY = "jurisdiction: Ash City\nadopts: Ash State\nin force: 2025-01-01\nby: City Code 1\namendments:\n"
RISER, SILL, DUCTS = "stairs.riser-height.maximum", "escape.sill.maximum", "separation.ducts.materials"
TREAD, SPRINKLERS = "stairs.tread-depth.minimum", "existing.sprinklers.new-house"


def place(folder: Path, name: str, text: str) -> Path:
    """Write the one adoption file of a place and return its path."""
    path = folder / "jurisdictions" / name / f"{text.partition('in force: ')[2][:10]}.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


def city_under(folder: Path, lock: str, *amendments: str) -> Path:
    """Return the file of a city, with `amendments`, in a state with one `lock`."""
    place(folder, "ash-state", f"{STATE}  - {{{lock}, by: Act 230}}\n")
    return place(folder, "ash-city", CITY + "".join(f"  - {{{one}, by: City Code 2}}\n" for one in amendments))


def verified(path: Path) -> Result:
    """Verify an adoption file."""
    return CliRunner().invoke(cli, ["ruleset", "verify", str(path)])


def adopted(folder: Path, on: date | None = None):
    """Return the code of the city."""
    return Library((folder, *load_plugins().rulesets)).adopt("Ash City", on)


MORE = "localities: may not require more"
LESS = "localities: may not require less"


@pytest.mark.parametrize(
    ("lock", "amendment"),
    [
        (f"lock: {RISER}, {MORE}", f"amend: {RISER}, was: 7 3/4 in, to: 7 in"),
        (f"lock: {TREAD}, {MORE}", f"amend: {TREAD}, was: 10 in, to: 11 in"),
        (f"lock: {TREAD}, {LESS}", f"amend: {TREAD}, was: 10 in, to: 9 in"),
        (f"lock: {TREAD}, {LESS}", f"delete: {TREAD}"),
        (f"lock: {TREAD}, {LESS}", f"amend: {TREAD}, was: 10 in, to: 10 in, force: advise"),
        (f"lock: {RISER}, localities: may not change", f"amend: {RISER}, was: 7 3/4 in, to: 8 in"),
        ("lock: section R311.7, localities: may not require less", "delete: section R311.7.5.2"),
        ("lock: chapter 3, localities: may not require less", f"amend: {SILL}, was: 44 in, to: 48 in"),
        ("lock: topic stairs, localities: may not require more", f"amend: {RISER}, was: 7 3/4 in, to: 7 in"),
        ("lock: whole code, localities: may not require more", f"amend: {RISER}, was: 7 3/4 in, to: 7 in"),
        (f"lock: {SPRINKLERS}, {LESS}", f"amend: {SPRINKLERS}, was: required, to: not required"),
        (f"lock: {DUCTS}, {MORE}", f"amend: {DUCTS}, was: [sheet steel, other approved], to: [sheet steel]"),
        ("lock: topic energy, localities: may not require more",
         "amend: energy.insulation.floor, row: zone 6, was: R-30, to: R-38"),
        ("lock: section R311.7, localities: may not require more",
         "add: stairs.own.minimum, value: 3 ft, measures: own width, section: R311.7.9"),
    ],
)  # fmt: skip
def test_an_amendment_that_breaks_a_lock_is_refused_at_its_line(tmp_path: Path, lock: str, amendment: str) -> None:
    path = city_under(tmp_path, lock, amendment)
    found = verified(path)
    assert found.exit_code == 2
    assert f"{path}:6:" in found.stderr
    assert "may not be changed in this way: Ash State locks" in found.stderr
    assert "(Act 230, " in found.stderr


@pytest.mark.parametrize(
    ("lock", "amendment"),
    [
        (f"lock: {RISER}, {MORE}", f"amend: {RISER}, was: 7 3/4 in, to: 8 in"),
        (f"lock: {TREAD}, {LESS}", f"amend: {TREAD}, was: 10 in, to: 11 in"),
        (f"lock: {DUCTS}, {LESS}", f"amend: {DUCTS}, was: [sheet steel, other approved], to: [sheet steel]"),
        ("lock: section R302, localities: may not change", f"amend: {RISER}, was: 7 3/4 in, to: 7 in"),
        ("lock: whole code, localities: may not require more", "amend: zoning.setback.front, was: set locally, to: 25 ft"),
        ("lock: whole code, localities: may not require more",
         "amend: zoning.yard-wall.from-street, was: not required, to: 1 ft"),
    ],
)  # fmt: skip
def test_what_a_lock_leaves_open_may_be_amended(tmp_path: Path, lock: str, amendment: str) -> None:
    found = verified(city_under(tmp_path, lock, amendment))
    assert found.exit_code == 0, found.output
    assert "locks" not in found.output


def test_an_act_that_allows_it_lets_an_amendment_stand_and_is_told(tmp_path: Path) -> None:
    allowed = f"amend: {RISER}, was: 7 3/4 in, to: 7 in, despite: home rule charter sec. 3"
    path = city_under(tmp_path, f"lock: {RISER}, {MORE}", allowed)
    found = verified(path)
    assert found.exit_code == 0, found.output
    assert f"`{RISER}` is changed despite a lock, by home rule charter sec. 3" in found.stdout
    assert adopted(tmp_path).limits[RISER].text == "7 in"


def test_whether_a_change_asks_for_more_is_left_to_a_person_where_nobody_can_tell(tmp_path: Path) -> None:
    rooms = "amend: separation.common-wall.gypsum, was: 1/2 in, to: set locally"
    assert verified(city_under(tmp_path, "lock: whole code, localities: may not require less", rooms)).exit_code == 0
    added = "add: ash.rain-barrel.minimum, value: 1, measures: rain barrels, section: ACC 5"
    found = verified(city_under(tmp_path, "lock: whole code, localities: may not require more", added))
    assert found.exit_code == 0, found.output
    assert "Whether this asks for more or for less cannot be told here" in found.stdout


def test_an_amendment_from_before_the_lock_is_set_aside_from_the_first_day_of_the_lock_and_told(tmp_path: Path) -> None:
    older = f"amend: {RISER}, was: 7 3/4 in, to: 7 in"
    path = city_under(tmp_path, f"lock: {RISER}, {MORE}, from: 2026-07-01", older)
    before, after = (adopted(tmp_path, date(2026, *day)) for day in ((6, 30), (7, 1)))
    assert (before.limits[RISER].text, after.limits[RISER].text) == ("7 in", "7 3/4 in")
    assert before.caveats == ()
    ((name, told),) = after.caveats
    assert name == RISER
    assert told.startswith("what Ash City made of it (City Code 2) does not hold from 2026-07-01 on: Ash State locks")
    found = verified(path)
    assert found.exit_code == 0, found.output
    assert "end it there with `until:`" in found.stdout


def test_a_requirement_that_a_city_added_goes_with_the_lock_that_came_later(tmp_path: Path) -> None:
    added = "add: stairs.own.minimum, value: 3 ft, measures: own width, section: R311.7.9"
    city_under(tmp_path, f"lock: section R311.7, {MORE}, from: 2026-07-01", added)
    assert "stairs.own.minimum" in adopted(tmp_path, date(2026, 6, 30)).limits
    assert "stairs.own.minimum" not in adopted(tmp_path, date(2026, 7, 1)).limits


def test_who_locks_may_change_it_and_whoever_adopts_a_city_is_held_to_it_too(tmp_path: Path) -> None:
    place(
        tmp_path, "ash-state",
        f"{STATE}  - {{lock: {RISER}, {MORE}, by: Act 230}}\n  - {{amend: {RISER}, was: 7 3/4 in, to: 7 1/2 in, by: Act 231}}\n",
    )  # fmt: skip
    place(tmp_path, "ash-city", CITY + f"  - {{delete: {SILL}, by: City Code 2}}\n")
    assert adopted(tmp_path).limits[RISER].text == "7 1/2 in"
    village = "jurisdiction: Ash Village\nadopts: Ash City\nin force: 2025-06-01\nby: Code 3\namendments:\n"
    path = place(tmp_path, "ash-village", f"{village}  - {{amend: {RISER}, was: 7 1/2 in, to: 7 in, by: Code 3}}\n")
    assert "Ash State locks stairs.riser-height.maximum" in verified(path).stderr


@pytest.mark.parametrize(
    ("lock", "says"),
    [
        ("lock: stairs.riser-hight.maximum, localities: may not change", "did you mean `stairs.riser-height.maximum`?"),
        ("lock: section R999, localities: may not change", "no limit stands under section R999"),
        (f"lock: {RISER}", "`localities` is not given; write may not require more"),
        (f"lock: {RISER}, localities: may ask", "`may ask` is not known as localities"),
        (f"lock: {RISER}, localities: may not change, to: 7 in", "`to` says nothing beside `lock`"),
    ],
)
def test_a_wrong_lock_is_refused_at_its_line(tmp_path: Path, lock: str, says: str) -> None:
    path = place(tmp_path, "ash-state", f"{STATE}  - {{{lock}, by: Act 230}}\n")
    found = verified(path)
    assert found.exit_code == 2
    assert says in found.stderr
    assert f"{path}:6:" in found.stderr


def test_verify_says_what_a_lock_covers(tmp_path: Path) -> None:
    lock = "lock: section R311.7, localities: may not require more"
    path = place(tmp_path, "ash-state", f"{STATE}  - {{{lock}, by: Act 230}}\n")
    said = " ".join(verified(path).stdout.split())
    assert "line 6: locks section R311.7: localities may not require more" in said


def test_explain_and_a_new_file_tell_what_is_locked(tmp_path: Path) -> None:
    place(tmp_path, "ash-state", f"{STATE}  - {{lock: topic stairs, {MORE}, by: Act 230}}\n")
    own = ["--rulesets", str(tmp_path), "--ruleset", "Ash State"]
    told = "Ash State locks topic stairs: localities may not require more (Act 230,"
    assert told in " ".join(CliRunner().invoke(cli, ["explain", RISER, *own]).output.split())
    assert "locks" not in CliRunner().invoke(cli, ["explain", SILL, *own]).output
    given = ["--jurisdiction", "Ash Town", "--adopts", "Ash State", "--in-force", "2026-01-01", "--by", "O", "--whole"]
    made = CliRunner().invoke(cli, ["ruleset", "new", *given, "--folder", str(tmp_path)])
    assert made.exit_code == 0, made.output
    (path,) = tmp_path.glob("jurisdictions/ash-town/*.yaml")
    assert f"# {told}" in path.read_text()


def test_an_unlockable_circle_is_still_told(tmp_path: Path) -> None:
    place(tmp_path, "ash-state", STATE.replace("irc-2021", "Ash City") + f"  - {{lock: {RISER}, {MORE}, by: A}}\n")
    place(tmp_path, "ash-city", CITY + f"  - {{delete: {SILL}, by: City Code 2}}\n")
    with pytest.raises(Unusable, match="go in a circle"):
        adopted(tmp_path)
