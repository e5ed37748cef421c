"""Sections on the board: what is drawn through a room and a stair, and heights typed in the picture that go into the file."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from boards import board, desk, done, file
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_board import do

from precheck.board.board import HouseBoard
from precheck.runs.desk import Desk
from precheck.survey import House
from precheck.survey.under_ceiling import area_at
from precheck.units import Length

__all__ = ["board", "desk", "file"]
HOUSE = """\
project: Mill Lane
jurisdiction: irc-2021
applied on: 2026-03-02
stories:
  - {id: ground, level: ground, phase: existing, elevation: 0 ft}
  - {id: up, level: upper, phase: existing, elevation: 9 ft}
floors:
  - {id: slab, phase: altered, base: slab, base level: -4 in, layers: [1 in foam, 3/4 in plywood]}  # the old slab
  - {id: joists, phase: existing, base: joists, finished level: 9 ft, layers: [3/4 in plywood]}
spaces:
  - id: suite   # was the garage
    phase: altered
    use: bedroom
    was: garage
    story: ground
    floor: slab
    rectangle: {at: [0 ft, 0 ft], width: 12 ft, depth: 14 ft}
  - {id: loft, phase: existing, use: office, story: up, floor: joists, rectangle: {at: [0 ft, 0 ft], width: 12 ft, depth: 14 ft}}
  - {id: later, phase: new, use: closet}
windows:
  - {id: W1, phase: new, space: suite, sill height: 46 in, unit size: 3'-0" x 4'-0", operation: casement}
stairs:
  - {id: ST1, phase: new, between: [suite, loft], width: 3 ft, risers: 14, headroom: 6'-6", flights: [{tread: 10 in}]}
"""


def heights(board: HouseBoard, part: str) -> dict[str, dict[str, Any]]:
    return {one["key"]: one for one in board.section(part)["heights"]}


def strokes(board: HouseBoard, part: str, kind: str) -> list[list[list[float]]]:
    return [one["points"] for one in board.section(part)["strokes"] if one["kind"] == kind]


def test_a_section_through_a_stair_shows_its_steps_its_headroom_and_the_floors_it_joins(board: HouseBoard) -> None:
    found = heights(board, "ST1")
    assert {key: one["value"] for key, one in found.items() if one["value"]} == {
        "risers": "14",
        "tread": "10 in",
        "headroom": "6'-6\"",
        "level of joists": "9 ft",
    }
    assert found["total rise"]["worked"] == "9'-2 1/4\""
    (steps,) = strokes(board, "ST1", "step")
    assert steps[-1] == [130, pytest.approx(110.25)]
    (clear,) = strokes(board, "ST1", "headroom")
    assert [high - low for (_, high), (_, low) in zip(clear, strokes(board, "ST1", "pitch")[0], strict=True)] == [
        78,
        78,
    ]


def test_findings_live_on_the_heights_that_they_measure(board: HouseBoard) -> None:
    found = heights(board, "ST1")
    assert (found["headroom"]["state"], found["risers"]["state"]) == ("fail", "fail")
    done(board, do="height", part="ST1", key="headroom", value="6'-8\"")
    assert heights(board, "ST1")["headroom"]["state"] != "fail"
    assert heights(board, "suite")["ceiling height"]["state"] == "not-shown"
    assert heights(board, "W1")["sill of W1"]["state"] == "fail"


def test_a_height_typed_in_the_picture_is_written_where_it_stands(board: HouseBoard, file: Path) -> None:
    done(board, do="height", part="W1", key="sill of W1", value="40 in")
    assert file.read_text(encoding="utf-8") == HOUSE.replace("sill height: 46 in", "sill height: 40 in")
    assert do(board, do="undo")["redo"] == "sill height of W1"
    project = done(board, do="height", part="suite", key="ceiling height", value="7'-6\"")
    assert str(project.spaces[0].ceiling.height) == "7'-6\""
    project = done(board, do="height", part="suite", key="level of slab", value="-2 in")
    assert str(project.floors[0].finished_level) == "-2 in"
    assert "# the old slab" in file.read_text(encoding="utf-8")
    done(board, do="height", part="suite", key="level of slab", value="")
    assert heights(board, "suite")["level of slab"] | {"line": []} == {
        "key": "level of slab", "label": "level of the finished floor", "value": "", "worked": "-2 1/4 in", "line": [],
        "state": heights(board, "suite")["level of slab"]["state"],
    }  # fmt: skip


@pytest.mark.parametrize(
    ("part", "key", "value", "says"),
    [
        ("suite", "ceiling height", "banana", "banana"),
        ("suite", "ceiling height", "7'6", "Read as 7'-6\""),
        ("suite", "ceiling height", "90 ft", "40 ft"),
        ("ST1", "risers", "14 ft", "no number of risers"),
        ("suite", "headroom", "7 ft", "has no height `headroom`"),
        ("nobody", "ceiling height", "7 ft", "has no height"),
    ],
)
def test_what_is_no_height_is_refused_and_nothing_is_written(
    board: HouseBoard, file: Path, part: str, key: str, value: str, says: str
) -> None:
    assert says in do(board, do="height", part=part, key=key, value=value)["refused"]
    assert file.read_text(encoding="utf-8") == HOUSE


def test_a_sloped_ceiling_is_a_profile_across_the_room_whose_points_are_typed_in_the_picture(board: HouseBoard) -> None:
    slope = {"do": "ceiling", "part": "suite", "low": "5 ft", "high": "9 ft"}
    done(board, **slope, shape="two slopes")
    assert strokes(board, "suite", "ceiling") == [[[0, 60], [72, 108], [144, 60]]]
    project = done(board, do="height", part="suite", key="profile 2 height", value="10 ft")
    assert [str(one.height) for one in project.spaces[0].ceiling.profile] == ["5 ft", "10 ft", "5 ft"]
    done(board, **slope, shape="one slope", across="depth")
    assert strokes(board, "suite", "ceiling") == [[[0, 60], [168, 108]]]
    project = done(board, do="ceiling", part="suite", shape="flat", low="8 ft")
    assert (str(project.spaces[0].ceiling.height), project.spaces[0].ceiling.profile) == ("8 ft", ())


def test_a_tray_counts_only_the_floor_inside_its_border_as_high(board: HouseBoard) -> None:
    done(board, do="ceiling", part="suite", shape="tray", low="6'-8\"", high="8 ft", border="2 ft")
    project = done(board, do="ceiling", part="suite", shape="tray", low="6'-6\"", high="8 ft", border="1 ft")
    (soffit,) = project.spaces[0].ceiling.drops
    assert (str(soffit.clear_height), str(soffit.floor_under)) == ("6'-6\"", "48 sq ft")
    assert [one[0][0] for one in strokes(board, "suite", "drop")] == [0, 132]
    assert heights(board, "suite")["drop 1"]["value"] == "6'-6\""
    project = done(board, do="ceiling", part="suite", shape="flat", low="8 ft")
    assert project.spaces[0].ceiling.drops == ()


def test_a_flat_ceiling_leaves_a_beam_below_it_where_it_is(board: HouseBoard, file: Path) -> None:
    beam = "    ceiling: {height: 9 ft, drops: [{what: beam, clear height: 7 ft}]}\n    rectangle: {at"
    file.write_text(HOUSE.replace("    rectangle: {at", beam, 1), encoding="utf-8")
    board.state()
    project = done(board, do="ceiling", part="suite", shape="flat", low="8 ft")
    assert [drop.what for drop in project.spaces[0].ceiling.drops] == ["beam"]


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"shape": "one slope", "low": "9 ft", "high": "8 ft"}, "not above the lower"),
        ({"shape": "tray", "low": "7 ft", "high": "8 ft", "border": "7 ft"}, "leaves nothing"),
        ({"shape": "two slopes", "low": "7 ft", "high": "8 ft", "part": "later"}, "not drawn yet"),
        ({"shape": "flat", "low": "8 ft", "part": "nobody"}, "no room `nobody`"),
    ],
)
def test_a_ceiling_that_cannot_be_is_refused(board: HouseBoard, file: Path, more: dict[str, str], says: str) -> None:
    assert says in do(board, **{"do": "ceiling", "part": "suite", **more})["refused"]
    assert file.read_text(encoding="utf-8") == HOUSE


@given(st.integers(1, 70), st.integers(60, 96))
@settings(deadline=None, max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_floor_at_full_height_under_a_tray_is_that_inside_its_border(
    desk: Desk, tmp_path: Path, border: int, low: int
) -> None:
    path = tmp_path / "tray.yaml"
    path.write_text(HOUSE, encoding="utf-8")
    project = done(
        HouseBoard(path, desk),
        do="ceiling",
        part="suite",
        shape="tray",
        low=f"{low} in",
        high="9 ft",
        border=f"{border} in",
    )
    house, space = House(project), project.spaces[0]
    found = area_at(
        space, house.area(space), house.open_below(space), house.ceiling_height(space), Length.parse("7 ft")
    )
    inner = (144 - 2 * border) * (168 - 2 * border)
    assert found.over(Length.parse("1 in")) == Length.parse(f"{144 * 168 if low >= 84 else inner} in")


def test_a_part_without_a_section_has_none(board: HouseBoard) -> None:
    assert board.section("nobody")["strokes"] == []
    assert board.section("later")["heights"][0]["key"] == "ceiling height"
