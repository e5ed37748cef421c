"""Reports in the formats of open standards, of a project on which every outcome occurs."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from precheck import Check, Stair, hookimpl, rule, testing
from precheck.checks import Outcome
from precheck.files.source import Place, Problem, read_text
from precheck.project import project_from
from precheck.reports import FORMATS, renderer, streamed, words
from precheck.reports.markdown import render as markdown
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.rules.plugins import Plugins, collect, load_plugins
from precheck.rulesets import Library

NAME = "Attic & <stair> 100 %, ::error:: | *now*\x07"
PROJECT = """
project: "Attic & <stair> 100 %, ::error:: | *now*\\a"
spaces: [{id: hall, use: hall}, {id: loft, use: bedroom}]
stairs:
  - {id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13}
  - {id: S2, phase: existing, between: [hall, loft], total rise: 108 1/2 in, risers: 13, width: 40 in}
"""


@rule("broken.always")
def always(stair: Stair) -> Check:
    """Break off."""
    raise ValueError(f"no {stair.id}")


class Broken:
    """A plugin whose one rule breaks off."""

    @hookimpl
    def precheck_rules(self) -> list[Any]:
        """Return the rule."""
        return [always]


@cache
def reviewed(file: str = "plans/attic stair.yaml", strict: bool = False) -> Review:
    """Return the review of the project with the built-in rules and one that breaks off."""
    loaded = load_plugins()
    plugins = Plugins((*loaded.offers, *collect([("broken", "test", Broken)]).offers), loaded.failures)
    code = Library(plugins.rulesets).adopt("irc-2021")
    return review(project_from(read_text(PROJECT, file)), code, plugins, ("stairs", "broken"), strict)


def of(outcome: Outcome) -> list[Any]:
    """Return the review's findings of that outcome; the fixture must hold some."""
    found = [f for f in reviewed().findings if f.outcome is outcome]
    assert found
    return found


def sarif(*reviews: Review) -> dict[str, Any]:
    """Return the SARIF log of reviews as data."""
    log: dict[str, Any] = json.loads(renderer("sarif")(list(reviews)))
    return log


def valid(log: dict[str, Any]) -> list[str]:
    """Return what the published schema holds against a log."""
    from jsonschema import Draft4Validator

    schema = json.loads((Path(__file__).parent / "data" / "sarif-schema-2.1.0.json").read_text())
    return [error.message for error in Draft4Validator(schema).iter_errors(log)]


def test_a_sarif_log_is_valid_by_the_published_schema() -> None:
    assert valid(sarif(reviewed())) == []
    assert valid(sarif()) == []
    broken = sarif(reviewed())
    broken["runs"][0]["results"][0]["level"] = "grave"
    assert valid(broken) != []


def test_sarif_lists_each_finding_that_needs_attention_once_at_its_line() -> None:
    results = sarif(reviewed())["runs"][0]["results"]
    wanted = [*of(Outcome.FAIL), *of(Outcome.NOT_SHOWN), *of(Outcome.WARN)]
    assert len(results) == len(wanted)
    tallest = next(r for r in results if r["ruleId"] == "stairs.riser-height" and r["level"] == "error")
    where = tallest["locations"][0]["physicalLocation"]
    assert where == {
        "artifactLocation": {"uri": "plans/attic%20stair.yaml"},
        "region": {"startLine": 5, "startColumn": 5},
    }
    assert "14 risers" in tallest["message"]["text"]


def test_sarif_describes_each_rule_that_its_results_name() -> None:
    run = sarif(reviewed(), reviewed("other.yaml"))["runs"][0]
    described = [r["id"] for r in run["tool"]["driver"]["rules"]]
    assert described == sorted(set(described))
    assert {r["ruleId"] for r in run["results"]} <= set(described)


def test_sarif_tells_of_broken_rules_and_of_what_was_not_checked() -> None:
    invocation = sarif(reviewed())["runs"][0]["invocations"][0]
    told = [(n["descriptor"]["id"], n["message"]["text"]) for n in invocation["toolExecutionNotifications"]]
    assert not invocation["executionSuccessful"]
    assert any(kind == "rule-broke-off" and "no S1" in text for kind, text in told)
    assert any(kind == "not-checked" and "left out of this run" in text and "doors" in text for kind, text in told)


def test_a_fingerprint_stays_when_lines_move_and_differs_between_findings() -> None:
    results = sarif(reviewed())["runs"][0]["results"]
    prints = [r["partialFingerprints"]["precheckFinding/v2"] for r in results]
    assert len(set(prints)) == len(prints)
    moved = project_from(read_text("# one more line\n" + PROJECT, "plans/attic stair.yaml"))
    again = review(moved, reviewed().code, load_plugins(), ("stairs",))
    assert {r["partialFingerprints"]["precheckFinding/v2"] for r in sarif(again)["runs"][0]["results"]} <= set(prints)


def test_two_files_with_the_same_findings_have_fingerprints_of_their_own() -> None:
    one, other = (
        {r["partialFingerprints"]["precheckFinding/v2"] for r in sarif(reviewed(file))["runs"][0]["results"]}
        for file in ("plans/a.yaml", "plans/b.yaml")
    )
    assert len(one) == len(other) > 3
    assert not one & other


def test_a_log_holds_as_many_results_as_code_hosts_take_and_says_how_many_it_leaves_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    stops, looks = len(of(Outcome.FAIL)) + len(of(Outcome.NOT_SHOWN)), len(of(Outcome.WARN))
    files = [reviewed(f"{n}.yaml") for n in range(3)]
    for most, errors, warnings in (
        (3 * stops + 1, 3 * stops, 1),
        (stops + 2, stops + 2, 0),
        (1000, 3 * stops, 3 * looks),
    ):
        monkeypatch.setattr("precheck.reports.sarif.MOST_RESULTS", most)
        log = sarif(*files)
        assert valid(log) == []
        levels = [result["level"] for result in log["runs"][0]["results"]]
        assert levels == ["error"] * errors + ["warning"] * warnings
        notes = log["runs"][0]["invocations"][0]["toolExecutionNotifications"]
        told = [note["message"]["text"] for note in notes if note["descriptor"]["id"] == "left-out"]
        left = f"{3 * stops - errors:,} that stop a job and {3 * looks - warnings:,} to look at are left out"
        assert [left in text for text in told] == ([True] if most < 1000 else [])


def test_a_log_that_left_something_out_is_no_baseline(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from precheck.files.source import Unusable
    from precheck.runs.baseline import read_baseline

    path = tmp_path / "before.sarif"
    path.write_text(renderer("sarif")([reviewed()]))
    assert read_baseline(path).known
    monkeypatch.setattr("precheck.reports.sarif.MOST_RESULTS", 2)
    path.write_text(renderer("sarif")([reviewed()]))
    with pytest.raises(Unusable, match="had no room for all findings"):
        read_baseline(path)


def test_a_file_outside_the_folder_of_the_run_has_an_absolute_address(tmp_path: Path) -> None:
    where = sarif(reviewed(str(tmp_path / "a.yaml")))["runs"][0]["artifacts"][0]["location"]["uri"]
    assert where == (tmp_path / "a.yaml").as_uri()


def test_workflow_commands_are_one_a_line_and_only_for_what_needs_attention() -> None:
    lines = renderer("github")([reviewed()]).splitlines()
    commands = [line for line in lines if line.startswith("::")]
    errors = [*of(Outcome.FAIL), *of(Outcome.NOT_SHOWN), *of(Outcome.ERROR)]
    assert sum(line.startswith("::error ") for line in commands) == len(errors)
    assert sum(line.startswith("::warning ") for line in commands) == len(of(Outcome.WARN))
    assert len(commands) == len(errors) + len(of(Outcome.WARN))
    assert any("file=plans/attic stair.yaml,line=5,col=5,title=stairs.riser-height (fail)::" in c for c in commands)


def test_workflow_commands_escape_what_would_end_a_property() -> None:
    from precheck.reports.github import refused

    said = refused("a,b:c.yaml", [Problem(Place("a,b:c.yaml", 2, 3), "50 % of\nit")])
    assert said == "::error file=a%2Cb%3Ac.yaml,line=2,col=3,title=cannot be used::50 %25 of%0Ait\n"


def test_no_line_of_a_log_can_be_taken_for_a_command_of_the_project() -> None:
    from precheck.reports.github import piece

    review_ = reviewed("::error::plans.yaml")
    assert not any(line.startswith("::error::") for line in piece(review_).splitlines())


def test_markdown_names_every_finding_that_needs_attention_and_shows_a_name_as_written() -> None:
    page = markdown([reviewed()])
    assert "## Attic \\& \\<stair\\> 100 %, ::error:: \\| \\*now\\*" in page
    rows = [line for line in page.splitlines() if line.startswith("| ") and not line.startswith("| no. |")]
    assert len(rows) == len(items_of(reviewed()))
    assert all(row.replace("\\|", "").count("|") == 7 for row in rows)


@pytest.mark.parametrize("name", FORMATS)
def test_the_same_review_gives_the_same_bytes_and_ends_in_the_reminder(name: str) -> None:
    given: Any = reviewed() if name == "text" else [reviewed()]
    first = renderer(name)(given)
    assert renderer(name)(given) == first
    if isinstance(first, str):
        assert words.REMINDER.split(".")[0] in first.replace("\n", " ")
        assert "Existing parts were taken as the file states them, not measured" in " ".join(first.split())


@pytest.mark.parametrize("name", FORMATS)
def test_a_file_that_cannot_be_used_is_told_in_every_format_that_streams(name: str) -> None:
    format_ = streamed(name)
    if format_ is None:
        pytest.skip("the format takes all reviews at once")
    pieces = [format_.piece(reviewed()), format_.refused("bad.yaml", [Problem(Place("bad.yaml", 7, 1), "no such key")])]
    assert "no such key" in "".join(format_.joined(pieces))


def test_sarif_with_a_file_that_cannot_be_used_is_valid() -> None:
    from precheck.reports import sarif as format_

    pieces = [format_.refused("bad.yaml", [Problem(Place("bad.yaml", 7, 1), "no such key")])]
    assert valid(json.loads("".join(format_.joined(pieces)))) == []


def test_a_reason_that_no_comparison_bears_stands_before_what_is_met() -> None:
    wall = "{carries: one floor and roof, stud: 2x6, spacing: 16 in, height: 14 ft, sheathed or blocked: yes}"
    text = f"""
spaces: [{{id: den, use: office}}]
walls: [{{id: W1, phase: new, between: [den, outside], framing: {wall}}}]
"""
    (found,) = testing.findings("walls.studs", read_text(text, "wall"), "irc-2021")
    lines = words.lines_of(found)
    assert lines[0].startswith("studs of 14 ft are 4'-0\" over the table")
    assert "shown, required" in lines[1]
