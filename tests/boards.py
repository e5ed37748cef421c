"""A board on the house of a test module, which is its `HOUSE`: for the tests of what is drawn on the page."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from test_board import do

from precheck.board.board import HouseBoard
from precheck.project import Project, read_project
from precheck.runs.desk import Desk, Run


@pytest.fixture(scope="module")
def desk() -> Desk:
    return Desk(Run())


@pytest.fixture
def file(tmp_path: Path, request: pytest.FixtureRequest) -> Path:
    path = tmp_path / "house.yaml"
    path.write_text(request.module.HOUSE, encoding="utf-8")
    return path


@pytest.fixture
def board(desk: Desk, file: Path) -> HouseBoard:
    return HouseBoard(file, desk)


def done(board: HouseBoard, **asked: Any) -> Project:
    """Do what is asked on the board, which must not be refused; return the project that its file gives then."""
    found = do(board, **asked)
    assert "refused" not in found, found["refused"]
    return read_project(board.file.path)


def hold_that_undo_leads_back(board: HouseBoard, requests: list[dict[str, Any]]) -> None:
    """Hold that after each of the `requests` the file can be read, and that undo leads back to how it was."""
    before = board.file.path.read_text(encoding="utf-8")
    for asked in requests:
        assert do(board, **asked)["problems"] == [], asked
        read_project(board.file.path)
    while board.file.done:
        assert "refused" not in do(board, do="undo")
    assert board.file.path.read_text(encoding="utf-8") == before
