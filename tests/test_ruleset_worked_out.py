"""What a requirement of a place can look at that no field states: floor with so much height, layers of one material."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck.checks import Outcome
from precheck.cli.schema import schema_of
from precheck.files.missing import is_missing
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.review.run import review
from precheck.rules.line import Line
from precheck.rules.plugins import Offer, Plugins, load_plugins
from precheck.rulesets import Library
from precheck.rulesets.quantity import kinds_of_part, quantity
from precheck.survey import House

HEAD = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\namendments:\n"
ADDED = "  - {add: ash.own.limit, value: %s, measures: a thing, by: O 2, check: {part: %s, when: %s, measure: %s, comparison: minimum}}\n"
RULESETS = Plugins(tuple(Offer(o.plugin, o.distribution, (), o.rulesets) for o in load_plugins().offers))
RIDGE = "profile: [{across: 0 ft, height: 4 ft}, {across: 8 ft, height: 12 ft}, {across: 16 ft, height: 4 ft}]"
VALLEY = "profile: [{across: 0 ft, height: 9 ft}, {across: 8 ft, height: 5 ft}, {across: 16 ft, height: 9 ft}]"
LOFT = "rectangle: {at: [0 ft, 0 ft], width: 16 ft, depth: 10 ft}"


def code_of(tmp_path: Path, part: str, when: str, measure: str, value: str):
    """Return a code with one added requirement."""
    path = tmp_path / "ash.yaml"
    path.write_text(HEAD + ADDED % (value, part, when, measure))
    return Library(RULESETS.rulesets).adopt(str(path))


def outcome(tmp_path: Path, part: str, when: str, measure: str, value: str, project: str) -> Outcome:
    """Return what one added requirement finds on the one part that it is about."""
    text = f"project: P\n{project}\n"
    found = review(project_from(read_text(text, "p.yaml")), code_of(tmp_path, part, when, measure, value), RULESETS)
    (only,) = (one for one in found.findings if not isinstance(one.rule, Line))
    return only.outcome


@pytest.mark.parametrize(
    ("room", "name", "expected"),
    [
        (f"{LOFT}, ceiling: {{{RIDGE}}}", "area at 4 ft of height", "160 sq ft"),
        (f"{LOFT}, ceiling: {{{RIDGE}}}", "area at 6 ft of height", "120 sq ft"),
        (f"{LOFT}, ceiling: {{{RIDGE}}}", "area at 13 ft of height", "0 sq ft"),
        (f"{LOFT}, ceiling: {{{RIDGE}}}", "width at 5 ft of height", "10 ft"),  # its length, which is less than 14 ft
        (f"{LOFT}, ceiling: {{{RIDGE}}}", "width at 8 ft of height", "8 ft"),
        (f"{LOFT}, ceiling: {{{VALLEY}}}", "area at 7 ft of height", "80 sq ft"),
        (f"{LOFT}, ceiling: {{{VALLEY}}}", "width at 7 ft of height", "4 ft"),  # two stretches, each of 4 ft
        (f"{LOFT}, ceiling: {{{VALLEY}}}", "width at 5 ft of height", "10 ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft}}", "area at 7 ft of height", "160 sq ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft}}", "width at 7 ft of height", "10 ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft}}", "area at 8'-1\" of height", "0 sq ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft}}", "width at 9 ft of height", "0 in"),
        (f"{LOFT}, ceiling: {{height: 8 ft, drops: [{{what: duct, clear height: 6 ft, floor under: 20 sq ft}}]}}",
         "area at 7 ft of height", "140 sq ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft, drops: [{{what: beam, clear height: 6 ft, floor under: 20 sq ft}}]}}",
         "area at 7 ft of height", "160 sq ft"),
        (f"{LOFT}, ceiling: {{height: 8 ft, drops: [{{what: duct, clear height: 6 ft}}]}}", "area at 7 ft of height", None),
        (f"{LOFT}, ceiling: {{sloped: yes, height: 8 ft}}", "area at 7 ft of height", None),
        (f"{LOFT}, ceiling: {{sloped: yes, height: 8 ft}}", "width at 7 ft of height", None),
        (LOFT, "area at 7 ft of height", None),
        ("ceiling: {height: 8 ft}", "width at 7 ft of height", None),
        (f"ceiling: {{{RIDGE}}}", "width at 7 ft of height", None),
        ("least width: 9 ft, area: 160 sq ft, ceiling: {height: 8 ft}", "width at 7 ft of height", "9 ft"),
    ],
)  # fmt: skip
def test_floor_is_counted_by_the_height_above_it(room: str, name: str, expected: str | None) -> None:
    house = House(project_from(read_text(f"project: P\nspaces: [{{id: A, {room}}}]\n", "p.yaml")))
    found = quantity(kinds_of_part()["space"], name)
    value = found.read(house, house.project.spaces[0])
    assert is_missing(value) if expected is None else value == found.kind.parse(expected)


def test_a_bedroom_under_a_slope_is_held_to_what_a_place_asks_at_five_feet(tmp_path: Path) -> None:
    rooms = "spaces: [{id: A, phase: new, use: bedroom, %s, ceiling: {%s}}]"
    narrow = RIDGE.replace("16 ft", "12 ft").replace("8 ft, height: 12 ft", "6 ft, height: 8 ft")
    asked = ("space", "{use: bedroom}", "width at 5 ft of height", "10 ft")
    assert outcome(tmp_path, *asked, rooms % (LOFT, RIDGE)) is Outcome.PASS
    assert outcome(tmp_path, *asked, rooms % (LOFT.replace("16 ft", "12 ft"), narrow)) is Outcome.FAIL
    assert outcome(tmp_path, *asked, rooms % (LOFT, "sloped: yes")) is Outcome.NOT_SHOWN


FACE = "spaces: [{id: A}, {id: B}]\nwalls: [{id: W, phase: new, between: [A, B], faces: [{side: A, %s}]}]"
TWO = "layers: [5/8 in gypsum, 1/2 in plywood, 5/8 in gypsum]"


@pytest.mark.parametrize(
    ("when", "measure", "value", "layers", "expected"),
    [
        ("{}", "thickness of gypsum in layers", "1 1/4 in", TWO, Outcome.PASS),
        ("{}", "thickness of gypsum in layers", "1 3/8 in", TWO, Outcome.FAIL),
        ("{}", "thickness of plywood in layers", "1/2 in", TWO, Outcome.PASS),
        ("{}", "thickness of gypsum in layers", "1/2 in", "layers: []", Outcome.FAIL),
        ("{}", "thickness of gypsum in layers", "1/2 in", "side: A", Outcome.NOT_SHOWN),
        ("{}", "thickness of gypsum in layers", "1/2 in", "layers: [{material: gypsum}]", Outcome.NOT_SHOWN),
        ("{type x of gypsum in layers: yes}", "thickness of gypsum in layers", "1 in",
         "layers: [5/8 in Type X gypsum]", Outcome.FAIL),
        ("{type x of gypsum in layers: yes}", "thickness of gypsum in layers", "2 in",
         "layers: [5/8 in Type X gypsum, {material: gypsum, thickness: 1/2 in, type x: no}]", Outcome.DOES_NOT_APPLY),
        ("{type x of gypsum in layers: yes}", "thickness of gypsum in layers", "2 in",
         "layers: [5/8 in gypsum]", Outcome.NOT_SHOWN),
        ("{type x of gypsum in layers: yes}", "thickness of gypsum in layers", "2 in", "layers: []", Outcome.DOES_NOT_APPLY),
    ],
)  # fmt: skip
def test_the_layers_of_one_material_are_taken_together(
    tmp_path: Path, when: str, measure: str, value: str, layers: str, expected: Outcome
) -> None:
    project = FACE % layers if layers != "side: A" else FACE.replace(", %s", "")
    assert outcome(tmp_path, "face", when, measure, value, project) is expected


@pytest.mark.parametrize(
    ("part", "measure"),
    [
        ("space", "area at tall of height"),
        ("space", "area at 7 of height"),
        ("space", "height at 7 ft of height"),
        ("door", "area at 7 ft of height"),
        ("face", "thickness of gypsm in layers"),
        ("face", "thickness of gypsum in layer"),
        ("space", "thickness of gypsum in layers"),
    ],
)
def test_a_name_that_stands_for_nothing_is_refused_at_its_line(tmp_path: Path, part: str, measure: str) -> None:
    with pytest.raises(Unusable) as caught:
        code_of(tmp_path, part, "{}", measure, "1 in")
    assert f"has no `{measure}` that can be looked at" in str(caught.value)
    assert "ash.yaml:6:" in str(caught.value)


def test_a_part_that_names_its_room_looks_at_the_floor_of_that(tmp_path: Path) -> None:
    window = "windows: [{id: V, phase: new, space: A, sill height: 30 in}]"
    project = f"spaces: [{{id: A, {LOFT}, ceiling: {{{RIDGE}}}}}]\n{window}"
    due = ("window", "{area at 6 ft of height of space: {maximum: %s}}", "sill height", "40 in")
    assert outcome(tmp_path, due[0], due[1] % "120 sq ft", *due[2:], project) is Outcome.FAIL
    assert outcome(tmp_path, due[0], due[1] % "119 sq ft", *due[2:], project) is Outcome.DOES_NOT_APPLY


def test_an_editor_takes_these_names_and_no_slips_of_them() -> None:
    from jsonschema import Draft202012Validator

    schema = schema_of("adoption", RULESETS, Library(RULESETS.rulesets))
    head = {"jurisdiction": "A", "adopts": "irc-2021", "in force": "2026-01-01", "by": "O 1"}
    check = {"part": "face", "comparison": "minimum"}
    for name, good in (("thickness of gypsum in layers", True), ("thickness of gypsm in layers", False)):
        added = {"add": "a.b", "value": "1 in", "measures": "m", "by": "O", "check": {**check, "measure": name}}
        problems = list(Draft202012Validator(schema).iter_errors({**head, "amendments": [added]}))
        assert (not problems) is good, name
