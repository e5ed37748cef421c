"""The works that a project holds, and the lines of what they take."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck import Check, House, Work, does_not_apply, line, shown, to_show
from precheck.checks import Outcome
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.review.chosen import chosen_rules
from precheck.review.finding import CORRECTIONS, READY
from precheck.review.run import review
from precheck.rules.plugins import Offer, Plugins, load_plugins
from precheck.rulesets import Library
from precheck.survey import Works

HOUSE = "spaces:\n- {id: hall, phase: existing, use: hall}\n"


def works(text: str) -> list[str]:
    house = House(project_from(read_text(f"project: P\n{text}", "p.yaml")))
    return [work.label for work in Works.of(house).works]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (HOUSE, []),
        (HOUSE + "- {id: a, phase: altered, use: bedroom, was: garage}\n", ["garage to room: space a", "new bedroom: space a"]),
        (HOUSE + "- {id: a, phase: altered, use: office, was: carport}\n", ["carport to room: space a"]),
        (HOUSE + "- {id: a, phase: altered, use: sunroom, was: porch}\n", ["porch to room: space a"]),
        (HOUSE + "- {id: a, phase: altered, use: family room, was: storage, story: b}\nstories: [{id: b, level: basement}]\n",
         ["basement to room: space a"]),
        (HOUSE + "- {id: a, phase: altered, use: office, was: attic}\n", ["attic to room: space a"]),
        (HOUSE + "- {id: a, phase: existing, use: office, was: attic}\n", []),
        (HOUSE + "- {id: a, phase: new, use: family room}\n", ["addition: space a"]),
        (HOUSE + "- {id: a, phase: new, use: family room, story: u}\nstories: [{id: u, level: upper}]\n",
         ["upper addition: space a"]),
        (HOUSE + "- {id: a, phase: new, use: closet}\n- {id: b, phase: altered, use: bedroom}\n", ["new room: space a"]),
        (HOUSE + "- {id: a, phase: new, use: closet, addition: no}\n- {id: b, phase: altered, use: bedroom}\n",
         ["other work: space a"]),
        (HOUSE + "- {id: d, phase: new, use: deck}\n- {id: p, phase: new, use: porch}\n", ["deck: space d", "porch: space p"]),
        (HOUSE + "- {id: c, phase: new, use: carport}\n- {id: g, phase: new, use: garage, detached: yes}\n",
         ["carport: space c", "detached building: space g"]),
        (HOUSE + "- {id: t, phase: new, use: bathroom, was: hall}\n", ["bath: space t"]),
        (HOUSE + "fixtures: [{id: F, phase: new, what: toilet, space: hall}]\n", ["bath: space hall"]),
        (HOUSE + "walls: [{id: W, phase: removed, between: [hall, outside]}]\n", ["wall removed: wall W"]),
        (HOUSE + "windows: [{id: W, phase: new, space: hall}]\n", ["opening made: window W"]),
        (HOUSE + "windows: [{id: W, phase: new, space: hall, replacement: yes}]\n", ["window replaced: window W"]),
        (HOUSE + "windows: [{id: W, phase: altered, space: hall}]\n", ["opening widened: window W"]),
        (HOUSE + "windows: [{id: W, phase: removed, space: hall}]\n", ["opening closed: window W"]),
        (HOUSE + "doors: [{id: D, phase: removed, operation: vehicle, between: [hall, outside]}]\n",
         ["overhead door closed: door D"]),
        (HOUSE + "stairs: [{id: S, phase: new, between: [hall, hall]}]\n", ["stair: stair S"]),
        (HOUSE + "- {id: a, phase: altered, use: attic, attic storage: yes}\n", ["attic storage: space a"]),
        (HOUSE + "floors: [{id: F, phase: new, base: slab, layers: [3/4 in plywood]}]\n", ["floor over slab: floor F"]),
        (HOUSE + "appliances: [{id: A, phase: new, what: mini-split, space: hall}]\n", ["heating or cooling: appliance A"]),
        (HOUSE + "circuits: [{id: C, phase: new}]\n", ["wiring: circuit C"]),
        (HOUSE + "- {id: x, phase: removed, use: porch}\n", ["demolition: space x"]),
        (HOUSE + "claddings: [{id: C, phase: new}]\n", ["other work: cladding C"]),
        ("work: [garage to room]\n" + HOUSE, ["garage to room"]),
        ("work: [Garage conversion, deck]\n" + HOUSE + "- {id: d, phase: new, use: deck}\n", ["garage to room", "deck: space d"]),
    ],
)  # fmt: skip
def test_a_work_is_derived_from_phases_and_uses_or_listed(text, found):
    assert sorted(works(text)) == sorted(found)


def test_rooms_that_one_garage_becomes_are_one_work_and_no_opening_between_them_is_made_in_an_old_wall():
    text = HOUSE + (
        "- {id: bath, phase: new, use: bathroom, was: garage}\n- {id: suite, phase: altered, use: bedroom, was: garage}\n"
        "- {id: rest, phase: altered, use: garage}\ndoors:\n- {id: D1, phase: new, between: [suite, bath]}\n"
        "- {id: D2, phase: new, between: [suite, rest]}\n- {id: D3, phase: new, between: [suite, hall]}\n"
    )
    assert sorted(works(text)) == [
        "bath: space bath", "garage to room: space suite", "new bedroom: space suite", "opening made: door D3",
    ]  # fmt: skip


def test_a_new_house_is_one_work_and_its_rooms_are_no_additions():
    assert works("dwelling: {new house: yes}\nspaces: [{id: a, phase: new, use: kitchen}]\n")[0] == "new house: space a"
    assert "addition: space a" not in works("dwelling: {new house: yes}\nspaces: [{id: a, phase: new, use: kitchen}]\n")


def test_the_order_of_a_file_changes_no_work():
    parts = [
        "- {id: a, phase: new, use: family room}",
        "- {id: b, phase: new, use: deck}",
        "- {id: c, phase: existing, use: hall}",
    ]
    every = {tuple(sorted(works("spaces:\n" + "\n".join(order) + "\n"))) for order in (parts, parts[::-1])}
    assert len(every) == 1


TAKES = """\
topic: demo
trade: structure
takes:
  demo.beam:
    line: beam over the opening
    works: [wall removed]
    show on: framing plan
    asked: first
    firm: yes
    2015: {section: R301.1, memory: no source}
  demo.survey: {line: survey of the lot, works: [addition, wall removed], section: R106, memory: no source}
  demo.soil: {line: soil, works: [wall removed], not checked: a report decides, practice: no source}
"""


@line("demo.beam")
def beam(work: Work, house: House) -> Check:
    """A beam stands in for what a wall carried."""
    wall = work.parts[0] if work.parts else None
    if wall is not None and wall.note == "carries nothing":
        return does_not_apply("the wall carries nothing")
    found = next((member for member in house.project.members if member.phase == "new"), None)
    return shown(found) if found is not None else to_show("beam", work)


@pytest.fixture
def firm(tmp_path: Path):
    path = tmp_path / "codes" / "irc" / "demo.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(TAKES, encoding="utf-8")
    library = Library((tmp_path, *load_plugins().rulesets))
    plugins = Plugins((Offer("demo", "demo 1", (beam,), (), ()),), ())

    def reviewed(text: str):
        project = project_from(read_text(f"project: P\n{text}", "p.yaml"))
        return review(project, library.adopt("irc-2021"), plugins, ["demo"])

    return reviewed


WALL = HOUSE + "walls: [{id: W, phase: removed, between: [hall, outside]}]\n"


def states(found) -> dict[str, str]:
    return {one.name: one.state for work in found.works for one in work.lines}


def test_a_line_is_to_show_until_a_part_serves_and_a_line_of_the_office_until_it_is_listed(firm):
    bare = firm(WALL)
    assert states(bare) == {"demo.beam": "to show", "demo.survey": "to show", "demo.soil": "not checked"}
    assert bare.verdict == CORRECTIONS
    whole = firm(WALL + "members: [{id: B, phase: new, role: beam}]\nsubmittal: {shows: [Survey of the lot]}\n")
    assert states(whole) == {"demo.beam": "shown", "demo.survey": "shown", "demo.soil": "not checked"}
    assert whole.verdict == READY
    (work,) = whole.works
    assert (work.shown, work.of) == (2, 2)
    assert next(one.by for one in work.lines) == "member B"


def test_what_a_very_work_does_not_take_is_no_line_of_it(firm):
    found = firm(WALL.replace("between", "note: carries nothing, between"))
    assert "demo.beam" not in states(found)


def test_a_line_can_be_ruled_out_in_words_but_not_a_firm_one(firm):
    found = firm(
        "not in this job: [{what: structure, why: no wall is touched}, {what: survey of the lot, why: fenced}]\n" + WALL
    )
    assert states(found) == {"demo.beam": "to show", "demo.survey": "ruled out", "demo.soil": "not checked"}
    (failed,) = [one for one in found.findings if one.outcome is Outcome.FAIL]
    assert failed.check.why == "`structure` is said not to be in this job, and wall removed takes it"
    assert found.verdict == CORRECTIONS


def test_a_project_without_work_is_not_ready(firm):
    assert firm(HOUSE).verdict == CORRECTIONS
    assert firm(HOUSE).works == ()


def test_an_office_drops_a_line_and_changes_for_what_it_is_due(tmp_path, firm):
    path = tmp_path / "jurisdictions" / "ash-village" / "2026-01-01.yaml"
    path.parent.mkdir(parents=True)
    head = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\namendments:\n"
    path.write_text(
        head + "  - {delete: demo.beam.works, by: O 2}\n"
        "  - {amend: demo.survey.works, was: [addition, wall removed], to: [addition], by: O 3}\n",
        encoding="utf-8",
    )
    code = Library((tmp_path, *load_plugins().rulesets)).adopt("Ash Village")
    project = project_from(read_text(f"project: P\n{WALL}", "p.yaml"))
    found = review(project, code, Plugins((Offer("demo", "demo 1", (beam,), (), ()),), ()), ["demo"])
    assert states(found) == {"demo.soil": "not checked"}


def test_a_wrong_line_is_told_at_its_place(tmp_path):
    path = tmp_path / "codes" / "irc" / "demo.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(
        "topic: demo\ntakes:\n  demo.a: {line: x, works: [adition], asked: soon, practice: no source}\n  demo.b: 3\n"
        "  demo.c: {line: x, works: [addition], firm: maybe}\n",
        encoding="utf-8",
    )
    with pytest.raises(Unusable) as error:
        Library((tmp_path, *load_plugins().rulesets)).adopt("irc-2021")
    told = [str(problem).partition("demo.yaml:")[2] for problem in error.value.problems]
    assert told == [
        "3:29: no work is called `adition`; did you mean `addition`?".replace("29", "22"),
        "3:41: `asked`",
        "4:3: `demo.b` is no mapping; write {line: ..., works: [...], section: ...}",
    ] or [one.split(":")[0] for one in told] == ["3", "3", "4", "5", "5"]


def test_the_lines_that_a_code_has_are_rules_of_a_run(firm, tmp_path):
    code = Library((tmp_path, *load_plugins().rulesets)).adopt("irc-2021")
    chosen = chosen_rules(code, Plugins((), ()), frozenset(("demo",)))
    assert {rule.name for rule in chosen.rules} == {"demo.beam", "demo.survey"}


def test_a_line_that_breaks_off_is_to_show_and_does_not_break_the_review(tmp_path):
    @line("demo.beam")
    def broken_off(work: Work, house: House) -> Check:
        """A line that fails to run."""
        raise ValueError("no such thing")

    path = tmp_path / "codes" / "irc" / "demo.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(TAKES, encoding="utf-8")
    code = Library((tmp_path, *load_plugins().rulesets)).adopt("irc-2021")
    project = project_from(read_text(f"project: P\n{WALL}", "p.yaml"))
    found = review(project, code, Plugins((Offer("demo", "demo 1", (broken_off,), (), ()),), ()), ["demo"])
    assert states(found)["demo.beam"] == "to show"
