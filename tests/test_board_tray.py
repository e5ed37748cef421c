"""What the tray of the board puts on the plan: stairs, posts, beams, headers and things, set by typed distances."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from boards import board, desk, done, file, hold_that_undo_leads_back
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_board import do

from precheck.board.board import HouseBoard
from precheck.runs.desk import Desk

__all__ = ["board", "desk", "file"]
HOUSE = """\
# two stories, the upper one to be reached
project: Mill Lane
jurisdiction: irc-2021
applied on: 2026-03-02
stories:
  - {id: ground, level: ground, phase: existing}
  - {id: up, level: upper, phase: existing}
spaces:
  - {id: hall, phase: existing, use: hall, story: ground, rectangle: {at: [0 ft, 0 ft], width: 10 ft, depth: 14 ft}}
  - id: suite   # was the garage
    phase: altered
    use: bedroom
    was: garage
    story: ground
    rectangle: {at: [10'-4 1/2", 0 ft], width: 12 ft, depth: 14 ft}
  - {id: loft, phase: existing, use: office, story: up, rectangle: {at: [0 ft, 0 ft], width: 22 ft, depth: 14 ft}}
  - {id: later, phase: new, use: closet, story: up}
windows:
  - {id: W1, phase: new, space: suite, unit size: 3'-0" x 4'-0", on: {room: suite, side: south, from: west, distance: 5 ft}}
alarms:
  - {id: SA1, phase: new, space: suite, detects: [smoke]}
"""
UNKNOWN = ["suite", "hall", "loft", "later", "W1", "SA1", "nobody", ""]


def shown(board: HouseBoard, kind: str, name: str) -> list[dict[str, Any]]:
    return [one for one in board.state()["plan"][kind] if one["id"] == name]


STAIR = {"do": "stair", "lower": "hall", "upper": "loft", "width": "3 ft", "run": "10'-10\"", "climbs": "up the page"}


def test_a_stair_typed_in_goes_up_from_one_story_and_down_from_the_other(board: HouseBoard) -> None:
    project = done(board, **STAIR, risers="14", tread="10 in", from_west="1 ft", from_south="2 ft", phase="new")
    stair = project.stairs[0]
    assert (stair.between, stair.climbs, stair.risers) == (("hall", "loft"), "up the page", 14)
    assert str(stair.flights[0].tread) == "10 in"
    assert str(stair.width) == "3 ft"
    ends = [(one["story"], one["end"], one["box"], one["tread"]) for one in shown(board, "stairs", "ST1")]
    assert ends == [("ground", "UP", [12, 24, 36, 130], 10), ("up", "DN", [12, 24, 36, 130], 10)]


def test_a_stair_that_climbs_to_the_right_runs_along_the_page(board: HouseBoard) -> None:
    done(board, **{**STAIR, "climbs": "right"}, at=[6, 12])
    assert shown(board, "stairs", "ST1")[0]["box"] == [6, 12, 130, 36]


def test_a_stair_of_the_file_is_placed_by_the_same_form_and_keeps_its_other_values(board: HouseBoard) -> None:
    file = board.file.path
    stair = "stairs:\n  - {id: ST9, phase: new, between: [hall, loft], headroom: 7 ft}  # by the mason\n"
    file.write_text(HOUSE + stair, encoding="utf-8")
    loose = [one for one in board.state()["plan"]["loose"] if one["id"] == "ST9"]
    assert [one["lacks"] for one in loose] == ["place"]
    project = done(board, **STAIR, part="ST9", tread="10 in")
    assert [str(one.headroom) for one in project.stairs] == ["7 ft"]
    assert "# by the mason" in file.read_text(encoding="utf-8")
    assert shown(board, "loose", "ST9") == []


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"upper": "hall"}, "joins two rooms"),
        ({"upper": "cellar"}, "no room `cellar`"),
        ({"width": "banana"}, "banana"),
        ({"lower": "later"}, "not drawn yet"),
    ],
)
def test_a_stair_that_cannot_be_is_refused_and_nothing_is_written(
    board: HouseBoard, more: dict[str, str], says: str
) -> None:
    assert says in do(board, **{**STAIR, **more})["refused"]
    assert board.file.path.read_text(encoding="utf-8") == HOUSE


def test_a_post_on_a_wall_and_a_beam_along_it_are_written_as_they_were_measured(board: HouseBoard) -> None:
    wall = {"do": "member", "room": "suite", "wall": 1, "phase": "new"}
    done(board, **wall, role="post", distance="7 ft", size="6x6")
    project = done(board, **wall, role="beam", distance="2 ft", length="8 ft", from_end=True)
    text = board.file.path.read_text(encoding="utf-8")
    assert "on: {room: suite, side: east, from: south, distance: 7 ft}" in text
    assert "on: {room: suite, side: east, from: north, distance: 6 ft, length: 8 ft}" in text
    assert [one.over for one in project.members] == ["ground", "ground"]
    assert shown(board, "members", "B1")[0]["ends"] == [[268.5, 144], [268.5, 48]]


def test_a_beam_between_two_points_takes_the_length_that_is_typed(board: HouseBoard) -> None:
    project = done(board, do="member", role="beam", at=[0, 84], to=[100, 84], length="10 ft", story="ground")
    beam = project.members[0]
    assert [str(one) for one in (*beam.from_, *beam.to)] == ["0 in", "7 ft", "10 ft", "7 ft"]
    assert shown(board, "members", "B1")[0]["ends"] == [[0, 84], [120, 84]]


def test_a_header_over_a_window_is_drawn_over_it_and_moves_with_it(board: HouseBoard) -> None:
    project = done(board, do="member", role="header", opening="W1", size="4x8", phase="new")
    assert project.members[0].openings == ("W1",)
    before = shown(board, "members", "H1")[0]
    assert [end[0] for end in before["ends"]] == [166.5, 202.5]
    done(board, do="slide", part="W1", middle=[190.5, 0])
    assert [end[0] for end in shown(board, "members", "H1")[0]["ends"]] == [172.5, 208.5]
    assert "moves with it" in do(board, do="move", part="H1", by=[12, 0])["refused"]


def test_an_outlet_clicked_beside_a_wall_is_in_that_wall_and_one_in_the_floor_stays_where_it_is(
    board: HouseBoard,
) -> None:
    put = {"do": "put", "section": "receptacles", "room": "suite", "phase": "new"}
    done(board, **put, at=[264, 84])
    project = done(board, **put, at=[200, 84])
    assert [one.on is not None and "on" in one.model_fields_set for one in project.receptacles] == [True, False]
    assert [shown(board, "points", name)[0]["at"] for name in ("R1", "R2")] == [[268.5, 84], [200, 84]]


@pytest.mark.parametrize("section", ["alarms", "lights", "receptacles", "appliances", "exhausts", "panels"])
def test_each_thing_of_the_tray_goes_where_its_distances_are_typed(board: HouseBoard, section: str) -> None:
    what = {"appliances": "furnace", "exhausts": "bath fan"}.get(section, "")
    project = done(board, do="put", section=section, what=what, room="suite", from_west="5 ft", from_south="6'-6\"")
    part = getattr(project, section)[-1]
    assert [str(one) for one in part.at] == ["15'-4 1/2\"", "6'-6\""]
    assert shown(board, "points", part.id)[0]["room"] == "suite"


def test_a_fixture_is_as_large_as_typed_and_stands_as_far_from_the_walls_as_typed(board: HouseBoard) -> None:
    put = {"do": "put", "section": "fixtures", "what": "shower", "room": "suite"}
    done(board, **put, size="3 ft x 4 ft", from_west="6 in", from_south="1 ft")
    assert shown(board, "boxes", "FX1")[0]["box"] == [130.5, 12, 36, 48]


def test_an_alarm_of_the_file_gets_its_place_and_moves_by_hand_into_the_next_room(board: HouseBoard) -> None:
    assert shown(board, "points", "SA1") == []
    done(board, do="place", part="SA1", from_west="2 ft", from_south="7 ft")
    assert shown(board, "points", "SA1")[0]["at"] == [148.5, 84]
    project = done(board, do="move", part="SA1", by=[-60, 0])
    assert project.alarms[0].space == "hall"
    assert shown(board, "points", "SA1")[0]["at"] == [88.5, 84]
    done(board, do="place", part="SA1", room="hall", wall=0, distance="4 ft")
    assert "on: {room: hall, side: south, from: west, distance: 4 ft}" in board.file.path.read_text(encoding="utf-8")
    assert shown(board, "points", "SA1")[0]["at"] == [48, 0]


def test_what_is_on_a_wall_slides_along_the_walls_of_its_room(board: HouseBoard) -> None:
    done(board, do="member", role="post", room="suite", wall=1, distance="7 ft")
    done(board, do="move", part="P1", by=[-3, 12])
    assert shown(board, "members", "P1")[0]["ends"] == [[268.5, 96]]


def test_a_length_typed_short_is_shown_in_full_with_the_field_that_it_is_of(board: HouseBoard) -> None:
    found = do(board, **STAIR, tread="10")
    assert (found["meant"], found["typed"]) == (["10 in"], "10")


def test_one_distance_alone_is_asked_for_its_other(board: HouseBoard) -> None:
    found = do(board, do="put", section="alarms", room="suite", from_west="5 ft")
    assert "south wall" in found["refused"]
    assert board.file.path.read_text(encoding="utf-8") == HOUSE


NAMES = st.sampled_from(UNKNOWN)
TYPED = st.sampled_from(["", "3 ft", "5", "banana", "-2 ft", "99 ft", "10'-4 1/2\""])
POINTS = st.tuples(st.floats(-2000, 2000), st.floats(-2000, 2000))
SPOT = {
    "at": st.none() | POINTS,
    "from_west": TYPED,
    "from_south": TYPED,
    "wall": st.none() | st.integers(0, 5),
    "distance": TYPED,
}
REQUESTS = st.one_of(
    st.fixed_dictionaries(
        {"do": st.just("put"), "section": st.sampled_from(["alarms", "fixtures", "exhausts", "panels", "appliances"]),
         "what": st.sampled_from(["", "toilet", "furnace", "]"]), "room": NAMES, **SPOT}
    ),
    st.fixed_dictionaries(
        {"do": st.just("stair"), "lower": NAMES, "upper": NAMES, "width": TYPED, "run": TYPED, "risers": TYPED,
         "tread": TYPED, "climbs": st.sampled_from(["left", "up the page"]), "part": NAMES}
    ),
    st.fixed_dictionaries(
        {"do": st.just("member"), "role": st.sampled_from(["post", "beam", "header"]), "room": NAMES, "story": NAMES,
         "to": st.none() | POINTS, "length": TYPED, "opening": NAMES, "size": TYPED, "part": NAMES, **SPOT}
    ),
    st.fixed_dictionaries({"do": st.just("place"), "part": NAMES, "room": NAMES, **SPOT}),
    st.fixed_dictionaries({"do": st.just("move"), "part": NAMES, "by": POINTS}),
)  # fmt: skip


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(REQUESTS, min_size=1, max_size=4))
def test_whatever_the_tray_is_asked_for_the_file_stays_readable_and_undo_leads_back(
    desk: Desk, tmp_path: Path, requests: list[dict[str, Any]]
) -> None:
    path = tmp_path / "any.yaml"
    path.write_text(HOUSE, encoding="utf-8")
    hold_that_undo_leads_back(HouseBoard(path, desk), requests)


def test_what_is_still_to_draw_of_a_story_is_said_and_taken_back(board: HouseBoard) -> None:
    file = board.file.path
    project = done(board, do="drawn", story="ground", to_draw=["alarms", "members"])
    assert (project.stories[0].to_draw, "drawn" in project.stories[0].model_fields_set) == (
        ("alarms", "members"),
        False,
    )
    story = next(one for one in board.state()["plan"]["stories"] if one["id"] == "ground")
    assert (story["to_draw"], story["drawn"]) == (["alarms", "members"], None)
    asks = [ask for ask in board.form("ground")["asks"] if ask["tick"]]
    assert [ask["tick"]["to_draw"] for ask in asks] == [["members"], ["alarms"]]
    done(board, do="drawn", story="ground", to_draw=[])
    assert "to draw" not in file.read_text(encoding="utf-8")
    project = done(board, do="drawn", story="ground", what=["rooms"])
    assert project.stories[0].drawn == ("rooms",)
