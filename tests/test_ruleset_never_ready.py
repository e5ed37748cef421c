"""What would make a job ready that is not: slips in a ruleset, a rule's name taken, a part of the code deleted."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from firm import Firm

from precheck.checks import Outcome
from precheck.cli import cli
from precheck.files.source import Unusable, read_text
from precheck.project import project_from, read_project
from precheck.review.run import review
from precheck.rulesets import Library
from precheck.testing import plugins

HEAD = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\n"
HEATER = """project: P
spaces: [{id: U, use: utility}]
appliances: [{id: H, phase: new, what: water heater, space: U, fuel: natural gas}]
"""
TAKER = '''
    from precheck import Check, Window, hookimpl, met, rule

    @rule("escape.sill")
    def sill(window: Window) -> Check:
        """Every sill is fine."""
        return met("fine")

    @hookimpl
    def precheck_rules():
        """Return the one rule."""
        return [sill]
'''
HIGH_SILL = """project: P
jurisdiction: irc-2021
spaces: [{id: B, use: bedroom, phase: new}]
windows: [{id: W, phase: new, space: B, sill height: 60 in, escape: yes}]
"""


def adopt(folder: Path, rest: str):
    """Return the code of a village."""
    path = folder / "ash.yaml"
    path.write_text(HEAD + rest)
    return Library(plugins().rulesets).adopt(str(path))


def verified(folder: Path, rest: str) -> Result:
    """Verify the ruleset of a village."""
    path = folder / "ash.yaml"
    path.write_text(HEAD + rest)
    return CliRunner().invoke(cli, ["ruleset", "verify", str(path)])


@pytest.mark.parametrize("category", ["D0", "D1", "D2", "d2", "D-2", "SDC D2", "E", "F"])
def test_a_strong_earthquake_however_written_has_a_water_heater_strapped(tmp_path: Path, category: str) -> None:
    code = adopt(tmp_path, f"design criteria: {{seismic design category: {category}}}\n")
    found = review(project_from(read_text(HEATER, "p.yaml")), code, plugins(), ["appliances"]).findings
    assert [one.outcome for one in found if one.rule.name == "appliances.straps"] == [Outcome.NOT_SHOWN]


@pytest.mark.parametrize(
    ("criterion", "says"),
    [
        ("seismic design category: D", "write D0, D1 or D2"),
        ("seismic design category: bananas", "`bananas` is not known as seismic design category"),
        ("wind exposure: Z", "Write one of: B, C, D"),
        ("weathering: sever", "did you mean `severe`?"),
        ("termites: very havy", "did you mean `very heavy`?"),
        ("climate zone: 9Q", "`9Q` is not a climate zone"),
        ("ultimate wind speed: 300 mph", "no job has more than 220 mph"),
        ("ground snow load: 3000 psf", "no job has more than 700 psf"),
        ("frost depth: 30 ft", "no job has more than 150 in"),
    ],
)
def test_a_criterion_that_no_place_has_is_refused_at_its_line(tmp_path: Path, criterion: str, says: str) -> None:
    found = verified(tmp_path, f"design criteria: {{{criterion}}}\n")
    assert found.exit_code == 2
    assert says in found.stderr
    assert "ash.yaml:5:19:" in found.stderr


def test_all_wrong_criteria_are_told_in_one_run(tmp_path: Path) -> None:
    wrong = "design criteria: {wind exposure: Z, weathering: sever, climate zone: 9Q}\n"
    assert "3 problems to mend." in verified(tmp_path, wrong).stderr


def test_a_climate_zone_may_be_called_by_its_number(tmp_path: Path) -> None:
    assert adopt(tmp_path, "design criteria: {climate zone: zone 5}\n").limits["criteria.climate-zone"].text == "5"


def test_the_value_that_a_message_gives_of_a_table_can_be_pasted(tmp_path: Path) -> None:
    amendment = "amendments:\n  - {amend: energy.insulation.floor, was: %s, to: not required, by: O 2}\n"
    wrong = verified(tmp_path, amendment % "{zone 5: R-9}").stderr
    right = wrong.partition("; write `was: ")[2].partition("`")[0]
    assert right.startswith("{zone 0: ")
    assert verified(tmp_path, amendment % right).exit_code == 0


def test_a_permit_for_small_buildings_may_be_asked_of_garages_alone(tmp_path: Path) -> None:
    rest = (
        "amendments:\n  - {amend: permits.exempt.accessory-area, part: small work, where: {for vehicles: yes}, was: 200 sq ft, "
        "to: 0 sq ft, by: O 2}\n"
    )
    code = adopt(tmp_path, rest)
    for vehicles, expected in (("yes", Outcome.FAIL), ("no", Outcome.PASS)):
        work = f"{{id: K, what: accessory structure, area: 150 sq ft, stories: 1, attached: no, for vehicles: {vehicles}, permit: no}}"
        project = project_from(read_text(f"project: P\nsmall works: [{work}]\n", "p.yaml"))
        found = review(project, code, plugins(), ["permits"]).findings
        assert {one.outcome for one in found if one.rule.name == "permits.exempt"} == {expected}


@pytest.mark.parametrize("deleted", ["chapters 11 to 43", "topic framing", "section R302"])
def test_a_chapter_may_be_deleted_without_a_rule_breaking_off(tmp_path: Path, deleted: str) -> None:
    code = adopt(tmp_path, f"amendments:\n  - {{delete: {deleted}, by: O 2}}\n")
    job = read_project(Path(__file__).parents[1] / "examples" / "alder-court" / "corrected.yaml")
    found = review(job, code, plugins())
    assert [one.error for one in found.findings if one.outcome is Outcome.ERROR] == []


def test_rows_of_lists_that_rules_work_with_may_be_deleted_together(tmp_path: Path) -> None:
    names = ("electrical.arc-fault.rooms", "electrical.ground-fault.places", "roofing.slope.coal-tar")
    code = adopt(tmp_path, "amendments:\n" + "".join(f"  - {{delete: {name}, by: O 2}}\n" for name in names))
    job = read_project(Path(__file__).parents[1] / "examples" / "alder-court" / "corrected.yaml")
    found = review(job, code, plugins(), ["electrical", "roofing"])
    assert [one.error for one in found.findings if one.outcome is Outcome.ERROR] == []


def test_a_plugin_that_takes_the_name_of_a_rule_loses_itself_and_no_report_is_ready(tmp_path: Path) -> None:
    firm = Firm(tmp_path, TAKER, name="aaa")  # which comes before `escape`
    firm.file("p.yaml", HIGH_SILL)
    said = firm.precheck("check", "p.yaml", "--topic", "escape", "--report", "sarif")
    assert said.returncode == 3
    (run,) = json.loads(said.stdout)["runs"]
    assert run["invocations"][0]["executionSuccessful"] is False
    told = [note for note in run["invocations"][0]["toolExecutionNotifications"] if note["level"] == "error"]
    assert any("the rule name `escape.sill` is taken by escape" in note["message"]["text"] for note in told)
    assert any(one["ruleId"] == "escape.sill" and one["level"] == "error" for one in run["results"])


def test_a_part_under_the_name_that_people_give_it_is_led_to_its_key() -> None:
    with pytest.raises(Unusable) as caught:
        project_from(read_text("project: P\naccess openings: [{id: A}]\n", "p.yaml"))
    assert "did you mean `hatches`?" in str(caught.value)
