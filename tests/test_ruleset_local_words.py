"""What an office may say of a limit beside its value: that it binds, and what its number leaves out."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from precheck.checks import Outcome
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.review.run import review, run
from precheck.rulesets import AdoptedCode, Library
from precheck.survey import House
from precheck.testing import plugins

HEAD = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\n"


@pytest.fixture
def adopted(tmp_path: Path):
    def made(rest: str) -> AdoptedCode:
        path = tmp_path / "jurisdictions" / "ash-village" / "2026-01-01.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(HEAD + rest, encoding="utf-8")
        return Library((tmp_path, *plugins().rulesets)).adopt("Ash Village")

    return made


def outcomes(rule_name: str, text: str, code: AdoptedCode) -> set[Outcome]:
    house = House(project_from(read_text(f"project: P\n{text}", "p.yaml")))
    rule = next(rule for rule in plugins().rules if rule.name == rule_name)
    return {finding.outcome for finding in run(rule, house, code)}


PAPER = "sheets: [{id: A1, phase: new, title: Floor plan, paper: 8.5 x 11 in}]\n"
AMENDED = "amendments:\n  - {amend: package.paper.minimum-side, was: 11 in, to: 18 in, by: Guide 2%s}\n"


def test_an_office_makes_binding_what_is_only_good_practice(adopted):
    assert outcomes("package.paper", PAPER, adopted(AMENDED % "")) == {Outcome.WARN}
    assert outcomes("package.paper", PAPER, adopted(AMENDED % ", force: shall")) == {Outcome.FAIL}
    assert outcomes("package.paper", PAPER, adopted(AMENDED % ", force: advise")) == {Outcome.WARN}


SCALES = "amendments:\n  - {amend: package.scale.accepted, was: not required, to: [1/8 in per ft, 1/4 in per ft], by: Guide 3}\n"


def test_an_office_lists_the_scales_that_it_takes(adopted):
    sheet = "sheets: [{id: A1, phase: new, title: Floor plan, scale: %s}]\n"
    code = adopted(SCALES)
    assert outcomes("package.scale", sheet % "1/4 in per ft", code) == {Outcome.PASS}
    assert outcomes("package.scale", sheet % "5/16 in per ft", code) == {Outcome.FAIL}
    assert outcomes("package.scale", (sheet % "1/16 in per ft").replace("Floor", "Site"), code) == {Outcome.PASS}


SEAL = "amendments:\n  - {amend: package.seal.floor-area, was: not required, to: 3500 sq ft, by: state law}\n"


def test_a_size_from_which_on_a_seal_is_due_asks_for_one_where_the_law_does_not_say_whose(adopted):
    code = adopted(SEAL)
    large = "dwelling: {floor area: 4000 sq ft}\n"
    assert outcomes("package.seal", large, code) == {Outcome.NOT_SHOWN}
    assert outcomes("package.seal", large + "submittal: {sealed by: none}\n", code) == {Outcome.FAIL}
    assert outcomes("package.seal", large + "submittal: {sealed by: engineer}\n", code) == {Outcome.PASS}
    assert outcomes("package.seal", "dwelling: {floor area: 3000 sq ft}\n", code) == {Outcome.DOES_NOT_APPLY}


def test_what_a_ruleset_notes_of_itself_and_of_a_limit_stands_in_the_list_of_what_is_not_checked(adopted):
    code = adopted("note: read on a page without a date\n" + AMENDED % ", note: the guide asks for rolled sets too")
    project = project_from(read_text("project: P\n", "p.yaml"))
    told = review(project, code, plugins(), ["package"]).not_checked
    assert "Ash Village: read on a page without a date" in told
    assert "package.paper.minimum-side: the guide asks for rolled sets too" in told
    of_others = review(project, code, plugins(), ["stairs"]).not_checked
    assert "package.paper.minimum-side: the guide asks for rolled sets too" not in of_others


def test_the_caveats_of_a_shipped_place_are_told():
    code = Library(plugins().rulesets).adopt("Clive, Iowa")
    told = review(project_from(read_text("project: P\n", "p.yaml")), code, plugins()).not_checked
    assert any("Type X" in line for line in told)


GARAGE_PERMIT = """amendments:
  - add: ash-permits.garage.applied-for
    value: required
    measures: permit for a building for vehicles
    by: Code 4
    check: {part: small work, when: {for vehicles: yes}, measure: permit, comparison: required}
"""


def checked(folder: Path, *options: str, jurisdiction: str = "Ash Village") -> subprocess.CompletedProcess[str]:
    house = folder / "house.yaml"
    work = "small works: [{id: K, phase: new, what: accessory structure, area: 100 sq ft, stories: 1, for vehicles: yes, permit: no}]"
    house.write_text(f"project: P\njurisdiction: {jurisdiction}\nwork: [garage]\n{work}\n", encoding="utf-8")
    command = [
        sys.executable,
        "-c",
        "from precheck.cli import main; main()",
        "check",
        str(house),
        "--rulesets",
        str(folder),
    ]
    return subprocess.run([*command, "--full", *options], capture_output=True, text=True, check=False)


@pytest.mark.parametrize("topic", ["ash-permits", "stairs"])
def test_a_run_about_one_topic_knows_and_keeps_what_the_place_adds(tmp_path, adopted, topic):
    adopted(GARAGE_PERMIT)
    found = checked(tmp_path, "--topic", topic)
    assert (found.returncode, "ermit for a building for vehicles" in found.stdout) == (1, True), found.stderr


def test_a_topic_that_only_another_place_has_is_refused(tmp_path, adopted):
    adopted(GARAGE_PERMIT)
    found = checked(tmp_path, "--topic", "ash-permits", jurisdiction="irc-2021")
    assert found.returncode == 2
    assert (
        "there is no topic `ash-permits` under irc-2021; leave it out, or name the ruleset that adds it" in found.stderr
    )
    assert checked(tmp_path, "--topic", "ash-permit").returncode == 2
