"""What is asked of several parts alike is answered once for those that a person says: never for others, never in one place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from test_board import board, do, file, shared

from precheck.board.board import HouseBoard
from precheck.project import Project, read_project

__all__ = ["board", "file", "shared"]


@pytest.fixture
def three_windows(board: HouseBoard) -> HouseBoard:
    """W2 and W3 in the north wall of the suite, beside W1 in its south wall."""
    for distance in ("1 ft", "8 ft"):
        asked = {"room": "suite", "wall": 2, "distance": distance, "size": "3'-0\" x 4'-0\"", "operation": "casement"}
        assert "refused" not in do(board, do="opening", kind="window", **asked)
    return board


def asked_of(board: HouseBoard, what: str, part: str) -> dict[str, Any]:
    """Return what is asked of a part in such words."""
    for item in board.state()["items"]:
        for ask in board.asks(item["key"])["asks"]:
            if ask["of"] == part and ask["said"] == what:
                return ask
    raise AssertionError(f"{what} is not asked of {part}")


def answered(board: HouseBoard, ask: dict[str, Any], also: list[str], **values: str) -> Project:
    found = do(board, do="answer", item=ask["item"], need=ask["need"], values=values, also=also)
    assert "refused" not in found, found["refused"]
    return read_project(board.file.path)


def test_one_header_is_given_for_each_window_that_is_said(three_windows: HouseBoard) -> None:
    ask = asked_of(three_windows, "Header", "W2")
    assert {one["id"] for one in ask["alike"]} == {"W1", "W3"}
    assert ask["one_answer"]
    project = answered(three_windows, ask, ["W3"], phase="new", size="2x8", plies="2", span="3 ft")
    headers = {member.openings: (member.id, str(member.size)) for member in project.members}
    assert headers == {("W2",): ("HD1", "2x8"), ("W3",): ("HD2", "2x8")}
    assert asked_of(three_windows, "Header", "W1")["alike"] == []


def test_a_wall_line_is_one_for_the_windows_of_that_wall_and_is_not_offered_for_another_wall(
    three_windows: HouseBoard,
) -> None:
    ask = asked_of(three_windows, "Braced wall line", "W2")
    assert [one["id"] for one in ask["alike"]] == ["W3"]
    project = answered(three_windows, ask, ["W3"], phase="new", length="12 ft")
    assert [(line.id, line.openings) for line in project.braced_lines] == [("BL1", ("W2", "W3"))]
    other = asked_of(three_windows, "Braced wall line", "W1")
    assert "refused" in do(
        three_windows, do="answer", item=other["item"], need=other["need"], values={"phase": "new"}, also=["W2"]
    )


def test_what_stands_at_a_place_is_never_given_for_another_part(board: HouseBoard, file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    file.write_text(
        text.replace("use: hall", "use: living room, was: garage").replace(
            "id: hall, phase: existing", "id: hall, phase: altered"
        ),
        encoding="utf-8",
    )
    ask = asked_of(board, "Receptacles along its walls", "suite")
    assert [one["id"] for one in ask["alike"]] == ["hall"]
    assert not ask["one_answer"]
    before = file.read_text(encoding="utf-8")
    values = {"phase": "new", "at": "[8 ft, 1 ft]"}
    refused = do(board, do="answer", item=ask["item"], need=ask["need"], values=values, also=["hall"])["refused"]
    assert "say it of each by itself" in refused
    assert file.read_text(encoding="utf-8") == before


CLOSED = "{id: D9, phase: removed, between: [suite, outside], operation: vehicle, unit size: 9'-0\" x 7'-0\", middle: [12 ft, 14 ft]}"


def test_the_wall_that_closes_an_opening_is_left_once_for_all_that_it_would_answer(
    board: HouseBoard, file: Path
) -> None:
    file.write_text(f"{file.read_text(encoding='utf-8')}doors:\n  - {CLOSED}\n", encoding="utf-8")
    wall, plate = (
        asked_of(board, what, "D9") for what in ("Wall that fills it", "Sill plate of the wall that fills it")
    )
    assert wall["field"]["path"] == plate["field"]["path"]
    do(board, do="later", item=wall["item"], need=wall["need"], to="drafter")
    assert [one["later"] for one in board.asks(plate["item"])["asks"] if one["need"] == plate["need"]] == ["drafter"]


def test_which_sheet_shows_what_is_asked_last_and_left_for_all_sheets_at_once(board: HouseBoard) -> None:
    state = board.state()
    asks = [one for item in state["items"] for one in board.asks(item["key"])["asks"]]
    one = next(ask for ask in asks if ask["said"] == "Site plan")
    others = [other["id"] for other in one["alike"]]
    assert len(others) > 1
    assert not one["one_answer"]
    for ask in asks:
        if ask is not one and ask["known"] not in others:
            assert board.state()["next"].get("item") != one["item"]
            do(board, do="later", item=ask["item"], need=ask["need"])
    do(board, do="later", item=one["item"], need=one["need"], to="drafter", also=others)
    left = [one for item in state["items"] for one in board.asks(item["key"])["asks"] if one["known"] in others]
    assert {one["later"] for one in left} == {"drafter"}
