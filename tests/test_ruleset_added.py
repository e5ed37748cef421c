"""Requirements that a ruleset adds as data: checked like any other, and refused at their line where they make no sense."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from precheck.checks import Outcome
from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.review.finding import Finding, Review
from precheck.review.run import review
from precheck.rules.line import Line
from precheck.rules.plugins import Offer, Plugins, load_plugins
from precheck.rulesets import Library
from precheck.rulesets.quantity import kinds_of_part, names, quantity

HEAD = """jurisdiction: Alder Township
adopts: irc-2021
in force: 2026-03-01
by: Ordinance 7
amendments:
"""
WIDTH = """  - add: storage-stair.width.minimum
    value: 32 in
    section: ATC 5.2
    measures: least width of a stair flight with a handrail
    by: Ordinance 7 sec. 2
    check:
      part: flight
      when: {rails: {minimum: 1}, open risers: no}
      measure: width
      comparison: minimum
      stage: framing
      fix: widen the stair to 32 in
"""
FLIGHT = "{id: S1, phase: %s, between: [hall, loft], flights: [{%s}]}"


@cache
def plugins() -> Plugins:
    """Return only what brings the editions, so that no other rule speaks."""
    loaded = load_plugins()
    return Plugins(tuple(Offer(o.plugin, o.distribution, (), o.rulesets) for o in loaded.offers))


def ruleset(tmp_path: Path, amendments: str, name: str = "2026.yaml") -> str:
    """Write an adoption file and return its name."""
    path = tmp_path / name
    path.write_text(HEAD + amendments)
    return str(path)


def found(tmp_path: Path, amendments: str, project: str) -> list[Finding]:
    """Return what the added requirements find in a project, beside the lines of its works."""
    findings = reviewed(tmp_path, amendments, project).findings
    return [finding for finding in findings if not isinstance(finding.rule, Line)]


def reviewed(tmp_path: Path, amendments: str, project: str) -> Review:
    """Return the review of a project under a ruleset that adds requirements, and nothing else."""
    code = Library(plugins().rulesets).adopt(ruleset(tmp_path, amendments))
    return review(project_from(read_text(f"project: P\n{project}", "p.yaml")), code, plugins())


def stair(flight: str, phase: str = "new") -> str:
    """Return a project with one stair of one flight."""
    return f"spaces: [{{id: hall}}, {{id: loft}}]\nstairs: [{FLIGHT % (phase, flight)}]\n"


@pytest.mark.parametrize(
    ("flight", "outcome"),
    [
        ("rails: 1, open risers: no, width: 32 in", Outcome.PASS),
        ("rails: 1, open risers: no, width: 31 15/16 in", Outcome.FAIL),
        ("rails: 1, open risers: no", Outcome.NOT_SHOWN),
        ("rails: 0, open risers: no, width: 20 in", Outcome.DOES_NOT_APPLY),
        ("rails: 1, open risers: yes, width: 20 in", Outcome.DOES_NOT_APPLY),
        ("open risers: no, width: 20 in", Outcome.NOT_SHOWN),
        ("open risers: no, width: 40 in", Outcome.PASS),
        ("open risers: yes, width: 20 in", Outcome.DOES_NOT_APPLY),
    ],
)
def test_an_added_requirement_is_checked_where_it_is_due(tmp_path: Path, flight: str, outcome: Outcome) -> None:
    (finding,) = found(tmp_path, WIDTH, stair(flight))
    assert finding.outcome is outcome


def test_a_finding_tells_the_ordinance_the_remedy_and_what_is_missing(tmp_path: Path) -> None:
    (finding,) = found(tmp_path, WIDTH, stair("rails: 1, open risers: no, width: 30 in"))
    assert finding.check.remedy == "widen the stair to 32 in"
    assert finding.sections == ("ATC 5.2, added by Ordinance 7 sec. 2",)
    assert finding.rule.summary == (
        "Least width of a stair flight with a handrail. Due where rails is 1 or more and open risers is no."
    )
    (waiting,) = found(tmp_path, WIDTH, stair("width: 30 in"))
    needs = [str(need) for need in waiting.check.needs]
    assert needs == ["rails of flight 1 of stair S1", "open risers of flight 1 of stair S1"]


def test_an_existing_part_may_remain_unless_the_requirement_says_otherwise(tmp_path: Path) -> None:
    project = stair("rails: 1, open risers: no, width: 30 in", "existing")
    (finding,) = found(tmp_path, WIDTH, project)
    assert finding.outcome is Outcome.WARN
    (finding,) = found(tmp_path, f"{WIDTH}      existing: must comply\n", project)
    assert finding.outcome is Outcome.FAIL
    for word in ("may remain", "may stay"):  # as it was once called
        (finding,) = found(tmp_path, f"{WIDTH}      existing: {word}\n", project)
        assert finding.outcome is Outcome.WARN


def test_an_added_limit_is_read_by_its_rule_and_so_is_not_listed_as_unchecked(tmp_path: Path) -> None:
    review_ = reviewed(tmp_path, WIDTH, stair("rails: 1"))
    assert not any("storage-stair" in line for line in review_.not_checked)
    assert any("stairs.riser-height" in line for line in review_.not_checked)


def test_a_city_amends_and_deletes_what_its_county_added(tmp_path: Path) -> None:
    county = ruleset(tmp_path, WIDTH, "county.yaml")
    own = "jurisdiction: City\nadopts: %s\nin force: 2026-04-01\nby: City Code 1\namendments:\n  - %s\n    by: City Code 2\n"
    project = project_from(read_text(f"project: P\n{stair('rails: 1, open risers: no, width: 33 in')}", "p.yaml"))
    outcomes = []
    for act in (
        "{amend: storage-stair.width.minimum, was: 32 in, to: 34 in, by: City Code 2}",
        "{delete: storage-stair.width.minimum, by: City Code 2}",
    ):
        city = tmp_path / "city.yaml"
        city.write_text((own % (county, act)).replace("\n    by: City Code 2\n", "\n"))
        code = Library(plugins().rulesets).adopt(str(city))
        own_findings = (f for f in review(project, code, plugins()).findings if not isinstance(f.rule, Line))
        outcomes.append([finding.outcome for finding in own_findings])
    assert outcomes == [[Outcome.FAIL], [Outcome.DOES_NOT_APPLY]]


@pytest.mark.parametrize(
    ("check", "value", "project", "outcome"),
    [
        ("{part: space, measure: use, comparison: one of}", "[attic, storage]", "use: attic", Outcome.PASS),
        ("{part: space, measure: use, comparison: one of}", "[attic, storage]", "use: office", Outcome.FAIL),
        ("{part: space, measure: area, comparison: maximum}", "100 sq ft", "area: 101 sq ft", Outcome.FAIL),
        ("{part: space, measure: area, comparison: maximum}", "100 sq ft",
         "rectangle: {at: [0 ft, 0 ft], width: 10 ft, depth: 10 ft}", Outcome.PASS),
        ("{part: space, measure: height of ceiling, comparison: minimum}", "7 ft", "ceiling: {height: 7 ft}", Outcome.PASS),
        ("{part: space, measure: height of ceiling, comparison: minimum}", "7 ft", "name: x", Outcome.NOT_SHOWN),
        ("{part: space, measure: number of rooms beside, comparison: minimum}", "1", "name: x", Outcome.NOT_SHOWN),
        ("{part: space, measure: conditioned, comparison: required}", "required", "conditioned: no", Outcome.FAIL),
        ("{part: space, measure: conditioned, comparison: required}", "required", "conditioned: yes", Outcome.PASS),
        ("{part: space, measure: drop at edge, comparison: under}", "30 in", "drop at edge: 30 in", Outcome.FAIL),
    ],
)  # fmt: skip
def test_every_comparison_is_that_of_the_built_in_rules(
    tmp_path: Path, check: str, value: str, project: str, outcome: Outcome
) -> None:
    added = f"  - {{add: a.b.c, value: {value}, measures: a thing, by: Ordinance 7, check: {check}}}\n"
    (finding,) = found(tmp_path, added, f"spaces: [{{id: R1, {project}}}]\n")
    assert finding.outcome is outcome


def test_a_smallest_and_a_number_are_taken_of_what_is_listed(tmp_path: Path) -> None:
    check = "{part: flight, measure: %s, comparison: minimum}"
    add = "  - {add: a.b.%s, value: %s, measures: a thing, by: Ordinance 7, check: %s}\n"
    amendments = add % ("c", "10 in", check % "smallest of tread depths") + add % (
        "d",
        "3",
        check % "number of tread depths",
    )
    outcomes = {
        f.rule.name: f.outcome for f in found(tmp_path, amendments, stair("tread depths: [11 in, 9 in, 12 in]"))
    }
    assert outcomes == {"a.b.c": Outcome.FAIL, "a.b.d": Outcome.PASS}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("part: flight", "part: flihgt"), "no kind of part is called `flihgt`; did you mean `flight`?"),
        (("measure: width", "measure: widht"), "a flight has no `widht` that can be looked at; did you mean `width`?"),
        (("value: 32 in", "value: 32 psf"), "`psf` in `32 psf` is not a unit of length"),
        (("value: 32 in", "value: 32"), "`32` has no unit; write `32 in`"),
        (("rails: {minimum: 1}", "rail: {minimum: 1}"), "did you mean `rails`?"),
        (("rails: {minimum: 1}", "rails: {minimun: 1}"), "write comparisons, such as `minimum: 2`"),
        (("rails: {minimum: 1}", "rails: {minimum: one}"), "rails: `one` is not a count; write a whole number"),
        (("open risers: no", "open risers: maybe"), "`maybe` does not belong here; write `yes` or `no`"),
        (("open risers: no", "open risers: {minimum: 1}"), "`open risers` is no measure or count"),
        (("comparison: minimum", "comparison: minimun"), "did you mean `minimum`?"),
        (("comparison: minimum", "comparison: required"), "`width` is not answered by yes or no"),
        (("comparison: minimum", "comparison: one of"), "`width` is not a choice of words"),
        (("measure: width", "measure: __class__"), "a flight has no `__class__`"),
        (("measure: width", "measure: width if 1 else 0"), "a flight has no `width if 1 else 0`"),
        (("measure: width", "mesure: width"), "did you mean `measure`?"),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused_at_its_line(tmp_path: Path, change: tuple[str, str], says: str) -> None:
    path = ruleset(tmp_path, WIDTH.replace(*change))
    with pytest.raises(Unusable) as caught:
        Library(plugins().rulesets).adopt(path)
    told = "\n".join(problem.what for problem in caught.value.problems)
    assert says in told
    wrong = next(n for n, line in enumerate((HEAD + WIDTH.replace(*change)).splitlines(), 1) if change[1] in line)
    assert wrong in [problem.place.line for problem in caught.value.problems]


def test_a_check_is_refused_where_nothing_is_added(tmp_path: Path) -> None:
    path = ruleset(tmp_path, WIDTH.replace("add: storage-stair.width.minimum", "amend: stairs.width.clear"))
    with pytest.raises(
        Unusable, match=r"2026.yaml:7:5: `value` says nothing beside `amend`; it belongs to `add`; leave it out"
    ):
        Library(plugins().rulesets).adopt(path)


@pytest.mark.parametrize(
    ("amendment", "says"),
    [
        ("delete: escape.sill.maximum\n    to: 40 in", "`to` says nothing beside `delete`; it belongs to `amend`"),
        ("amend: escape.sill.maximum\n    was: 44 in\n    to: -40 in", "`-40 in` cannot be; write zero or more"),
        (
            "add: Storage stair\n    measures: a width\n    value: 3 ft",
            "`Storage stair` is no name of a limit; write it like",
        ),
    ],
)
def test_an_amendment_that_would_do_less_than_it_says_is_refused(tmp_path: Path, amendment: str, says: str) -> None:
    path = ruleset(tmp_path, f"  - {amendment}\n    by: Code 1\n")
    with pytest.raises(Unusable) as caught:
        Library(plugins().rulesets).adopt(path)
    assert says in str(caught.value)


def test_a_name_that_a_plugin_has_is_refused_where_the_requirement_stands(tmp_path: Path) -> None:
    taken = WIDTH.replace("storage-stair.width.minimum", "stairs.width")
    code = Library(plugins().rulesets).adopt(ruleset(tmp_path, taken))
    project = project_from(read_text("project: P\n", "p.yaml"))
    with pytest.raises(Unusable, match=r"2026.yaml:6:5: `stairs.width` is the name of a rule that a plugin offers"):
        review(project, code, load_plugins())


@pytest.mark.long
def test_everything_that_a_schema_completes_can_be_looked_at() -> None:
    count = 0
    for model in kinds_of_part().values():
        for name in names(model):
            assert quantity(model, name).name == name
            count += 1
    assert count > 500


@pytest.mark.long
def test_the_schema_accepts_a_good_requirement_and_refuses_a_misspelt_measure() -> None:
    from jsonschema import Draft202012Validator

    from precheck.cli.schema import schema_of

    schema = schema_of("adoption", load_plugins(), Library(plugins().rulesets))
    Draft202012Validator.check_schema(schema)
    data: dict[str, Any] = read_text(HEAD + WIDTH, "a.yaml")
    assert list(Draft202012Validator(schema).iter_errors(data)) == []
    bad = read_text(HEAD + WIDTH.replace("measure: width", "measure: widht"), "a.yaml")
    assert [e.message for e in Draft202012Validator(schema).iter_errors(bad)] != []
