"""The houses of all cases as sketches: no rule breaks off over what may come, and none passes for what is not drawn yet."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, changed, listed, sample

from precheck import House, testing
from precheck.checks import Outcome
from precheck.files.source import Block, Unusable
from precheck.project import project_from
from precheck.project.space import ToDraw
from precheck.review.finding import Finding
from precheck.review.run import run
from precheck.review.sketch import held_open
from precheck.survey.not_drawn import with_what_may_come

pytestmark = pytest.mark.long
EXEMPT = {
    (
        "electrical.room-receptacle",
        "doors",
    ): "a door that does not say how it opens is of the usual kind, and for no vehicle",
    ("alarms.smoke-from-bath-door", "doors"): "the plans say how far the alarm is from the door",
    ("stairs.landings", "doors"): "the plans say that no door swings over the steps",
}
"""Rules that pass before the doors or windows are drawn, and why that is no false pass."""


def sketched(house: CaseHouse, drawn: tuple[str, ...], without: str = "", more: tuple[str, ...] = ()) -> House | None:
    """Return the house with stories of which only some is `drawn`, `without` a list of it; None where others name that.

    `more` is what of the rest is still to draw.
    """
    block: Any = changed(house.fragment, None, lambda *_: None)
    stories = block.setdefault("stories", listed([story()]))
    for one in stories:
        one["drawn"] = listed(list(drawn))
        one["to draw"] = listed(list(more))
    block.pop(without, None)
    try:
        return House(project_from(block, testing.plugins().added))
    except Unusable:
        return None


def story() -> Block:
    one = Block((0, 0), "case")
    one.update(id="story of the case", level="ground")
    return one


def findings(house: CaseHouse, sketch: House) -> list[Finding]:
    """Return what the rule of a case says of a sketch."""
    found = list(run(house.rule, sketch, testing.code(EDITION)))
    return held_open(found, sketch, lambda other: list(run(house.rule, other, testing.code(EDITION))))


@pytest.mark.parametrize("topic", TOPICS)
def test_no_rule_breaks_off_over_what_may_come(topic: str) -> None:
    broken = []
    for house in sample(topic):
        sketch = sketched(house, (), more=get_args(ToDraw))
        fuller = None if sketch is None else with_what_may_come(sketch)
        if fuller is not None:
            found = run(house.rule, House(fuller.project), testing.code(EDITION))
            broken += [f"{house.rule.name}, {house.case}: {f.error}" for f in found if f.outcome is Outcome.ERROR]
    assert broken == []


@pytest.mark.parametrize("topic", TOPICS)
def test_what_fails_with_its_windows_or_doors_does_not_pass_before_they_are_drawn(topic: str) -> None:
    wrong = []
    for house in sample(topic):
        failed = {f.subject.label for f in house.findings() if f.outcome is Outcome.FAIL}
        for kind, drawn in (("windows", ("rooms", "doors")), ("doors", ("rooms", "windows"))):
            if not failed or kind not in house.fragment or (house.rule.name, kind) in EXEMPT:
                continue
            sketch = sketched(house, drawn, without=kind)
            found = findings(house, sketch) if sketch is not None else []
            open_ = {f.subject.label for f in found if f.outcome is not Outcome.PASS}
            settled = {f.subject.label for f in found} - open_
            wrong += [f"{house.rule.name}, {house.case}: without {kind}, {label} passes" for label in failed & settled]
    assert wrong == []
