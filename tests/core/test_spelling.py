"""Words as people write them, and words of before: read, and the new ones told."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from precheck.files import spelling
from precheck.files.respelling import merged
from precheck.files.source import Unusable, read_text
from precheck.project import project_from, read_project
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

OLD = """\
project: P
storeys: [{id: first, level: Ground, phase: existing}]
spaces:
  - {id: a, phase: New, use: sleeping room, storey: first}
  - {id: b, phase: existing, use: Master Bedroom, story: first}
  - {id: c, phase: Demo, use: powder room}
windows: [{id: W1, phase: new, space: a, unit size: 3050 SH}, {id: W2, phase: new, space: a, unit size: 2-6 x 3-0}]
wet areas: [{id: T1, phase: new, what: bathtub, space: c}]
doors:
  - {id: D1, phase: new, between: [a, b], unit size: 2868}
  - {id: D2, phase: new, between: [a, outside], operation: overhead door, unit size: 16070}
lot lines: [{id: L, side: back}]
applied on: 5/1/2026
"""


@pytest.fixture
def old():
    return project_from(read_text(OLD, "old.yaml"))


def test_keys_and_words_of_before_are_read_and_the_new_ones_are_told_once(old):
    assert [space.use for space in old.spaces] == ["bedroom", "bedroom", "toilet room"]
    assert [space.phase for space in old.spaces] == ["new", "existing", "removed"]
    assert [space.story for space in old.spaces[:2]] == ["first", "first"]
    assert [str(problem) for problem in merged(old.block.renamed)] == [
        "old.yaml:2:1: `storeys` is called `stories` now; both are read",
        "old.yaml:4:25: `sleeping room` is called `bedroom` now; both are read",
        "old.yaml:4:45: `storey` is called `story` now; both are read",
        "old.yaml:8:34: `bathtub` is called `tub` now; both are read",
    ]


def test_what_the_trade_calls_the_same_is_read_in_silence(old):
    assert old.wet_areas[0].what == "tub"
    assert old.doors[1].operation == "vehicle"
    assert old.lot_lines[0].side == "rear"
    assert old.applied_on == date(2026, 5, 1)


def test_call_outs_of_plans_are_sizes_and_operations(old):
    assert [str(window.unit_size) for window in old.windows] == ["3'-0\" x 5'-0\"", "2'-6\" x 3'-0\""]
    assert old.windows[0].operation == "single hung"
    assert [str(door.unit_size) for door in old.doors] == ["2'-8\" x 6'-8\"", "16'-0\" x 7'-0\""]


def test_a_file_in_the_words_of_today_tells_nothing():
    text = (
        OLD.replace("storey", "story")
        .replace("storys", "stories")
        .replace("sleeping room", "bedroom")
        .replace("bathtub", "tub")
    )
    assert project_from(read_text(text, "new.yaml")).block.renamed == ()


def test_a_call_out_that_contradicts_the_operation_is_refused():
    text = "project: P\nwindows: [{id: W1, phase: new, unit size: 3050 SH, operation: casement}]\n"
    with pytest.raises(Unusable, match="`3050 SH`"):
        project_from(read_text(text, "house.yaml"))


def test_a_word_that_only_comes_near_is_asked_about_and_never_taken():
    text = "project: P\nspaces: [{id: a, use: basement}, {id: b, use: bedrom}]\n"
    with pytest.raises(Unusable) as error:
        project_from(read_text(text, "house.yaml"))
    assert "did you mean `storage`?" in str(error.value)
    assert "did you mean `bedroom`?" in str(error.value)


@pytest.mark.parametrize(
    ("written", "choices", "meant"),
    [
        ("Gyp. Bd.", ["gypsum", "plaster"], "gypsum"),
        ("drywall", ["gypsum", "plaster"], "gypsum"),
        ("HALF BATH", ["toilet room", "bathroom"], "toilet room"),
        ("metal smooth", ["smooth metal", "plastic"], "smooth metal"),
        ("co", ["smoke", "carbon monoxide"], "carbon monoxide"),
        ("ship's ladder", ["ship's ladder"], "ship's ladder"),
        ("den", ["office"], "office"),
        ("den", ["hall"], None),
        ("basement", ["storage"], None),
    ],
)
def test_a_choice_is_found_by_what_the_trade_calls_it(written, choices, meant):
    assert spelling.choice(written, choices) == meant


def test_the_names_that_words_lead_to_are_words_of_today():
    assert [word for word in (*spelling.SAME.values(), *spelling.MEANT.values()) if word in spelling.FORMER] == []


def test_a_ruleset_may_name_limits_as_they_were_called(tmp_path: Path):
    path = tmp_path / "jurisdictions" / "ash-village" / "2026-01-01.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(
        "jurisdiction: Ash Village\nadopts: irc-2021\nin force: 2026-01-01\nby: Ordinance 1\namendments:\n"
        "  - {amend: stairs.riser-height.tallest, was: 7 3/4 in, to: 8 in, by: O}\n"
        "  - {delete: alarms.smoke-on-each-storey.fewest, by: O}\n"
        "  - {add: stairs.extra.thing, value: 8 in, means: a thing, by: O}\n",
        encoding="utf-8",
    )
    code = Library((tmp_path, *load_plugins().rulesets)).adopt("Ash Village")
    assert code.limits["stairs.riser-height.maximum"].text == "8 in"
    assert code.limits["alarms.smoke-on-each-story.minimum"].value is None
    assert code.limits["stairs.extra.thing"].measures == "a thing"
    assert [problem.what.partition(";")[0] for problem in code.renamed] == [
        "`means` is called `measures` now",
        "`stairs.riser-height.tallest` is called `stairs.riser-height.maximum` now",
        "`alarms.smoke-on-each-storey.fewest` is called `alarms.smoke-on-each-story.minimum` now",
    ]


def test_every_name_of_before_leads_to_a_limit_of_today():
    library = Library(load_plugins().rulesets)
    code = library.adopt("irc-2021")
    assert len(code.formerly) > 100
    assert [name for name in code.formerly if name in code.limits] == []
    assert [name for name, today in code.formerly.items() if code.limit_called(name) != today] == []


def test_a_project_of_before_gives_the_report_of_today(tmp_path: Path):
    today = Path(__file__).parents[2] / "examples/sketch/sketch.yaml"
    text = today.read_text(encoding="utf-8")
    before = tmp_path / "sketch.yaml"
    before.write_text(
        text.replace("stories", "storeys").replace("story:", "storey:").replace("bedroom", "sleeping room")
    )
    assert [p.use for p in read_project(before).spaces] == [p.use for p in read_project(today).spaces]
