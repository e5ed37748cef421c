"""Running rules: subjects, phases, isolation, what is not checked, the verdict."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from precheck import (
    BracedLine,
    BracedPanel,
    Check,
    Door,
    House,
    Limit,
    Limits,
    Look,
    Missing,
    Outcome,
    Project,
    Settled,
    Space,
    Window,
    at_least,
    broken,
    hookimpl,
    look_at,
    met,
    rule,
)
from precheck.files.missing import Need
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports import words
from precheck.review.finding import CORRECTIONS, READY
from precheck.review.run import review
from precheck.rules.plugins import Plugins, collect
from precheck.rulesets import AdoptedCode
from precheck.units import Length


class HeightLimits(NamedTuple):
    """The limits of the demo rule."""

    least: Limit[Length]


@rule("demo.height")
def height(space: Space, limit: HeightLimits, house: House) -> Check:
    """Rooms are high enough."""
    return at_least(house.ceiling_height(space), limit.least)


@rule("demo.crash")
def crash(space: Space) -> Check:
    """Breaks off on every room but one."""
    return met("fine") if space.id == "good" else 1 / 0


@rule("demo.strict", existing="must comply")
def strict(space: Space) -> Check:
    """Fails everywhere."""
    return broken("it is not allowed")


@rule("demo.lenient")
def lenient(space: Space) -> Check:
    """Fails everywhere too, but lets what stands stay."""
    return broken("it is not allowed")


@rule("demo.look")
def look(project: Project) -> Check:
    """Asks a person."""
    return look_at(Look.OFFICIAL, "ask")


def plugin(*rules) -> Plugins:
    class Offering:
        @hookimpl
        def precheck_rules(self):
            return rules

    return collect([("demo", "demo-dist", Offering)])


LEAST = Limit("demo.height.least", Length.parse("7 ft"), "R305.1", "least height")
CODE = AdoptedCode("here", None, (), {LEAST.name: LEAST})
ROOMS = """
project: P
spaces:
  - {id: good, ceiling: {height: 8 ft}}
  - {id: old, phase: existing, ceiling: {height: 6 ft}}
  - {id: gone, phase: removed, ceiling: {height: 5 ft}}
  - {id: open}
"""


def reviewed(*rules, text: str = ROOMS, code: AdoptedCode = CODE, **options):
    return review(project_from(read_text(text, "p.yaml")), code, plugin(*rules), **options)


def outcomes(result) -> dict[str, Outcome]:
    return {finding.subject.id: finding.outcome for finding in result.findings}


def test_each_part_gets_its_finding_and_what_is_removed_gets_none():
    assert outcomes(reviewed(height)) == {
        "good": Outcome.PASS, "old": Outcome.WARN, "open": Outcome.NOT_SHOWN,
    }  # fmt: skip


class TwoLimits(NamedTuple):
    """A limit that decides, and one that another question hangs on."""

    decides: Limit[Length]
    aside: Limit[int]


@rule("demo.cited")
def cited(space: Space, limit: TwoLimits) -> Check:
    """Fails everywhere, by one of its limits."""
    return broken("it is not allowed", limit.decides)


def test_only_the_limits_that_decided_are_cited():
    told = (
        Limit("demo.cited.decides", Length.parse("7 ft"), "R1", "height"),
        Limit("demo.cited.aside", 2, "R2", "sides"),
    )
    found = reviewed(cited, code=AdoptedCode("here", None, (), {limit.name: limit for limit in told})).findings[0]
    assert found.outcome is Outcome.FAIL
    assert found.sections == ("R1",)
    assert words.lines_of(found) == ["it is not allowed"]


class HalfLimits(Limits):
    """A limit with whose value the rule works."""

    least: Settled[Length]


@rule("demo.half")
def half(space: Space, limit: HalfLimits) -> Check:
    """Half the least height is above the floor."""
    return met(f"over {limit.least.value / 2}")


@pytest.mark.parametrize(
    ("value", "outcome", "why"),
    [
        (Length.parse("7 ft"), Outcome.PASS, "over 42 in"),
        (None, Outcome.DOES_NOT_APPLY, "deleted by Ordinance 3"),
        (Missing(Need("the jurisdiction's ruleset", "least height")), Outcome.NOT_SHOWN, ""),
    ],
)
def test_a_rule_is_not_called_while_a_limit_with_whose_value_it_works_has_none(value, outcome, why):
    limit = Limit("demo.half.least", value, "R1", "least height", why_void="deleted by Ordinance 3")
    finding = reviewed(half, code=AdoptedCode("here", None, (), {limit.name: limit})).findings[0]
    assert (finding.outcome, finding.check.why) == (outcome, why)


@rule("demo.line", engineered="stands aside")
def prescribed(line: BracedLine) -> Check:
    """Fails everywhere, unless somebody designed the line."""
    return broken("it is not allowed")


@rule("demo.panel", engineered="stands aside")
def prescribed_panel(panel: BracedPanel) -> Check:
    """Fails everywhere, unless somebody designed the line that the panel is of."""
    return broken("it is not allowed")


def test_a_prescriptive_requirement_stands_aside_where_the_part_or_its_owner_has_its_own_design():
    text = "project: P\nbraced lines: [{id: B1, panels: [{at: 0 ft, length: 4 ft}]%s}]"
    for demo in (prescribed, prescribed_panel):
        designed = reviewed(demo, text=text % ", designed by: sheet S5").findings[0]
        assert (designed.outcome, designed.check.why) == (Outcome.DOES_NOT_APPLY, "designed by sheet S5")
        assert reviewed(demo, text=text % "").findings[0].outcome is Outcome.FAIL


def test_what_stands_may_stay_only_where_the_rule_lets_it():
    assert outcomes(reviewed(lenient))["old"] is Outcome.WARN
    assert reviewed(lenient).findings[1].look == (Look.EXISTING,)
    assert outcomes(reviewed(strict))["old"] is Outcome.FAIL


@rule("demo.window")
def window(space: Space, house: House) -> Check:
    """A room has a window."""
    own = [w for w in house.subjects(Window) if w.space == space.id and not w.is_removed]
    return met("it has one") if own else broken("it has none")


def test_what_stands_may_not_stay_as_the_work_leaves_it_where_that_takes_away_what_served():
    text = """
project: P
spaces: [{id: dark, phase: existing}, {id: bed, phase: existing}, {id: den, phase: existing}]
windows: [{id: W1, phase: removed, space: bed}, {id: W2, phase: removed, space: den}, {id: W3, phase: new, space: den}]
"""
    result = reviewed(window, text=text)
    assert outcomes(result) == {"dark": Outcome.WARN, "bed": Outcome.FAIL, "den": Outcome.PASS}
    assert [f.check.why for f in result.findings if f.subject.id == "bed"] == [
        "it has none; the work takes away window W1"
    ]


def test_what_stands_is_not_asked_for_what_the_drawings_do_not_show():
    text = "project: P\nspaces: [{id: old, phase: existing}]"
    assert outcomes(reviewed(height, text=text)) == {"old": Outcome.DOES_NOT_APPLY}


def test_a_crash_spoils_its_own_findings_only_and_is_never_a_pass():
    result = reviewed(crash, height)
    broken_off = [f for f in result.findings if f.outcome is Outcome.ERROR]
    assert {f.subject.id for f in broken_off} == {"old", "open"}
    assert "ZeroDivisionError" in broken_off[0].error
    assert len([f for f in result.findings if f.rule is height]) == 3
    assert result.verdict == CORRECTIONS


def test_a_limit_that_is_not_defined_is_an_error_and_never_a_pass():
    (finding,) = reviewed(height, code=AdoptedCode("here", None, (), {})).findings
    assert finding.outcome is Outcome.ERROR
    assert "does not define demo.height.least" in finding.error


def test_a_house_without_the_part_gets_no_finding_at_all():
    @rule("demo.door")
    def door(door: Door) -> Check:
        """Never run here."""
        return met("fine")

    assert reviewed(door).findings == ()


def test_the_verdict_is_ready_only_where_nothing_waits():
    text = "project: P\nwork: [deck]\nspaces: [{id: good, ceiling: {height: 8 ft}}]"
    assert reviewed(height, look, text=text).verdict == READY
    assert reviewed(height, look, text=text, strict=True).verdict == CORRECTIONS
    assert reviewed(height, look, text=text + "\n\n").counts[Outcome.PASS] == 1


def test_what_no_rule_reads_is_listed_as_not_checked():
    extra = Limit("demo.width.least", Length.parse("3 ft"), "R1", "least width")
    void = Limit("demo.depth.least", None, "R1", "least depth", why_void="deleted")
    code = AdoptedCode("here", None, (), {x.name: x for x in (LEAST, extra, void)}, ("alarms: no rules yet",))
    assert reviewed(height, code=code).not_checked == ("demo.width.least: least width (R1)", "alarms: no rules yet")


def test_a_topic_that_is_left_out_is_listed_as_not_checked():
    @rule("other.thing")
    def thing(space: Space) -> Check:
        """Left out."""
        return met("fine")

    result = reviewed(height, thing, topics=["demo"])
    assert {f.rule.topic for f in result.findings} == {"demo"}
    assert "left out of this run: other" in result.not_checked


def test_findings_stand_in_the_order_of_the_file_then_by_rule():
    order = [(f.subject.id, f.rule.name) for f in reviewed(strict, height).findings]
    assert order == [(s, r) for s in ("good", "old", "open") for r in ("demo.height", "demo.strict")]


def _raises():
    raise RuntimeError("cannot be imported")


class _Nonsense:
    @hookimpl
    def precheck_rules(self):
        return ["no rule"]


class _Unknown:
    @hookimpl
    def precheck_ruels(self):
        return []


@pytest.mark.parametrize(
    ("load", "says"),
    [(_raises, "RuntimeError: cannot be imported"), (_Nonsense, "which is no Rule"), (_Unknown, "precheck_ruels")],
)
def test_a_plugin_that_cannot_be_used_is_named_and_the_others_work(load, says):
    class Good:
        @hookimpl
        def precheck_rules(self):
            return [height]

    plugins = collect([("bad", "bad-dist", load), ("good", "good-dist", Good)])
    assert [offer.plugin for offer in plugins.offers] == ["good"]
    (failure,) = plugins.failures
    assert failure.plugin == "bad"
    assert says in failure.why


def test_a_taken_rule_name_is_refused_and_named():
    class One:
        @hookimpl
        def precheck_rules(self):
            return [height]

    class Two:
        @hookimpl
        def precheck_rules(self):
            return [height]

    plugins = collect([("one", "d1", One), ("two", "d2", Two)])
    assert len(plugins.rules) == 1
    assert "`demo.height` is taken by one" in plugins.failures[0].why


def test_a_plugin_that_did_not_load_is_an_error_of_the_run():
    plugins = collect([("bad", "bad-dist", _raises)])
    result = review(project_from(read_text(ROOMS, "p.yaml")), CODE, plugins)
    (error,) = [f.error for f in result.findings if f.rule.name == "plugins.loaded"]
    assert "bad-dist: RuntimeError: cannot be imported" in error
