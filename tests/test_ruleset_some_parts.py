"""An amendment for some parts only: another value where a part meets its conditions, the code's everywhere else."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from precheck import Check, Fact, House, Length, Limit, Limits, Space, Window, at_least, at_most, fact, rule
from precheck.checks import Look, Outcome
from precheck.cli import cli
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.review.chosen import rules_of
from precheck.review.finding import Finding
from precheck.review.run import run
from precheck.rulesets import AdoptedCode, Library
from precheck.rulesets.lock import LESS, MORE, OTHERWISE, ways
from precheck.testing import plugins

HEAD = "jurisdiction: %s\nadopts: %s\nin force: 2026-01-01\nby: O 1\namendments:\n"
SILL, GYPSUM = "escape.sill.maximum", "separation.detached.gypsum"
CASEMENTS = "part: window, where: {operation: casement}"
OF_CASEMENTS = f"amend: {SILL}, {CASEMENTS}, was: 44 in, to: 42 in"
ROOMS = "spaces: [{id: B, use: bedroom, phase: new}, {id: D, use: dining room}]\n"
PASS, WARN, FAIL, NOT_SHOWN = Outcome.PASS, Outcome.WARN, Outcome.FAIL, Outcome.NOT_SHOWN


def place(folder: Path, *amendments: str, name: str = "Ash Village", adopts: str = "irc-2021") -> Path:
    """Write the ruleset of a place."""
    path = folder / "jurisdictions" / name.lower().replace(" ", "-") / "2026-01-01.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    head = HEAD % (name, adopts)
    listed = "".join(f"  - {{{one}, by: O 2}}\n" for one in amendments)
    path.write_text(head + listed if amendments else head.removesuffix("amendments:\n"))
    return path


def adopt(folder: Path, *amendments: str, name: str = "Ash Village", adopts: str = "irc-2021") -> AdoptedCode:
    """Return the code of a place with amendments."""
    place(folder, *amendments, name=name, adopts=adopts)
    code = Library((folder, *plugins().rulesets)).adopt(name)
    rules_of(code, plugins())
    return code


def findings(code: AdoptedCode, rule_name: str, project: str) -> list[Finding]:
    """Return what one rule finds in a project."""
    house = House(project_from(read_text(f"project: P\n{project}\n", "p.yaml")))
    return list(run(next(one for one in plugins().rules if one.name == rule_name), house, code))


def of_window(code: AdoptedCode, operation: str, sill: str) -> Finding:
    """Return what the rule about sills finds of the egress window of a bedroom."""
    is_of = f"operation: {operation}, " if operation else ""
    window = f"{{id: W, phase: new, space: B, {is_of}sill height: {sill}, escape: yes}}"
    (found,) = findings(code, "escape.sill", f"{ROOMS}windows: [{window}]")
    return found


@pytest.mark.parametrize(
    ("operation", "sill", "expected"),
    [
        ("casement", "41 in", PASS),
        ("casement", "43 in", FAIL),
        ("slider", "43 in", PASS),
        ("slider", "45 in", FAIL),
        ("", "41 in", PASS),  # under either value
        ("", "43 in", NOT_SHOWN),
        ("", "45 in", FAIL),  # under either value
    ],
)
def test_a_window_is_held_to_the_value_of_its_own_kind(
    tmp_path: Path, operation: str, sill: str, expected: Outcome
) -> None:
    assert of_window(adopt(tmp_path, OF_CASEMENTS), operation, sill).outcome is expected


def test_nothing_is_asked_of_an_old_part_or_by_good_practice_which_stop_no_job(tmp_path: Path) -> None:
    window = "windows: [{id: W, phase: existing, space: B, sill height: 43 in, escape: yes}]"
    old = ROOMS.replace(", phase: new", ", phase: existing") + window
    (found,) = findings(adopt(tmp_path, OF_CASEMENTS), "escape.sill", old)
    assert found.outcome is WARN
    practice = adopt(tmp_path, OF_CASEMENTS.replace("to: 42 in", "to: 42 in, force: advise"))
    assert of_window(practice, "", "43 in").outcome is WARN
    assert of_window(practice, "casement", "43 in").outcome is WARN


def test_where_it_hangs_on_what_is_not_said_that_is_asked_for(tmp_path: Path) -> None:
    found = of_window(adopt(tmp_path, OF_CASEMENTS), "", "43 in")
    assert [str(need) for need in found.check.needs] == ["operation of window W"]


def test_a_finding_cites_the_act_and_says_for_which_parts(tmp_path: Path) -> None:
    code = adopt(tmp_path, OF_CASEMENTS)
    assert of_window(code, "casement", "43 in").sections == (
        "R310.2.3, amended by O 2 for a window where operation is casement",
    )
    assert of_window(code, "slider", "45 in").sections == ("R310.2.3",)


@pytest.mark.parametrize(
    ("area", "board", "expected"),
    [("400 sq ft", "1/2 in gypsum", PASS), ("401 sq ft", "1/2 in gypsum", FAIL), ("401 sq ft", "5/8 in gypsum", PASS)],
)
def test_a_fact_is_judged_by_the_part_that_it_is_about_or_names(
    tmp_path: Path, area: str, board: str, expected: Outcome
) -> None:
    code = adopt(
        tmp_path, f"amend: {GYPSUM}, part: space, where: {{area: {{over: 400 sq ft}}}}, was: 1/2 in, to: 5/8 in"
    )
    project = (
        f"spaces: [{{id: G, use: garage, detached: yes, phase: new, area: {area}, distance to house: 2 ft}}]\n"
        f"walls: [{{id: W, phase: new, between: [G, outside], faces: [{{side: G, layers: [{board}]}}]}}]"
    )
    assert {found.outcome for found in findings(code, "separation.detached", project)} == {expected}


def test_some_parts_may_be_let_off_and_others_asked_for_what_nobody_else_is(tmp_path: Path) -> None:
    let_off = adopt(
        tmp_path, f"amend: {SILL}, part: window, where: {{operation: slider}}, was: 44 in, to: not required"
    )
    assert of_window(let_off, "slider", "60 in").outcome is Outcome.DOES_NOT_APPLY
    assert of_window(let_off, "casement", "60 in").outcome is FAIL
    asked = adopt(tmp_path, f"delete: {SILL}", f"amend: {SILL}, {CASEMENTS}, was: not required, to: 40 in")
    assert of_window(asked, "slider", "60 in").outcome is Outcome.DOES_NOT_APPLY
    assert of_window(asked, "casement", "60 in").outcome is FAIL


def test_of_two_values_that_hold_for_a_part_the_later_counts(tmp_path: Path) -> None:
    bedrooms = f"amend: {SILL}, part: window, where: {{use of space: bedroom}}, was: 44 in, to: 36 in"
    assert of_window(adopt(tmp_path, bedrooms, OF_CASEMENTS), "casement", "41 in").outcome is PASS
    assert of_window(adopt(tmp_path, bedrooms, OF_CASEMENTS), "slider", "41 in").outcome is FAIL
    assert of_window(adopt(tmp_path, OF_CASEMENTS, bedrooms), "casement", "41 in").outcome is FAIL


def test_a_city_amends_what_its_state_has_for_some_and_what_it_has_for_all_leaves_that(tmp_path: Path) -> None:
    place(tmp_path, OF_CASEMENTS, name="Ash State")
    city = adopt(tmp_path, f"amend: {SILL}, {CASEMENTS}, was: 42 in, to: 38 in", adopts="Ash State")
    assert of_window(city, "casement", "40 in").outcome is FAIL
    assert of_window(city, "slider", "40 in").outcome is PASS
    for_all = adopt(tmp_path, f"amend: {SILL}, was: 44 in, to: 40 in", adopts="Ash State")
    assert of_window(for_all, "casement", "41 in").outcome is PASS
    assert of_window(for_all, "slider", "41 in").outcome is FAIL
    (told,) = for_all.renamed
    assert "is 42 in for a window where operation is casement (O 2, " in told.what
    deleted = adopt(tmp_path, f"delete: {SILL}", adopts="Ash State")
    assert of_window(deleted, "casement", "60 in").outcome is Outcome.DOES_NOT_APPLY


@pytest.mark.parametrize(
    ("amendment", "says"),
    [
        (f"amend: {SILL}, where: {{use of space: bedroom}}, was: 44 in, to: 42 in", "`part` is not given"),
        (f"amend: {SILL}, part: window, was: 44 in, to: 42 in", "`where` is not given"),
        (f"amend: {SILL}, part: windo, where: {{escape: yes}}, was: 44 in, to: 42 in", "did you mean `window`?"),
        (f"amend: {SILL}, part: window, where: {{use of space: bedrom}}, was: 44 in, to: 42 in", "did you mean `bedroom`?"),
        (f"amend: {SILL}, {CASEMENTS}, was: 43 in, to: 42 in", "the value in effect is 44 in"),
        (f"amend: {SILL}, {CASEMENTS}, was: 44 in, to: 42 psf", "`42 psf` cannot replace `44 in`"),
        (f"amend: {SILL}, {CASEMENTS}, was: 44 in, to: 4.2 in", "`4.2 in` is one 10th of `44 in`"),
        (f"delete: {SILL}, {CASEMENTS}", "`part` says nothing beside `delete`; it belongs to `amend`"),
        ("amend: criteria.frost-depth, part: lot, where: {septic: yes}, was: set locally, to: 30 in", "leave `part` out"),
        ("amend: rooms.hall-width.minimum, part: door, where: {phase: new}, was: 36 in, to: 30 in", "lies in no door"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused_at_its_line(tmp_path: Path, amendment: str, says: str) -> None:
    with pytest.raises(Unusable) as caught:
        adopt(tmp_path, amendment)
    assert says in str(caught.value)
    assert "2026-01-01.yaml:6:" in str(caught.value)


@pytest.mark.parametrize(
    ("amendments", "expected"),
    [
        ((OF_CASEMENTS,), {MORE}),
        ((OF_CASEMENTS.replace("42", "48"),), {LESS}),
        ((f"amend: {SILL}, {CASEMENTS}, was: 44 in, to: not required",), {LESS}),
        ((OF_CASEMENTS, f"amend: {SILL}, was: 44 in, to: 48 in"), {MORE, LESS}),
    ],
)
def test_a_lock_covers_the_values_of_some_parts(
    tmp_path: Path, amendments: tuple[str, ...], expected: set[str]
) -> None:
    before = adopt(tmp_path).limits[SILL]
    assert ways(before, adopt(tmp_path, *amendments).limits[SILL]) == expected


def test_nobody_can_tell_which_way_a_value_goes_beside_one_for_parts_that_may_be_the_same(tmp_path: Path) -> None:
    place(tmp_path, OF_CASEMENTS, name="Ash State")
    other = f"amend: {SILL}, part: window, where: {{use of space: bedroom}}, was: 44 in, to: 43 in"
    city = adopt(tmp_path, other, adopts="Ash State")
    state = Library((tmp_path, *plugins().rulesets)).adopt("Ash State")
    assert ways(state.limits[SILL], city.limits[SILL]) == {MORE, OTHERWISE}


CASE = """\
cases:
  - case: a casement
    rule: escape.sill
    given:
      spaces: [{id: B, use: bedroom}]
      windows: [{id: W, phase: new, space: B, operation: casement, sill height: 43 in, escape: yes}]
    expect: fail
    says: 42 in
"""


def said(*arguments: str) -> str:
    """Return what a command says, on one line."""
    found = CliRunner().invoke(cli, arguments)
    assert found.exit_code == 0, found.output
    return " ".join(found.output.split())


def test_commands_show_both_values_and_a_case_holds_them(tmp_path: Path) -> None:
    path = place(tmp_path, OF_CASEMENTS)
    path.write_text(path.read_text() + CASE)
    verified = said("ruleset", "verify", str(path))
    assert f"{SILL} becomes 42 in for a window where operation is casement; the parent says 44 in" in verified
    assert "1 of 1 cases come to what they expect." in verified
    explained = said("explain", SILL, "--ruleset", str(path))
    assert f"{SILL}: 44 in 42 in for a window where operation is casement" in explained
    assert "amended: 42 in for a window where operation is casement by O 2" in explained
    listed = said("limits", "--ruleset", str(path), "--section", "R310.2.3")
    assert "42 in for a window where operation is casement (O 2)" in listed
    compared = said("ruleset", "compare", "irc-2021", str(path))
    assert "for a window where operation is casement: 44 in -> 42 in amended by O 2" in compared
    assert "1 limits change" in compared


def test_limits_as_data_have_the_values_of_some_parts(tmp_path: Path) -> None:
    path = place(tmp_path, OF_CASEMENTS)
    found = CliRunner().invoke(cli, ["limits", "--ruleset", str(path), "--topic", "escape", "--report", "json"])
    (sill,) = (limit for limit in json.loads(found.output)["limits"] if limit["name"] == SILL)
    assert (sill["value"], sill["text"]) == (44, "44 in")
    (theirs,) = sill["for_some"]
    assert (theirs["part"], theirs["where"], theirs["value"]) == ("window", "operation is casement", 42)


class SillLimits(Limits):
    """A limit of another rule."""

    maximum: Limit[Length]


@fact
class Pair(Fact):
    """Two windows, shown at the room that both are in."""

    both: tuple[Window, ...]

    @classmethod
    def found_in(cls, house: House):
        """Yield one pair."""
        yield cls(house.project.spaces[0], house.project.windows)


@rule("escape.sill")
def pair_of_sills(pair: Pair, limit: SillLimits) -> Check:
    """Both sills together."""
    return at_most(pair.both[0].sill_height, limit.maximum)


@rule("escape.sill")
def of_a_room(space: Space, limit: SillLimits) -> Check:
    """A room leads to none of its windows."""
    return at_least(Length.parse("43 in"), limit.maximum)


@pytest.mark.parametrize(("second", "expected"), [("casement", FAIL), ("slider", WARN)])
def test_a_fact_that_names_parts_of_which_only_some_meet_the_condition_is_left_to_the_official(
    tmp_path: Path, second: str, expected: Outcome
) -> None:
    code = adopt(tmp_path, OF_CASEMENTS)
    windows = "".join(
        f"{{id: {one}, space: B, phase: new, sill height: 43 in, operation: {operation}}}, "
        for one, operation in (("V", "casement"), ("W", second))
    )
    house = House(project_from(read_text(f"project: P\n{ROOMS}windows: [{windows}]\n", "p.yaml")))
    (found,) = run(pair_of_sills, house, code)
    assert found.outcome is expected
    if expected is WARN:
        assert found.look == (Look.OFFICIAL,)
        assert "one of the parts with a value of their own" in found.check.why


def test_a_subject_that_leads_to_no_such_part_is_left_to_the_official(tmp_path: Path) -> None:
    house = House(project_from(read_text("project: P\nspaces: [{id: B, phase: new}]\n", "p.yaml")))
    (found,) = run(of_a_room, house, adopt(tmp_path, OF_CASEMENTS))
    assert (found.outcome, found.look) == (WARN, (Look.OFFICIAL,))
