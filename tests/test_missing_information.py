"""Leaving something out of a project file never makes it comply, never breaks a rule, and never shows in bad words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from sampled import long_save

from precheck.checks import Outcome
from precheck.files.missing import Missing, Need
from precheck.files.source import Block, Items, Unusable, read_file
from precheck.project import Project, project_from
from precheck.reports import words
from precheck.review.finding import Finding
from precheck.review.run import run
from precheck.rules.line import Line
from precheck.rules.rule import Rule
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import frozen
from precheck.survey import House
from precheck.testing import code, editions, plugins

FILE = Path(__file__).parent / "data" / "full-house.yaml"
TOPICS = frozenset(("stairs", "doors", "escape", "ceilings", "separation"))
RULES = [rule for rule in plugins().rules if rule.topic in TOPICS and not isinstance(rule, Line)]
SAID_BY_LEAVING_OUT = {"none"}  # a landing that is listed is there unless it says `none: yes`
Path_ = tuple[str | int, ...]


def keys(node: Any, path: Path_ = ()) -> Iterator[Path_]:
    """Yield the path of every key that may be left out, down to the smallest."""
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for step, below in items:
        if isinstance(step, str) and step not in SAID_BY_LEAVING_OUT:
            yield (*path, step)
        yield from keys(below, (*path, step))


def without(node: Any, left_out: frozenset[Path_], path: Path_ = ()) -> Any:
    """Return `node` without the keys in `left_out`, its places kept."""
    if isinstance(node, Block):
        block = Block(node.at, node.file)
        block.keys_at = node.keys_at
        kept = {key: value for key, value in node.items() if (*path, key) not in left_out}
        block.update({key: without(value, left_out, (*path, key)) for key, value in kept.items()})
        return block
    if isinstance(node, Items):
        items = Items(node.at, node.file)
        items.items_at = node.items_at
        items.extend(without(value, left_out, (*path, i)) for i, value in enumerate(node))
        return items
    return node


@cache
def whole() -> Block:
    """Return the whole file."""
    return read_file(FILE)


def project(left_out: frozenset[Path_]) -> Project | None:
    """Return the project without these keys; None where the file can no longer be used at all."""
    try:
        return project_from(without(whole(), left_out))
    except Unusable:
        return None


def findings(given: Project, adopted: AdoptedCode, rules: list[Rule] = RULES) -> dict[tuple[str, str], list[Finding]]:
    """Return what the rules say, by rule and by what it is about."""
    house = House(given)
    found: dict[tuple[str, str], list[Finding]] = {}
    for rule in rules:
        for finding in run(rule, house, adopted):
            found.setdefault((rule.name, words.label(finding)), []).append(finding)
    return found


@cache
def of_whole(edition: str) -> dict[tuple[str, str], list[Finding]]:
    """Return what the rules say of the whole file."""
    return findings(project_from(whole()), code(edition))


def said(finding: Finding) -> str:
    """Return all that a report says of a finding."""
    return " ".join([words.message(finding), finding.check.remedy, finding.check.why, *words.needs(finding)])


def broken(found: dict[tuple[str, str], list[Finding]]) -> list[str]:
    """Return the findings of rules that broke off, or that show how the program says that something is absent."""
    all_found = [finding for group in found.values() for finding in group]
    return [said(f) for f in all_found if f.outcome is Outcome.ERROR or "Missing(" in said(f) or "None" in said(f)]


def excused(before: dict[Any, list[Finding]], after: dict[Any, list[Finding]]) -> list[str]:
    """Return what is met now although more was said before, when it was not."""
    pairs = [
        (one, two) for key in before.keys() & after.keys() for one, two in zip(before[key], after[key], strict=False)
    ]
    return [
        f"{one.rule.name}: {one.outcome.word} -> pass: {said(two)}"
        for one, two in pairs
        if one.outcome < Outcome.PASS and two.outcome is Outcome.PASS
    ]


ALL_KEYS = list(keys(whole()))


@cache
def spare_keys() -> list[Path_]:
    """Return the keys without any one of which the file can still be used."""
    return [path for path in ALL_KEYS if project(frozenset((path,))) is not None]


SPARE = st.deferred(lambda: st.sampled_from(spare_keys()))


@pytest.mark.parametrize("edition", editions())
def test_the_whole_house_is_judged_by_every_rule_and_fails_most(edition: str) -> None:
    """The file is worth leaving things out of: nearly every rule has something to say, and finds it wrong."""
    found = of_whole(edition)
    judged = {name for (name, _), group in found.items() for f in group if f.outcome is not Outcome.DOES_NOT_APPLY}
    wrong = {name for (name, _), group in found.items() for f in group if f.outcome < Outcome.PASS}
    assert broken(found) == []
    assert len(judged) >= len(RULES) - 6, sorted({rule.name for rule in RULES} - judged)
    assert len(wrong) >= len(RULES) - 9, sorted({rule.name for rule in RULES} - wrong)


@pytest.mark.parametrize(
    "part", long_save(sorted({path[0] for path in ALL_KEYS}, key=str), "spaces", "doors", "windows", "stairs")
)
def test_no_single_key_left_out_makes_anything_comply(part: str) -> None:
    """Each key of the file is left out alone, under the newest edition, which has every limit."""
    for path in (path for path in spare_keys() if path[0] == part):
        found = findings(project_from(without(whole(), frozenset((path,)))), code(editions()[-1]))
        assert broken(found) == [], path
        assert excused(of_whole(editions()[-1]), found) == [], path


@given(
    left_out=st.frozensets(SPARE, max_size=25),
    more=st.frozensets(SPARE, min_size=1, max_size=12),
    edition=st.sampled_from(editions()),
)
@settings(max_examples=60, derandomize=True, deadline=None, database=None)
@pytest.mark.long
def test_leaving_out_more_never_makes_anything_comply(
    left_out: frozenset[Path_], more: frozenset[Path_], edition: str
) -> None:
    """Many keys are left out at once, and then some more."""
    one, other = project(left_out), project(left_out | more)
    assume(one is not None and other is not None)
    before, after = findings(one, code(edition)), findings(other, code(edition))
    assert broken(before) == []
    assert broken(after) == []
    assert excused(before, after) == []


LIMITS = sorted({name for rule in RULES for name in rule.limit_names})


@pytest.mark.parametrize("name", LIMITS)
def test_a_limit_that_a_jurisdiction_deletes_or_has_yet_to_set_breaks_no_rule(name: str) -> None:
    """Every limit that the five topics read, void and missing, under an edition that has it."""
    readers = [rule for rule in RULES if name in rule.limit_names]
    for edition in editions():
        adopted = code(edition)
        limit = adopted.limits[name]
        yet_to_be_set = Missing(Need("the jurisdiction's ruleset", limit.measures))
        for value in (None, yet_to_be_set):
            changed = {
                **adopted.limits,
                name: replace(limit, value=value, why_void="deleted" if value is None else None),
            }
            found = findings(project_from(whole()), replace(adopted, limits=frozen(changed)), readers)
            assert broken(found) == [], f"{name} is {value}"
