"""No fact that is left out makes a rule pass that did not before, or fall silent, over the facts of every case of every rule."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, Way, changed, sample, way_to
from facts_exempt import PASSES, SILENT, is_exempt, makes_the_subject
from twice_stated import drawn_too

from precheck import House, testing
from precheck.checks import Outcome
from precheck.checks.outcome import words
from precheck.checks.relation import AGREES
from precheck.files.fields import fields_of
from precheck.files.mistakes import record_in
from precheck.files.record import key_of
from precheck.files.source import Block, Unusable
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import review
from precheck.rules.line import Line

pytestmark = pytest.mark.long

OPEN = (Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN)
NO_FACTS = frozenset(("id", "project", "none"))
"""Keys that name a part; and `none`, which a landing or guard that is listed says by leaving it out."""


def facts(node: Any, model: Any = Project, way: Way = ()) -> Iterator[Way]:
    """Yield the way to every key below `node`, a record of `model`, but those of lists of things, which are no facts of one.

    Doors, panes, holes, loads and layers are there where they are drawn, and a house without them is another house.
    """
    fields = {field.key: field.annotation for field in fields_of(model).values()} if model else {}
    for step, below in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        inner = record_in(fields[step]) if step in fields else None if isinstance(step, str) else model
        within = list(facts(below, inner, (*way, step)))
        of_things = inner is not None and (isinstance(below, list) or (isinstance(below, dict) and not within))
        if isinstance(step, str) and step not in NO_FACTS and not of_things:
            yield (*way, step)
        yield from within


def without(fragment: Block, way: Way) -> Block:
    """Return the fragment without the key at the end of the `way`."""
    copy: Block = changed(fragment, None, lambda *_: None)
    at: Any = copy
    for step in way[:-1]:
        at = at[step]
    del at[way[-1]]
    return copy


def at_end(fragment: Block, way: Way) -> Any:
    """Return what stands at the end of the `way`."""
    at: Any = fragment
    for step in way:
        at = at[step]
    return at


def label_of(finding: Finding) -> str:
    """Return what a finding is about."""
    return str(getattr(finding.subject, "label", ""))


def better(before: list[Finding], after: list[Finding]) -> bool:
    """Return whether what was open passes, or is gone while something else passes."""
    was, now = ({label_of(f): f for f in found} for found in (before, after))
    was_open = [label for label, f in was.items() if f.outcome in OPEN]
    passes = [label for label, f in now.items() if f.outcome is Outcome.PASS]
    gone = any(label not in now for label in was_open) and any(label not in was for label in passes)
    return gone or any(label in was_open for label in passes)


def is_explained(before: list[Finding], after: list[Finding]) -> bool:
    """Return whether two statements conflicted and one is left, or the rule says that it compares what is stated alone."""
    opened = [leaf for f in before if f.outcome in OPEN for leaf in f.check.leaves()]
    conflict = all(leaf.relation is AGREES for leaf in opened if leaf.outcome in OPEN)
    return conflict or _not_stated(after) > _not_stated(before)


def _not_stated(found: list[Finding]) -> int:
    return sum(words(leaf.why_text).endswith(": not stated") for f in found for leaf in f.check.leaves())


def open_findings(fragment: Block) -> list[Finding]:
    """Return what all rules find open in a house."""
    made = review(project_from(fragment, testing.plugins().added), testing.code(EDITION), testing.plugins())
    return [f for f in made.findings if f.outcome in OPEN]


def is_told(house: CaseHouse, way: Way) -> bool:
    """Return whether a rule asks for what was left out, or finds something open that was not, or less so."""
    after = open_findings(without(house.fragment, way))
    return worse(after, open_findings(house.fragment)) or any(n.key == way[-1] for f in after for n in f.check.needs)


def is_given_otherwise(fragment: Block, way: Way) -> bool:
    """Return whether the drawing, or another statement, gives what was left out, so that the plans still say it."""
    project = project_from(fragment, testing.plugins().added)
    fields = (
        (way_to(t.record, project), key_of(type(t.record), t.field))
        for t in drawn_too(House(project))
        if t.entry is None
    )
    return any(to is not None and (*to, key) == way for to, key in fields)


def worse(after: list[Finding], before: list[Finding]) -> bool:
    """Return whether something is open that was not, or less so."""
    return bool(_how_bad(after) - _how_bad(before))


def _how_bad(found: list[Finding]) -> Counter[tuple[str, str]]:
    return Counter({(f.rule.name, label_of(f)): Outcome.DOES_NOT_APPLY - f.outcome for f in found})


def false_passes(house: CaseHouse) -> Iterator[str]:
    """Yield the facts of a house without which its rule passes, and nothing else says so."""
    before = house.findings()
    if isinstance(house.rule, Line) or not any(f.outcome in OPEN for f in before):
        return
    for way in facts(house.fragment):
        try:
            after = house._replace(fragment=without(house.fragment, way)).findings()
        except Unusable:
            continue
        if not better(before, after) or is_explained(before, after) or is_told(house, way):
            continue
        if is_given_otherwise(without(house.fragment, way), way):
            continue
        yield ".".join(step for step in way if isinstance(step, str))


def silenced(house: CaseHouse) -> Iterator[tuple[str, str]]:
    """Yield the facts of a house without which its rule says no more of what it found wrong or not shown, and nothing else does.

    With each comes the label of the part.
    """
    before = {label_of(f): f for f in house.findings() if f.outcome in (Outcome.FAIL, Outcome.NOT_SHOWN)}
    if isinstance(house.rule, Line) or not before:
        return
    for way in facts(house.fragment):
        if isinstance(at_end(house.fragment, way), dict):
            continue  # a whole thing, which is there where it is drawn
        try:
            after = house._replace(fragment=without(house.fragment, way)).findings()
        except Unusable:
            continue
        said = {label_of(f) for f in after if f.outcome is not Outcome.DOES_NOT_APPLY}
        quiet = [f for label, f in before.items() if label not in said]
        if not quiet or any(f.outcome in OPEN for f in after) or is_explained(list(before.values()), after):
            continue
        if not is_judged_itself(house, way, quiet[0]) and not is_told(house, way):
            yield ".".join(step for step in way if isinstance(step, str)), label_of(quiet[0])


def is_judged_itself(house: CaseHouse, way: Way, finding: Finding) -> bool:
    """Return whether a fact is the very thing that was found wrong, which is compared where the plans give it."""
    at = at_end(house.fragment, way)
    measured = [leaf.measured for leaf in finding.check.leaves() if leaf.outcome in OPEN]
    return any(str(one) == str(at) or str(one) == {"yes": "True", "no": "False"}.get(str(at)) for one in measured)


@pytest.mark.parametrize("topic", TOPICS)
def test_no_fact_that_is_left_out_makes_a_rule_fall_silent(topic: str) -> None:
    wrong = [
        f"{house.rule.name}, {house.case}: without {fact} nothing of {label}"
        for house in sample(topic)
        for fact, label in silenced(house)
        if not makes_the_subject(house.rule.name, fact)
    ]
    assert wrong == []


@pytest.mark.parametrize("topic", TOPICS)
def test_no_fact_that_is_left_out_makes_a_rule_pass(topic: str) -> None:
    wrong = [
        f"{house.rule.name}, {house.case}: without {fact}"
        for house in sample(topic)
        for fact in false_passes(house)
        if not is_exempt(house.rule.name, fact)
    ]
    assert wrong == []


def test_what_is_exempt_is_little_and_of_rules_that_there_are() -> None:
    assert {rule for rule, _ in (*PASSES, *SILENT)} <= {r.name for r in testing.plugins().rules}
    assert len(PASSES) < 50
    assert len(SILENT) < 30
