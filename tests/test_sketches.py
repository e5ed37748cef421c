"""A sketch: what its stories do not show yet is not drawn, and never none."""

from __future__ import annotations

from typing import get_args

import pytest

from precheck import testing
from precheck.checks import Outcome
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.project.space import ToDraw
from precheck.questions.question import Questions
from precheck.reports.wanted import requests_of
from precheck.review.finding import Finding, Review
from precheck.review.run import review

SKETCH = """\
project: P
jurisdiction: irc-2021
applied on: 2026-03-02
stories: [{{id: main, level: ground{drawn}}}]
spaces:
  - {{id: bed, use: bedroom, was: garage, phase: altered, story: main, ceiling: {{height: 8 ft}},
     rectangle: {{at: [0 ft, 0 ft], width: 12 ft, depth: 12 ft}}}}
  - {{id: hall, use: hall, phase: existing, story: main, rectangle: {{at: [0 ft, 12'-4 1/2"], width: 12 ft, depth: 4 ft}}}}
{more}
"""
SMALL = "windows: [{id: W1, phase: new, space: bed, operation: casement, net clear opening: 12 in x 12 in, sill height: 60 in}]"
ALL = ", drawn: [rooms, doors, windows]"


def checked(drawn: str, more: str = "") -> Review:
    project = project_from(read_text(SKETCH.format(drawn=drawn, more=more), "house.yaml"))
    return review(project, testing.code("irc-2021"), testing.plugins())


def of(found: Review, rule: str, part: str = "space bed") -> Finding:
    return next(f for f in found.findings if f.rule.name == rule and f.subject.label == part)


def told(found: Review) -> list[tuple[str, str, str]]:
    return [(f.rule.name, f.subject.label, f.outcome.word) for f in found.findings if f.rule.name != "plan.story-drawn"]


@pytest.mark.parametrize("rule", ["escape.where", "light-and-air.glazing", "light-and-air.openable"])
def test_a_bedroom_without_a_window_yet_waits_for_it_and_does_not_fail(rule: str) -> None:
    assert of(checked(""), rule).outcome is Outcome.FAIL
    assert of(checked(ALL), rule).outcome is Outcome.FAIL
    waits = of(checked(", drawn: [rooms, doors]"), rule)
    assert waits.outcome is Outcome.NOT_SHOWN
    assert [str(need) for need in waits.check.needs] == ["the windows of story main"]


def test_all_drawn_is_the_same_as_saying_nothing() -> None:
    assert told(checked(ALL)) == told(checked("")) != told(checked(", drawn: [rooms]"))


def test_no_finding_is_of_what_may_come_and_none_is_lost() -> None:
    before, sketch = told(checked("")), told(checked(", drawn: []"))
    assert [(rule, part) for rule, part, _ in sketch] == [(rule, part) for rule, part, _ in before]
    assert not any("may come" in part for _, part, _ in sketch)


def test_nothing_passes_that_only_absence_made_pass() -> None:
    before = {(rule, part): outcome for rule, part, outcome in told(checked(""))}
    for rule, part, outcome in told(checked(", drawn: []")):
        assert outcome in (before[rule, part], "not shown"), (rule, part)


@pytest.mark.parametrize("rule", ["escape.area", "escape.height", "escape.sill", "escape.width"])
def test_a_window_too_small_to_climb_through_waits_as_long_as_another_may_come(rule: str) -> None:
    assert of(checked("", SMALL), rule, "window W1").outcome is Outcome.FAIL
    assert of(checked(", drawn: [rooms, doors]", SMALL), rule, "window W1").outcome is Outcome.NOT_SHOWN
    assert of(checked(ALL, SMALL), rule, "window W1").outcome is Outcome.FAIL


def test_what_a_new_window_cannot_change_is_told_at_once() -> None:
    low = SMALL.replace("sill height: 60 in", "sill height: 60 in, middle: [6 ft, -3 ft]")
    assert of(checked(", drawn: [rooms, doors]", low), "plan.opening-place", "window W1").outcome is Outcome.FAIL


def test_a_story_asks_for_what_is_not_drawn_in_one_request_and_is_never_ready() -> None:
    found = checked(", drawn: [rooms]")
    waiting = [f for f in found.findings if f.outcome is Outcome.NOT_SHOWN]
    requests, _ = requests_of(waiting, {part.label: part for part in found.project.parts})
    asked = [one.text_for(r.label) for r in requests if r.label == "story main" for one in r.wanted]
    assert asked == [
        "its doors, all of them; when they are drawn, list `doors` under `drawn`",
        "its windows, all of them; when they are drawn, list `windows` under `drawn`",
    ]
    need = of(found, "plan.story-drawn", "story main").check.needs[0]
    assert Questions(found.project).question(need) is None
    assert found.verdict == "corrections"


@pytest.mark.parametrize("kind", get_args(ToDraw))
def test_what_is_still_to_draw_may_stand_in_any_room_and_nothing_is_lost_or_passes_for_it(kind: str) -> None:
    before = {(rule, part): outcome for rule, part, outcome in told(checked(""))}
    sketch = told(checked(f", to draw: [{kind}]"))
    assert [(rule, part) for rule, part, _ in sketch] == list(before)
    assert not any("may come" in part for _, part, _ in sketch)
    changed = {(rule, part): outcome for rule, part, outcome in sketch if outcome != before[rule, part]}
    assert set(changed.values()) <= {"not shown"}
    assert of(checked(f", to draw: [{kind}]"), "plan.story-drawn", "story main").outcome is Outcome.NOT_SHOWN


def test_a_bedroom_without_an_alarm_waits_for_those_that_are_still_to_draw() -> None:
    rule, alarm = "alarms.smoke-in-bedroom", "alarms: [{id: SA1, phase: new, space: hall, detects: [smoke]}]"
    assert of(checked("", alarm), rule).outcome is Outcome.FAIL
    found = checked(", to draw: [alarms]", alarm)
    assert of(found, rule).outcome is Outcome.NOT_SHOWN
    assert [str(need) for need in of(found, rule).check.needs] == ["the alarms of story main"]
    waiting = [f for f in found.findings if f.outcome is Outcome.NOT_SHOWN]
    requests, _ = requests_of(waiting, {part.label: part for part in found.project.parts})
    asked = [one.text_for(r.label) for r in requests if r.label == "story main" for one in r.wanted]
    assert asked == ["its alarms, all of them; when they are drawn, take `alarms` out of `to draw`"]
