"""What a file says twice: told beside the value, and made to agree by one press."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from test_board import SKETCH, board, do, file, shared

from precheck.board.board import HouseBoard

__all__ = ["board", "file", "shared"]
SCHEDULE = """\
schedule:
  - {id: WS1, phase: new, of: W1, sill height: 46 in, unit size: 3'-0" x 4'-0"}
sheets:
  - id: A3
    phase: new
    title: Elevations
    says: [{of: W1, size: 3'-0" x 4'-0"}]
"""


def _twice(board: HouseBoard, part: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = board.form(part)["twice"]
    return found


def test_a_value_that_the_schedule_has_too_is_changed_there_by_one_press(board: HouseBoard, file: Path) -> None:
    file.write_text(SKETCH + SCHEDULE, encoding="utf-8")
    board.state()
    assert _twice(board, "W1") == []
    do(board, do="set", part="W1", key="sill height", value="40 in")
    (fact,) = _twice(board, "W1")
    assert fact["said"] == "sill height: 40 in at window W1, 46 in in schedule row WS1"
    state = do(board, do="agree", part="W1", fact=fact["said"], way=0)
    assert "refused" not in state
    assert "of: W1, sill height: 40 in" in file.read_text(encoding="utf-8")
    assert _twice(board, "W1") == []
    assert "meantime" in do(board, do="agree", part="W1", fact=fact["said"], way=0)["refused"]


def test_or_the_value_of_the_schedule_or_sheet_is_taken(board: HouseBoard, file: Path) -> None:
    file.write_text((SKETCH + SCHEDULE).replace("size: 3'-0\" x 4'-0\"}]", "size: 4'-0\" x 4'-0\"}]"), encoding="utf-8")
    board.state()
    (fact,) = _twice(board, "W1")
    assert "sheet A3" in fact["said"]
    do(board, do="agree", part="W1", fact=fact["said"], way=1)
    assert "sill height: 46 in, unit size: 4'-0\" x 4'-0\", middle" in file.read_text(encoding="utf-8")


def test_an_area_that_is_drawn_too_is_taken_out_by_one_press(board: HouseBoard, file: Path) -> None:
    file.write_text(SKETCH.replace("was: garage", "was: garage\n    area: 190 sq ft"), encoding="utf-8")
    board.state()
    (fact,) = _twice(board, "suite")
    assert fact["said"] == "area: 190 sq ft stated, 168 sq ft as drawn"
    assert fact["ways"] == ["Take the stated area out"]
    do(board, do="agree", part="suite", fact=fact["said"], way=0)
    assert file.read_text(encoding="utf-8") == SKETCH


def test_what_agrees_and_what_is_rounded_is_not_told(board: HouseBoard, file: Path) -> None:
    file.write_text(SKETCH.replace("was: garage", "was: garage\n    area: 170 sq ft"), encoding="utf-8")
    board.state()
    assert all(not _twice(board, part) for part in board.state()["parts"])


def test_a_finding_to_fix_opens_the_value_that_its_remedy_changes(board: HouseBoard) -> None:
    item = next(one for one in board.state()["items"] if board.asks(one["key"])["apply"])
    (value,) = board.asks(item["key"])["values"]
    assert (value["part"], value["key"], value["value"]) == ("W1", "sill height", "46 in")
