"""The houses of all cases of rules, and how to make copies of them with a change to each mapping."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import pytest

from precheck import House, Rule, testing
from precheck.files.mistakes import record_in
from precheck.files.record import Record, fields_of, key_of, read_record
from precheck.files.source import Block, Items, read_file
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import run

PLUGINS = Path(__file__).parents[1] / "plugins"
TOPICS = sorted(folder.parent.name for folder in PLUGINS.glob("*/cases"))
EDITION = "irc-2021"
FULL = bool(os.environ.get("PRECHECK_ALL"))
"""Whether all is tried, where a sample will do from day to day."""
FEWEST = 40  # houses of a topic in a sample
Change = Callable[[Block, Any], Any]


class CaseHouse(NamedTuple):
    """The rule of a case, the name of the case, and the fragment of a project that it gives."""

    rule: Rule
    case: str
    fragment: Block
    code: str = EDITION
    says: str = ""

    def findings(self, change: Change | None = None) -> list[Finding]:
        """Return what the rule says of the house, with a `change` made to each of its mappings."""
        block = self.fragment if change is None else changed(self.fragment, Project, change)
        return list(run(self.rule, House(project_from(block, testing.plugins().added)), testing.code(EDITION)))

    def outcomes(self, change: Change | None = None) -> Counter[str]:
        """Return how often each outcome came of it."""
        return Counter(finding.outcome.word for finding in self.findings(change))


def houses(topic: str) -> Iterator[CaseHouse]:
    """Yield the houses of a topic's cases."""
    rules = {rule.name: rule for rule in testing.plugins().rules}
    for path in sorted((PLUGINS / topic / "cases").glob("*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        for case in file.cases:
            block = testing.overlay(file.base, case.given or Block((0, 0), "case"))
            block.setdefault("project", "case")
            code = case.code if isinstance(case.code, str) else EDITION
            yield CaseHouse(rules[file.rule], case.case, block, code, case.says)


def changed(node: Any, model: Any, change: Change) -> Any:
    """Return a copy of the tree below `node`, a record of `model`, in which `change` was made to each mapping."""
    if isinstance(node, dict):
        copy = Block(getattr(node, "at", (0, 0)), getattr(node, "file", ""))
        copy.keys_at.update(getattr(node, "keys_at", {}))
        fields = {field.key: field for field in fields_of(model).values()} if model else {}
        for key, value in node.items():
            copy[key] = changed(value, record_in(fields[key].annotation) if key in fields else None, change)
        return change(copy, model) or copy
    return listed([changed(item, model, change) for item in node]) if isinstance(node, list) else node


Way = tuple[str | int, ...]


def way_to(record: Record, below: Any, way: Way = ()) -> Way | None:
    """Return the keys and indices of a file that lead to `record` from what is `below`."""
    if below is record:
        return way
    if isinstance(below, Record):
        fields = ((field.key, getattr(below, name)) for name, field in fields_of(type(below)).items())
        return next((w for key, value in fields if (w := way_to(record, value, (*way, key))) is not None), None)
    if isinstance(below, tuple):
        return next((w for i, value in enumerate(below) if (w := way_to(record, value, (*way, i))) is not None), None)
    return None


def with_value(fragment: Block, way: Way, kind: type[Record], field: str, given: Any) -> Block:
    """Return a copy of a file in which a field of the record at the end of the `way` is given so."""
    block: Block = changed(fragment, None, lambda *_: None)
    at: Any = block
    for step in way:
        at = at[step] if isinstance(step, int) else at.setdefault(step, Block((0, 0), "case"))
    at[key_of(kind, field)] = given
    return block


def listed(items: list[Any]) -> Items:
    """Return a list as one of a file."""
    found = Items((0, 0), "case")
    found.extend(items)
    found.items_at = [(0, 0)] * len(items)
    return found


def sample(topic: str) -> list[CaseHouse]:
    """Return some of the houses of a topic's cases, always the same; all of them where `PRECHECK_ALL` is set."""
    every = list(houses(topic))
    few = len(every) if FULL else max(FEWEST, len(every) // 4)
    return Random(topic).sample(every, min(few, len(every)))


Tried = Callable[[str], Iterable[CaseHouse]]
TRIED = pytest.mark.parametrize("tried", [sample, pytest.param(houses, marks=pytest.mark.long)], ids=["some", "all"])
"""Tries a property on the sample of a topic from day to day, and on all of its houses in the long run."""
