"""What is asked for decides something: of a choice or a yes or no, not every answer comes to one and the same outcome."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, houses, way_to, with_value
from sampled import long_save

from precheck import testing
from precheck.files.record import Record, fields_of
from precheck.files.source import Unusable
from precheck.project import Project, project_from
from precheck.review.finding import Finding

STATED_ALONE = {
    ("access.attic-way", "reached by"): "the plan says how one gets up, whatever the way is",
    ("alarms.carbon-monoxide-interconnected", "interconnected"): "a house with one such alarm: it has to be said",
    ("appliances.combustion-air", "combustion air"): "the plan says where the air comes from; other rules judge it",
    ("bracing.amount", "gypsum inside"): "a case in which either answer is enough by length",
    ("energy.glass", "use"): "the glass of the case is good enough for a room of any use",
    ("energy.insulation", "continuous"): "a layer that fails either way",
    ("existing.water-heater-and-furnace", "phase"): "the plan says what becomes of it",
    ("flood.hazard", "flood hazard area"): "the plan says whether the lot is in such an area",
    ("foundations.bar-cover", "cast against"): "the cover of the case is enough for either",
    ("framing.post-strength", "across"): "the post of the case fails either way",
    ("framing.strength", "sound"): "the sister of the case carries all of it alone",
    ("package.phase", "phase"): "each part is marked, whatever it is",
    ("package.room-use", "use"): "each room has its name, whatever it is",
    ("rooms.habitable-attic", "level"): "the count of stories is for the official either way",
    ("ventilation.combustion-outdoor-openings", "by"): "the plan says by what way the air comes",
    ("ventilation.whole-house", "use"): "any use of the room is enough for the fan of the case",
}
"""Rules that ask for a statement itself, or in whose cases its value does not decide, with the key, and why."""


def choices(annotation: Any) -> Iterator[Any]:
    """Yield each word, or yes and no, that a field may hold."""
    if get_origin(annotation) is Literal:
        yield from get_args(annotation)
    elif annotation is bool:
        yield from (True, False)
    else:
        for part in get_args(annotation):
            yield from choices(part)


def asked(house: CaseHouse, project: Project) -> Iterator[tuple[Finding, Record, str, list[Any]]]:
    """Yield each field with only some answers that a finding asks for, with them."""
    for finding in house.findings():
        for need in finding.check.needs if finding.outcome.word == "not shown" else ():
            for record in (one for one in project.records if one.label == need.owner and one.block is not None):
                for name, field in fields_of(type(record)).items():
                    if field.key == need.key and (found := list(choices(field.annotation))):
                        yield finding, record, name, found


def outcomes(
    house: CaseHouse, finding: Finding, record: Record, field: str, answers: list[Any], project: Project
) -> set[str]:
    """Return what the finding comes to with each of the answers that can be."""
    way, found = way_to(record, project), set()
    for answer in answers if way is not None else ():
        try:
            after = house._replace(fragment=with_value(house.fragment, way, type(record), field, answer)).findings()
        except Unusable:
            continue
        found.update(one.outcome.word for one in after if one.subject.label == finding.subject.label)
    return found


@pytest.mark.parametrize("topic", long_save(TOPICS, "garages", "ramps"))
def test_each_choice_that_is_asked_for_decides_something(topic: str) -> None:
    needless = []
    for house in houses(topic):
        if house.code != EDITION:
            continue
        project = project_from(house.fragment, testing.plugins().added)
        for finding, record, field, answers in asked(house, project):
            exempt = (house.rule.name, fields_of(type(record))[field].key) in STATED_ALONE
            found = set() if exempt else outcomes(house, finding, record, field, answers, project)
            if len(found) == 1 and found != {"not shown"}:
                needless.append(f"{house.rule.name}: {house.case}: {field} of {record.label} is {found} in any case")
    assert needless == []
