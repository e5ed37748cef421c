"""Starting, asking and watching: files that a person wrote keep their words, and nothing that breaks off loses any."""

import difflib
import os
import re
import stat
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given, settings
from hypothesis import strategies as st

from precheck.cli import ask as ask_module
from precheck.cli import cli
from precheck.cli.ask import Session
from precheck.cli.watch import saves, watched
from precheck.files import atomic
from precheck.files.atomic import put
from precheck.files.edit import Change, with_changes
from precheck.files.missing import Need
from precheck.files.record import fields_of
from precheck.files.source import Unusable, read_text
from precheck.project import Project, project_from, read_project
from precheck.questions.addition import ADDITIONS, Addition, choices_for
from precheck.questions.answer import record_type
from precheck.questions.by_hand import BY_HAND
from precheck.questions.question import Question, Questions
from precheck.questions.starter import KINDS, WITH_A_ROOM, Job, project_text
from precheck.reports.order import in_turn
from precheck.runs.desk import Desk, Run
from precheck.survey import House, Works
from precheck.units import Length

MILL_LANE = (Path(__file__).parent / "data" / "mill-lane.yaml").read_text(encoding="utf-8")


def added(before: str, after: str) -> list[str]:
    return [line[2:] for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line.startswith("+ ")]


def taken(before: str, after: str) -> list[str]:
    return [line[2:] for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line.startswith("- ")]


# --- writing a value into a person's file


def test_a_value_goes_in_as_one_line_and_every_other_line_stays() -> None:
    after = with_changes(MILL_LANE, [Change(("windows", 0, "sill above grade"), "40 in")])
    assert added(MILL_LANE, after) == ["    sill above grade: 40 in"]
    assert taken(MILL_LANE, after) == []


def test_spacing_and_comments_that_a_round_trip_would_even_out_stay() -> None:
    text = (
        "project:   x   # the name\n\nspaces:\n-   {id: a,   name: 'A'}   # one\n\n"
        "# about doors\ndoors:\n-   id:   D1 # two\n    between: [a, outside]\n\n# the end\n"
    )
    after = with_changes(text, [Change(("doors", 0, "unit size"), "3'-0\" x 6'-8\"")])
    assert added(text, after) == ["    unit size: 3'-0\" x 6'-8\""]
    assert taken(text, after) == []
    assert after.index("unit size") < after.index("# the end")


def test_a_line_that_waits_as_a_comment_is_filled_in_and_keeps_its_remark() -> None:
    waiting = "  - id: W1\n    # sill height:   # floor to clear opening\n    space: a\n"
    text = f"windows:\n{waiting}  - id: W2\n    # sill height:\n    space: a\n"
    after = with_changes(text, [Change(("windows", 0, "sill height"), "40 in")])
    assert added(text, after) == ["    sill height: 40 in  # floor to clear opening"]
    assert "  - id: W2\n    # sill height:\n" in after


def test_windows_line_ends_stay() -> None:
    text = MILL_LANE.replace("\n", "\r\n")
    after = with_changes(text, [Change(("dwelling", "wiring access"), "no")])
    assert "\n" not in after.replace("\r\n", "")


def test_what_is_not_there_yet_is_made_on_the_way() -> None:
    after = with_changes("project: x\n", [Change(("stairs", 0, "flights", 0, "tread"), "10 in")])
    assert read_text(after, "p") == {"project": "x", "stairs": [{"flights": [{"tread": "10 in"}]}]}


@given(
    st.text(
        st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\u2028\u2029\ufeff"), min_size=1, max_size=60
    )
)
@settings(max_examples=80, deadline=None)
def test_any_text_is_read_back_as_it_was_given(value: str) -> None:
    value = value.strip()
    if value and value[0] not in "[{" and value not in ("~", "null"):
        after = with_changes("project: x\nnote: y\n", [Change(("address",), value)])
        assert read_text(after, "p")["address"] == value
        assert after.startswith("project: x\nnote: y\n")


# --- in one step or not at all


def test_a_write_that_breaks_off_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "house.yaml"
    file.write_text("old", encoding="utf-8")

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(atomic.os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        put(file, [b"new"])
    assert file.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [file]


def test_a_full_disk_leaves_the_old_file(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_text("old", encoding="utf-8")

    def bits() -> Iterator[bytes]:
        yield b"ne"
        raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space left"):
        put(file, bits())
    assert file.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [file]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no named pipes here")
def test_a_pipe_is_written_to_and_stays_a_pipe(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with ThreadPoolExecutor(1) as pool:
        read = pool.submit(pipe.read_bytes)
        put(pipe, [b"new", b"er"])
        assert read.result(timeout=10) == b"newer"
    assert pipe.is_fifo()
    assert list(tmp_path.iterdir()) == [pipe]


def test_a_read_only_file_is_not_replaced(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_text("old", encoding="utf-8")
    file.chmod(0o444)
    with pytest.raises(OSError, match="read-only"):
        put(file, [b"new"])
    assert file.read_text(encoding="utf-8") == "old"


def test_permissions_and_links_stay(tmp_path: Path) -> None:
    file, link = tmp_path / "house.yaml", tmp_path / "link.yaml"
    file.write_text("old", encoding="utf-8")
    file.chmod(0o640)
    link.symlink_to(file)
    put(link, [b"new"])
    assert link.is_symlink()
    assert file.read_bytes() == b"new"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640


def test_a_new_file_gets_the_permissions_that_the_person_s_umask_leaves(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        put(tmp_path / "new.yaml", [b"x"])
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "new.yaml").stat().st_mode) == 0o640


# --- start


def start(folder: Path, *answers: str) -> Result:
    return CliRunner().invoke(cli, ["start", str(folder / "house.yaml")], input="\n".join(answers) + "\n")


def test_start_writes_a_project_that_reads_well_and_says_what_was_answered(tmp_path: Path) -> None:
    result = start(
        tmp_path,
        "Mill Lane",
        "irc-2021",
        "2026-03-02",
        "garage to room",
        "bedroom",
        "y",
        "stair, attic storage",
        "y",
        "2",
    )
    assert result.exit_code == 0, result.output
    project = read_project(tmp_path / "house.yaml")
    room = next(space for space in project.spaces if space.id == "new-room")
    assert (room.use, room.was, project.jurisdiction) == ("bedroom", "garage", "irc-2021")
    assert [window.id for window in project.windows] == ["W1", "W2"]
    assert {space.id for space in project.spaces} == {"house", "new-room", "garage", "attic"}
    assert Desk(Run()).review(str(tmp_path / "house.yaml")).verdict == "corrections"


def test_start_asks_again_for_what_it_cannot_take(tmp_path: Path) -> None:
    result = start(tmp_path, "M", "Atlantis", "irc-2021", "soon", "2026-03-02", "roof", "deck", "", "n", "0")
    assert result.exit_code == 0, result.output
    assert "`soon` is not a date" in result.output
    assert read_project(tmp_path / "house.yaml").project == "M"


def test_start_takes_a_place_as_people_write_it_and_says_plainly_what_it_cannot_take(tmp_path: Path) -> None:
    answers = ["  ", "M", "Linden Ford", "City of Linden Ford", "", "Garage conversion", "bedrom", "Master Bedroom", "n",
               "bath, stairway", "Bath, Stairs", "n", "three", "41", "1"]  # fmt: skip
    result = start(tmp_path, *answers)
    assert result.exit_code == 0, result.output
    for told in ("write a few words", "`Linden Ford` is not one of them; did you mean `city-of-linden-ford`?",
                 "`bedrom` is not one of them; did you mean `bedroom`?", "`three` is no number from 0 to 40",
                 "`41` is no number"):  # fmt: skip
        assert told in result.output
    project = read_project(tmp_path / "house.yaml")
    assert project.jurisdiction == "city-of-linden-ford"
    assert project.work == ("garage to room", "bath", "stair")


def test_start_replaces_no_file(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("mine", encoding="utf-8")
    result = start(tmp_path, "M")
    assert "is there already" in str(result.exception)
    assert (tmp_path / "house.yaml").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("kind", KINDS)
def test_the_work_that_a_start_is_told_is_the_work_that_a_check_understands(kind: str) -> None:
    room = "office" if kind in WITH_A_ROOM else ""
    project = project_from(read_text(project_text(Job("x", "irc-2021", "2026-03-02", kind, (), room)), "p.yaml"))
    works = {work.kind for work in Works.of(House(project)).works}
    assert kind in works
    assert works - {kind} <= {"opening made", "new bedroom", "floor over slab"}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("rest", [False, True])
def test_every_start_gives_a_file_whose_commented_keys_are_keys_of_the_model(kind: str, rest: bool) -> None:
    more = ("stair", "attic storage") if rest and kind != "attic to room" else ()
    room = "office" if kind in WITH_A_ROOM else ""
    job = Job("x", "irc-2021", "2026-03-02", kind, more, room, rest and kind == "garage to room", rest, 2 * rest)
    text = project_text(job)
    project = project_from(read_text(text, "p.yaml"))
    worked_on = (*project.spaces, *project.floors, *project.doors, *project.windows, *project.stairs)
    assert [part.label for part in worked_on if not part.sheets] == []
    lines = text.splitlines()
    for number, line in enumerate(lines):
        key, colon, _ = line.strip().removeprefix("# ").partition(":")
        if line.strip().startswith("# ") and colon and len(key) < 24 and line.startswith("    "):
            tried = "\n".join(
                [*lines[:number], f"{line[: len(line) - len(line.lstrip())]}{key}: zzz", *lines[number + 1 :]]
            )
            with pytest.raises(Unusable) as refused:
                project_from(read_text(tried, "p.yaml"))
            assert "is not a key of" not in str(refused.value)


@pytest.mark.parametrize("name", ['a "b" # c: <d>', "дверь ドア", "x" * 10_000, "- [", "yes"])
def test_any_name_is_read_back(name: str) -> None:
    assert project_from(read_text(project_text(Job(name, "irc-2021", "2026-03-02")), "p")).project == name


# --- ask

SMALL = """\
# my house
project: Small
jurisdiction: irc-2021
applied on: 2026-03-02

spaces:
  - {id: bed, use: bedroom, phase: new}   # the room

windows:
  - id: W1    # to the yard
    phase: new
    space: bed
    operation: casement
    net clear opening: 24 in x 40 in
"""


@pytest.fixture
def small(tmp_path: Path) -> Path:
    path = tmp_path / "small.yaml"
    path.write_text(SMALL, encoding="utf-8")
    return path


def ask(file: Path, *answers: str) -> Result:
    return CliRunner().invoke(cli, ["ask", str(file)], input="".join(f"{answer}\n" for answer in answers))


def until(file: Path, wanted: str, *answers: str) -> Result:
    """Leave every question before that for `wanted`, and then give `answers`."""
    review = Desk(Run()).review(str(file))
    questions = Questions(review.project)
    left: list[str] = []
    for need, _ in in_turn(review):
        if str(need) == wanted:
            return ask(file, *left, *answers, "stop")
        if question := questions.question(need):
            whole = not question.fields or question.fields[0].required  # one Enter skips it
            left += [""] * (1 if whole else len(question.fields))
    raise AssertionError(f"{wanted} is not asked")


def test_an_answer_goes_into_the_file_and_what_it_settled_is_told(small: Path) -> None:
    result = until(small, "sill height of window W1", "40 in")
    assert result.exit_code == 0, result.output
    assert added(SMALL, small.read_text(encoding="utf-8")) == ["    sill height: 40 in"]
    assert "Sill height: 40 in, 44 in maximum" in " ".join(result.output.split())
    assert "1 answer saved" in result.output


def test_a_list_with_comments_and_both_forms_takes_an_answer(tmp_path: Path) -> None:
    text = (
        "project: P\njurisdiction: irc-2021\napplied on: 2026-03-02\nspaces:\n  # what the job changes\n"
        "  - {id: bedroom, use: bedroom, was: garage, phase: altered}   # the old bay\n  - id: hall\n    use: hall\n"
    )
    file = tmp_path / "house.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + text.encode())
    result = until(file, "ceiling height of space bedroom", "7 ft")
    assert "1 answer saved" in result.output
    written = file.read_bytes().decode()
    assert written == "\ufeff" + text.replace("phase: altered}", "phase: altered, ceiling: {height: 7 ft}}")


def test_an_answer_that_does_not_read_is_not_written_and_is_asked_again(small: Path) -> None:
    result = until(small, "sill height of window W1", "40", "-3 in", "40 in")
    assert "`40` has no unit; write `40 in`" in result.output
    assert result.output.count("Not accepted:") == 2
    assert added(SMALL, small.read_text(encoding="utf-8")) == ["    sill height: 40 in"]


@pytest.mark.parametrize(
    "answer", ["[6 ft", "{a: b", "[,,]", "]", "{", "- x", "a: b: c", "# nothing", "\\", '"', "&a", "!!x y"]
)
def test_no_answer_however_odd_breaks_the_session_or_the_file(small: Path, answer: str) -> None:
    result = until(small, "sill height of window W1", answer)
    assert result.exit_code == 0, result.output
    assert "Not accepted:" in result.output
    assert small.read_text(encoding="utf-8") == SMALL


@pytest.mark.long
def test_answering_everything_by_its_example_comes_to_an_end(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    session = Session(str(small), Desk(Run()))
    told: list[Question] = []
    real = ask_module._hint
    ids = iter(range(1000))

    def hint(question: Question) -> str:
        told.append(question)
        return real(question)

    def prompt(label: str, waiting: object) -> str:
        assert len(told) < 300, "it does not end"
        return f"X{next(ids)}" if label == "id" else told[-1].example

    monkeypatch.setattr(ask_module, "_hint", hint)
    monkeypatch.setattr(ask_module, "_prompt", prompt)
    session.run()
    project = read_project(small)
    assert session.answered > 10
    assert project.windows[0].sill_height == Length.parse("40 in")
    for line in SMALL.splitlines():
        assert line in small.read_text(encoding="utf-8") or line.startswith("  - {id: bed")


def test_a_question_says_unit_example_and_why(small: Path) -> None:
    result = until(small, "sill height of window W1", "?")
    assert "a length with its unit, e.g. 40 in" in result.output
    assert "R310.2.3" in result.output


def test_stopping_keeps_what_was_answered_and_the_next_run_goes_on(small: Path) -> None:
    until(small, "sill height of window W1", "40 in")
    review = Desk(Run()).review(str(small))
    assert "sill height of window W1" not in [str(need) for need, _ in in_turn(review)]
    assert ask(small, "stop").exit_code == 0


def test_the_end_of_input_stops_like_ctrl_c_and_loses_nothing(small: Path) -> None:
    result = ask(small)
    assert result.exit_code == 0, result.output
    assert small.read_text(encoding="utf-8") == SMALL
    assert "0 answers saved" in result.output


def test_what_stops_a_job_is_asked_first_and_all_of_one_part_together(small: Path) -> None:
    ranked = in_turn(Desk(Run()).review(str(small)))
    asked = [{finding.rule.name for finding in found} for _, found in ranked]
    assert "framing.floor-framing" in asked[0] | asked[1]
    flood = next(n for n, names in enumerate(asked) if "flood.hazard" in names)
    assert flood > next(n for n, names in enumerate(asked) if "escape.sill" in names)
    owners = [need.owner for need, _ in ranked if need.owner.startswith(("window", "space"))]
    assert len(owners) > len(set(owners)) == sum(1 for n, one in enumerate(owners) if owners[:n][-1:] != [one])


def test_of_a_window_its_outline_is_asked_before_its_areas(small: Path) -> None:
    small.write_text(
        SMALL.replace("    operation: casement\n    net clear opening: 24 in x 40 in\n", ""), encoding="utf-8"
    )
    keys = [
        need.key.partition(" (")[0] for need, _ in in_turn(Desk(Run()).review(str(small))) if need.owner == "window W1"
    ]
    wanted = ["operation", "net clear opening", "sill height"]
    assert [key for key in keys if key in wanted] == wanted


def test_where_a_file_shows_no_work_the_work_is_asked_before_all_else(small: Path) -> None:
    small.write_text(SMALL.replace("phase: new", "phase: existing"), encoding="utf-8")
    result = ask(small, "Garage conversion, bath", "stop")
    assert "What is being done?" in result.output
    assert read_project(small).work == ("garage to room", "bath")


def test_an_answer_taken_back_is_out_of_the_file_and_asked_anew(small: Path) -> None:
    result = until(small, "sill height of window W1", "46 in", "back", "40 in")
    assert added(SMALL, small.read_text(encoding="utf-8")) == ["    sill height: 40 in"]
    assert result.output.count("window W1: sill height (line") == 2
    assert "1 answer saved" in result.output


def test_a_question_left_can_be_taken_up_again(small: Path) -> None:
    result = until(small, "sill height of window W1", "", "back", "40 in")
    assert added(SMALL, small.read_text(encoding="utf-8")) == ["    sill height: 40 in"]
    assert "1 answer saved" in result.output


def test_after_fifteen_questions_it_shows_how_the_job_stands(small: Path) -> None:
    result = ask(small, *[""] * 200)
    shown = [match.start() for match in re.finditer("THE WORK, as read from the file", result.output)]
    assert len(shown) >= 2
    questions = re.findall(r"\(line \d+; for \d+ checks?\)", " ".join(result.output[: shown[0]].split()))
    assert len(questions) == 15


def test_no_door_between_two_rooms_is_offered_as_the_required_egress_door(small: Path) -> None:
    rooms = SMALL.replace("windows:", "  - {id: hall, use: hall, phase: existing}\n  - {id: p, use: porch, phase: new}\n"
                          "  - {id: g, use: garage, phase: existing}\n\nwindows:")  # fmt: skip
    doors = "".join(
        f"  - {{id: {name}, phase: new, between: [{sides}]{more}}}\n"
        for name, sides, more in (
            ("D1", "hall, bed", ""), ("D2", "hall, outside", ""), ("D3", "hall, p", ""), ("D4", "hall, g", ""),
            ("D5", "g, outside", ", operation: vehicle"),
        )
    )  # fmt: skip
    project = project_from(read_text(f"{rooms}\ndoors:\n{doors}", "p.yaml"))
    offered = [choice.name for choice in choices_for(project, project, "required egress door")]
    assert offered == ["D2", "D3"]


def test_every_need_is_either_asked_or_named_to_be_added_by_hand(small: Path) -> None:
    review = Desk(Run()).review(str(small))
    questions = Questions(review.project)
    result = ask(small)
    told = " ".join(result.output.split())
    for need, _ in in_turn(review):
        assert questions.question(need) is not None or f"- {need}" in told


def test_a_file_that_changed_meanwhile_is_not_overwritten(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = Path.read_bytes
    changed: list[bool] = []

    def read_bytes(path: Path) -> bytes:
        if path == small and changed == []:
            changed.append(True)
        elif path == small and len(changed) == 1:
            changed.append(True)
            small.write_text(SMALL.replace("24 in x 40 in", "30 in x 40 in"), encoding="utf-8")
        return real(path)

    monkeypatch.setattr(Path, "read_bytes", read_bytes)
    result = until(small, "sill height of window W1", "40 in")
    assert "changed in the meantime" in result.output
    assert "30 in x 40 in" in small.read_text(encoding="utf-8")
    assert "sill height" not in small.read_text(encoding="utf-8")


def test_a_read_only_project_is_told_and_stays(small: Path) -> None:
    small.chmod(0o444)
    result = until(small, "sill height of window W1", "40 in")
    assert "cannot be written" in str(result.exception)
    assert small.read_text(encoding="utf-8") == SMALL


# --- watch


def test_watching_tells_what_a_save_changed_in_well_under_a_second(small: Path) -> None:
    turns = iter(range(3))
    texts = [SMALL, SMALL + "    sill height: 50 in\n", SMALL + "    sill height: fifty\n"]

    def saved() -> Iterator[None]:
        for turn in turns:
            small.write_text(texts[turn], encoding="utf-8")
            yield

    desk = Desk(Run())
    desk.review(str(small))
    started = time.perf_counter()
    lines = list(watched(str(small), desk, saved()))
    assert (time.perf_counter() - started) / 3 < 1
    told = "\n".join(lines)
    assert "still open: window W1: escape.sill: was: not shown" in " ".join(told.split())
    assert "small.yaml:15:" in told
    assert "cannot be used yet" in lines[-1]


def test_a_save_is_seen_once_even_where_a_new_file_takes_the_place(small: Path) -> None:
    slept: list[float] = []

    def sleep(seconds: float) -> None:
        slept.append(seconds)
        if len(slept) == 2:
            put(small, [SMALL.encode()])

    turns = saves(small, sleep)
    next(turns)
    assert slept == []
    next(turns)
    assert len(slept) == 2


def test_a_light_that_no_room_has_is_added_as_a_new_part_and_all_else_stays(small: Path) -> None:
    result = until(small, "light of space bed", "new", "surface LED", "yes", "[bed]")
    assert result.exit_code == 0, result.output
    after = small.read_text(encoding="utf-8")
    assert taken(SMALL, after) == []
    assert "{id: LT1, space: bed, phase: new, form: surface LED, wall switch: yes, switched at: [bed]}" in after
    (light,) = read_project(small).lights
    assert (light.id, light.space, light.switched_at) == ("LT1", "bed", ("bed",))
    assert "1 answer saved" in result.output


def test_a_part_to_add_is_left_out_where_nothing_is_said_of_it(small: Path) -> None:
    until(small, "light of space bed", "")
    assert small.read_text(encoding="utf-8") == SMALL


def test_a_new_part_gets_an_id_that_no_part_has(small: Path) -> None:
    small.write_text(SMALL + "\nlights:\n  - {id: LT1, phase: new, over stair: none}   # kept\n", encoding="utf-8")
    until(small, "light of space bed", "new", "", "yes", "")
    after = small.read_text(encoding="utf-8")
    assert "over stair: none}   # kept\n" in after
    assert [light.id for light in read_project(small).lights] == ["LT1", "LT2"]


DOORS = (
    "\ndoors:\n  - {id: D1, phase: new, between: [bed, outside]}\n  - id: D2   # in front\n"
    "    phase: new\n    between: [bed, outside]\n"
)


def test_the_egress_door_is_chosen_and_marked(small: Path) -> None:
    small.write_text(SMALL + DOORS, encoding="utf-8")
    need = "required egress door (mark one `required egress: yes`) of the project"
    result = until(small, need, "D9", "D2")
    assert "Not accepted: `D9` is none of D1, D2" in result.output
    assert added(SMALL + DOORS, small.read_text(encoding="utf-8")) == ["    required egress: yes"]
    assert read_project(small).doors[1].required_egress is True


def test_an_opening_joins_a_braced_line_that_is_there(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = "\nbraced lines:\n  - id: BL1\n    phase: new\n    openings: [W0]   # the old one\n"
    text = SMALL.replace("windows:\n", "windows:\n  - {id: W0, phase: existing, space: bed}\n") + lines
    small.write_text(text, encoding="utf-8")
    monkeypatch.setattr(ask_module, "_prompt", lambda label, _: "BL1" if label == "braced wall line" else "")
    Session(str(small), Desk(Run())).run()
    assert "    openings: [W0, W1]   # the old one\n" in small.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["a, b: {c}", "[x]", "it's #1", 'say "so"'])
def test_an_odd_id_is_written_so_that_it_reads_back(small: Path, name: str) -> None:
    quoted = '"' + name.replace('"', '\\"') + '"'
    small.write_text(
        SMALL.replace("id: bed,", f"id: {quoted},").replace("space: bed", f"space: {quoted}"), encoding="utf-8"
    )
    until(small, f"light of space {name}", "new", "", "yes", "")
    assert read_project(small).lights[0].space == name


def test_what_is_added_by_hand_is_told_with_lines_that_read(small: Path) -> None:
    result = CliRunner().invoke(
        cli, ["ask", str(Path(__file__).parents[1] / "examples/sketch/sketch.yaml")], input="stop\n"
    )
    told = result.output[result.output.index("To add by hand") :]
    lines = told[told.index("      parking stalls:") :].split("\n  - ")[0].split("\n")
    block = [line[6:] for line in lines if line.startswith("      ")]
    project = project_from(read_text("project: p\n" + "\n".join(block) + "\n", "p"))
    assert [stall.phase for stall in project.parking_stalls] == ["removed", "new"]


BASE = """project: p
spaces: [{id: a}, {id: b}]
floors: [{id: f}]
"""


AT_A_PART = (
    ("soil", "footings:\n  - id: X\n"),
    ("was", "spaces:\n  - id: X\n"),
    ("draw", "stories:\n  - id: X\n"),
    ("carries", "members:\n  - id: X\n    role: floor joist\n"),
    ("bears on", "footings: [{id: F1}]\nmembers:\n  - id: X\n    role: post\n"),
    ("beside stairs", "stairs: [{id: S9, between: [a, b]}]\nwindows:\n  - id: X\n    space: a\n"),
    ("safety glazing", "windows:\n  - id: X\n    space: a\n"),
    ("faces", "walls:\n  - id: X\n    between: [a, b]\n"),
)
"""What stands before lines that go to a part that is there, by a key of theirs."""


@pytest.mark.parametrize(("pattern", "text"), BY_HAND)
def test_every_example_of_lines_to_add_is_correct(pattern: str, text: str) -> None:
    named = {"piping": "gas", "outdoor": "back", "beside stairs": "S9", "drawn:": "rooms"}
    said = next((word for mark, word in named.items() if mark in pattern + text), "b")
    lines = text.replace("{id: {id}, bears", "{id: P9, role: post, bears").replace("{id}", "a").replace("{0}", said)
    lines = lines.replace("of: a, line: b", "of: a, line: LX").replace("SPACE, SPACE", "a, b").replace("SPACE", "a")
    before = next(told for key, told in AT_A_PART if key in text) if text.startswith("\n ") else ""
    extra = "lot lines: [{id: LX}]\n" if "line: LX" in lines else ""
    base = "project: p\n" if "\nspaces:" in f"\n{before}{text}" else BASE
    project_from(read_text(base + extra + before + lines + "\n", "p"))


@pytest.mark.parametrize("addition", ADDITIONS, ids=lambda a: f"{a.kind}-{a.section}-{a.key}")
def test_every_part_to_add_has_the_fields_that_it_is_given_and_asked_for(addition: Addition) -> None:
    model = record_type(fields_of(Project)[addition.section.replace(" ", "_")].annotation)
    assert model is not None
    keys = {field.key for field in fields_of(model).values()}
    assert {*addition.known, *addition.asked, "id", "phase"} <= keys
    required = {field.key for field in fields_of(model).values() if field.required}
    assert required <= {*addition.known, *addition.asked, "id"}


# --- questions


def question(text: str, owner: str, key: str) -> tuple[tuple[str | int, ...], tuple[str, ...]] | None:
    project = project_from(read_text(text, "p"))
    found = Questions(project).question(Need(owner, key, None))
    return None if found is None else (found.path, tuple(field.label for field in found.fields))


STAIR = "project: p\nspaces: [{id: a}, {id: b}]\nstairs: [{id: S1, between: [a, b], landings: [{where: top}]}]\n"


@pytest.mark.parametrize(
    ("owner", "key", "path"),
    [
        ("space a", "ceiling height", ("spaces", "a", "ceiling", "height")),
        ("the project", "flood hazard area (of the lot)", ("lot", "flood hazard area")),
        ("the project", "fuel burning appliance of dwelling", ("dwelling", "fuel burning appliance")),
        ("the project", "smoke alarms", ("alarms", 0)),
        ("the project", "list of sheets", ("sheets", 0)),
        ("flight 1 of stair S1", "projection of the nosing", ("stairs", "S1", "flights", 0, "nosing", "projection")),
        ("stair S1", "landing or floor at the bottom", ("stairs", "S1", "landings", 1)),
        ("stair S1", "`total rise: a length`", ("stairs", "S1", "total rise")),
        ("landing 1 of stair S1", "depth", ("stairs", "S1", "landings", 0, "depth")),
        ("space a", "light", ("lights", 0)),
        ("space a", "wall to b", ("walls", 0)),
        ("space a", "insulation of the ceiling", ("assemblies", 0)),
        ("the project", "flashing at windows and doors", ("flashings", 0)),
        ("the jurisdiction's ruleset", "climate zone of the energy chapter", ("design criteria", "climate zone")),
    ],
)
def test_a_need_finds_its_place_in_the_file(owner: str, key: str, path: tuple[str | int, ...]) -> None:
    found = question(STAIR, owner, key)
    assert found is not None
    assert found[0] == path


@pytest.mark.parametrize(
    ("owner", "key"),
    [
        ("the project", "required egress door (mark one `required egress: yes`)"),
        ("the jurisdiction's ruleset", "ground snow load"),
        ("space gone", "area"),
    ],
)
def test_what_no_single_value_says_is_not_asked(owner: str, key: str) -> None:
    assert question(STAIR, owner, key) is None


def test_of_a_part_the_required_values_are_asked_first() -> None:
    found = question(STAIR, "stair S1", "landing or floor at the bottom")
    assert found is not None
    assert found[1][0] == "where"


@pytest.mark.parametrize(
    "command",
    [
        ("check", "{}", "--report", "markdown"),
        ("check", "{}", "{}", "--report", "sarif"),
        ("compare", "{}", "{}"),
        ("papers", "corrections", "{}"),
        ("papers", "response", "{}", "{}", "--blank"),
    ],
)
def test_a_report_never_replaces_a_file_that_it_is_made_from(tmp_path: Path, command: tuple[str, ...]) -> None:
    project = tmp_path / "house.yaml"
    project.write_text(MILL_LANE, encoding="utf-8")
    link = tmp_path / "link.yaml"
    link.symlink_to(project)
    with pytest.raises(Unusable, match=r"link\.yaml:1:1: is a file that the report is made from"):
        CliRunner().invoke(
            cli, [word.format(project) for word in command] + ["--output", str(link)], catch_exceptions=False
        )
    assert project.read_text(encoding="utf-8") == MILL_LANE


def test_a_list_is_answered_as_a_person_writes_it_and_a_wrong_choice_is_asked_again(small: Path) -> None:
    result = until(
        small, "smoke alarms of the project", "SA1", "kitchen", "bed", "soon", "new", "smoke, carbon monoxide"
    )
    assert "Not accepted: `kitchen` is none of" in result.output
    assert "Not accepted: `soon` is none of existing, new, altered, removed" in result.output
    assert "drawn from" not in result.output


def test_the_values_of_a_list_reach_the_file(small: Path) -> None:
    result = until(small, "smoke alarms of the project", "SA1", "bed", "new", "smoke, carbon monoxide", "", "", "", "")
    (alarm,) = read_project(small).alarms
    assert (alarm.id, alarm.detects) == ("SA1", ("smoke", "carbon monoxide")), result.output


def test_what_takes_several_parts_is_asked_part_by_part_and_written_at_once(
    small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A job that closes an overhead door of which nothing is drawn: the door that goes, and the wall in its place."""
    small.write_text(SMALL.replace("project:", "work: [overhead door closed]\nproject:", 1), encoding="utf-8")
    typed = {"phase": iter(["removed", "new"]), "operation": iter(["vehicle"]), "between": iter(["bed, outside"] * 2)}
    real, now = ask_module._asked, [""]

    def asked(question: ask_module.Question | ask_module.PartsToAdd) -> str:
        now[0] = real(question)
        return now[0]

    def prompt(label: str, _: object) -> str:
        return next(typed.get(label, iter(())), "") if now[0] == "wall that closes the opening" else ""

    monkeypatch.setattr(ask_module, "_asked", asked)
    monkeypatch.setattr(ask_module, "_prompt", prompt)
    Session(str(small), Desk(Run())).run()
    project = read_project(small)
    assert [(door.phase, door.operation) for door in project.doors] == [("removed", "vehicle")]
    assert [(wall.phase, wall.opening_filled) for wall in project.walls] == [("new", project.doors[0].id)]
