"""Comparing two revisions: each finding falls under exactly one heading."""

import json
from collections import Counter
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from precheck.cli import cli
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports.changes import CORRECTED, GONE, LOOK, NEW, STANDS, FindingChange, changes, stops
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.testing import code, plugins

MILL_LANE = (Path(__file__).parent / "data" / "mill-lane.yaml").read_text(encoding="utf-8")
TOPICS = ["stairs", "escape"]


def reviewed(*edits: tuple[str, str]) -> Review:
    text = MILL_LANE
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    return review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins(), TOPICS)


def found(old: Review, new: Review) -> dict[tuple[str, str], FindingChange]:
    return {change.key: change for change in changes(old, new)}


def test_a_finding_that_the_revision_mends_is_corrected() -> None:
    change = found(reviewed(), reviewed(("sill height: 45 in", "sill height: 40 in")))["escape.sill", "window W1"]
    assert change.kind == CORRECTED
    assert "was: Fix" in change.text
    assert "now: OK" in change.text


def test_a_finding_that_the_revision_brings_is_new() -> None:
    change = found(reviewed(("sill height: 45 in", "sill height: 40 in")), reviewed())["escape.sill", "window W1"]
    assert change.kind == NEW


def test_a_finding_that_both_have_still_stands_and_says_how_its_value_changed() -> None:
    change = found(reviewed(), reviewed(("sill height: 45 in", "sill height: 50 in")))["escape.sill", "window W1"]
    assert change.kind == STANDS
    assert "45 in" in change.text.partition("now:")[0]
    assert "50 in" in change.text.partition("now:")[2]


def test_what_was_not_shown_and_now_fails_still_stands() -> None:
    change = found(reviewed(("    sill height: 45 in\n", "")), reviewed())["escape.sill", "window W1"]
    assert change.kind == STANDS
    assert "was: not shown: sill height of window W1" in change.text


def test_findings_of_a_part_that_is_gone_are_no_longer_asked() -> None:
    window = MILL_LANE[MILL_LANE.index("  - id: W1") : MILL_LANE.index("  - {id: W2")]
    change = found(reviewed(), reviewed((window, "")))["escape.sill", "window W1"]
    assert change.kind == GONE
    assert "the part is gone" in change.text


def test_a_value_that_comes_close_to_the_limit_is_new_to_look_at() -> None:
    far, near = (reviewed(("sill height: 45 in", f"sill height: {height}")) for height in ("40 in", "44 in"))
    assert found(far, near)["escape.sill", "window W1"].kind == LOOK


def test_a_revision_held_against_itself_has_nothing_corrected_and_nothing_new() -> None:
    assert {change.kind for change in changes(reviewed(), reviewed())} == {STANDS}


def test_every_stop_of_either_revision_is_in_one_change() -> None:
    old, new = reviewed(), reviewed(("sill height: 45 in", "sill height: 40 in"), ("risers: 13", "risers: 15"))
    counted = Counter(change.key for change in changes(old, new) if change.kind != LOOK)
    wanted = {c.key for c in changes(old, old)} | {c.key for c in changes(new, new)}
    assert set(counted) == wanted
    assert sum(1 for f in new.findings if stops(f)) == sum(c.kind in (NEW, STANDS) for c in changes(old, new))


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    (tmp_path / "old.yaml").write_text(MILL_LANE, encoding="utf-8")
    (tmp_path / "new.yaml").write_text(MILL_LANE.replace("sill height: 45 in", "sill height: 40 in"), encoding="utf-8")
    return str(tmp_path / "old.yaml"), str(tmp_path / "new.yaml")


def compare(*arguments: str) -> Result:
    return CliRunner().invoke(cli, ["compare", *arguments], catch_exceptions=True)


def test_the_command_lists_changes_by_part_and_exits_as_the_new_revision_does(files: tuple[str, str]) -> None:
    result = compare(*files)
    assert result.exit_code in (1, 3)
    assert "CORRECTED\n  window W1\n    - escape.sill: was: Fix" in result.output
    assert all(len(line) <= 80 for line in result.output.splitlines() if not line.startswith(("Old:", "New:")))


def test_the_data_has_every_change(files: tuple[str, str]) -> None:
    data = json.loads(compare(*files, "--report", "json").output)
    sill = next(c for c in data["changes"] if c["rule"] == "escape.sill")
    assert (sill["change"], sill["old"], sill["new"]) == ("corrected", "fail", "pass")


def test_two_codes_are_told_apart(files: tuple[str, str]) -> None:
    Path(files[0]).write_text(MILL_LANE.replace("jurisdiction: irc-2021", "jurisdiction: irc-2015"), encoding="utf-8")
    assert "The code differs: old irc-2015" in compare(*files).output


def test_problems_of_both_files_are_told_at_once(tmp_path: Path) -> None:
    for name in ("old.yaml", "new.yaml"):
        (tmp_path / name).write_text("project: x\nstaris: []\n", encoding="utf-8")
    error = compare(str(tmp_path / "old.yaml"), str(tmp_path / "new.yaml")).exception
    assert "old.yaml:2" in str(error)
    assert "new.yaml:2" in str(error)
