"""Beginning, verifying and comparing rulesets."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

COUNTY = """jurisdiction: Alder County
adopts: irc-2021
in force: 2026-01-01
by: Ordinance 1
amendments:
  - amend: stairs.riser-height.maximum
    was: 7 3/4 in
    to: 8 in
    by: Ordinance 1 sec. 2
  - amend: stairs.tread-depth.minimum
    was: 10 in
    to: 9 1/2 in
    by: Ordinance 1 sec. 3
    from: 2026-06-01
  - delete: doors.landing-size.depth
    by: Ordinance 1 sec. 4
cases:
  - case: a riser of 8 in
    rule: stairs.riser-height
    given:
      spaces: [{id: hall}, {id: loft}]
      stairs: [{id: S1, phase: new, between: [hall, loft], total rise: 104 in, risers: 13}]
    expect: %s
"""


def run(*arguments: Any, **options: Any) -> Result:
    """Run ``precheck ruleset`` in this process."""
    return CliRunner().invoke(cli, ["ruleset", *map(str, arguments)], **options)


@pytest.fixture
def county(tmp_path: Path) -> Path:
    """Return an adoption file in a folder of rulesets."""
    path = tmp_path / "jurisdictions" / "alder-county" / "2026-01-01.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(COUNTY % "warn")
    return path


def library(*folders: Path) -> Library:
    """Return a library with `folders` before the built-in ones."""
    return Library((*folders, *load_plugins().rulesets))


def test_verify_says_of_each_amendment_what_the_parent_says(county: Path) -> None:
    said = " ".join(run("verify", county).stdout.split())
    assert "stairs.riser-height.maximum becomes 8 in; the parent says 7 3/4 in (irc-2021 R311.7.5.1)" in said
    assert "stairs.tread-depth.minimum becomes 9 1/2 in from 2026-06-01 on; the parent says 10 in" in said
    assert "doors.landing-size.depth is deleted; the parent says 36 in" in said


def test_verify_by_name_takes_every_adoption_of_the_jurisdiction(county: Path, tmp_path: Path) -> None:
    (county.parent / "2027-01-01.yaml").write_text(
        "jurisdiction: Alder County\nadopts: irc-2024\nin force: 2027-01-01\nby: 2\n"
    )
    said = run("verify", "Alder County", "--rulesets", tmp_path).stdout
    assert str(county) in said
    assert "adopts irc-2024" in said


def test_verify_runs_the_cases_and_tells_how_one_fails(county: Path) -> None:
    good = run("verify", county)
    assert (good.exit_code, "1 of 1 cases" in good.stdout) == (0, True), good.output
    county.write_text(COUNTY % "fail")
    bad = run("verify", county)
    assert bad.exit_code == 1
    assert f"{county}:18:5: case `a riser of 8 in`" in bad.stderr
    assert "it came to `warn` instead of `fail`" in bad.stderr


def test_a_case_is_judged_by_the_code_of_its_date(county: Path) -> None:
    county.write_text(COUNTY % "warn" + "    on: 2026-02-01\n")
    assert run("verify", county).exit_code == 0
    county.write_text(COUNTY % "fail" + "    on: 2025-12-31\n")  # before the adoption was in force
    assert run("verify", county).exit_code in (1, 2)


def test_verify_reports_every_problem_at_its_line_in_one_run(county: Path) -> None:
    text = COUNTY % "warn"
    text = text.replace("was: 7 3/4 in", "was: 7 in").replace("doors.landing-size.depth", "doors.landing-size.dept")
    county.write_text(text.replace("to: 9 1/2 in", "to: 9 1/2 psf"))
    found = run("verify", county)
    assert found.exit_code == 2
    lines = found.stderr.splitlines()
    assert any(
        f"{county}:7:5: `was: 7 in` does not match: the value in effect is 7 3/4 in (irc-2021" in line for line in lines
    )
    assert any(f"{county}:12:5: `9 1/2 psf`" in line for line in lines)
    assert any(f"{county}:15:5: `doors.landing-size.dept` is not in the code" in line for line in lines)
    assert "did you mean `doors.landing-size.depth`?" in found.stderr
    assert "3 problems to mend." in found.stderr


def test_verify_reports_what_is_wrong_with_amendments_beside_a_key_that_is_not_known(county: Path) -> None:
    """A slip in the head of the file, or in one amendment, hides nothing of the others."""
    text = (COUNTY % "warn").replace("by: Ordinance 1\n", "by: Ordinance 1\ncolor: red\n", 1)
    text = text.replace("to: 9 1/2 in", "two: 9 1/2 in").replace("doors.landing-size.depth", "doors.landing-size.dept")
    county.write_text(text)
    found = run("verify", county)
    assert found.exit_code == 2
    lines = [line.partition(": ")[2] for line in found.stderr.splitlines()[:3]]
    assert [line.split(";")[0] for line in lines] == [
        "`color` is not a key of an adoption",
        "`two` is not a key of an amendment",
        "`doors.landing-size.dept` is not in the code that is adopted",
    ]


def test_verify_tells_what_the_parent_changed_later_and_the_amendment_goes_on_to_hold(
    county: Path, tmp_path: Path
) -> None:
    city = tmp_path / "city.yaml"
    city.write_text(
        "jurisdiction: Alder City\nadopts: Alder County\nin force: 2026-02-01\nby: Code 1\namendments:\n"
        "  - {amend: stairs.tread-depth.minimum, was: 10 in, to: 9 in, by: Code 1}\n"
        "  - {amend: stairs.riser-height.maximum, was: 8 in, to: 7 in, by: Code 2, from: 2026-07-01}\n"
    )
    found = run("verify", city, "--rulesets", tmp_path)
    assert found.exit_code == 0
    said = " ".join(found.stdout.split())
    assert (
        "stairs.tread-depth.minimum was 10 in when this was written; Ordinance 1 sec. 3 has made it 9 1/2 in from 2026-06-01 on"
        in said
    )
    assert "The amendment still holds: decide anew, and write `was: 9 1/2 in`" in said


@pytest.mark.parametrize(
    ("amendment", "says"),
    [
        ("amend: separation.ducts.materials, was: [sheet steel, other approved], to: [sheet steele]",
         "`sheet steele` is a word that no part of a project has, so nothing could meet it; did you mean `sheet steel`?"),
        ("amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 775 in", "`775 in` is 100 times `7 3/4 in`"),
        ("amend: escape.area.minimum, was: 5.7 sq ft, to: 0.57 sq ft", "`0.57 sq ft` is one 10th of `5.7 sq ft`"),
        ("amend: energy.insulation.floor, row: zone 9, was: R-30, to: R-19", "has no row `zone 9`"),
        ("amend: energy.insulation.floor, row: zone 6, was: R-31, to: R-19", "write `was: R-30`"),
        ("amend: energy.insulation.floor, row: zone 6, was: R-30, to: 3 in", "`3 in` cannot replace `R-30`"),
        ("amend: energy.insulation.floor, row: zone 6, was: R-30, to: R-300", "`R-300` is 10 times `R-30`"),
        ("amend: stairs.riser-height.maximum, row: zone 6, was: 7 3/4 in, to: 7 in", "leave `row` out"),
        ("amend: separation.ducts.materials, was: [x], to: [sheet steel]", "write `was: [sheet steel, other approved]`"),
        ("amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 7 3/4 in", "`to` says what `was` says"),
        ("delete: section R999", "no limit stands under section R999"),
        ("delete: chapters 50 to 60", "no limit stands under chapters 50 to 60"),
        ("delete: stairs.riser-height.maximum, until: 2020-01-01", "`until: 2020-01-01` is before the adoption"),
    ],
)  # fmt: skip
def test_verify_holds_an_amendment_to_the_last_cell(tmp_path: Path, amendment: str, says: str) -> None:
    path = amended_by(tmp_path, amendment)
    found = run("verify", str(path))
    assert found.exit_code == 2
    assert says in found.stderr
    assert f"{path}:6:" in found.stderr


def test_verify_tells_what_a_file_deletes_twice(tmp_path: Path) -> None:
    path = amended_by(
        tmp_path, "delete: escape.sill.maximum", "delete: section R310.2.3", "delete: escape.sill.maximum"
    )
    found = run("verify", str(path))
    assert (
        found.exit_code,
        f"{path}:8:6: `escape.sill.maximum` is deleted twice, first at {path}:7:6" in found.stderr,
    ) == (2, True)


def test_limits_lists_what_a_section_asks() -> None:
    def listed(*options: str) -> list[str]:
        said = CliRunner().invoke(cli, ["limits", "--ruleset", "irc-2021", *options])
        return [line for line in said.output.splitlines() if line[:1].islower()]

    under = listed("--section", "R310.2.3")
    assert any(line.startswith("escape.sill.maximum: 44 in") for line in under)
    assert len(under) < len(listed("--section", "R310")) < len(listed())
    assert CliRunner().invoke(cli, ["limits", "--section", "R999"]).exit_code == 2


def test_verify_tells_every_row_of_a_table_that_is_wrong_or_missing(tmp_path: Path) -> None:
    path = amended_by(
        tmp_path, "amend: energy.insulation.floor, was: x, to: {zone 5: R-49, zone9: R-3, zone 7: banana}"
    )
    said = run("verify", str(path)).stderr
    assert "rows are missing: write `zone 0: R-13`, `zone 1: R-13`" in said
    assert "has no row `zone9`; did you mean `zone 8`?" in said
    assert "`banana` cannot replace `R-38`" in said


@pytest.mark.parametrize(
    ("amendment", "name", "value"),
    [
        ("amend: energy.insulation.floor, row: zone 6, was: R-30, to: R-38", "energy.insulation.floor", "R-38"),
        ("amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 775 in, meant: yes", "stairs.riser-height.maximum", "775 in"),
        ("amend: separation.ducts.materials, was: [sheet steel, other approved], to: [tin], new words: [tin]",
         "separation.ducts.materials", "tin"),
        ("delete: section R310.2.3", "escape.sill.maximum", "deleted"),
        ("delete: chapter 11", "energy.insulation.floor", "deleted"),
        ("delete: chapters 11 to 31", "energy.insulation.floor", "deleted"),
        ("delete: topic energy", "energy.insulation.floor", "deleted"),
    ],
)  # fmt: skip
def test_an_amendment_changes_a_cell_or_a_whole_section(tmp_path: Path, amendment: str, name: str, value: str) -> None:
    path = amended_by(tmp_path, amendment)
    assert run("verify", str(path)).exit_code == 0
    limit = Library(load_plugins().rulesets).adopt(str(path)).limits[name]
    assert value in limit.text
    if "row" in amendment:
        assert str(limit.value["zone 6"]) == "R-38"
        assert str(limit.value["zone 5"]) == "R-30"


def test_a_change_holds_from_its_first_day_to_its_last_in_whatever_order_changes_stand(tmp_path: Path) -> None:
    changes = (
        "amend: stairs.riser-height.maximum, was: 8 in, to: 7 1/2 in, from: 2026-09-01, until: 2027-03-01",
        "amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 8 in",
    )
    path = amended_by(tmp_path, *changes)
    rulesets = Library(load_plugins().rulesets)
    days = ((2026, 2, 1), (2026, 9, 1), (2027, 3, 1), (2027, 3, 2))
    found = [rulesets.adopt(str(path), date(*day)).limits["stairs.riser-height.maximum"].text for day in days]
    assert found == ["8 in", "7 1/2 in", "7 1/2 in", "8 in"]
    assert run("verify", str(path)).exit_code == 0


def test_a_file_of_a_jurisdiction_may_end_in_yml_and_is_called_by_the_day_it_is_in_force(tmp_path: Path) -> None:
    folder = tmp_path / "jurisdictions" / "alder-township"
    folder.mkdir(parents=True)
    text = amended_by(tmp_path, "delete: escape.sill.maximum").read_text()
    (folder / "2026-01-15.yml").write_text(text)
    assert run("verify", "Alder Township", "--rulesets", str(tmp_path)).exit_code == 2
    (folder / "2026-01-15.yml").rename(folder / "2026-01-01.yml")
    assert run("verify", "Alder Township", "--rulesets", str(tmp_path)).exit_code == 0


def amended_by(folder: Path, *amendments: str) -> Path:
    """Return an adoption file with amendments."""
    path = folder / "township.yaml"
    listed = "".join(f"  - {{{amendment}, by: Code 1}}\n" for amendment in amendments)
    head = "jurisdiction: Alder Township\nadopts: irc-2021\nin force: 2026-01-01\nby: Code 1\n"
    path.write_text(f"{head}amendments:\n{listed}")
    return path


def test_verify_tells_a_folder_by_which_a_file_is_not_found_and_days_before_it_is_in_force(tmp_path: Path) -> None:
    folder = tmp_path / "jurisdictions" / "elder-township"
    folder.mkdir(parents=True)
    path = folder / "2026.yaml"
    path.write_text(
        "jurisdiction: Alder Township\nadopts: irc-2021\nin force: 2026-03-01\nby: Code 1\namendments:\n"
        "  - delete: escape.sill.maximum\n    by: Code 2\n    from: 2025-01-01\n"
    )
    result = run("verify", str(path))
    assert result.exit_code == 2
    assert f"{path}:1:1: the file stands in the folder `elder-township`, by which it is found" in result.stderr
    assert f"{path}:8:5: `from: 2025-01-01` is before the adoption is in force (2026-03-01)" in result.stderr


def test_a_folder_that_holds_no_rulesets_is_refused(tmp_path: Path) -> None:
    result = run("verify", "irc-2021", "--rulesets", str(tmp_path))
    assert result.exit_code == 2
    assert "holds neither codes/ nor jurisdictions/" in " ".join(result.stderr.split())


def test_verify_of_an_edition_and_of_an_unknown_name() -> None:
    assert "nothing wrong" in run("verify", "irc-2021").stdout
    unknown = run("verify", "irc-2012")
    assert unknown.exit_code == 2
    assert "no ruleset is called `irc-2012`; did you mean `irc-20" in unknown.stderr


def test_compare_lists_what_changes_under_its_section_and_by_which_act(county: Path, tmp_path: Path) -> None:
    said = run("compare", "irc-2021", "Alder County", "--rulesets", tmp_path).stdout
    riser = said[said.index("\nR311.7.5.1\n") :]
    assert "7 3/4 in -> 8 in" in riser
    assert "amended by Ordinance 1 sec. 2" in riser
    assert "36 in -> deleted" in said
    assert "3 limits change" in said


def test_compare_takes_a_date_for_each_side(county: Path, tmp_path: Path) -> None:
    said = run("compare", "Alder County@2026-05-31", "Alder County@2026-06-01", "--rulesets", tmp_path).stdout
    assert "10 in -> 9 1/2 in" in said
    assert "1 limits change" in said
    assert run("compare", "irc-2021@soon", "irc-2024").exit_code == 2


def test_compare_of_editions_names_the_old_section_and_new_numbers() -> None:
    said = run("compare", "irc-2021", "irc-2024", "--sections").stdout
    assert "have another section number:" in said
    assert "R311.7.5.1 -> R318.7.5.1: stairs.riser-height.maximum" in " ".join(said.split())
    same = run("compare", "irc-2021", "irc-2021").stdout
    assert "0 limits change" in same


def test_sections_are_in_the_order_in_which_people_count() -> None:
    said = run("compare", "irc-2015", "Tamarack County").stdout.splitlines()
    sections = [line for line in said if line.startswith("R3")]
    assert sections.index(next(s for s in sections if s.startswith("R302"))) < sections.index("R311.7.5.1")


ANSWERS = "Alder Township\nirc-2021\n2026-03-01\nOrdinance: 7 #2\ny\n"


def test_new_asks_and_writes_a_file_that_loads_and_verifies(tmp_path: Path) -> None:
    asked = run("new", "--folder", tmp_path / "own", input=ANSWERS)
    assert asked.exit_code == 0, asked.output
    path = tmp_path / "own" / "jurisdictions" / "alder-township" / "2026-03-01.yaml"
    code = library(tmp_path / "own").adopt("Alder Township")
    assert (code.chain[-1].by, code.partial) == ("Ordinance: 7 #2", True)
    assert run("verify", path).exit_code == 0


def test_what_new_shows_as_an_example_works_when_the_signs_are_removed(tmp_path: Path) -> None:
    run("new", "--folder", tmp_path, input=ANSWERS)
    path = tmp_path / "jurisdictions" / "alder-township" / "2026-03-01.yaml"
    text = path.read_text().replace("amendments: []\n", "")
    head, _, rest = text.partition("# amendments:")
    example = "\n".join(
        line.removeprefix("# ") for line in ("# amendments:" + rest).splitlines() if line[:3] in ("# a", "#  ", "# c")
    )
    filled = example.replace("    to: ...", "    to: 8 in").replace("    by: ...", "    by: Ordinance 8")
    path.write_text(head + filled.replace("delete: ...   ", "delete: doors.landing-size.depth   "))
    found = run("verify", path)
    assert found.exit_code == 0, found.output + path.read_text()
    assert "1 of 1 cases come to what they expect." in found.stdout
    assert "adds storage-stair.width.minimum: 32 in" in found.stdout


def test_new_needs_no_questions_when_all_is_given_and_never_overwrites(tmp_path: Path) -> None:
    given = [
        "--jurisdiction",
        'Alder\'s "T"',
        "--adopts",
        "irc-2024",
        "--in-force",
        "2026-03-01",
        "--by",
        "O'7",
        "--whole",
    ]
    assert run("new", *given, "--folder", tmp_path).exit_code == 0
    assert library(tmp_path).adopt("alder's t").chain[-1].by == "O'7"
    again = run("new", *given, "--folder", tmp_path)
    assert isinstance(again.exception, Unusable)
    assert "2026-03-01.yaml:1:1: exists already; edit it, or choose another date" in str(again.exception)


def test_new_asks_again_for_what_is_not_there_to_adopt(tmp_path: Path) -> None:
    found = run("new", "--folder", tmp_path, input=ANSWERS.replace("irc-2021", "irc-2022\nirc-2021"))
    assert "no ruleset is called `irc-2022`; did you mean `irc-202" in found.output
    assert found.exit_code == 0
    refused = run("new", "--folder", tmp_path, "--adopts", "nowhere")
    assert refused.exit_code == 2
    assert "no ruleset is called `nowhere`; known: " in refused.output


def test_verify_tells_a_stale_value_and_a_wrong_unit_of_one_amendment_together(county: Path) -> None:
    county.write_text((COUNTY % "warn").replace("was: 7 3/4 in", "was: 7 in").replace("to: 8 in", "to: 8 psf"))
    told = run("verify", county).stderr
    assert "`was: 7 in` does not match: the value in effect is 7 3/4 in" in told
    assert "`8 psf` cannot replace `7 3/4 in`" in told


def test_an_amendment_that_is_no_mapping_is_told_by_the_name_of_its_list(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text("jurisdiction: A\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\namendments:\n  - hello\n")
    assert "a.yaml:6:5: amendments: a mapping of keys to values belongs here" in run("verify", path).stderr


def test_explain_says_a_history_in_words(county: Path) -> None:
    def explained(name: str) -> str:
        return CliRunner().invoke(cli, ["explain", name, "--ruleset", str(county)]).stdout

    assert "\n  deleted by Ordinance 1 sec. 4\n" in explained("doors.landing-size.depth")
    assert "\n  left to the jurisdiction by irc-2015 R301.2, Table R301.2(1)\n" in explained("criteria.frost-depth")
    assert "Applies to: stair flight\n" in explained("stairs.riser-height")


def test_explain_knows_an_added_requirement(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(
        "jurisdiction: A\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\namendments:\n"
        "  - {add: a.width, value: 3 ft, measures: least width of a flight, by: O 1 sec. 2,\n"
        "     check: {part: flight, measure: width, comparison: minimum}}\n"
    )
    said = CliRunner().invoke(cli, ["explain", "a.width", "--ruleset", str(path)]).stdout
    assert "Least width of a flight." in said
    assert "Applies to: flight" in said
    assert "added: 3 ft by O 1 sec. 2" in said


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("design criteria: {frost depth: 40}", r":5:19: frost depth: `40` has no unit; write `40 in`"),
        (
            "design criteria: {ground snow load: 30 in}",
            ":5:19: ground snow load: `in` in `30 in` is not a unit of load",
        ),
        (
            "amendments: [{amend: zoning.parking.minimum, was: set locally, to: 9 ft, by: 1}]",
            ":5:64: parking spaces on the lot: `9 ft` is not a whole number; write one",
        ),
        (
            "amendments: [{amend: zoning.approval.before-permit, was: set locally, to: perhaps, by: 1}]",
            "`perhaps` is not `required`, `allowed` or `not required`; write one of them",
        ),
    ],
)
def test_what_an_edition_leaves_open_is_set_to_a_value_that_rules_can_compare(
    tmp_path: Path, line: str, says: str
) -> None:
    path = tmp_path / "2026-01-01.yaml"
    path.write_text(f"jurisdiction: Alder County\nadopts: irc-2021\nin force: 2026-01-01\nby: Ordinance 1\n{line}\n")
    found = run("verify", path)
    assert found.exit_code == 2, found.output
    assert says in found.stderr
    project = Path(__file__).parent / "data" / "mill-lane.yaml"
    with pytest.raises(Unusable, match=r"is not|has no unit"):
        CliRunner().invoke(cli, ["check", str(project), "--ruleset", str(path)], catch_exceptions=False)
    assert run("verify", _with(path, line, says)).exit_code == 0


def _with(path: Path, line: str, says: str) -> Path:
    """Return the file with a value of the right kind in place of the one refused."""
    refused = says.split("`")[1]
    good = {"40": "40 in", "in": "psf", "9 ft": "2", "perhaps": "required"}[refused]
    path.write_text(path.read_text().replace(line, line.replace(refused, good)))
    return path


def test_verify_finds_what_a_file_adopts_in_the_folder_in_which_it_stands(tmp_path: Path) -> None:
    for place, adopts in (("alder-county", "irc-2021"), ("alder-city", "Alder County")):
        folder = tmp_path / "codes" / "jurisdictions" / place
        folder.mkdir(parents=True)
        name = place.replace("-", " ").title()
        text = f"jurisdiction: {name}\nadopts: {adopts}\nin force: 2026-01-01\nby: Code 1\n"
        (folder / "2026-01-01.yaml").write_text(text)
    found = run("verify", str(tmp_path / "codes/jurisdictions/alder-city/2026-01-01.yaml"))
    assert found.exit_code == 0, found.output
