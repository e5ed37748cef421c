"""Findings that a document accepts: they no longer stop the job, they stay visible, and the file is kept true."""

from __future__ import annotations

import json
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from precheck.checks import Outcome
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.reports import renderer
from precheck.review.accepted import read_accepted
from precheck.review.finding import READY, Review
from precheck.review.run import review
from precheck.rules.plugins import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library

RISERS = """
project: Attic stair
spaces: [{id: hall, use: hall}, {id: loft, use: bedroom}]
stairs:
  - {id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13}
  - {id: S2, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13}
"""
VARIANCE = {
    "rule": "stairs.riser-height",
    "part": "S1",
    "value": "8 3/8 in",
    "document": "Variance V-2026-014",
    "by": "Building official",
}
TODAY = date(2026, 6, 1)


@cache
def setting() -> tuple[Plugins, AdoptedCode]:
    """Return the installed plugins and an edition."""
    plugins = load_plugins()
    return plugins, Library(plugins.rulesets).adopt("irc-2021")


def checked(
    tmp_path: Path, *records: dict[str, str], topics: tuple[str, ...] = ("stairs",), text: str = RISERS
) -> Review:
    """Return the review of the project with a file of accepted findings that holds `records`."""
    file = tmp_path / "accepted.yaml"
    file.write_text(json.dumps({"accepted": list(records)}))
    project = project_from(read_text(text, "plans/house.yaml"))
    plugins, code = setting()
    return review(project, code, plugins, topics, accepted=read_accepted(file), today=TODAY)


def told(found: Review) -> list[str]:
    """Return what the review tells of the file of accepted findings."""
    return [one.what for one in found.record_notices]


def test_an_accepted_finding_is_kept_and_no_longer_counts(tmp_path: Path) -> None:
    without, with_ = checked(tmp_path), checked(tmp_path, VARIANCE)
    assert without.counts[Outcome.FAIL] - with_.counts[Outcome.FAIL] == 1
    assert len(without.findings) == len(with_.findings)
    assert [(f.rule.name, f.accepted.document) for f in with_.accepted if f.accepted] == [
        ("stairs.riser-height", "Variance V-2026-014")
    ]
    assert told(with_) == []


def test_all_findings_accepted_makes_a_project_ready(tmp_path: Path) -> None:
    found = checked(tmp_path)
    open_ = [f for f in found.findings if Outcome.ERROR < f.outcome < Outcome.PASS]
    bare = {key: value for key, value in VARIANCE.items() if key != "value"}
    records = [
        {**(VARIANCE if f.outcome is Outcome.FAIL else bare), "rule": f.rule.name, "part": str(f.subject.label)}
        for f in open_
    ]
    assert open_
    assert found.verdict != READY
    left = checked(tmp_path, *records)
    assert len(left.accepted) == len(open_)
    assert (left.verdict == READY) is (left.counts[Outcome.ERROR] == 0)


TALLER = RISERS.replace("id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13",
                        "id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 12")  # fmt: skip


def test_a_record_accepts_the_value_that_it_says_and_no_worse_one(tmp_path: Path) -> None:
    assert not checked(tmp_path, VARIANCE, text=TALLER).accepted
    assert told(checked(tmp_path, VARIANCE, text=TALLER)) == [
        "accepts 8 3/8 in, and 9 1/16 in is drawn; the finding is open again"
    ]
    assert checked(tmp_path, {**VARIANCE, "value": "9 1/16 in"}).accepted  # better than what was accepted
    assert checked(tmp_path, {**VARIANCE, "value": "213 mm"}).accepted
    assert not checked(tmp_path, {**VARIANCE, "value": "211 mm"}).accepted


def test_a_record_without_a_value_accepts_nothing_that_was_measured_and_says_what_to_write(tmp_path: Path) -> None:
    found = checked(tmp_path, {key: value for key, value in VARIANCE.items() if key != "value"})
    assert not found.accepted
    assert told(found) == [
        "does not say what was accepted; write `value: 8 3/8 in` if that is what the document accepts"
    ]


def test_a_record_of_a_value_accepts_no_value_that_is_not_drawn(tmp_path: Path) -> None:
    undrawn = RISERS.replace(", total rise: 108 1/2 in, risers: 13", "")
    found = checked(tmp_path, VARIANCE, text=undrawn)
    assert not found.accepted
    assert told(found) == ["accepts 8 3/8 in, and the drawings do not show it"]


def test_a_record_that_names_several_findings_accepts_none_and_says_which_to_name(tmp_path: Path) -> None:
    flights = RISERS.replace("risers: 13}", "flights: [{rise: 54 1/4 in, risers: 6}, {rise: 54 1/4 in, risers: 6}]}", 1)
    found = checked(tmp_path, {**VARIANCE, "value": "10 in"}, text=flights)
    assert not found.accepted
    assert told(found) == [
        "names several findings; write which it accepts as `part:`: flight 1 of stair S1, or flight 2 of stair S1"
    ]
    assert checked(tmp_path, {**VARIANCE, "value": "10 in", "part": "flight 2 of stair S1"}, text=flights).accepted


def test_a_record_counts_to_the_end_of_its_last_day_and_then_is_told(tmp_path: Path) -> None:
    assert checked(tmp_path, {**VARIANCE, "until": "2026-06-01"}).accepted
    late = checked(tmp_path, {**VARIANCE, "until": "2026-05-31"})
    assert not late.accepted
    assert told(late) == ["Variance V-2026-014 expired on 2026-05-31; renew it, or remove the record"]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"rule": "stairs.riser-hight"}, "no rule is called `stairs.riser-hight`; did you mean `stairs.riser-height`?"),
        ({"part": "S9"}, "no part is called `S9`; known: S1, S2"),
        (
            {"rule": "stairs.special-form"},
            "this rule finds nothing to accept there; remove the record, or name its project",
        ),
    ],
)
def test_a_record_that_matches_nothing_is_told(tmp_path: Path, change: dict[str, str], says: str) -> None:
    found = checked(tmp_path, {**VARIANCE, **change})
    assert len(told(found)) == 1
    assert told(found)[0].startswith(says)
    assert found.record_notices[0].record.place.line == 1


def test_a_record_for_another_project_file_is_left_alone(tmp_path: Path) -> None:
    other = checked(tmp_path, {**VARIANCE, "project": "barn.yaml"})
    assert (other.accepted, other.record_notices) == ((), ())
    assert checked(tmp_path, {**VARIANCE, "project": "house.yaml"}).accepted


def test_a_record_of_a_topic_that_was_left_out_is_not_told(tmp_path: Path) -> None:
    assert checked(tmp_path, VARIANCE, topics=("doors",)).record_notices == ()


def test_a_rule_that_broke_off_cannot_be_accepted() -> None:
    from precheck.review.accepting import ACCEPTABLE

    assert Outcome.ERROR not in ACCEPTABLE


def test_a_record_without_its_document_is_refused_at_its_line(tmp_path: Path) -> None:
    file = tmp_path / "accepted.yaml"
    file.write_text("accepted:\n  - {rule: stairs.width, part: S1, by: me, untill: 2026-01-01}\n")
    with pytest.raises(Unusable) as caught:
        read_accepted(file)
    said = "\n".join(str(p) for p in caught.value.problems)
    assert "accepted.yaml:2:" in said
    assert "`document` is not given" in said
    assert "did you mean `until`?" in said


@pytest.mark.parametrize("name", ["text", "json", "sarif", "junit", "github", "markdown"])
def test_every_report_lists_the_document_and_what_to_renew(tmp_path: Path, name: str) -> None:
    found = checked(tmp_path, VARIANCE, {**VARIANCE, "part": "S2", "document": "Letter 7", "until": "2020-01-01"})
    given: Any = found if name == "text" else [found]
    said = " ".join(renderer(name)(given).split())
    assert "Variance V-2026-014" in said.replace("\\", "")
    assert "Building official" in said
    assert "Letter 7 expired on 2020-01-01" in said


def test_sarif_suppresses_and_junit_skips_what_is_accepted(tmp_path: Path) -> None:
    found = checked(tmp_path, VARIANCE)
    results = json.loads(renderer("sarif")([found]))["runs"][0]["results"]
    suppressed = [r for r in results if r["suppressions"]]
    assert [r["ruleId"] for r in suppressed] == ["stairs.riser-height"]
    skipped = ET.fromstring(renderer("junit")([found])).findall("testsuite/testcase/skipped")
    assert sum(case.attrib["message"].startswith("accepted: ") for case in skipped) == 1


def test_json_keeps_the_outcome_and_adds_the_record(tmp_path: Path) -> None:
    data = json.loads(renderer("json")([checked(tmp_path, {**VARIANCE, "until": "2027-01-01"})]))
    accepted = [f for f in data["findings"] if f["accepted"]]
    assert [f["outcome"] for f in accepted] == ["fail"]
    assert accepted[0]["accepted"]["until"] == "2027-01-01"
    assert sum(data["counts"].values()) + data["accepted"]["count"] == len(data["findings"])
