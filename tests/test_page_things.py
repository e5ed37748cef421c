"""What stands at a point of the plan is drawn there: outlets, lights, alarms, fixtures, appliances, panels and fans."""

from __future__ import annotations

from precheck import testing
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports.drawings import plan
from precheck.reports.drawings.drawing import Drawing, Source
from precheck.reports.drawings.free import largest_free
from precheck.reports.drawings.placed import outline_in_inches
from precheck.reports.worklist import items_of
from precheck.review.run import review
from precheck.survey import House

HOUSE = """\
project: P
jurisdiction: irc-2021
spaces:
  - {id: bed, use: bedroom, phase: new, rectangle: {at: [0 ft, 0 ft], width: 14 ft, depth: 12 ft}}
  - {id: attic, use: attic, phase: existing}
receptacles: [{id: R1, phase: new, space: bed, on: {room: bed, side: west, from: south, distance: 6 ft}}]
alarms:
  - {id: A1, phase: new, space: bed, detects: [smoke, carbon monoxide], at: [7 ft, 9 ft]}
  - {id: A2, phase: removed, space: bed, detects: [smoke], at: [4 ft, 10 ft]}
  - {id: A3, phase: new, space: bed, detects: [smoke]}
lights: [{id: LT1, phase: new, space: bed, at: [10 ft, 9 ft]}, {id: LT2, phase: new, space: attic, at: [1 ft, 1 ft]}]
fixtures:
  - {id: F1, phase: new, space: bed, what: lavatory, at: [2 ft, 2 ft]}
  - {id: F2, phase: new, space: bed, what: tub, rectangle: {at: [5 ft, 0 ft], width: 30 in, depth: 5 ft}}
panels: [{id: P1, phase: existing, space: bed, on: {room: bed, side: north, from: west, distance: 8 ft}}]
exhausts: [{id: EX1, phase: new, space: bed, what: bath fan, at: [12 ft, 6 ft]}]
appliances: [{id: WH, phase: existing, what: water heater, space: bed, at: [11 ft, 2 ft]}]
"""


def drawn(text: str = HOUSE) -> Drawing:
    found = review(project_from(read_text(text, "p.yaml")), testing.code("irc-2021"), testing.plugins())
    return next(iter(plan.drawings(Source(House(found.project), tuple(items_of(found))))))


def test_each_thing_is_a_part_of_the_plan_that_the_list_can_lead_to() -> None:
    assert set(drawn().shows) == {"bed", "R1", "A1", "LT1", "F1", "F2", "P1", "EX1", "WH"}


def test_what_a_sign_stands_for_is_told_beneath_the_plan() -> None:
    found = drawn()
    told = [note.removeprefix("Signs: ") for note in found.notes if note.startswith("Signs: ")]
    assert told[0].split("; ") == [
        "circle with two strokes, a receptacle",
        "circle with a cross, a light",
        "S and CO, alarms",
        "EF, an exhaust fan",
        "filled box, the panel.",
    ]
    assert all(f">{letters}</text>" in found.svg() for letters in ("S/CO", "EF", "F1", "WH"))


def test_a_plan_without_such_things_says_nothing_of_signs() -> None:
    assert not any(note.startswith("Signs: ") for note in drawn(HOUSE.partition("receptacles:")[0]).notes)


def test_an_opening_through_the_floor_is_drawn_dashed_with_a_cross_and_one_that_goes_is_not() -> None:
    room = HOUSE.partition("receptacles:")[0]
    hole = "framed openings: [{id: O1, phase: new, through: floor, space: bed, "
    at = "rectangle: {at: [2 ft, 2 ft], width: 3 ft, depth: 8 ft}}]\n"
    before = drawn(room).svg().count("line dashed thin")
    found = drawn(room + hole + at)
    assert "O1" in found.shows
    assert found.svg().count("line dashed thin") - before == 3
    flat = drawn(room + hole.replace("floor", "ceiling") + at)
    assert flat.svg().count("line dashed thin") - before == 1
    assert "O1" not in drawn(room + hole.replace("new", "removed") + at).shows


def test_the_name_of_a_room_stands_where_no_alarm_light_or_fixture_covers_it() -> None:
    text = """\
project: P
jurisdiction: irc-2021
applied on: 2026-03-02
stories: [{id: ground, level: ground, phase: existing}]
spaces:
  - {id: bath, phase: new, use: bathroom, story: ground, rectangle: {at: [0 ft, 0 ft], width: 10 ft, depth: 10 ft}}
fixtures: [{id: FX1, phase: new, space: bath, what: tub, rectangle: {at: [0 ft, 7 ft], width: 5 ft, depth: 30 in}}]
lights: [{id: LT1, phase: new, space: bath, at: [5 ft, 5 ft]}]
alarms: [{id: SA1, phase: new, space: bath, detects: [smoke], at: [5 ft, 3 ft]}]
"""
    house = House(project_from(read_text(text, "house.yaml")))
    (bath,) = house.spaces
    (x, y), (width, height) = largest_free(house, bath, outline_in_inches(house, bath))
    left, right, low, high = x - width / 2, x + width / 2, y - height / 2, y + height / 2
    for at in ((60, 60), (60, 36), (30, 99)):
        assert not (left < at[0] < right and low < at[1] < high)
    assert min(width, height) >= 45
    assert 0 <= left < right <= 120
    assert 0 <= low < high <= 120
