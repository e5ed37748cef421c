"""The board behind the page: what it lets in, what it writes, and that nothing of a person's file is lost."""

from __future__ import annotations

import gc
import http.client
import json
import shutil
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from precheck.board.asked import REQUEST
from precheck.board.board import HANDOUTS, HouseBoard
from precheck.board.server import Served, page_files
from precheck.board.sketch import Footprint, beside, drawn_as, middle_on, nearest_wall, point_on
from precheck.board.worker import Worker
from precheck.files.source import read_text
from precheck.runs.desk import Desk, Run
from precheck.units import Length

EXAMPLES = Path(__file__).parent.parent / "examples"
BIG = EXAMPLES / "alder-court" / "proposed.yaml"
SKETCH = """\
# my own remark
project: Mill Lane
jurisdiction: irc-2021
applied on: 2026-03-02
stories: [{id: ground, level: ground, phase: existing}]
spaces:
  - {id: hall, phase: existing, use: hall, story: ground, rectangle: {at: [0 ft, 0 ft], width: 6 ft, depth: 14 ft}}
  - id: suite   # was the garage
    phase: altered
    use: bedroom
    was: garage
    story: ground
    rectangle: {at: [6'-4 1/2", 0 ft], width: 12 ft, depth: 14 ft}
windows:
  - {id: W1, phase: new, space: suite, sill height: 46 in, unit size: 3'-0" x 4'-0", middle: [12 ft, 0 ft]}
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "house.yaml"
    path.write_text(SKETCH, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> HouseBoard:
    """A board of which tests take another file in turn: what it knows of rulesets is read once."""
    return HouseBoard(tmp_path_factory.mktemp("board") / "none.yaml", Desk(Run()))


@pytest.fixture
def board(shared: HouseBoard, file: Path) -> HouseBoard:
    found = HouseBoard(file, shared.desk)
    found.state()
    return found


def do(board: HouseBoard, **asked: Any) -> dict[str, Any]:
    return board.do(REQUEST.validate_python(asked))


def test_a_value_is_written_where_it_stands_and_undone_byte_for_byte(board: HouseBoard, file: Path) -> None:
    found = do(board, do="set", part="W1", key="sill height", value="40 in")
    assert "refused" not in found
    assert file.read_text(encoding="utf-8") == SKETCH.replace("sill height: 46 in", "sill height: 40 in")
    assert found["undo"] == "sill height of window W1"
    assert any("window W1" in line for line in found["changed"])
    back = do(board, do="undo")
    assert file.read_text(encoding="utf-8") == SKETCH
    assert (back["undo"], back["redo"]) == ("", "sill height of window W1")
    do(board, do="redo")
    assert "sill height: 40 in" in file.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("sill height", "banana", "banana"),
        ("sill height", "44", "44"),
        ("operation", "revolving", "is none of"),
        ("colour", "red", "has no value"),
    ],
)
def test_what_is_no_value_is_refused_in_words_and_not_written(
    board: HouseBoard, file: Path, key: str, value: str, says: str
) -> None:
    found = do(board, do="set", part="W1", key=key, value=value)
    assert says in found["refused"]
    assert file.read_text(encoding="utf-8") == SKETCH


def test_a_change_elsewhere_is_told_and_never_overwritten(board: HouseBoard, file: Path) -> None:
    do(board, do="set", part="W1", key="sill height", value="40 in")
    theirs = SKETCH.replace("Mill Lane", "Mill Lane, my version")
    file.write_text(theirs, encoding="utf-8")
    found = do(board, do="set", part="W1", key="sill height", value="38 in")
    assert "changed elsewhere" in found["refused"]
    assert file.read_text(encoding="utf-8") == theirs
    assert found["name"] == "Mill Lane, my version"
    assert found["undo"] == ""  # going back would take their change away


def test_a_file_broken_elsewhere_keeps_the_last_picture_and_names_the_line(board: HouseBoard, file: Path) -> None:
    before = board.state()
    file.write_text(SKETCH + "doors: [\n", encoding="utf-8")
    found = board.state(before["revision"])
    assert found["plan"] == before["plan"]
    assert any("house.yaml:" in problem for problem in found["problems"])
    assert "refused" in do(board, do="set", part="W1", key="sill height", value="40 in")
    file.write_text(SKETCH, encoding="utf-8")
    assert board.state(found["revision"])["problems"] == []


def test_a_file_that_is_taken_away_is_told_and_shown_again_when_it_is_back(board: HouseBoard, file: Path) -> None:
    before = board.state()
    file.unlink()
    found = board.state(before["revision"])
    assert found["there"]
    assert found["plan"] == before["plan"]
    assert "the file is gone" in found["problems"][0]
    assert "refused" in do(board, do="set", part="W1", key="sill height", value="40 in")
    assert not file.exists()
    file.write_text(SKETCH, encoding="utf-8")
    assert board.state(found["revision"])["problems"] == []


def test_what_may_stand_today_is_not_taken_out_of_the_file_unasked(board: HouseBoard, file: Path) -> None:
    file.write_text(SKETCH.replace("id: W1, phase: new,", "id: W1,"), encoding="utf-8")
    board.state()
    assert "existing" in do(board, do="take out", part="W1")["refused"]
    assert "W1" in file.read_text(encoding="utf-8")


def test_the_page_is_told_nothing_new_while_nothing_changed(board: HouseBoard) -> None:
    known = board.state()["revision"]
    assert board.state(known) == {"revision": known}


def test_two_boards_on_one_file_take_turns(shared: HouseBoard, board: HouseBoard, file: Path) -> None:
    other = HouseBoard(file, shared.desk)
    other.state()
    do(board, do="set", part="W1", key="sill height", value="40 in")
    assert "changed elsewhere" in do(other, do="set", part="W1", key="operation", value="casement")["refused"]
    assert "refused" not in do(other, do="set", part="W1", key="operation", value="casement")
    text = file.read_text(encoding="utf-8")
    assert "sill height: 40 in" in text
    assert "operation: casement" in text


def test_a_room_beside_another_stands_a_wall_away(board: HouseBoard, file: Path) -> None:
    found = do(
        board, do="room", name="Bath", use="bathroom", phase="new", size="5 ft x 8 ft", beside="suite", side="east"
    )
    assert "refused" not in found
    bath = next(room for room in found["plan"]["rooms"] if room["id"] == "bath")
    assert bath["outline"][0] == [18 * 12 + 4.5 + 4.5, 0]
    assert bath["story"] == "ground"
    assert "fits" not in found["verdict"]
    assert not any(item["label"].lower().startswith("space suite and space bath") for item in found["items"])


def test_a_wall_that_moves_takes_its_windows_with_it(board: HouseBoard) -> None:
    found = do(board, do="shape", part="suite", size="14 ft x 14 ft")
    window = next(one for one in found["plan"]["openings"] if one["id"] == "W1")
    assert window["middle"] == [144, 0]  # as far from the nearer corner as before
    found = do(board, do="shape", part="suite", at=[76.5, -24])
    window = next(one for one in found["plan"]["openings"] if one["id"] == "W1")
    assert window["middle"] == [144, -24]


def test_a_door_knows_the_room_beyond_its_wall(board: HouseBoard, file: Path) -> None:
    do(
        board,
        do="opening",
        kind="door",
        room="suite",
        wall=3,
        distance="12 in",
        size="2'-8\" x 6'-8\"",
        operation="side-hinged",
    )
    assert "between: [suite, hall]" in file.read_text(encoding="utf-8")
    do(board, do="opening", kind="door", room="suite", wall=1, distance="12 in", size="3'-0\" x 6'-8\"")
    assert "between: [suite, outside]" in file.read_text(encoding="utf-8")


def test_an_opening_that_does_not_fit_its_wall_is_refused(board: HouseBoard, file: Path) -> None:
    found = do(board, do="opening", kind="window", room="hall", wall=0, distance="4 ft", size="3'-0\" x 4'-0\"")
    assert "the wall is 6 ft long" in found["refused"]
    assert file.read_text(encoding="utf-8") == SKETCH


def test_a_thing_stands_as_far_from_two_walls_as_typed(board: HouseBoard, file: Path) -> None:
    put = {"do": "put", "section": "receptacles", "room": "suite"}
    found = do(board, **put, from_west="4 ft", from_south="0 in")
    assert "refused" not in found
    assert next(one["at"] for one in found["plan"]["points"]) == [76.5 + 48, 0]
    assert (
        "is not in suite, which is 12 ft x 14 ft" in do(board, **put, from_west="13 ft", from_south="0 in")["refused"]
    )
    short = do(board, **put, from_west="4 ft", from_south="3")
    assert (short["typed"], short["meant"]) == ("3", ["3'-0\""])  # which of the two is to be shown in full
    assert "type how far" in do(board, **put)["refused"]


def test_what_is_no_longer_all_drawn_is_not_drawn_yet_rather_than_none(board: HouseBoard, file: Path) -> None:
    do(board, do="drawn", story="ground", what=["doors", "windows"])
    assert "drawn: [doors, windows]" in file.read_text(encoding="utf-8")
    do(board, do="drawn", story="ground", what=[])
    assert "drawn: []" in file.read_text(encoding="utf-8")


def test_what_was_only_drawn_leaves_the_file_and_what_stands_is_marked(board: HouseBoard, file: Path) -> None:
    assert "refused" not in do(board, do="take out", part="W1")
    assert "W1" not in file.read_text(encoding="utf-8")
    do(board, do="take out", part="hall")
    assert "phase: removed" in file.read_text(encoding="utf-8")


def test_every_question_of_every_example_can_be_put(shared: HouseBoard, tmp_path: Path) -> None:
    asked = 0
    for example in sorted(EXAMPLES.rglob("*.yaml")):
        copy = tmp_path / f"{example.parent.name}-{example.name}"
        shutil.copy(example, copy)
        board = HouseBoard(copy, shared.desk)
        state = board.state()
        if "plan" not in state:
            continue
        for item in state["items"]:
            asked += len(board.asks(item["key"])["asks"])
        for part in ["", *state["parts"]]:
            form = board.form(part)
            assert form["label"]
            json.dumps(form)
    assert asked > 50


def test_an_answer_settles_its_item_and_is_in_the_file(board: HouseBoard, file: Path) -> None:
    state = board.state()
    item = next(one for one in state["items"] if "ceiling height" in " ".join(one["wants"]))
    number = next(ask["need"] for ask in board.asks(item["key"])["asks"] if "ceiling height" in ask["asked"])
    found = do(board, do="answer", item=item["key"], need=number, value="8 ft")
    assert "refused" not in found
    assert "height: 8 ft" in file.read_text(encoding="utf-8")
    again = do(board, do="answer", item=item["key"], need=number, value="9 ft")
    assert "meantime" in again["refused"]


def test_what_takes_more_than_one_value_is_typed_into_fields_and_no_example_is_taken(
    board: HouseBoard, file: Path
) -> None:
    asks = [(item["key"], ask) for item in board.state()["items"] for ask in board.asks(item["key"])["asks"]]
    key, ask = next((key, ask) for key, ask in asks if ask["parts"])
    before = file.read_text(encoding="utf-8")
    assert "nothing is typed" in do(board, do="answer", item=key, need=ask["need"])["refused"]
    assert file.read_text(encoding="utf-8") == before


def test_every_example_line_that_has_fields_gives_a_file_that_reads(board: HouseBoard, file: Path) -> None:
    tried = 0
    for item in board.state()["items"]:
        for ask in board.asks(item["key"])["asks"]:
            if not ask["parts"]:
                continue
            values = {
                f"{n}/{field['label']}": field["choices"][0] if field["choices"] else field["example"]
                for n, part in enumerate(ask["parts"])
                for field in part["fields"]
            }
            found = do(board, do="answer", item=item["key"], need=ask["need"], values=values)
            assert found.get("refused", "") == "", ask
            do(board, do="undo")
            assert file.read_text(encoding="utf-8") == SKETCH
            tried += 1
    assert tried > 2


def test_what_is_not_in_the_job_is_said_with_the_reason_and_asked_no_more(board: HouseBoard, file: Path) -> None:
    asks = [ask for item in board.state()["items"] for ask in board.asks(item["key"])["asks"] if ask["rule_out"]]
    what = asks[0]["rule_out"]
    assert "say what" in do(board, do="rule out", what=what, why=" ")["refused"]
    found = do(board, do="rule out", what=what, why="the old one stays")
    assert "refused" not in found
    assert "why: the old one stays" in file.read_text(encoding="utf-8")
    left = [ask["rule_out"] for item in found["items"] for ask in board.asks(item["key"])["asks"]]
    assert what not in left


def test_a_remedy_that_is_a_value_is_one_button(board: HouseBoard, file: Path) -> None:
    item = next(one for one in board.state()["items"] if board.asks(one["key"])["apply"])
    assert item["label"] == "Window W1"
    found = do(board, do="apply", item=item["key"])
    assert "refused" not in found
    assert not any(one["label"] == "Window W1" and one["group"] == "fail" for one in found["items"])
    assert "sill height: 44 in" in file.read_text(encoding="utf-8")
    assert "meantime" in do(board, do="apply", item=item["key"])["refused"]


def test_handouts_are_pages_of_their_own_on_which_names_are_text(board: HouseBoard, file: Path) -> None:
    file.write_text(SKETCH.replace("Mill Lane", "Mill <img src=x onerror=alert(1)> Lane"), encoding="utf-8")
    board.state()
    for name in HANDOUTS:
        page = board.handout(name)
        assert page is not None
        assert "<img" not in page
        assert "&lt;img" in page
    assert board.handout("../board") is None


def test_the_letter_of_the_town_is_kept_beside_the_file_and_answered_by_its_numbers(
    board: HouseBoard, file: Path
) -> None:
    assert board.town_letter() == {"text": "", "items": []}
    do(board, do="letter", text="1. Sill of window W1 is too high, R310.2.3\n2. Provide a permit.")
    items = board.town_letter()["items"]
    assert [(item["number"], item["open"]) for item in items] == [("1", True), ("2", None)]
    assert "no item 9" in do(board, do="answer letter", item="9", answer="x")["refused"]
    do(board, do="answer letter", item="1", answer="Lowered: see A3")
    do(board, do="set", part="W1", key="sill height", value="40 in")
    item = board.town_letter()["items"][0]
    assert (item["open"], item["answer"]) == (False, "Lowered: see A3")
    page = board.handout("letter")
    assert page is not None
    assert "Lowered: see A3" in page
    text = board.handout("letter.txt") or ""
    assert "Lowered: see A3" in text
    assert not any(mark in text for mark in ("**", "\\", "<p>", "\n# "))
    assert file.read_text(encoding="utf-8") == SKETCH.replace("46 in", "40 in")


def test_a_new_job_begins_with_a_file_that_is_not_ready(shared: HouseBoard, tmp_path: Path) -> None:
    board = HouseBoard(tmp_path / "new.yaml", shared.desk)
    assert "begin" in board.state()
    answers = {"do": "begin", "name": "9 Fern Walk", "where": "irc-2021", "applied_on": "3/2/2026", "kind": "garage to room",
               "room": "bedroom", "outside_of_job": ["plumbing"]}  # fmt: skip
    found = do(board, **answers)
    assert "refused" not in found
    assert not found["ready"]
    text = (tmp_path / "new.yaml").read_text(encoding="utf-8")
    assert "what: plumbing" in text
    assert {one["id"] for one in found["plan"]["loose"]} == {"house", "new-room"}
    assert "already" in do(board, **answers)["refused"]
    assert (tmp_path / "new.yaml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"name": " "}, "name"),
        ({"where": "Atlantis"}, "nor of its state"),
        ({"applied_on": "some day"}, "not a date"),
        ({"kind": "castle"}, "kind of job"),
    ],
)
def test_what_cannot_begin_a_job_is_refused(
    shared: HouseBoard, tmp_path: Path, given: dict[str, str], says: str
) -> None:
    board = HouseBoard(tmp_path / "new.yaml", shared.desk)
    answers = {"do": "begin", "name": "A", "where": "irc-2021", "applied_on": "2026-03-02", "kind": "deck"}
    assert says in do(board, **answers | given)["refused"]
    assert not (tmp_path / "new.yaml").exists()


@pytest.mark.parametrize("inches", [0, 0.5, 11.9375, 12, 12.5, -8, -18.25, 144, 149.0625])
def test_lengths_are_written_so_that_they_read_back_the_same(inches: float) -> None:
    told = drawn_as(inches)
    assert float(Length.parse(told).n) / float(Length.parse("1 in").n) == inches
    assert read_text(f"a: [{told}]\n", "")["a"] == [told]


def test_rooms_are_put_on_each_side() -> None:
    room = Footprint(10, 20, 100, 50)
    assert beside(room, "east", 30, 40, 4.5) == (114.5, 20, 30, 40)
    assert beside(room, "west", 30, 40, 4.5) == (-24.5, 20, 30, 40)
    assert beside(room, "north", 30, 40, 4.5) == (10, 74.5, 30, 40)
    assert beside(room, "south", 30, 40, 4.5) == (10, -24.5, 30, 40)


def test_a_distance_runs_from_either_corner_to_the_nearer_jamb() -> None:
    outline = [(0.0, 0.0), (120.0, 0.0), (120.0, 96.0), (0.0, 96.0)]
    for wall, from_end, at in ((0, False, (30, 0)), (0, True, (90, 0)), (1, False, (120, 30))):
        place = middle_on(outline, wall, 12, 36, from_end)
        assert point_on(outline, place) == at
        assert nearest_wall(outline, at) == place


NAMES = st.sampled_from(["hall", "suite", "W1", "bath", "D1", "", "nobody", "ground"])
SIZES = st.sampled_from(
    ["12' x 14'", "12 x 14", "3 x", "0 x 5 ft", "3068", "1000 ft x 2 ft", "4 ft x 4 ft", "-3 ft x 4 ft", "a x b"]
)
TEXTS = st.text(max_size=12) | st.sampled_from(
    ["40 in", "8 ft", "{a: [", "x: y", "# no", "casement", "removed", "- 1", "'"]
)
KEYS = st.sampled_from(
    ["sill height", "use", "phase", "name", "story", "ceiling height", "between", "nothing", "operation"]
)
INCHES = st.floats(-2000, 2000)
REQUESTS = st.one_of(
    st.fixed_dictionaries({"do": st.just("set"), "part": NAMES, "key": KEYS, "value": TEXTS}),
    st.fixed_dictionaries(
        {"do": st.just("room"), "use": st.sampled_from(["bathroom", "deck", "cave", ""]), "name": TEXTS, "phase": st.just("new"),
         "size": SIZES, "beside": NAMES, "side": st.sampled_from(["east", "west"])}
    ),
    st.fixed_dictionaries({"do": st.just("shape"), "part": NAMES, "size": SIZES | st.just(""), "at": st.tuples(INCHES, INCHES)}),
    st.fixed_dictionaries(
        {"do": st.just("opening"), "kind": st.sampled_from(["door", "window"]), "room": NAMES, "wall": st.integers(0, 5),
         "distance": TEXTS | st.just("2 ft"), "size": SIZES, "from_end": st.booleans()}
    ),
    st.fixed_dictionaries({"do": st.just("slide"), "part": NAMES, "middle": st.tuples(INCHES, INCHES)}),
    st.fixed_dictionaries(
        {"do": st.just("put"), "section": st.sampled_from(["alarms", "lights", "receptacles", "fixtures"]),
         "what": st.sampled_from(["", "toilet", "smoke", "<b>"]), "room": NAMES, "at": st.tuples(INCHES, INCHES)}
    ),
    st.fixed_dictionaries({"do": st.just("take out"), "part": NAMES}),
    st.fixed_dictionaries({"do": st.just("rule out"), "what": TEXTS, "why": TEXTS}),
    st.fixed_dictionaries({"do": st.just("drawn"), "story": NAMES, "what": st.just(["rooms"])}),
)  # fmt: skip


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(REQUESTS, min_size=1, max_size=5))
def test_whatever_the_page_asks_for_the_file_stays_readable_and_undo_leads_back(
    shared: HouseBoard, tmp_path: Path, requests: list[dict[str, Any]]
) -> None:
    path = tmp_path / "any.yaml"
    path.write_text(SKETCH, encoding="utf-8")
    board = HouseBoard(path, shared.desk)
    for asked in requests:
        found = do(board, **asked)
        assert found["problems"] == [], asked
        read_text(path.read_text(encoding="utf-8"), "")
        json.dumps(found)
    while board.file.done:
        assert "refused" not in do(board, do="undo")
    assert path.read_text(encoding="utf-8") == SKETCH


# ---- The server and its gate ----------------------------------------------------------------------------------------


@contextmanager
def running(served: Served) -> Iterator[None]:
    """Let a board answer in a thread of its own, which ends with what is done meanwhile."""
    thread = threading.Thread(target=served.run, daemon=True)
    thread.start()
    yield
    served.stop()
    thread.join(timeout=20)
    assert not thread.is_alive()


@pytest.fixture
def served(tmp_path: Path, shared: HouseBoard) -> Iterator[Served]:
    path = tmp_path / "served.yaml"
    path.write_text(SKETCH, encoding="utf-8")
    found = Served(HouseBoard(path, shared.desk))
    with running(found):
        yield found


def ask(
    served: Served, path: str, method: str = "GET", body: bytes | None = None, **headers: str
) -> tuple[int, bytes, dict[str, str]]:
    given = {"Host": f"127.0.0.1:{served.port}", **{key.replace("_", "-"): value for key, value in headers.items()}}
    with closing(http.client.HTTPConnection("127.0.0.1", served.port, timeout=30)) as connection:
        connection.request(method, path, body, given)
        answer = connection.getresponse()
        return answer.status, answer.read(), {key.lower(): value for key, value in answer.getheaders()}


def test_the_page_and_its_state_are_served_under_the_secret(served: Served) -> None:
    status, body, headers = ask(served, f"/{served.token}/")
    assert status == 200
    assert b"<title>" in body
    assert "default-src 'none'" in headers["content-security-policy"]
    assert headers["cache-control"] == "no-store"
    status, body, _ = ask(served, f"/{served.token}/state")
    assert json.loads(body)["name"] == "Mill Lane"


@pytest.mark.parametrize(
    ("path", "headers", "status"),
    [
        ("/{token}/", {"Host": "evil.example"}, 421),
        ("/{token}/", {"Host": "127.0.0.1:1"}, 421),
        ("/", {}, 404),
        ("/wrong/", {}, 404),
        ("/{token}x/state", {}, 404),
        ("/{token}/../board.py", {}, 404),
        ("/{token}/%2e%2e%2fboard.py", {}, 404),
        ("/{token}/..%5cboard.py", {}, 404),
    ],
)
def test_nobody_else_is_let_in(served: Served, path: str, headers: dict[str, str], status: int) -> None:
    found, body, _ = ask(served, path.format(token=served.token), **headers)
    assert found == status
    assert b"Mill Lane" not in body


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 403),
        ({"Origin": "http://evil.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Origin": "own", "Sec_Fetch_Site": "cross-site"}, 403),
        ({"Origin": "own", "Content_Type": "text/plain"}, 415),
        ({"Origin": "own", "Content_Type": "application/json", "Content_Length": "9999999"}, 413),
    ],
)
def test_only_the_page_itself_changes_anything(served: Served, headers: dict[str, str], status: int) -> None:
    given = {"Content_Type": "application/json", **headers}
    if given.get("Origin") == "own":
        given["Origin"] = f"http://127.0.0.1:{served.port}"
    body = json.dumps({"do": "set", "part": "W1", "key": "sill height", "value": "40 in"}).encode()
    found, _, _ = ask(served, f"/{served.token}/do", "POST", body if status != 413 else b"x", **given)
    assert found == status
    assert served.board.file.path.read_text(encoding="utf-8") == SKETCH


def test_a_change_from_the_page_is_taken_and_what_is_unknown_is_refused(served: Served) -> None:
    own = {"Origin": f"http://127.0.0.1:{served.port}", "Content_Type": "application/json"}
    body = json.dumps({"do": "set", "part": "W1", "key": "sill height", "value": "40 in"}).encode()
    status, _, _ = ask(served, f"/{served.token}/do", "POST", body, **own)
    assert status == 200
    assert "sill height: 40 in" in served.board.file.path.read_text(encoding="utf-8")
    for bad in (b"{", b"[]", b'{"do": "run", "part": "x"}', b'{"do": "undo", "more": 1}'):
        status, told, _ = ask(served, f"/{served.token}/do", "POST", bad, **own)
        assert (status, "refused" in json.loads(told)) == (400, True)


def test_what_waits_when_the_board_ends_is_let_go() -> None:
    worker = Worker()
    waiting = worker.submit(lambda: 1)
    worker.end()
    assert waiting.cancelled()
    assert worker.submit(lambda: 2).cancelled()


@pytest.mark.long
def test_what_is_used_no_more_is_cleared_away_though_somebody_asks_without_a_pause(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("precheck.board.worker.MOST_LEFT", 2000)
    worker, there = Worker(), []

    def leaves_a_ring() -> None:
        rings: list[list[Any]] = [[] for _ in range(500)]
        for ring in rings:
            ring.append(ring)
        there.append(gc.get_count()[0])

    for _ in range(40):
        worker.submit(leaves_a_ring)
    worker.run(lambda: len(there) < 40)
    assert max(there) < 5000


def test_only_the_files_of_the_page_can_be_loaded() -> None:
    assert {"index.html", "board.css", "main.js", "plan.js"} <= set(page_files())
    assert not any(name.endswith((".py", ".yaml")) for name in page_files())
