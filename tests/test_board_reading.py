"""What is typed short for something is shown in full beneath its field, before it is entered."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_board import board, do, file, shared

from precheck.board.board import HouseBoard
from precheck.board.typed import BOXES, read_as
from precheck.project import read_project

__all__ = ["board", "file", "shared"]


@pytest.mark.parametrize(
    ("box", "text", "meant"),
    [
        ("opening size", "8x7", ["8'-0\" x 7'-0\""]),
        ("opening size", "2868", ["2'-8\" x 6'-8\""]),
        ("opening size", "3050 SH", ["3'-0\" x 5'-0\" SH"]),
        ("opening size", "3'-0\" x 5'-0\" SH", []),
        ("room size", "12 x 14", ["12'-0\" x 14'-0\""]),
        ("distance", "5", ["5'-0\""]),
        ("height", "36", ["36 in"]),
        ("height", "3 ft", []),
        ("wall", "banana", []),
        ("no such box", "12", []),
    ],
)
def test_what_is_short_is_read_and_what_is_in_full_or_no_size_is_not(box: str, text: str, meant: list[str]) -> None:
    assert read_as(box, text) == meant


@pytest.mark.parametrize("box", BOXES)
def test_what_is_shown_is_in_full_and_is_read_so_again(box: str) -> None:
    for text in ("12 6", "8x7", "14", "1206 x 11", "3050 SH"):
        for shown in read_as(box, text):
            assert read_as(box, shown) == []


def test_a_call_out_keeps_the_way_a_window_opens_when_it_is_shown_in_full(board: HouseBoard, file: Path) -> None:
    where = {"kind": "window", "room": "hall", "wall": 3, "distance": "2 ft"}
    (shown,) = do(board, do="opening", **where, size="3050 SH")["meant"]
    assert "refused" not in do(board, do="opening", **where, size=shown)
    made = read_project(file).windows[-1]
    assert (str(made.unit_size), made.operation) == ("3'-0\" x 5'-0\"", "single hung")
