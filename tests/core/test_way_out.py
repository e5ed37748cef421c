"""The way out of a room, over what is drawn."""

from __future__ import annotations

import pytest

from precheck.files.missing import is_missing
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.questions.addition import choices_for
from precheck.survey import House, WayOut, way_out

ROOMS = """\
project: P
spaces:
- {id: bed, phase: new, use: bedroom}
- {id: hall, phase: new, use: hall}
- {id: gar, phase: new, use: garage}
- {id: loft, phase: new, use: office}
"""
DOORS = {
    "bed to hall": "{id: D1, phase: new, between: [bed, hall]}",
    "hall to outside": "{id: D2, phase: new, between: [hall, outside], required egress: yes}",
    "bed to garage": "{id: D3, phase: new, between: [bed, gar]}",
    "garage to outside": "{id: D4, phase: new, between: [gar, outside]}",
    "garage overhead": "{id: D5, phase: new, between: [gar, outside], operation: vehicle}",
    "hall to outside, not marked": "{id: D6, phase: new, between: [hall, outside]}",
}


def way(*doors: str, room: str = "bed", more: str = "") -> object:
    listed = "".join(f"- {DOORS[door]}\n" for door in doors)
    house = House(project_from(read_text(f"{ROOMS}doors:\n{listed}{more}" if listed else ROOMS + more, "p.yaml")))
    space = house.space(room)
    assert space is not None
    return way_out(space, house)


@pytest.mark.parametrize(
    ("doors", "steps", "required"),
    [
        (("bed to hall", "hall to outside"), "door D1, door D2", True),
        (("hall to outside", "bed to hall", "bed to garage", "garage to outside"), "door D1, door D2", True),
        (("bed to hall", "hall to outside, not marked"), "door D1, door D6", False),
    ],
)
def test_the_way_goes_through_doors_to_the_required_one(doors, steps, required):
    found = way(*doors)
    assert isinstance(found, WayOut)
    assert (str(found), found.by_required_door) == (steps, required)


@pytest.mark.parametrize("doors", [("bed to garage", "garage to outside"), ("bed to garage", "garage overhead"), ()])
def test_a_garage_and_an_overhead_door_are_no_way_out(doors):
    assert way(*doors) is None


def test_a_stair_is_a_way_and_one_that_comes_up_in_the_garage_is_none():
    up = "stairs: [{id: S, phase: new, between: [hall, loft]}]\n"
    assert str(way("hall to outside", room="loft", more=up)) == "stair S, door D2"
    assert way("garage to outside", room="loft", more=up.replace("hall, loft", "gar, loft")) is None


def test_rooms_that_open_into_each_other_are_one_way():
    text = ROOMS.replace("{id: hall, phase: new", "{id: hall, phase: new, open to: [bed]")
    house = House(project_from(read_text(f"{text}doors: [{DOORS['hall to outside']}]\n", "p.yaml")))
    space = house.space("bed")
    assert space is not None
    assert str(way_out(space, house)) == "hall, door D2"


def test_an_existing_room_whose_doors_are_not_drawn_may_hold_a_way():
    text = ROOMS.replace("{id: hall, phase: new", "{id: hall, phase: existing")
    house = House(project_from(read_text(f"{text}doors: [{DOORS['bed to hall']}]\n", "p.yaml")))
    space = house.space("bed")
    assert space is not None
    assert is_missing(way_out(space, house))


def test_only_a_door_out_of_a_room_of_the_house_is_offered_as_the_egress_door():
    listed = "".join(f"- {door}\n" for door in DOORS.values())
    project = project_from(read_text(f"{ROOMS}doors:\n{listed}", "p.yaml"))
    assert [choice.name for choice in choices_for(project, project, "required egress door")] == ["D2", "D6"]


def test_a_way_through_a_garage_is_told_and_so_is_one_that_ends_in_it():
    def through(*doors: str) -> str:
        listed = "".join(f"- {DOORS[door]}\n" for door in doors)
        house = House(project_from(read_text(f"{ROOMS}doors:\n{listed}", "p.yaml")))
        space = house.space("bed")
        assert space is not None
        return str(way_out(space, house, through_garage=True))

    assert through("bed to garage", "garage to outside") == "door D3, door D4"
    assert through("bed to garage", "garage overhead") == "door D3"
