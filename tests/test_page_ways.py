"""The way out that a finding is about, on the plan: dashed from door to door, around corners, with a label."""

from __future__ import annotations

import re

import pytest

from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports.drawings import Drawing, Source, all_drawings
from precheck.reports.worklist import items_of
from precheck.review.run import review
from precheck.survey import House
from precheck.testing import code, plugins

HOUSE = """
project: Way
stories: [{id: main, level: ground}, {id: up, level: upper}]
spaces:
  - {id: den, name: Den, use: office, phase: new, story: main, rectangle: {at: [0 ft, 0 ft], width: 12 ft, depth: 12 ft}}
  - {id: gar, use: garage, phase: existing, story: main, rectangle: {at: ["12'-5\\"", 0 ft], width: 20 ft, depth: 22 ft}}
  - id: hall
    use: hall
    phase: existing
    story: main
    outline: [["32'-10\\"", 0 ft], [37 ft, 0 ft], [37 ft, 22 ft], [50 ft, 22 ft], [50 ft, 26 ft], ["32'-10\\"", 26 ft]]
  - {id: loft, name: Loft, use: family room, phase: new, story: up, rectangle: {at: [13 ft, 0 ft], width: 20 ft, depth: 22 ft}}
stairs:
  - {id: S1, phase: new, between: [gar, loft], rectangle: {at: [29 ft, 8 ft], width: 3 ft, depth: 11 ft}}
doors:
  - {id: D1, phase: new, between: [den, gar], operation: side-hinged, middle: ["12'-2 1/2\\"", 9 ft]}
  - {id: D2, phase: existing, between: [gar, hall], operation: side-hinged, middle: ["32'-7 1/2\\"", 4 ft]}
  - {id: D3, phase: existing, between: [hall, outside], operation: side-hinged, required egress: yes, middle: [48 ft, "26'-3\\""]}
"""


def plans(text: str) -> dict[str, Drawing]:
    found = review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins())
    drawn = all_drawings(Source(House(found.project), items_of(found)))
    return {drawing.title: drawing for drawing in drawn if drawing.title.startswith("Plan")}


def lines(plan: Drawing) -> list[list[tuple[float, float]]]:
    """Return the dashed lines of a plan in inches of house."""
    pixels = {"1/8": 1.0, "3/16": 1.5, "1/4": 2.0, "3/8": 3.0}[plan.scale.split()[2]]
    found = re.findall(r'<path class="line way" d="M([^"]+)"', plan.svg())
    return [[(float(x) / pixels, -float(y) / pixels) for x, y in (p.split() for p in d.split(" L"))] for d in found]


def test_a_way_through_the_garage_is_drawn_from_door_to_door_and_around_the_corner_of_the_hall() -> None:
    plan = plans(HOUSE)["Plan, story main"]
    (way, *_) = (line for line in lines(plan) if len(line) > 6)
    doors = [(12 * 12 - 15, 9 * 12), (12 * 12 + 5 + 15, 9 * 12)]
    assert way[1:3] == [pytest.approx(point, abs=0.1) for point in doors]
    assert (37 * 12 - 15, 22 * 12 + 15) in [pytest.approx(point, abs=0.1) for point in way]
    assert way[-1] == pytest.approx((48 * 12, 26 * 12 + 6 + 30), abs=0.1)
    assert ">way out of Den</text>" in plan.svg()


def test_the_plan_of_each_story_shows_its_piece_of_a_way_down_a_stair() -> None:
    both = plans(HOUSE)
    (above,) = lines(both["Plan, story up"])
    assert above[-1] == pytest.approx((30.5 * 12, 13.5 * 12), abs=0.1)
    below = [line for line in lines(both["Plan, story main"]) if line[0] == pytest.approx(above[-1], abs=0.1)]
    assert len(below) == 1
    assert all(">way out of Loft</text>" in plan.svg() for plan in both.values())


def test_a_door_without_a_place_ends_a_piece_and_the_way_goes_on_behind_it() -> None:
    plan = plans(HOUSE.replace(', middle: ["32\'-7 1/2\\"", 4 ft]', ""))["Plan, story main"]
    ends = [line[-1] for line in lines(plan)]
    assert (12 * 12 + 5 + 15, 9 * 12) in [pytest.approx(end, abs=0.1) for end in ends]
    assert (48 * 12, 26 * 12 + 36) in [pytest.approx(end, abs=0.1) for end in ends]


def test_a_way_that_is_met_is_not_drawn() -> None:
    door = "  - {id: D4, phase: new, between: [den, outside], operation: side-hinged, required egress: yes, middle: [0 ft, 6 ft]}\n"
    plan = plans(HOUSE + door)["Plan, story main"]
    assert "way out of Den" not in plan.svg()
    assert "way out of Loft" in plan.svg()
