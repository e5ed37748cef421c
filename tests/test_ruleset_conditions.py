"""When an added requirement is due: by the use of the room that a part belongs to, by what must not be, by any of several."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck.checks import Outcome
from precheck.cli.schema import schema_of
from precheck.files.source import Unusable, read_text
from precheck.project import Section, project_from
from precheck.project.added_field import AddedField
from precheck.review.run import review
from precheck.rules.line import Line
from precheck.rules.plugins import Offer, Plugins, load_plugins
from precheck.rulesets import Library

HEAD = "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: O 1\namendments:\n"
ADDED = "  - {add: ash.own.limit, value: %s, measures: a thing, by: O 2, check: {part: %s, when: %s, %s}}\n"
ROOMS = "spaces: [{id: B, use: bedroom}, {id: L, use: living room}, {id: G, use: garage}, {id: U}]\n"
PASS, FAIL, NOT_DUE, NOT_SHOWN = Outcome.PASS, Outcome.FAIL, Outcome.DOES_NOT_APPLY, Outcome.NOT_SHOWN


def plugins() -> Plugins:
    """Return only what brings the editions, so that no other rule speaks."""
    return Plugins(tuple(Offer(o.plugin, o.distribution, (), o.rulesets) for o in load_plugins().offers))


RULESETS = plugins()


def code_of(tmp_path: Path, part: str, when: str, check: str, value: str):
    """Return a code with one added requirement."""
    path = tmp_path / "ash.yaml"
    path.write_text(HEAD + ADDED % (value, part, when, check))
    return Library(RULESETS.rulesets).adopt(str(path))


def outcome(tmp_path: Path, part: str, when: str, check: str, value: str, project: str) -> Outcome:
    """Return what one added requirement finds in a project with four rooms and one part."""
    code = code_of(tmp_path, part, when, check, value)
    text = f"project: P\n{'' if project.startswith('spaces') else ROOMS}{project}\n"
    (found,) = (
        f
        for f in review(project_from(read_text(text, "p.yaml")), code, RULESETS).findings
        if not isinstance(f.rule, Line)
    )
    return found.outcome


SILL = ("measure: sill height, comparison: maximum", "40 in")


@pytest.mark.parametrize(
    ("when", "space", "expected"),
    [
        ("{use of space: bedroom}", "B", FAIL),
        ("{use of space: bedroom}", "L", NOT_DUE),
        ("{use of space: bedroom}", "U", NOT_SHOWN),
        ("{use of space: {not: bedroom}}", "B", NOT_DUE),
        ("{use of space: {not: [bedroom, garage]}}", "L", FAIL),
        ("{use of space: {not: bedroom}}", "U", NOT_SHOWN),
        ("{any of: [{use of space: bedroom}, {escape: yes}]}", "B", FAIL),
        ("{any of: [{use of space: bedroom}, {operation: fixed}]}", "L", FAIL),
        ("{any of: [{use of space: bedroom}, {operation: slider}]}", "L", NOT_DUE),
        ("{any of: [{use of space: bedroom}, {operation: fixed}]}", "U", FAIL),
        ("{any of: [{use of space: bedroom}, {operation: slider}]}", "U", NOT_SHOWN),
        ("{any of: [{use of space: bedroom, operation: fixed}, {use of space: garage}]}", "B", FAIL),
        ("{any of: [{use of space: bedroom, operation: slider}, {use of space: garage}]}", "B", NOT_DUE),
        ("{operation: fixed, any of: [{use of space: bedroom}, {use of space: garage}]}", "G", FAIL),
        ("{sill height: {minimum: 3 ft, maximum: 5 ft}}", "L", FAIL),
        ("{sill height: {minimum: 3 ft, maximum: 4 ft}}", "L", NOT_DUE),
    ],
)
def test_a_window_is_judged_by_the_use_of_its_room(tmp_path: Path, when: str, space: str, expected: Outcome) -> None:
    window = f"windows: [{{id: W, phase: new, space: {space}, operation: fixed, sill height: 52 in}}]"
    assert outcome(tmp_path, "window", when, *SILL, window) is expected


@pytest.mark.parametrize(
    ("when", "between", "expected"),
    [
        ("{any use of between: garage}", "[B, G]", FAIL),
        ("{any use of between: garage}", "[G, L]", FAIL),
        ("{any use of between: garage}", "[B, L]", NOT_DUE),
        ("{any use of between: garage}", "[G, outside]", FAIL),
        ("{any use of between: garage}", "[B, U]", NOT_SHOWN),
        ("{any use of between: garage, any use of between: bedroom}", "[B, G]", None),
        ("{any use of between: outside}", "[B, outside]", FAIL),
        ("{any use of between: {not: outside}}", "[B, outside]", NOT_DUE),
    ],
)
def test_a_door_is_judged_by_what_it_leads_to(
    tmp_path: Path, when: str, between: str, expected: Outcome | None
) -> None:
    door = f"doors: [{{id: D, phase: new, between: {between}, self closing: no}}]"
    check = ("measure: self closing, comparison: required", "required")
    if expected is None:
        with pytest.raises(Unusable, match="twice"):  # as every key of a file
            outcome(tmp_path, "door", when, *check, door)
        return
    assert outcome(tmp_path, "door", when, *check, door) is expected


@pytest.mark.parametrize(
    ("part", "when", "check", "value", "project", "expected"),
    [
        ("face", "{use of side: garage}", "measure: number of layers, comparison: minimum", "1",
         "walls: [{id: W, phase: new, between: [B, G], faces: [{side: G, layers: []}]}]", FAIL),
        ("face", "{use of side: garage}", "measure: number of layers, comparison: minimum", "1",
         "walls: [{id: W, phase: new, between: [B, G], faces: [{side: B, layers: []}]}]", NOT_DUE),
        ("well", "{use of space of window: bedroom}", "measure: width, comparison: minimum", "4 ft",
         "windows: [{id: W, phase: new, space: B, well: {width: 3 ft}}]", FAIL),
        ("window", "{level of story of space: basement}", *SILL,
         "spaces: [{id: B, story: S}]\nstories: [{id: S, level: basement}]\nwindows: [{id: W, phase: new, space: B, sill height: 52 in}]",
         FAIL),
        ("yard wall", "{material: masonry}", "measure: height, comparison: maximum", "3 ft",
         "yard walls: [{id: F, phase: new, what: fence, material: masonry, height: 4 ft}]", FAIL),
        ("yard wall", "{material: masonry}", "measure: height, comparison: maximum", "3 ft",
         "yard walls: [{id: F, phase: new, what: fence, material: wood, height: 4 ft}]", NOT_DUE),
        ("small work", "{what: fence, material: {not: [wood, vinyl]}}", "measure: height, comparison: maximum", "3 ft",
         "small works: [{id: F, phase: new, what: fence, material: masonry, height: 4 ft}]", FAIL),
        ("space", "{detached: yes, use: {not: [garage, carport]}}", "measure: area, comparison: maximum", "75 sq ft",
         "spaces: [{id: S, phase: new, use: storage, detached: yes, area: 80 sq ft}]", FAIL),
    ],
)  # fmt: skip
def test_other_parts_reach_the_room_or_say_what_they_are_made_of(
    tmp_path: Path, part: str, when: str, check: str, value: str, project: str, expected: Outcome
) -> None:
    assert outcome(tmp_path, part, when, check, value, project) is expected


PAVED = "measure: paved front yard, share of: front yard, comparison: maximum"
BEDROOMS = "measure: bedrooms of dwelling, share of: septic bedrooms, comparison: maximum"


@pytest.mark.parametrize(
    ("check", "value", "project", "expected"),
    [
        (PAVED, "40 %", "lot: {front yard: 1000 sq ft, paved front yard: 400 sq ft}", PASS),
        (PAVED, "40 %", "lot: {front yard: 1000 sq ft, paved front yard: 401 sq ft}", FAIL),
        (PAVED, "40 %", "lot: {front yard: 1000 sq ft}", NOT_SHOWN),
        (PAVED, "40 %", "lot: {paved front yard: 401 sq ft}", NOT_SHOWN),
        (PAVED, "40 %", "lot: {front yard: 0 sq ft, paved front yard: 0 sq ft}", NOT_SHOWN),
        (BEDROOMS, "100 %", "lot: {septic bedrooms: 3}\ndwelling: {bedrooms: 3}", PASS),
        (BEDROOMS, "100 %", "lot: {septic bedrooms: 3}\ndwelling: {bedrooms: 4}", FAIL),
        (BEDROOMS, "100 %", "lot: {septic bedrooms: 0}\ndwelling: {bedrooms: 1}", NOT_SHOWN),
    ],
)
def test_a_measure_is_compared_as_a_share_of_another(
    tmp_path: Path, check: str, value: str, project: str, expected: Outcome
) -> None:
    assert outcome(tmp_path, "lot", "{}", check, value, project) is expected


@pytest.mark.parametrize(
    ("part", "when", "check", "says"),
    [
        ("window", "{use of space: bedrom}", SILL[0], "`bedrom` is not known as use of space; did you mean `bedroom`?"),
        ("window", "{use of spase: bedroom}", SILL[0], "a window has no `use of spase` that can be looked at"),
        ("window", "{use of space: {nott: bedroom}}", SILL[0], "write comparisons, such as"),
        ("window", "{any of: [{escape: yes}]}", SILL[0], "list two or more mappings of conditions"),
        ("window", "{any of: {escape: yes}}", SILL[0], "list two or more mappings of conditions"),
        ("window", "{any of: [{escape: yes}, {escap: yes}]}", SILL[0], "did you mean `escape`?"),
        ("door", "{use of between: garage}", "measure: self closing, comparison: required", "`any use of between`"),
        ("door", "{}", "measure: any use of between, comparison: one of", "may be a condition; measure one value"),
        ("lot", "{}", "measure: front yard, share of: septic bedrooms, comparison: maximum", "can be no share of"),
        ("lot", "{}", "measure: front yard, share of: backyard, comparison: maximum", "a lot has no `backyard`"),
    ],
)
def test_a_condition_that_makes_no_sense_is_refused_at_its_line(
    tmp_path: Path, part: str, when: str, check: str, says: str
) -> None:
    with pytest.raises(Unusable) as caught:
        code_of(tmp_path, part, when, check, "1")
    assert says in str(caught.value)
    assert "ash.yaml:6:" in str(caught.value)


def test_a_finding_says_in_words_when_it_is_due(tmp_path: Path) -> None:
    when = "{any of: [{use of space: bedroom}, {escape: yes}], operation: {not: fixed}, sill height: {minimum: 3 ft, under: 5 ft}}"
    (requirement,) = code_of(tmp_path, "window", when, *SILL).requirements
    assert requirement.when == (
        "(use of space is bedroom or escape is yes) and operation is not fixed and sill height is 3 ft or more and under 5 ft"
    )


WELLS = Section(
    "well distances",
    {
        "type": "array",
        "items": {
            "type": "object",
            "properties": {
                "id": {"type": "string"},
                "phase": {"enum": ["existing", "new"]},
                "to": {"type": "string", "enum": ["house", "septic tank", "lot line"]},
                "distance": {"type": "string", "format": "length"},
                "cased": {"type": "boolean"},
                "bores": {"type": "integer"},
            },
        },
    },
    called="well distance",
)
PAN = AddedField("window", "sill pan", {"type": "boolean"})
TAPE = AddedField("window", "tape width", {"type": "string", "format": "length"})
ADDED_TO_FILES = (WELLS, PAN, TAPE)


def of_added(tmp_path: Path, part: str, when: str, check: str, value: str, project: str):
    """Return the one finding that an added requirement makes of what plugins add to project files."""
    path = tmp_path / "ash.yaml"
    path.write_text(HEAD + ADDED % (value, part, when, check))
    code = Library(RULESETS.rulesets, added=ADDED_TO_FILES).adopt(str(path))
    house = project_from(read_text(f"project: P\n{ROOMS}{project}\n", "p.yaml"), ADDED_TO_FILES)
    (found,) = (f for f in review(house, code, RULESETS).findings if not isinstance(f.rule, Line))
    return found


DISTANCE = "measure: distance, comparison: minimum"


@pytest.mark.parametrize(
    ("part", "when", "check", "value", "project", "expected"),
    [
        ("well distance", "{to: septic tank}", DISTANCE, "50 ft", "{id: A, to: septic tank, distance: 50 ft}", PASS),
        ("well distance", "{to: septic tank}", DISTANCE, "50 ft", "{id: A, to: septic tank, distance: 49 ft}", FAIL),
        ("well distance", "{to: septic tank}", DISTANCE, "50 ft", "{id: A, to: house, distance: 49 ft}", NOT_DUE),
        ("well distance", "{to: septic tank}", DISTANCE, "50 ft", "{id: A, to: septic tank}", NOT_SHOWN),
        ("well distance", "{to: septic tank}", DISTANCE, "50 ft",
         "{id: A, phase: existing, to: septic tank, distance: 9 ft}", Outcome.WARN),
        ("well distance", "{bores: {minimum: 2}}", "measure: cased, comparison: required", "required",
         "{id: A, bores: 2, cased: no}", FAIL),
        ("window", "{use of space: bedroom}", "measure: sill pan, comparison: required", "required", "sill pan: no", FAIL),
        ("window", "{sill pan: yes}", "measure: tape width, comparison: minimum", "4 in", "sill pan: yes, tape width: 4 in", PASS),
        ("window", "{sill pan: yes}", "measure: tape width, comparison: minimum", "4 in", "sill pan: yes", NOT_SHOWN),
    ],
)  # fmt: skip
def test_what_plugins_add_to_project_files_can_be_looked_at(
    tmp_path: Path, part: str, when: str, check: str, value: str, project: str, expected: Outcome
) -> None:
    window = f"windows: [{{id: W, phase: new, space: B, {project}}}]"
    given = f"well distances: [{project}]" if part == "well distance" else window
    assert of_added(tmp_path, part, when, check, value, given).outcome is expected


def test_a_finding_about_an_added_entry_is_named_and_placed_by_it(tmp_path: Path) -> None:
    found = of_added(
        tmp_path, "well distance", "{to: septic tank}", DISTANCE, "50 ft",
        "well distances: [{id: A, to: septic tank}]",
    )  # fmt: skip
    assert [str(need) for need in found.check.needs] == ["distance of well distance A"]
    assert str(found.place) == "p.yaml:3:18"


@pytest.mark.parametrize(
    ("part", "check", "says"),
    [
        (
            "well distance",
            "measure: distanse, comparison: minimum",
            "has no `distanse` that can be looked at; did you mean `distance`?",
        ),
        ("well distanc", DISTANCE, "no kind of part is called `well distanc`; did you mean `well distance`?"),
        ("window", "measure: sill pans, comparison: required", "a window has no `sill pans`"),
    ],
)
def test_a_slip_in_what_a_plugin_adds_is_refused(tmp_path: Path, part: str, check: str, says: str) -> None:
    with pytest.raises(Unusable) as caught:
        of_added(tmp_path, part, "{}", check, "50 ft", "")
    assert says in str(caught.value)


@pytest.mark.long
def test_an_editor_completes_what_plugins_add() -> None:
    known = schema_of("adoption", RULESETS, Library(RULESETS.rulesets, added=ADDED_TO_FILES))["$defs"]
    check = known["CheckBlock"]
    assert "well distance" in check["properties"]["part"]["enum"]
    (window,) = (one for one in check["allOf"] if one["if"]["properties"]["part"]["const"] == "window")
    looked_at = window["then"]["properties"]["measure"]["$ref"].removeprefix("#/$defs/")
    assert "sill pan" in known[looked_at]["anyOf"][0]["enum"]
