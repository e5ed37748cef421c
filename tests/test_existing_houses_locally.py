"""What an invented place may set for existing houses, where the model code leaves it open."""

from __future__ import annotations

from pathlib import Path

from precheck.checks import Outcome
from precheck.files.source import read_file
from precheck.review.finding import Finding
from precheck.testing import findings

ADOPTION = """\
jurisdiction: Fernhollow
adopts: irc-2018
in force: 2020-01-01
by: Ordinance 7
demo: yes
amendments:
"""


def found(tmp_path: Path, rule: str, amendment: str, project: str) -> Finding:
    """Return what `rule` says of the one subject in `project` under the 2018 code with one amendment."""
    adoption, drawn = tmp_path / "fernhollow.yaml", tmp_path / "project.yaml"
    adoption.write_text(f"{ADOPTION}  - {amendment}\n")
    drawn.write_text(project)
    (finding,) = findings(rule, read_file(drawn), str(adoption))
    return finding


APPENDIX = "{amend: existing.appendix.adopted, was: not required, to: allowed, by: Ordinance 7}"
AREA = "{amend: existing.sprinklers.added-area, was: not required, to: 500 sq ft, by: Ordinance 7}"
HOUSE = "project: house\ndwelling: {year built: 1962, sprinklered: no}\nspaces:\n"


def test_an_adopted_appendix_is_something_to_agree_with_the_official(tmp_path: Path) -> None:
    finding = found(
        tmp_path, "existing.appendix", APPENDIX, HOUSE + "  - {id: play, phase: altered, use: family room}\n"
    )
    assert finding.outcome is Outcome.WARN
    assert "an unaltered basement stair keeps its width" in finding.check.why


def test_the_appendix_is_not_for_a_new_house(tmp_path: Path) -> None:
    project = "project: house\ndwelling: {new house: yes}\nspaces: [{id: play, phase: new, use: family room}]\n"
    assert found(tmp_path, "existing.appendix", APPENDIX, project).outcome is Outcome.DOES_NOT_APPLY


def test_an_addition_of_the_set_area_needs_no_sprinklers_yet(tmp_path: Path) -> None:
    project = HOUSE + "  - {id: wing, phase: new, use: living room, area: 500 sq ft}\n"
    assert found(tmp_path, "existing.sprinklers", AREA, project).outcome is Outcome.PASS


def test_an_addition_just_over_the_set_area_needs_sprinklers(tmp_path: Path) -> None:
    project = HOUSE + "  - {id: wing, phase: new, use: living room, area: 500.1 sq ft}\n"
    finding = found(tmp_path, "existing.sprinklers", AREA, project)
    assert finding.outcome is Outcome.FAIL
    assert finding.check.remedy == "protect the house with sprinklers"


def test_a_garage_and_a_porch_add_no_area_that_counts(tmp_path: Path) -> None:
    project = HOUSE + (
        "  - {id: wing, phase: new, use: living room, area: 400 sq ft}\n"
        "  - {id: bay, phase: new, use: garage, area: 300 sq ft}\n"
        "  - {id: stoop, phase: new, use: porch, area: 90 sq ft}\n"
    )
    assert found(tmp_path, "existing.sprinklers", AREA, project).outcome is Outcome.PASS


def test_an_added_area_that_is_not_given_is_asked_for(tmp_path: Path) -> None:
    finding = found(tmp_path, "existing.sprinklers", AREA, HOUSE + "  - {id: wing, phase: new, use: living room}\n")
    assert finding.outcome is Outcome.NOT_SHOWN
    assert [str(need) for need in finding.check.needs] == ["area of space wing"]
