"""The board under requests that nobody thought of: never a fault, the file always readable, and all of it taken back."""

from __future__ import annotations

import json
import random
from collections import Counter
from itertools import islice
from pathlib import Path
from typing import Any, get_args

import pytest
from board_pictures import pdf, photo, scan, webp
from board_requests import ODD, Made, Requests, as_sent
from pydantic import ValidationError
from sampled import long_save
from test_board import BIG, EXAMPLES, SKETCH, ask, do, file, served, shared
from test_board_safe import own, send

from precheck.board.answering import as_json
from precheck.board.asked import REQUEST
from precheck.board.board import HANDOUTS, HouseBoard
from precheck.board.server import Served
from precheck.board.underlay_asked import PictureRequest
from precheck.files.inert import shown
from precheck.files.source import read_text
from precheck.project import read_project
from precheck.questions.answer import in_quotes

__all__ = ["file", "served", "shared"]
LETTER = "1. Show the sill of window W1.\n2. The stair has no handrail.\n"
ANSWERS = ("12:30", "See http://juniper.example/a", "scale 1:50", "Is it shown?", "C:", "- a", "? b", "yes")
SIDE_FILES = ("house.letter.txt", "house.letter-answers.yaml", "house.to-find-out.json", "house.board/underlay.json")


def answer(board: HouseBoard, sent: bytes) -> dict[str, Any] | None:
    """What the board answers, as the page gets it; None where it is refused before it is looked at."""
    try:
        asked = REQUEST.validate_json(sent)
    except ValidationError:
        return None
    found: dict[str, Any] = json.loads(as_json(board.do(asked)).body)
    return found


def became(board: HouseBoard, sent: bytes) -> str:
    """Hold of one request that the file stays readable, and as it was where it is refused; return what became of it."""
    before = board.file.path.read_bytes()
    found = answer(board, sent)
    after = board.file.path.read_bytes()
    if found is None or "refused" in found:
        assert after == before
        assert found is None or found["refused"]
        return "unknown" if found is None else "refused"
    assert found["problems"] == []
    assert after == board.file.seen
    if after != before:
        read_project(board.file.path)
    return "done"


def hold(board: HouseBoard, number: int, seed: int) -> Counter[str]:
    """Hold it of so many requests, and that undo and redo lead through what they did byte for byte."""
    by = random.Random(seed)
    first, told = board.file.path.read_bytes(), Counter[str]()
    for made in islice(Requests(board, by), number):
        sent = as_sent(made)
        try:
            told[became(board, sent)] += 1
            look_around(board, by, made)
        except Exception as error:
            raise AssertionError(f"seed {seed}: {sent.decode('utf-8', 'replace')[:600]}") from error
    last, steps = board.file.path.read_bytes(), len(board.file.done)
    for back, then in (("undo", first), ("redo", last)):
        for _ in range(steps):
            answer(board, as_sent({"do": back}))
        assert board.file.path.read_bytes() == then
    return told


def look_around(board: HouseBoard, by: random.Random, made: Made) -> None:
    """Ask for what the page asks for besides, about whatever the request was about."""
    about = str(made.get("part", "")).encode(errors="replace").decode()  # as it comes in an address
    match by.randrange(12):
        case 0:
            assert as_json(board.form(about))
        case 1:
            assert as_json(board.section(about))
        case 2:
            assert as_json(board.asks(about if "item" not in made else str(made["item"])))
        case 3:
            assert "refused" not in board.town_letter()
        case 4:
            assert board.handout(by.choice([*HANDOUTS, "letter.txt"]))


@pytest.mark.parametrize("seed", long_save(range(70), 8))
def test_requests_that_nobody_thought_of_break_nothing_and_are_taken_back(
    shared: HouseBoard, file: Path, seed: int
) -> None:
    told = hold(HouseBoard(file, shared.desk), 40 if seed == 8 else 200, seed)
    assert min(told["done"], told["refused"], told["unknown"]) >= 8


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize(
    "start", [BIG, EXAMPLES / "alder-court" / "corrected.yaml", EXAMPLES / "sketch" / "sketch.yaml"]
)
def test_requests_that_nobody_thought_of_break_nothing_of_a_house_that_stands(
    shared: HouseBoard, file: Path, start: Path, seed: int
) -> None:
    file.write_bytes(start.read_bytes())
    assert hold(HouseBoard(file, shared.desk), 80, seed)["done"] >= 2


def strange(by: random.Random, text: bytes) -> bytes:
    """Return what somebody else may have left in a file."""
    at = by.randrange(len(text) + 1)
    return by.choice(
        (
            b"", b"\xff\xfe\x00", b"\0", b"[" * 20_000, b'{"a": "\\ud800"}', b"- \n", b"answers:\n", b"{}", b"null", b"1e400",
            text[:at], text[:at] + b"\n\t&a *a\n" + text[at:], text.replace(b"\n", b"\r\n"), text.upper(),
            "\ufeff".encode() + text, text.decode(errors="replace").encode("utf-16"), text * 2, text,
        )
    )  # fmt: skip


@pytest.mark.parametrize("seed", long_save(range(30), 4))
def test_files_that_change_beneath_it_are_told_and_never_written_over(
    shared: HouseBoard, file: Path, seed: int
) -> None:
    board, by = HouseBoard(file, shared.desk), random.Random(seed)
    for made in islice(Requests(board, by), 30 if seed == 4 else 150):
        if by.random() < 0.3:
            at = file.parent / by.choice((file.name, *SIDE_FILES))
            at.parent.mkdir(exist_ok=True)
            at.write_bytes(strange(by, at.read_bytes() if at.exists() and by.random() < 0.5 else SKETCH.encode()))
        before, seen = file.read_bytes(), board.file.seen
        found = answer(board, as_sent(made))
        assert as_json(board.state())
        assert as_json(board.town_letter())
        if found is None or "refused" in found or found["problems"]:
            assert file.read_bytes() == before
        if found and before != seen:
            assert found["refused"]


@pytest.mark.parametrize("seed", long_save(range(20), 2))
def test_two_boards_on_a_file_never_write_over_each_other(shared: HouseBoard, file: Path, seed: int) -> None:
    boards, by = [HouseBoard(file, shared.desk), HouseBoard(file, shared.desk)], random.Random(seed)
    sources = [iter(Requests(board, by)) for board in boards]
    last = 0
    for _ in range(30 if seed == 2 else 150):
        turn = by.randrange(2)
        before, seen = file.read_bytes(), boards[turn].file.seen
        found = answer(boards[turn], as_sent(next(sources[turn])))
        if found is not None and seen != before:
            assert found["refused"]
            assert file.read_bytes() == before
        last += found is not None and "refused" not in found
        read_project(file)
    assert last >= 3


@pytest.mark.parametrize("text", long_save((*ODD, *ANSWERS), "scale 1:50", "\x00", "null"))
def test_an_answer_to_the_letter_stays_as_it_was_typed_and_never_spoils_the_others(
    shared: HouseBoard, file: Path, text: str
) -> None:
    board = HouseBoard(file, shared.desk)
    do(board, do="letter", text=LETTER)
    do(board, do="answer letter", item="2", answer="Added on A5.")
    do(board, do="answer letter", item="1", answer=text)
    found = board.town_letter()
    meant = shown(" ".join(text.split()))
    assert [one["answer"] for one in found["items"]] == [meant, "Added on A5."]
    do(board, do="answer letter", item="2", answer="")
    do(board, do="answer letter", item="1", answer="")
    assert [one["answer"] for one in board.town_letter()["items"]] == ["", ""]
    assert "Not ready to send" in (board.handout("letter.txt") or "")


@pytest.mark.parametrize("seed", range(3))
def test_every_text_stands_within_braces_as_it_is(seed: int) -> None:
    by = random.Random(seed)
    for _ in range(150):
        text = "".join(by.choices("ab1 -?:,[]{}#&*!|>'\"%@`~=<.\\/", k=by.randrange(1, 7)))
        assert read_text(f"k: {{a: {in_quotes(text)}, b: [{in_quotes(text)}, c]}}\n", "")["k"] == {
            "a": text,
            "b": [text, "c"],
        }


@pytest.mark.parametrize("name", SIDE_FILES)
def test_what_stands_beside_the_house_and_cannot_be_read_is_told_and_kept(served: Served, name: str) -> None:
    board = served.board
    if name.endswith(".yaml"):
        board.letter.take(LETTER)
    at = board.file.path.parent / name.replace("house", board.file.path.stem)
    at.parent.mkdir(exist_ok=True)
    at.write_bytes(b"\xff[[")
    for path in ("state", "letter", "paper-letter", "paper-letter.txt", "paper-field", "paper-report", "form?part=W1"):
        status, told, _ = ask(served, f"/{served.token}/{path}")
        assert (status, path) in ((200, path), (422, path))
        if "letter" in path and "letter" in name:
            assert at.name.encode() in told
    for asked in ({"do": "letter", "text": "1. Another"}, {"do": "answer letter", "item": "1", "answer": "x"}):
        status, told, _ = ask(served, f"/{served.token}/do", "POST", as_sent(asked), **own(served))
        assert status == 200
    assert at.read_bytes() == b"\xff[["


def test_a_part_that_is_not_there_any_more_is_never_taken_for_the_job(shared: HouseBoard, file: Path) -> None:
    board = HouseBoard(file, shared.desk)
    assert "in the meantime" in do(board, do="set", part="W9", key="project", value="Other")["refused"]
    assert file.read_text(encoding="utf-8") == SKETCH


@pytest.mark.parametrize("number", long_save((40, 300), 40))
def test_over_the_network_the_same_holds(served: Served, number: int) -> None:
    by = random.Random(number)
    for made in islice(Requests(served.board, by), number):
        sent = as_sent(made)
        sent = (
            sent
            if by.random() < 0.8
            else by.choice((sent[: len(sent) // 2], sent * 2, b"", b"[" * 9000, b"\xff" + sent))
        )
        status, told, _ = ask(served, f"/{served.token}/do", "POST", sent, **own(served))
        assert status in (200, 400), sent
        assert json.loads(told)
        read_project(served.board.file.path)


def damaged(by: random.Random) -> bytes:
    """Return a picture or PDF with bytes changed, lost, doubled or put in."""
    data = bytearray(by.choice((scan(40, 30), photo(400, 300, 6), webp(b"VP8X", bytes(10)), pdf(2))))
    for _ in range(by.randrange(6)):
        at = by.randrange(len(data))
        match by.randrange(4):
            case 0:
                data[at] = by.randrange(256)
            case 1:
                del data[at : at + by.randrange(1, 40)]
            case 2:
                data[at:at] = data[at // 2 : at]
            case _:
                data[at : at + 4] = by.choice((b"\xff\xff\xff\xff", b"\0\0\0\0", b"9999", b"<<>>", b"\x7f\xff\xff\xff"))
        if not data:
            break
    return bytes(data)


@pytest.mark.parametrize("number", long_save((12, 250), 12))
def test_pictures_that_are_damaged_and_odd_things_asked_of_them_break_nothing(served: Served, number: int) -> None:
    by, board = random.Random(number), served.board
    requests = Requests(board, by)
    for _ in range(number):
        status, told = send(served, damaged(by))
        assert (status, "underlay" in told) == (200, True)
        made = requests.meant(by.choice(get_args(PictureRequest)))
        made["story"] = "ground"
        if "source" in made:
            made["source"] = next((one["number"] for one in told["underlay"]["sources"]), 1)
        if by.random() < 0.5:
            requests.spoil(made)
        status, body, _ = ask(served, f"/{served.token}/underlay", "POST", as_sent(made), **own(served))
        assert status in (200, 400), made
        assert json.loads(body)
        assert served.board.underlays.problem == ""
    assert board.file.path.read_text(encoding="utf-8") == SKETCH
