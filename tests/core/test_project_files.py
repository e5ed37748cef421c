"""Project files: what they hold, and the message for each way in which one can be wrong."""

from __future__ import annotations

import ast
import pickle
from copy import deepcopy
from pathlib import Path

import pytest

import precheck.project as project_package
from precheck.files.missing import Missing
from precheck.files.record import walk
from precheck.files.source import Unusable, read_text
from precheck.project import Project, project_from


def project(text: str) -> Project:
    return project_from(read_text(f"project: P\n{text}", "p.yaml"))


def problems(text: str) -> list[str]:
    with pytest.raises(Unusable) as refused:
        project(text)
    return [str(problem) for problem in refused.value.problems]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("aplied on: 2026-03-02", "p.yaml:2:1: `aplied on` is not a key of a project; did you mean `applied on`?"),
        ("applied on: 2026-02-33", "p.yaml:2:1: applied on: `2026-02-33` is not a date; write year-month-day"),
        ("spaces: {id: a}", "p.yaml:2:1: spaces: a list belongs here; begin each space with `- id: ...`"),
        ("spaces: [a]", "p.yaml:2:10: spaces: a space is a mapping; begin it with `id: ...`"),
        ("spaces:\n- use: hall", "p.yaml:3:3: `id` is not given; add a line `id: ...`"),
        ("spaces:\n- id: a\n  widht: 3 ft", "p.yaml:4:3: `widht` is not a key of a space"),
        ("spaces:\n- id: a\n  use: bedrom", "did you mean `bedroom`?"),
        ("spaces:\n- id: a\n  area: 240", "p.yaml:4:3: area: `240` has no unit; write `240 sq ft`"),
        ("spaces:\n- id: a\n  area: 240 ft", "`ft` in `240 ft` is not a unit of area"),
        ("spaces:\n- id: a\n  open sides: two", "open sides: `two` is not a count; write a whole number"),
        ("spaces:\n- id: a\n  open sides: 1_0", "open sides: `1_0` is not a count; write a whole number"),
        ("spaces:\n- id: a\n  open sides: -1", "open sides: `-1` cannot be; write 0 or more"),
        ("spaces:\n- id: a\n  area: 0 sq ft", "area: `0 sq ft` cannot be; a room has a floor area above zero"),
        (
            "spaces:\n- id: a\n  outline: [[0 ft, 0 ft], [40 ft, 0 ft], [10 ft, 20 ft], [40 ft, 28 ft]]",
            "p.yaml:4:3: outline: the side from corner 2 crosses the one from corner 4; write the corners in order",
        ),
        (
            "spaces:\n- id: a\n  outline: [[0 ft, 0 ft], [40 ft, 0 ft], [20 ft, 0 ft]]",
            "outline: the outline encloses nothing",
        ),
        ("spaces:\n- id: a\n  outline: [[0 ft, 0 ft], [40 ft, 0 ft]]", "an outline has three corners or more"),
        ("design criteria: {seismic design category: D}", "write D0, D1 or D2"),
        ("design criteria: {climate zone: 9Q}", "`9Q` is not a climate zone; write its number with its letter"),
        (
            "design criteria: {ultimate wind speed: 300 mph}",
            "`300 mph` cannot be meant, for no job has more than 220 mph",
        ),
        ("design criteria: {wind exposure: Z}", "Write one of: B, C, D"),
        ("spaces:\n- id: a\n  detached: perhaps", "detached: `perhaps` is neither yes nor no; write yes or no"),
        ("spaces:\n- id: a\n  detached: 1", "detached: `1` is neither yes nor no; write yes or no"),
        (
            "spaces:\n- {id: a, rectangle: {at: [6 ft], width: 9 ft, depth: 9 ft}}",
            "at: value 2 of the list is missing; add it",
        ),
        (
            "spaces:\n- {id: a, rectangle: {at: [6 ft, 0 ft, 1 ft], width: 9 ft, depth: 9 ft}}",
            "at: too many values; write 2",
        ),
        ("spaces:\n- id: a\n  ceiling: 8 ft", "ceiling: a mapping of keys to values belongs here"),
        ("spaces:\n- {id: a}\nalarms:\n- {id: A, space: a, detects: [heat]}", "`heat` is not known as detects"),
        ("spaces:\n- id: a\n  ceiling: {heigth: 8 ft}", "`heigth` is not a key of a ceiling; did you mean `height`?"),
        ("spaces:\n- id: a\n  ceiling: {height: 0 in}", "`0 in` cannot be; write a length above zero"),
        ("spaces:\n- id: a\n  ceiling: {height: 8000 ft}", "`8000 ft` cannot be meant, for no job has more than 40 ft"),
        ("spaces:\n- {id: a}\n- {id: a}", "p.yaml:4:4: the id `a` is used twice, first in line 3; change one"),
        ("spaces:\n- {id: outside}", "`outside` stands for the outside of the house; choose another id"),
        ("spaces:\n- {id: hall}\nwindows:\n- {id: W1, space: hal}", "there is no space `hal`; did you mean `hall`?"),
        ("spaces:\n- {id: hall, story: W1}\nwindows:\n- {id: W1, space: hall}", "`W1` is a window; name a story here"),
        (
            "spaces:\n- {id: a}\nwindows:\n- {id: W1, space: a, unit size: 24}",
            "is not a width and a height; write it like",
        ),
        ("floors:\n- {id: F1, layers: [gypsum]}", "is not a thickness and a material; write it like 1/2 in gypsum"),
    ],
)
def test_each_mistake_gets_one_message_with_its_place(text, says):
    (told,) = problems(text)
    assert says in told


def test_all_problems_of_a_file_are_told_in_one_run_in_file_order():
    told = problems(
        "spaces:\n- {id: a, use: bedrom, area: 9}\n- {idd: b}\nwindows:\n- {id: W, space: a, sill height: 3}"
    )
    assert [line.split(":")[1] for line in told] == ["3", "3", "4", "4", "6"]


def test_a_value_that_is_not_given_names_its_part_and_key():
    window = project("spaces:\n- {id: a}\nwindows:\n- {id: W1, space: a, well: {depth: 50 in}}").windows[0]
    assert isinstance(window.sill_height, Missing)
    assert str(window.sill_height.needs[0]) == "sill height of window W1"
    assert str(window.well.ladder.needs[0]) == "ladder of well of window W1"
    assert window.sill_height.needs[0].place == ("p.yaml", 5, 3)


def test_an_empty_value_counts_as_not_given():
    assert isinstance(project("spaces:\n- {id: a, area: ~}").spaces[0].area, Missing)


@pytest.mark.parametrize("flights", ["", ", flights: []", ", flights: ~"])
def test_a_stair_without_flights_is_one_flight(flights):
    stair = project(
        f"spaces: [{{id: a}}, {{id: b}}]\nstairs:\n- {{id: S, between: [a, b], risers: 3{flights}}}"
    ).stairs[0]
    assert stair.flights[0].label == "flight 1 of stair S"
    assert stair.flights[0].place.line == 4


def test_a_record_is_frozen():
    space = project("spaces: [{id: a}]").spaces[0]
    with pytest.raises(Exception, match="frozen"):
        space.id = "b"


@pytest.mark.parametrize("again", [deepcopy, lambda one: pickle.loads(pickle.dumps(one))])
def test_a_record_that_goes_to_another_process_says_the_same(again):
    read = project("spaces: [{id: a, area: 240 sq ft}, {id: b}]\nwalls: [{id: W, between: [a, b], faces: [{side: a}]}]")
    copied = again(read)
    assert [(one.label, one.place, one.model_fields_set) for one in walk(copied)] == [
        (one.label, one.place, one.model_fields_set) for one in walk(read)
    ]
    assert copied.spaces[0].area == read.spaces[0].area
    assert str(copied.walls[0].faces[0].layers) == str(read.walls[0].faces[0].layers)
    assert repr(copied.spaces[1].area) == "Missing(area of space b)"


def test_a_record_has_no_more_than_its_fields():
    assert not hasattr(project("spaces: [{id: a}]").spaces[0], "colour")


def test_choices_of_the_same_words_stand_in_one_order_for_python_takes_the_one_for_the_other():
    orders: dict[frozenset[str], set[str]] = {}
    for file in Path(project_package.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Subscript) and ast.unparse(node.value) == "Literal":
                written = ast.unparse(node.slice).strip("()")
                orders.setdefault(frozenset(written.split(", ")), set()).add(written)
    assert len(orders) > 80
    assert [both for both in orders.values() if len(both) > 1] == []


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", "Дом №5", "x" * 10_000, "a'b\"c`d", "%s {0} {x}"])
def test_a_name_is_only_ever_text(name):
    quoted = name.replace("'", "''")
    assert project(f"spaces:\n- id: '{quoted}'\n").spaces[0].id == name


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("seismic design category: SDC d-2", "D2"), ("seismic design category: d0", "D0"),
        ("climate zone: zone 5a", "5A"), ("climate zone: Marine 4", "4C"), ("climate zone: 4 (Marine)", "4C"),
        ("climate zone: '7'", "7"), ("wind exposure: c", "C"), ("weathering: Severe", "severe"),
        ("termites: Moderate to heavy", "moderate to heavy"),
    ],
)  # fmt: skip
def test_a_design_criterion_is_read_as_the_title_sheet_writes_it(written: str, read: str) -> None:
    criteria = project(f"design criteria: {{{written}}}").design_criteria
    assert getattr(criteria, written.partition(":")[0].replace(" ", "_")) == read


def test_a_name_stands_on_one_line_and_holds_nothing_that_acts_on_a_screen() -> None:
    found = project_from(read_text('project: "X\\n::error::pwned\\u202e\\e[2J"\n', "p.yaml"))
    assert found.project == "X ::error::pwned\N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}[2J"


def test_a_file_name_is_told_on_one_line() -> None:
    with pytest.raises(Unusable) as refused:
        project_from(read_text("projekt: x\n", "a\n::error::b.yaml"))
    assert str(refused.value.problems[0]).startswith("a\\n::error::b.yaml:1:1: ")


@pytest.mark.parametrize("year", ["9" * 60, "19666", "66", "0"])
def test_a_year_that_no_house_was_built_in_is_refused_at_its_line(year: str) -> None:
    with pytest.raises(Unusable) as caught:
        project_from(read_text(f"project: House\ndwelling:\n  year built: {year}\n", "house.yaml"))
    (problem,) = caught.value.problems
    assert problem.place[:2] == ("house.yaml", 3)
    assert problem.what.startswith(f"year built: `{year[:20]}")
    assert "cannot be" in problem.what
    assert len(problem.what) < 200
