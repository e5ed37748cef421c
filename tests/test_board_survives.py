"""The board as a process of its own: killed, broken off, on a full disk, two on one file; what was accepted is in the file."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from board_pictures import scan
from test_board import SKETCH, file, shared

from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.board.house_file import BEFORE, ON_PAGE
from precheck.files.source import read_text

__all__ = ["file", "shared"]
RUN = "from precheck.cli import main; main()"
NO_CODE_KEPT = "import sys; sys.dont_write_bytecode = True; "  # which a full disk would cut off
NO_ROOM = f"{NO_CODE_KEPT}import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (400, 400)); {RUN}"
unix = pytest.mark.skipif(os.name != "posix", reason="processes are killed, and disks filled, as on Unix")


class Running:
    """A board that was started as a person starts it."""

    def __init__(self, path: Path, code: str = RUN) -> None:
        command = [sys.executable, "-c", code, "board", str(path), "--no-browser"]
        more = {"PYTHONUNBUFFERED": "1"} | ({"PRECHECK_PREPARED": "off"} if code == NO_ROOM else {})
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env={**os.environ, **more})
        assert self.process.stdout is not None
        found = re.search(r"http://(127\.0\.0\.1:\d+)/([\w-]+)/", self.process.stdout.readline())
        assert found
        self.host, self.token = found[1], found[2]

    def do(self, **asked: Any) -> dict[str, Any]:
        return self.post("do", json.dumps(asked).encode(), "application/json")

    def send(self, picture: bytes) -> dict[str, Any]:
        return self.post("underlay/send?story=ground", picture, "application/octet-stream")

    def post(self, where: str, body: bytes, kind: str) -> dict[str, Any]:
        """The answer of the board; the connection is closed even where the board is killed meanwhile."""
        headers = {"Origin": f"http://{self.host}", "Content-Type": kind}
        with closing(http.client.HTTPConnection(self.host, timeout=60)) as connection:
            connection.request("POST", f"/{self.token}/{where}", body, headers)
            with connection.getresponse() as response:
                found: dict[str, Any] = json.loads(response.read())
        return found

    def sill(self, inches: int) -> dict[str, Any]:
        return self.do(do="set", part="W1", key="sill height", value=f"{inches} in")

    def ended(self) -> str:
        assert self.process.stdout is not None
        told = self.process.stdout.read()
        self.process.wait(60)
        self.process.stdout.close()
        return told


@pytest.fixture
def started(file: Path) -> Iterator[list[Running]]:
    boards: list[Running] = []
    yield boards
    for board in boards:
        if board.process.poll() is None:
            board.process.kill()
        if board.process.stdout and not board.process.stdout.closed:
            board.ended()


@unix
def test_a_board_that_is_killed_loses_nothing_and_the_next_goes_on(file: Path, started: list[Running]) -> None:
    started.append(Running(file))
    for inches in (40, 41, 42):
        assert "refused" not in started[0].sill(inches)
    started[0].process.kill()
    started[0].ended()
    assert file.read_text(encoding="utf-8") == SKETCH.replace("46 in", "42 in")
    started.append(Running(file))
    assert "refused" not in started[1].sill(43)
    assert file.read_text(encoding="utf-8") == SKETCH.replace("46 in", "43 in")
    assert sorted(one.name for one in file.parent.iterdir()) == ["house.board", "house.yaml"]


@unix
@pytest.mark.long
def test_a_board_that_is_killed_at_any_moment_leaves_a_file_that_holds_all_that_was_answered(
    file: Path, started: list[Running]
) -> None:
    for turn in range(12):
        started.append(Running(file))
        killer = subprocess.Popen(["sh", "-c", f"sleep {0.05 + turn * 0.03}; kill -9 {started[-1].process.pid}"])
        answered = 0
        try:
            for inches in range(20, 400):
                started[-1].sill(inches)
                answered = inches
        except (OSError, http.client.HTTPException):
            pass
        killer.wait(10)
        text = file.read_text(encoding="utf-8")
        read_text(text, "")
        there = re.search(r"sill height: (\d+) in", text)
        assert there
        assert answered == 0 or int(there[1]) in (answered, answered + 1)
        assert text == SKETCH.replace("46 in", f"{there[1]} in")


@unix
def test_ctrl_c_ends_it_and_says_where_everything_is(file: Path, started: list[Running]) -> None:
    started.append(Running(file))
    assert "refused" not in started[0].sill(40)
    started[0].process.send_signal(signal.SIGINT)
    told = started[0].ended()
    assert f"Ended. Everything is in {file}" in told
    assert started[0].process.returncode == 0


@unix
def test_on_a_full_disk_what_is_typed_is_refused_in_words_and_the_file_is_as_it_was(
    file: Path, started: list[Running]
) -> None:
    """No file of this process can grow over 400 bytes; the project file is larger."""
    started.append(Running(file, NO_ROOM))
    found = started[0].sill(40)
    assert "cannot be written" in found["refused"]
    assert "nothing is lost" in found["refused"]
    assert found["undo"] == ""
    assert file.read_text(encoding="utf-8") == SKETCH
    sent = started[0].send(scan())
    assert "cannot be written" in sent["refused"]
    assert sent["underlay"]["stories"] == {}
    letter = started[0].do(do="letter", text="1. " + "Too long for what is left. " * 40)
    assert "cannot be written" in letter["refused"]
    assert started[0].do(do="undo")["refused"] == "There is nothing to undo."
    assert [one.name for one in file.parent.iterdir() if one.is_file()] == ["house.yaml"]


@unix
@pytest.mark.long
def test_two_boards_on_one_file_lose_nothing_of_either(file: Path, started: list[Running]) -> None:
    started += [Running(file), Running(file)]
    assert "refused" not in started[0].sill(40)
    second = {"do": "set", "part": "W1", "key": "operation", "value": "casement"}
    assert "changed elsewhere" in started[1].do(**second)["refused"]
    assert "refused" not in started[1].do(**second)
    text = file.read_text(encoding="utf-8")
    assert ("sill height: 40 in" in text, "operation: casement" in text) == (True, True)


def asked(board: HouseBoard, **what: Any) -> dict[str, Any]:
    return board.do(REQUEST.validate_python(what))


def test_how_the_file_was_before_this_session_is_kept_beside_it(shared: HouseBoard, file: Path) -> None:
    board = HouseBoard(file, shared.desk)
    assert not board.file.kept_at(BEFORE).exists()  # as long as nothing is changed
    for inches in (40, 41):
        asked(board, do="set", part="W1", key="sill height", value=f"{inches} in")
    assert board.file.kept_at(BEFORE).read_text(encoding="utf-8") == SKETCH
    assert board.file.kept_at(BEFORE).relative_to(file.parent).as_posix() == "house.board/house.yaml.before"
    later = HouseBoard(file, shared.desk)
    asked(later, do="set", part="W1", key="sill height", value="42 in")
    assert board.file.kept_at(BEFORE).read_text(encoding="utf-8") == SKETCH.replace("46 in", "41 in")


def test_what_the_page_wrote_is_kept_where_an_editor_puts_an_older_file_over_it(shared: HouseBoard, file: Path) -> None:
    board = HouseBoard(file, shared.desk)
    board.state()
    asked(board, do="set", part="W1", key="sill height", value="40 in")
    older = SKETCH.replace("Mill Lane", "Mill Lane, from the editor")
    file.write_text(older, encoding="utf-8")
    told = board.state()["changed"]
    assert told[:2] == [
        "The file was changed elsewhere",
        "How it was on this page is kept as house.board/house.yaml.on-page",
    ]
    assert board.file.kept_at(ON_PAGE).read_text(encoding="utf-8") == SKETCH.replace("46 in", "40 in")
    assert file.read_text(encoding="utf-8") == older


def test_a_file_that_only_reads_is_told_and_left_as_it_is(shared: HouseBoard, file: Path) -> None:
    file.chmod(0o444)
    board = HouseBoard(file, shared.desk)
    found = asked(board, do="set", part="W1", key="sill height", value="40 in")
    assert "read-only" in found["refused"]
    assert file.read_text(encoding="utf-8") == SKETCH
    file.chmod(0o644)
    assert "refused" not in asked(board, do="set", part="W1", key="sill height", value="40 in")
