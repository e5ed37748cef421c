"""How the board leads a person who builds: the town by its name, what comes next, what a value is, what is not known yet."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from job_files import reviewed
from test_board import SKETCH, board, do, file, shared

from precheck.board.board import HouseBoard
from precheck.board.forms import tool_for
from precheck.board.guide import next_step
from precheck.board.measured import MEASURED, PICTURES
from precheck.board.places import called, ruleset_of
from precheck.board.server import page_files
from precheck.board.typed import MeantError
from precheck.files.missing import Need
from precheck.files.record import Record, fields_of
from precheck.files.source import read_text
from precheck.project import Project, project_from
from precheck.questions.answer import form_of, record_type
from precheck.reports.groups import Group
from precheck.reports.worklist import items_of
from precheck.units import recognize

__all__ = ["board", "file", "shared"]
KNOWN = ("ankeny-iowa", "clive-iowa", "city-of-linden-ford", "maryland", "new-jersey", "irc-2021")


@pytest.mark.parametrize("text", ["City of Linden Ford", "maryland", "Ankeny, Iowa", "irc-2021"])
def test_a_place_that_is_named_in_full_is_taken(text: str) -> None:
    assert ruleset_of(text, KNOWN) in KNOWN


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Linden Ford", ("City of Linden Ford",)),
        ("Ankeny IA", ("Ankeny Iowa",)),
        ("Iowa", ("Ankeny Iowa", "Clive Iowa")),
        ("Cumberland, MD", ("Maryland",)),
        ("Cape May, New Jersey", ("New Jersey",)),
    ],
)
def test_a_town_in_short_or_its_state_is_shown_before_it_is_taken(text: str, meant: tuple[str, ...]) -> None:
    with pytest.raises(MeantError) as told:
        ruleset_of(text, KNOWN)
    assert told.value.meant == meant
    assert all(ruleset_of(one, KNOWN) for one in meant)


@pytest.mark.parametrize("text", ["Nowhere", "Springfield OH", "", "in"])
def test_a_town_of_which_nothing_is_kept_is_refused_with_what_to_do(text: str) -> None:
    with pytest.raises(ValueError, match="choose the code that it uses"):
        ruleset_of(text, KNOWN)


def test_places_are_offered_as_people_write_them() -> None:
    assert called("city-of-linden-ford") == "City of Linden Ford"


def _models() -> dict[type[Record], None]:
    """Return every kind of record that a file may hold."""
    found: dict[type[Record], None] = {}
    waiting: list[type[Record]] = [Project]
    while waiting:
        model = waiting.pop()
        if model not in found:
            found[model] = None
            waiting += [below for f in fields_of(model).values() if (below := record_type(f.annotation)) is not None]
    return found


MODELS = _models()


def _keys() -> dict[str, set[str]]:
    """Return the keys of every kind of record; two kinds may be called alike."""
    keys: dict[str, set[str]] = {}
    for model in MODELS:
        keys.setdefault(model.kind, set()).update(field.key for field in fields_of(model).values())
    return keys


KEYS = _keys()


@pytest.mark.parametrize("name", [name for name in MEASURED if "." in name])
def test_every_value_that_is_explained_is_one_of_the_file(name: str) -> None:
    kind, _, key = name.partition(".")
    assert key in KEYS[kind]


@pytest.mark.parametrize("name", [name for name, one in MEASURED.items() if one.example and "." in name])
def test_what_is_usual_gives_an_example_that_the_file_takes(name: str) -> None:
    """The field is shown with it before anything is typed."""
    kind, _, key = name.partition(".")
    example = MEASURED[name].example
    models = [model for model in MODELS if model.kind == kind]
    field = next(field for model in models for field in fields_of(model).values() if field.key == key)
    form, _, choices = form_of(field.annotation, project_from(read_text("project: p\n", "p")))
    assert choices or not form.endswith("with its unit") or recognize(example) is not None, form


def test_every_picture_that_is_named_is_drawn_and_each_that_is_drawn_is_named() -> None:
    text = page_files()["pictures.js"][1].decode()
    drawn = re.findall(r'^  "?([a-z ]+)"?: \(\) =>', text, re.MULTILINE)
    assert set(drawn) == PICTURES


def test_what_comes_next_is_first_to_draw_and_then_to_answer(shared: HouseBoard, tmp_path: Path) -> None:
    board = HouseBoard(tmp_path / "new.yaml", shared.desk)
    state = do(board, do="begin", name="9 Fern Walk", where="irc-2021", applied_on="2026-03-02", kind="garage to room",
               room="bedroom")  # fmt: skip
    assert state["next"]["choose"] == "house"
    do(board, do="shape", part="house", size="20 ft x 24 ft")
    state = do(board, do="shape", part="new-room", size="12 ft x 14 ft")
    assert state["next"]["tool"] == "room"
    state = do(board, do="drawn", story="ground", what=["rooms"])
    assert state["next"]["tool"] == "door"
    state = do(board, do="drawn", story="ground", what=["rooms", "doors", "windows"])
    assert state["next"]["item"] in {item["key"] for item in state["items"]}


SAID = re.compile(r"(^|: )(say|show|answer yes or no:) .*\.$", re.IGNORECASE)


@pytest.mark.parametrize("path", sorted((Path(__file__).parent / "jobs").glob("*.first.yaml")), ids=lambda p: p.stem)
def test_what_comes_next_is_a_sentence_that_says_what_to_do(path: Path) -> None:
    items = [item for item in items_of(reviewed(path)) if item.group is Group.ADD]
    said = [next_step({"loose": [], "stories": []}, [item], frozenset())["said"] for item in items]
    assert items
    assert [one for one in said if not SAID.search(one)] == []
    assert [one for one in said if "(" in one or ";" in one or "`" in one] == []


def test_of_elevations_that_nobody_names_the_sheet_is_asked_for() -> None:
    """Elevations are a drawing here, not a height."""
    review = reviewed(Path(__file__).parents[1] / "examples/alder-court/proposed.yaml")
    items = [
        item
        for item in items_of(review)
        if item.group is Group.ADD and item.wants[:1] == ("elevations of the outside walls",)
    ]
    assert [next_step({"loose": [], "stories": []}, [one], {})["said"] for one in items] == [
        "Say which sheet shows the elevations of the outside walls."
    ]


def test_what_is_not_known_yet_is_no_answer_and_stands_on_the_sheet_to_find_out(board: HouseBoard, file: Path) -> None:
    state = board.state()
    item = next(one for one in state["items"] if "ceiling height" in " ".join(one["wants"]))
    ask = next(one for one in board.asks(item["key"])["asks"] if "ceiling height" in one["asked"])
    after = do(board, do="later", item=item["key"], need=ask["need"])
    assert after["items"] == state["items"]
    assert file.read_text(encoding="utf-8") == SKETCH
    again = board.asks(item["key"])["asks"]
    assert [one["later"] for one in again if one["need"] == ask["need"]] == ["find out"]
    assert again[-1]["later"]
    assert "ceiling height" in (board.handout("field") or "")
    do(board, do="later", item=item["key"], need=ask["need"], left=False)
    assert not any(one["later"] for one in board.asks(item["key"])["asks"])


def test_what_is_left_to_the_drafter_is_asked_no_more_and_is_nothing_to_find_out(board: HouseBoard, file: Path) -> None:
    """All that an item waits for at once; it stays open in the list."""
    before = board.state()
    key = before["next"]["item"]
    after = do(board, do="later", item=key, to="drafter")
    assert [one["key"] for one in after["items"]] == [one["key"] for one in before["items"]]
    assert after["next"].get("item") != key
    assert {one["later"] for one in board.asks(key)["asks"]} == {"drafter"}
    assert "To find out" not in (board.handout("field") or "")
    assert file.read_text(encoding="utf-8") == SKETCH


def test_one_answer_holds_for_the_other_parts_that_a_person_ticks_and_for_no_other(
    board: HouseBoard, file: Path
) -> None:
    wall = {"kind": "window", "room": "hall", "wall": 3, "size": "3'-0\" x 4'-0\"", "operation": "casement"}
    for distance in ("1 ft", "9 ft"):
        do(board, do="opening", distance=distance, **wall)
    state = board.state()
    waiting = [
        (item, ask)
        for item in state["items"]
        for ask in board.asks(item["key"])["asks"]
        if ask["asked"].endswith("sill height")
    ]
    item, ask = next((item, ask) for item, ask in waiting if ask["alike"])
    other = ask["alike"][0]["id"]
    found = do(board, do="answer", item=item["key"], need=ask["need"], value="36 in", also=[other])
    assert "refused" not in found, found
    assert file.read_text(encoding="utf-8").count("sill height: 36 in") == 2
    assert "refused" in do(board, do="answer", item=item["key"], need=ask["need"], value="36 in", also=["nobody"])


def test_a_window_like_another_takes_its_size_and_make_and_its_own_place(board: HouseBoard, file: Path) -> None:
    first = {"kind": "window", "room": "hall", "wall": 3, "distance": "1 ft"}
    state = do(board, do="opening", **first, size="3'-0\" x 4'-0\"", operation="casement", sill="36 in")
    made = next(one for one in state["parts"] if one.startswith("W") and one not in SKETCH)
    state = do(board, do="opening", **{**first, "distance": "9 ft"}, like=made)
    assert "refused" not in state, state
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if "sill height: 36 in" in line]
    assert len(lines) == 2
    assert all("casement" in line and "3'-0" in line for line in lines)
    assert lines[0] != lines[1]


def test_a_value_of_nobody_who_waits_is_not_on_the_sheet(board: HouseBoard, file: Path) -> None:
    file.with_name("house.to-find-out.json").write_text('{"color of window W9": "find out"}', encoding="utf-8")
    assert "color of window W9" not in (board.handout("field") or "")
    file.with_name("house.to-find-out.json").write_text("{", encoding="utf-8")
    assert board.handout("field")


@pytest.mark.parametrize(
    ("key", "tool"),
    [
        ("egress window or door", "window"),
        ("door or stair on the way out", "door"),
        ("way up (a hatch or stair)", "stair"),
        ("stair (risers, treads, width, headroom, handrail)", "stair"),
        ("exhaust fan (or a window large enough)", "exhaust"),
        ("smoke alarms", "alarm"),
        ("receptacles along its walls", "receptacle"),
        ("header", "beam"),
        ("what becomes of the overhead door", ""),
        ("floor levels at doors", ""),
        ("windows, with their U-factor", ""),
        ("ceiling height", ""),
    ],
)
def test_what_is_to_be_drawn_leads_to_its_tool(key: str, tool: str) -> None:
    assert tool_for(Need("space new-room", key)) == tool


def test_the_first_room_of_an_attic_stands_over_the_house(shared: HouseBoard, tmp_path: Path) -> None:
    board = HouseBoard(tmp_path / "new.yaml", shared.desk)
    do(board, do="begin", name="Attic", where="irc-2021", applied_on="2026-03-02", kind="attic storage")
    do(board, do="shape", part="house", size="24 ft x 28 ft")
    state = do(board, do="shape", part="attic", size="20 ft x 28 ft")
    attic = next(room for room in state["plan"]["rooms"] if room["id"] == "attic")
    assert attic["outline"][0] == [0, 0]
