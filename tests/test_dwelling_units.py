"""Where the spaces name more than one dwelling unit, what is asked of a dwelling is asked of each; else nothing changes."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck import DwellingUnit, House, Scope
from precheck.files.source import read_text
from precheck.project import project_from, read_project
from precheck.reports import words
from precheck.review.run import run
from precheck.testing import code, findings, plugins

EXAMPLES = Path(__file__).parents[1] / "examples"
TOPICS = ("alarms", "doors")


def house_of(text):
    return House(project_from(read_text(f"project: house\n{text}", "house.yaml")))


def said(text):
    house, adopted = House(project_from(read_text(text, "house.yaml"))), code("irc-2021")
    rules = (rule for rule in plugins().rules if rule.topic in TOPICS)
    found = [f for rule in rules for f in run(rule, house, adopted)]
    return [(f.rule.name, words.subject(f), f.outcome, words.message(f), f.check.remedy, words.needs(f)) for f in found]


@pytest.mark.parametrize("name", ["alder-court/proposed", "alder-court/corrected"])
def test_a_house_of_which_every_space_names_the_same_unit_is_judged_as_one_that_names_none(name):
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    spaces = read_project(EXAMPLES / f"{name}.yaml").spaces
    assert spaces
    named = text
    for space in spaces:
        before = named
        named = named.replace(f"- id: {space.id}\n", f"- id: {space.id}\n    unit: A\n", 1)
        named = named.replace(f"- {{id: {space.id},", f"- {{id: {space.id}, unit: A,", 1) if named == before else named
        assert named != before, space.id
    assert said(named) == said(text)


def test_a_unit_is_called_by_its_name_and_the_only_one_is_the_project():
    assert [u.label for u in house_of("spaces: [{id: a, unit: Unit 1}, {id: b, unit: B}]").subjects(DwellingUnit)] == [
        "Unit 1",
        "unit B",
    ]
    assert [u.label for u in house_of("spaces: [{id: a, unit: A}, {id: b}]").subjects(DwellingUnit)] == ["the project"]
    shared = house_of("spaces: [{id: a, unit: A}, {id: b, unit: shared}]")
    assert [u.name for u in shared.subjects(DwellingUnit)] == [""]


def test_every_space_is_of_the_only_unit():
    house = house_of("spaces: [{id: a, unit: A}, {id: b}]\ndoors: [{id: D1, between: [b, outside]}]")
    (unit,) = house.subjects(DwellingUnit)
    assert [unit.has(space) for space in house.spaces] == [True, True]
    assert unit.is_left_by(house.project.doors[0]) is True


def test_work_counts_for_the_units_that_it_touches_and_a_roof_for_each():
    house = house_of("""
spaces:
  - {id: a, unit: A, phase: existing}
  - {id: b, unit: B, phase: altered}
  - {id: hall, unit: shared, phase: existing}
  - {id: c, phase: existing}
walls: [{id: W, phase: new, between: [a, hall]}]
windows: [{id: N, phase: new, space: c}]
roofs: [{id: R, phase: altered}]
""")
    one, other = house.subjects(DwellingUnit)
    assert [change.part.id for change in one.scope.changes] == ["W", "N", "R"]
    assert [change.part.id for change in other.scope.changes] == ["b", "W", "N", "R"]
    (unsure,) = (change for change in one.scope.changes if not change.is_given)
    assert str(unsure.where.needs[0]) == "unit of space c"
    assert len(house.subjects(Scope)[0].changes) == 4


def test_each_unit_has_a_carbon_monoxide_alarm_on_each_story_where_the_place_asks_for_it(tmp_path):
    adoption = tmp_path / "county.yaml"
    adoption.write_text("""
jurisdiction: a county
adopts: irc-2021
in force: 2020-01-01
by: an ordinance
amendments: [{amend: alarms.carbon-monoxide-on-each-story.minimum, was: not required, to: '1', by: the county}]
""")

    def found(spaces, alarms):
        text = f"""
project: house
dwelling: {{fuel burning appliance: yes}}
stories: [{{id: main, level: ground}}]
spaces: [{{id: a, use: office, phase: new, story: main, unit: A}}, {{id: b, use: office, phase: new, story: main{spaces}}}]
appliances: [{{id: F1, phase: new, what: furnace, space: a, fuel: propane}}, {{id: F2, phase: new, what: furnace, space: b, fuel: propane}}]
alarms: [{", ".join(f"{{id: X{n}, phase: new, space: {n}, detects: [carbon monoxide]}}" for n in alarms)}]
"""
        name = "alarms.carbon-monoxide-on-each-story"
        return [
            (words.label(f), f.outcome.word, f.check.remedy, [str(n) for n in words.needs(f)])
            for f in findings(name, read_text(text, "house.yaml"), str(adoption))
        ]

    assert [f[:2] for f in found(", unit: B", "ab")] == [("story main, unit A", "pass"), ("story main, unit B", "pass")]
    assert found(", unit: B", "a")[1][1:3] == ("fail", "add a carbon monoxide alarm on story main, unit B")
    assert found("", "a") == [("story main", "pass", "", [])]
    third = ", unit: B}, {id: c, use: hall, phase: existing, story: main"
    assert found(third, "ac")[1][1::2] == ("not shown", ["unit of space c"])


def test_each_unit_has_a_large_room_where_the_place_asks_for_one(tmp_path):
    adoption = tmp_path / "city.yaml"
    adoption.write_text("""
jurisdiction: a city
adopts: irc-2021
in force: 2020-01-01
by: an ordinance
amendments: [{amend: rooms.one-large-room.minimum, was: not required, to: 120 sq ft, by: the city}]
""")

    def found(spaces):
        text = f"project: house\nspaces: [{spaces}]"
        return [
            (words.label(f), f.outcome.word, [str(need) for need in words.needs(f)])
            for f in findings("rooms.one-large-room", read_text(text, "house.yaml"), str(adoption))
        ]

    large, small = "use: living room, area: 120 sq ft", "use: living room, area: 90 sq ft"
    assert found(f"{{id: a, {large}}}, {{id: b, {small}}}") == [("the project", "pass", [])]
    two = f"{{id: a, {large}, unit: A}}, {{id: b, {small}, unit: B}}"
    assert found(two) == [("unit A", "pass", []), ("unit B", "fail", [])]
    assert found(f"{two}, {{id: c, {large}}}")[1] == ("unit B", "not shown", ["unit of space c"])
    assert found(f"{two}, {{id: c, {large}, unit: shared}}")[1] == ("unit B", "pass", [])
