"""What holds for every rule by its cases holds for whole houses too: for the examples, and for houses made up at random."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random

import pytest
from case_houses import EDITION, FULL, Change, Way, changed, way_to, with_value
from generated_houses import houses
from house_changes import as_text
from hypothesis import given, settings
from hypothesis import strategies as st
from test_facts_left_out import facts, is_exempt, is_explained, label_of, without, worse
from test_invariances import CHANGES, EXEMPT
from twice_stated import Twice, drawn_too

from precheck import House, testing
from precheck.checks import Outcome
from precheck.files.source import Block, Unusable, read_file
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import review
from precheck.rules.line import Line

pytestmark = pytest.mark.long

EXAMPLES = sorted(
    path
    for path in (Path(__file__).parents[1] / "examples").glob("*/*.yaml")
    if not path.parent.name.startswith("plugin-")  # which needs the plugin
)
OPEN = (Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN)
made_up = settings(max_examples=300 if FULL else 12, derandomize=True, deadline=None, database=None)


def project_of(fragment: Block) -> Project:
    """Return the project of a file."""
    return project_from(fragment, testing.plugins().added)


def findings(fragment: Block) -> list[Finding]:
    """Return what all rules say of a house."""
    return list(review(project_of(fragment), testing.code(EDITION), testing.plugins()).findings)


def outcomes(fragment: Block, exempt: frozenset[str] = frozenset()) -> Counter[tuple[str, str]]:
    """Return how often each rule came to each outcome."""
    return Counter((f.rule.name, f.outcome.word) for f in findings(fragment) if f.rule.name not in exempt)


def differing(fragment: Block, name: str, change: Change) -> Counter[tuple[str, str]]:
    """Return the outcomes that a change which says nothing of the house brings about, or takes away."""
    exempt = frozenset(rule for rule, what in EXEMPT if what == name)
    before, after = outcomes(fragment, exempt), outcomes(changed(fragment, Project, change), exempt)
    return (before - after) + (after - before)


def unexplained(before: list[Finding], altered: Block, fact: str, key: str = "") -> Iterator[str]:
    """Yield the rules that pass in the altered file where they did not before, though nothing else tells what is open."""
    try:
        after = findings(altered)
    except Unusable:
        return
    was = {(f.rule.name, label_of(f)): f for f in before if f.outcome in OPEN and not isinstance(f.rule, Line)}
    for now in after:
        then = was.get((now.rule.name, label_of(now)))
        if then is None or now.outcome is not Outcome.PASS or is_exempt(now.rule.name, fact):
            continue
        if not is_explained([then], [now]) and not _is_told(before, after, key):
            yield f"{now.rule.name} of {label_of(now)}: {then.outcome.word} -> pass"


def _is_told(before: list[Finding], after: list[Finding], key: str) -> bool:
    opened = [[f for f in found if f.outcome in OPEN] for found in (after, before)]
    return worse(*opened) or any(need.key == key for f in opened[0] for need in f.check.needs)


def fact_of(way: Way) -> str:
    """Return the keys on the `way`."""
    return ".".join(step for step in way if isinstance(step, str))


def otherwise(fragment: Block, twice: Twice, factor: Fraction) -> Block | None:
    """Return the file in which a field states so many times what is drawn; None where the file does not give the record."""
    value = int(twice.drawn * factor) if isinstance(twice.drawn, int) else twice.drawn * factor
    way = way_to(twice.record, project_of(fragment)) if twice.record.block is not None else None
    return None if way is None else with_value(fragment, way, type(twice.record), twice.field, as_text(value))


@cache
def example(path: Path) -> Block:
    """Return the file of an example."""
    return read_file(path)


@pytest.mark.parametrize("name", CHANGES)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_that_is_drawn_otherwise_has_the_same_outcomes(path: Path, name: str) -> None:
    assert differing(example(path), name, CHANGES[name]) == Counter()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_fact_left_out_of_an_example_makes_no_rule_pass(path: Path) -> None:
    fragment, before = example(path), findings(example(path))
    ways = list(facts(fragment))
    some = Random(path.stem).sample(ways, min(200 if FULL else 5, len(ways)))
    wrong = {
        fact_of(way): told
        for way in some
        if (told := [*unexplained(before, without(fragment, way), fact_of(way), str(way[-1]))])
    }
    assert wrong == {}


@given(fragment=houses(), name=st.sampled_from(sorted(CHANGES)))
@made_up
def test_any_house_that_is_drawn_otherwise_has_the_same_outcomes(fragment: Block, name: str) -> None:
    assert differing(fragment, name, CHANGES[name]) == Counter()


@given(fragment=houses(), data=st.data())
@made_up
def test_a_fact_left_out_of_any_house_makes_no_rule_pass(fragment: Block, data: st.DataObject) -> None:
    way = data.draw(st.sampled_from(list(facts(fragment))))
    assert list(unexplained(findings(fragment), without(fragment, way), fact_of(way), str(way[-1]))) == []


@given(fragment=houses(), data=st.data(), factor=st.sampled_from([Fraction(1, 2), Fraction(2)]))
@made_up
def test_what_is_stated_otherwise_than_drawn_makes_no_rule_of_any_house_pass(
    fragment: Block, data: st.DataObject, factor: Fraction
) -> None:
    twice = data.draw(st.sampled_from(list(drawn_too(House(project_of(fragment))))))
    altered = otherwise(fragment, twice, factor)
    assert altered is None or list(unexplained(findings(fragment), altered, "")) == []
