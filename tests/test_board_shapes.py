"""Shapes of rooms on the board: walls moved, jogs, rooms divided and joined, and what is in them going along."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from boards import board, desk, done, file, hold_that_undo_leads_back
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from test_board import do

from precheck.board.board import HouseBoard
from precheck.board.regions import cut, joined
from precheck.board.sketch import Point
from precheck.runs.desk import Desk

__all__ = ["board", "desk", "file"]
HOUSE = """\
project: Mill Lane
jurisdiction: irc-2021
applied on: 2026-03-02
stories: [{id: ground, level: ground, phase: existing}]
spaces:
  - id: kitchen   # an L
    phase: existing
    use: kitchen
    story: ground
    outline: [[0 ft, 0 ft], [20 ft, 0 ft], [20 ft, 8 ft], [12 ft, 8 ft], [12 ft, 16 ft], [0 ft, 16 ft]]
  - {id: den, phase: existing, use: family room, story: ground, rectangle: {at: [20'-4 1/2", 0 ft], width: 10 ft, depth: 8 ft}}
windows:
  - {id: W1, phase: existing, space: kitchen, unit size: 3'-0" x 4'-0", on: {room: kitchen, wall: 6, from: north, distance: 4 ft}}
  - {id: W2, phase: existing, space: kitchen, unit size: 3'-0" x 4'-0", middle: [4 ft, 0 ft]}
  - {id: W3, phase: existing, space: den, unit size: 3'-0" x 4'-0", on: {room: den, side: south, from: east, distance: 3 ft}}
doors:
  - {id: D1, phase: existing, between: [kitchen, den], unit size: 2868, on: {room: kitchen, wall: 2, distance: 3 ft}}
receptacles:
  - {id: R1, phase: existing, space: kitchen, on: {room: kitchen, wall: 1, from: east, distance: 2 ft}}
lights:
  - {id: LT1, phase: existing, space: den, at: [25 ft, 4 ft], switched at: [den]}
"""
KITCHEN = [[0, 0], [240, 0], [240, 96], [144, 96], [144, 192], [0, 192]]


def outline(board: HouseBoard, room: str) -> list[list[float]]:
    return next(one["outline"] for one in board.state()["plan"]["rooms"] if one["id"] == room)


def middles(board: HouseBoard) -> dict[str, list[float]]:
    plan = board.state()["plan"]
    return {one["id"]: one.get("middle", one.get("at")) for one in (*plan["openings"], *plan["points"])}


def test_a_wall_of_an_l_moves_and_takes_along_what_is_in_it(board: HouseBoard, file: Path) -> None:
    before = middles(board)
    done(board, do="wall", part="kitchen", wall=1, by=24)
    assert outline(board, "kitchen") == [[0, 0], [264, 0], [264, 96], *KITCHEN[3:]]
    after = middles(board)
    assert after["D1"][0] == before["D1"][0] + 24
    assert after["R1"] == [before["R1"][0] + 24, 0]  # as far from its corner as it was
    assert (after["W1"], after["W2"]) == (before["W1"], before["W2"])
    assert "# an L" in file.read_text(encoding="utf-8")


def test_a_wall_becomes_as_long_as_typed_and_an_l_that_loses_its_notch_is_a_rectangle(board: HouseBoard) -> None:
    done(board, do="wall", part="kitchen", wall=0, length="22 ft")
    assert outline(board, "kitchen")[1] == [264, 0]
    project = done(board, do="wall", part="kitchen", wall=2, by=96)
    kitchen = project.spaces[0]
    assert (str(kitchen.rectangle.width), kitchen.outline) == ("22 ft", ())
    assert {one.on.room for one in project.windows[:1]} == {"kitchen"}
    assert project.windows[0].on.side == "west"
    assert middles(board)["W1"] == [0, 144]


def test_a_jog_splits_a_wall_and_numbers_its_walls_anew(board: HouseBoard) -> None:
    before = middles(board)
    project = done(board, do="jog", part="kitchen", wall=0, start="6 ft", length="4 ft", deep="2 ft")
    assert outline(board, "kitchen")[:5] == [[0, 0], [72, 0], [72, -24], [120, -24], [120, 0]]
    after = middles(board)
    assert after == before
    assert project.receptacles[0].on.wall == 5
    done(board, do="jog", part="den", wall=3, start="0 in", length="3 ft", deep="1 ft", inward=True)
    assert len(outline(board, "den")) == 6


def test_a_jog_takes_along_what_is_in_its_stretch(board: HouseBoard) -> None:
    done(board, do="jog", part="kitchen", wall=0, start="2 ft", length="4 ft", deep="1 ft")
    assert middles(board)["W2"] == [48, -12]


def test_the_work_keeps_how_a_room_was_and_drawing_what_stands_does_not(board: HouseBoard) -> None:
    project = done(board, do="wall", part="den", wall=1, by=12)
    assert (project.spaces[1].phase, "before" in project.spaces[1].model_fields_set) == ("existing", False)
    project = done(board, do="wall", part="den", wall=1, by=12, work=True)
    den = project.spaces[1]
    assert (den.phase, str(den.before.rectangle.width), str(den.rectangle.width)) == ("altered", "11 ft", "12 ft")
    project = done(board, do="shape", part="den", size="14 ft x 8 ft", work=True)
    assert str(project.spaces[1].before.rectangle.width) == "11 ft"
    project = done(board, do="wall", part="kitchen", wall=1, by=-12, work=True)
    assert len(project.spaces[0].before.outline) == 6


def test_a_room_is_divided_by_a_wall_and_what_is_past_it_belongs_to_the_new_room(board: HouseBoard) -> None:
    before = middles(board)
    divide = {"do": "divide", "part": "kitchen", "name": "Pantry", "use": "storage"}
    project = done(board, **divide, from_side="west", distance="14 ft", work=True)
    pantry = project.by_id["pantry"]
    assert (pantry.phase, pantry.story, str(pantry.rectangle.width)) == ("new", "ground", "5'-7 1/2\"")  # type: ignore[attr-defined]
    assert project.by_id["D1"].between == ("pantry", "den")  # type: ignore[attr-defined]
    assert project.by_id["R1"].space == "pantry"  # type: ignore[attr-defined]
    assert (project.spaces[0].phase, len(project.spaces[0].before.outline)) == ("altered", 6)
    assert middles(board) == before
    assert outline(board, "kitchen")[1] == [168, 0]


def test_two_rooms_become_one_and_the_door_between_them_goes(board: HouseBoard) -> None:
    before = middles(board)
    project = done(board, do="join", part="kitchen", other="den", work=True)
    assert outline(board, "kitchen")[1] == [364.5, 0]
    den, door = project.by_id["den"], project.by_id["D1"]
    assert (den.phase, door.phase) == ("removed", "removed")
    assert project.by_id["LT1"].space == "kitchen"  # type: ignore[attr-defined]
    assert project.by_id["LT1"].switched_at == ("kitchen",)  # type: ignore[attr-defined]
    assert project.by_id["W3"].space == "kitchen"  # type: ignore[attr-defined]
    after = middles(board)
    assert {name: after[name] for name in ("W1", "W2", "W3", "LT1")} == {
        name: before[name] for name in ("W1", "W2", "W3", "LT1")
    }


def test_as_it_is_two_rooms_drawn_by_mistake_become_one_that_stood_so(board: HouseBoard) -> None:
    project = done(board, do="join", part="den", other="kitchen")
    assert [space.id for space in project.spaces] == ["den"]
    assert (project.spaces[0].phase, project.doors) == ("existing", ())


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"do": "wall", "part": "den", "wall": 1, "by": -200}, "inside out"),
        ({"do": "wall", "part": "den", "wall": 9, "by": 2}, "no such wall"),
        ({"do": "wall", "part": "nobody", "wall": 0, "by": 2}, "no room"),
        ({"do": "jog", "part": "den", "wall": 0, "start": "8 ft", "length": "4 ft", "deep": "1 ft"}, "does not fit"),
        ({"do": "divide", "part": "den", "from_side": "west", "distance": "11 ft"}, "would not stand in the room"),
        ({"do": "join", "part": "den", "other": "den"}, "choose the room"),
        ({"do": "wall", "part": "kitchen", "wall": 0, "length": "banana"}, "banana"),
    ],
)
def test_a_shape_that_cannot_be_is_refused_and_nothing_is_written(
    board: HouseBoard, file: Path, asked: dict[str, Any], says: str
) -> None:
    assert says in do(board, **asked)["refused"]
    assert file.read_text(encoding="utf-8") == HOUSE


def area(corners: list[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)) / 2


BOXES = st.tuples(st.integers(0, 40), st.integers(0, 40), st.integers(1, 40), st.integers(1, 40))


@given(st.lists(BOXES, min_size=1, max_size=4), st.integers(1, 60), st.sampled_from([0, 1]))
def test_a_floor_that_is_cut_keeps_its_area_and_one_put_together_is_that_of_its_squares(
    boxes: list[tuple[int, int, int, int]], at: int, axis: int
) -> None:
    floors: list[list[Point]] = [[(x, y), (x + w, y), (x + w, y + d), (x, y + d)] for x, y, w, d in boxes]
    try:
        whole = joined(floors)
    except ValueError:
        assume(False)
    squares = {(i, j) for x, y, w, d in boxes for i in range(x, x + w) for j in range(y, y + d)}
    assert sum(area(one) for one in whole) == len(squares)
    if len(whole) == 1:
        try:
            pieces = [*cut(whole[0], axis, -1, at), *cut(whole[0], axis, at, 99)]
        except ValueError:
            assume(False)
        assert sum(area(one) for one in pieces) == len(squares)


NAMES = st.sampled_from(["kitchen", "den", "nobody"])
SIZES = st.sampled_from(["", "3 ft", "30 in", "12 ft", "banana", "-2 ft"])
REQUESTS = st.one_of(
    st.fixed_dictionaries({"do": st.just("wall"), "part": NAMES, "wall": st.integers(0, 7), "by": st.integers(-150, 90), "length": SIZES,
                           "work": st.booleans()}),
    st.fixed_dictionaries({"do": st.just("jog"), "part": NAMES, "wall": st.integers(0, 7), "start": SIZES, "length": SIZES,
                           "deep": SIZES, "inward": st.booleans(), "work": st.booleans()}),
    st.fixed_dictionaries({"do": st.just("divide"), "part": NAMES, "from_side": st.sampled_from(["west", "south"]), "distance": SIZES,
                           "use": st.sampled_from(["", "closet", "]"]), "work": st.booleans()}),
    st.fixed_dictionaries({"do": st.just("join"), "part": NAMES, "other": NAMES, "work": st.booleans()}),
)  # fmt: skip


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(REQUESTS, min_size=1, max_size=4))
def test_whatever_becomes_of_the_rooms_the_file_stays_readable_and_undo_leads_back(
    desk: Desk, tmp_path: Path, requests: list[dict[str, Any]]
) -> None:
    path = tmp_path / "any.yaml"
    path.write_text(HOUSE, encoding="utf-8")
    hold_that_undo_leads_back(HouseBoard(path, desk), requests)


def test_a_room_that_is_moved_takes_along_what_stands_in_it(board: HouseBoard) -> None:
    before = middles(board)
    done(board, do="move", part="den", by=[12, -24])
    after = middles(board)
    assert after["LT1"] == [before["LT1"][0] + 12, before["LT1"][1] - 24]
    assert after["W3"] == [before["W3"][0] + 12, before["W3"][1] - 24]
    done(board, do="move", part="kitchen", by=[-6, 0])
    assert outline(board, "kitchen")[0] == [-6, 0]
    assert middles(board)["W2"] == [42, 0]


def test_the_plan_tells_how_a_room_was(board: HouseBoard) -> None:
    done(board, do="shape", part="den", size="12 ft x 8 ft", work=True)
    rooms = {one["id"]: one for one in board.state()["plan"]["rooms"]}
    assert rooms["den"]["before"] == [[244.5, 0], [364.5, 0], [364.5, 96], [244.5, 96]]
    assert "before" not in rooms["kitchen"]


def test_a_story_is_added_with_its_level_and_rooms_and_stairs_reach_it(board: HouseBoard) -> None:
    project = done(board, do="story", level="upper", elevation="9'-1\"", phase="new")
    assert [(one.id, one.level, str(one.elevation), one.phase) for one in project.stories[1:]] == [
        ("upper-level", "upper", "9'-1\"", "new")
    ]
    done(board, do="room", name="Loft", use="office", phase="new", size="12 ft x 12 ft", story="upper-level")
    assert [one["label"] for one in board.state()["plan"]["stories"]] == ["Ground floor", "Upper floor"]
    done(
        board,
        do="stair",
        lower="kitchen",
        upper="loft",
        width="3 ft",
        run="10 ft",
        climbs="right",
        from_west="1 ft",
        from_south="1 ft",
    )
    assert [(one["story"], one["end"]) for one in board.state()["plan"]["stairs"]] == [
        ("ground", "UP"),
        ("upper-level", "DN"),
    ]
    project = done(board, do="set", part="den", key="story", value="upper-level")
    assert {one["id"]: one["story"] for one in board.state()["plan"]["points"]}["LT1"] == "upper-level"
    assert "which is the higher" in do(board, do="story", level="upper")["refused"]


def test_where_there_was_no_story_the_rooms_so_far_are_given_theirs(board: HouseBoard, file: Path) -> None:
    bare = HOUSE.replace("stories: [{id: ground, level: ground, phase: existing}]\n", "").replace(
        "story: ground", "floor surface: oak"
    )
    file.write_text(bare, encoding="utf-8")
    board.state()
    assert "on which story" in do(board, do="story", level="basement")["refused"]
    project = done(board, do="story", level="basement", rooms_on="ground")
    assert [one.id for one in project.stories] == ["basement-level", "ground"]
    assert {space.story for space in project.spaces} == {"ground"}
