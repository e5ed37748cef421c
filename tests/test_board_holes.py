"""Openings through a floor put on the plan from the tray: over a stair, of a typed size, moved, placed anew, and undone."""

from __future__ import annotations

from typing import Any

import pytest
from boards import board, desk, done, file, hold_that_undo_leads_back
from test_board import do
from test_board_tray import HOUSE, STAIR, shown

from precheck.board.board import HouseBoard
from precheck.board.forms import tool_for
from precheck.files.missing import Need

__all__ = ["HOUSE", "board", "desk", "file"]
HOLE: dict[str, Any] = {"do": "hole", "room": "loft", "through": "floor", "phase": "new"}


def test_an_opening_over_a_stair_is_as_the_stair_is(board: HouseBoard) -> None:
    done(board, **STAIR, from_west="1 ft", from_south="2 ft", phase="new")
    (hole,) = done(board, **HOLE, stair="ST1", joists="along the page").framed_openings
    assert (hole.id, hole.through, hole.space, hole.stair) == ("FO1", "floor", "loft", "ST1")
    assert hole.joists_run == "along the page"
    (drawn,) = shown(board, "boxes", "FO1")
    assert (drawn["story"], drawn["kind"]) == ("up", "framed opening")
    assert drawn["box"] == shown(board, "stairs", "ST1")[0]["box"]


def test_an_opening_of_a_typed_size_is_so_far_from_two_walls(board: HouseBoard) -> None:
    done(board, **HOLE, size="3 ft x 9 ft", from_west="4 ft", from_south="2 ft")
    assert shown(board, "boxes", "FO1")[0]["box"] == [48, 24, 36, 108]
    done(board, do="place", part="FO1", from_west="5 ft", from_south="1 ft")
    assert shown(board, "boxes", "FO1")[0]["box"] == [60, 12, 36, 108]
    done(board, **HOLE | {"through": "ceiling"}, part="FO1", size="3 ft x 8 ft", from_west="0 ft", from_south="0 ft")
    assert shown(board, "boxes", "FO1")[0]["box"] == [0, 0, 36, 96]
    done(board, do="take out", part="FO1")
    assert shown(board, "boxes", "FO1") == []


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({}, "choose a stair that is drawn"),
        ({"stair": "ST7"}, "no stair `ST7`"),
        ({"stair": "SA1"}, "no stair `SA1`"),
        ({"size": "3 ft x 9 ft"}, "click where it goes"),
        ({"size": "3 ft x 9 ft", "from_west": "20 ft", "from_south": "1 ft"}, "not in loft"),
        ({"size": "banana", "at": [20, 20]}, "banana"),
        ({"room": "nobody", "size": "3 ft x 9 ft", "at": [20, 20]}, "no room `nobody`"),
    ],
)
def test_what_is_no_opening_is_refused_in_words_and_not_written(
    board: HouseBoard, more: dict[str, Any], says: str
) -> None:
    before = board.file.path.read_text(encoding="utf-8")
    assert says in do(board, **HOLE | more)["refused"]
    assert board.file.path.read_text(encoding="utf-8") == before


def test_undo_leads_back_over_all_that_is_done_with_an_opening(board: HouseBoard) -> None:
    hold_that_undo_leads_back(board, [
        {**HOLE, "size": "3 ft x 9 ft", "at": [100, 80]},
        {"do": "move", "part": "FO1", "by": [12, -6]},
        {**HOLE, "part": "FO1", "size": "4 ft x 9 ft", "from_west": "1 ft", "from_south": "1 ft", "joists": "up the page"},
        {"do": "take out", "part": "FO1"},
    ])  # fmt: skip


@pytest.mark.parametrize("key", ["framed opening in the floor over it", "framing of the opening for the stair"])
def test_what_asks_for_an_opening_leads_to_its_tool(key: str) -> None:
    assert tool_for(Need("stair ST1", key)) == "hole"
