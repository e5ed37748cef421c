"""Remedies that are data, made in the file as a program would that reads them in the JSON report."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from case_houses import EDITION, changed, listed

from precheck import testing
from precheck.checks import Outcome
from precheck.files.edit import Change, with_changes
from precheck.files.source import Block
from precheck.project import Project, project_from
from precheck.questions.answer import in_quotes
from precheck.reports.json import change_data
from precheck.review.finding import Finding
from precheck.review.run import review

NUMBER = re.compile(r"\d")
STOPS = (Outcome.ERROR, Outcome.FAIL)
Key = tuple[str, str]


def project_of(fragment: Block) -> Project:
    """Return the project of a file."""
    return project_from(fragment, testing.plugins().added)


def found(project: Project) -> dict[Key, Finding]:
    """Return the worst that each rule says of each thing, by the two of them."""
    worst: dict[Key, Finding] = {}
    for finding in review(project, testing.code(EDITION), testing.plugins()).findings:
        key = (finding.rule.name, str(getattr(finding.subject, "label", "")))
        worst[key] = min(worst.get(key, finding), finding, key=lambda one: one.outcome)
    return worst


def with_remedy(fragment: Block, finding: Finding) -> Block:
    """Return the file with each value of a remedy written where the report says that it goes."""
    block: Block = changed(fragment, None, lambda *_: None)
    for change in map(change_data, finding.changes):
        *way, last = change["path"]
        at: Any = block
        for step in way:
            at = at[step] if isinstance(step, int) else at.setdefault(step, Block((0, 0), "case"))
        at[last] = listed(change["value"]) if isinstance(change["value"], list) else change["value"]
    return block


def written_in(text: str, finding: Finding) -> str:
    """Return the text of a file with each value of a remedy written into it."""
    changes = [(tuple(change["path"]), change["value"]) for change in map(change_data, finding.changes)]
    return with_changes(
        text, [Change(path, flow(value) if isinstance(value, list) else value) for path, value in changes]
    )


def flow(values: list[str]) -> str:
    """Return values as a list within a line of a file."""
    return f"[{', '.join(map(in_quotes, values))}]"


def wrong(remedied: Block, before: dict[Key, Finding], key: Key) -> Iterator[str]:
    """Yield what is wrong in a file with the remedy of a finding made: that it is still open, or what else fails now."""
    finding, after = before[key], found(project_of(remedied))
    open_before = {Outcome.NOT_SHOWN} if finding.check.needs else set()  # what was not shown before still is not
    if key in after and after[key].outcome in {*STOPS, Outcome.NOT_SHOWN} - open_before:
        yield f"{finding.check.remedy}: {key[0]} of {key[1]} still {after[key].outcome.word}"
    for other, now in after.items():
        was = before[other].outcome if other in before else Outcome.DOES_NOT_APPLY
        if other != key and now.outcome in STOPS and was not in (*STOPS, Outcome.NOT_SHOWN):
            yield f"{finding.check.remedy}: with it {other[0]} of {other[1]} is {now.outcome.word}"


def is_silent(finding: Finding) -> bool:
    """Return whether a remedy names a number, and says neither what it changes nor what a person decides first."""
    check = finding.check
    return bool(NUMBER.search(check.remedy)) and not check.changes and not check.decide


def wrong_in(fragment: Block, rule: str = "") -> Iterator[str]:
    """Yield what is wrong with each remedy of a file, or with those of one rule."""
    before = found(project_of(fragment))
    for key, finding in ((k, f) for k, f in before.items() if rule in ("", k[0])):
        if is_silent(finding):
            yield f"{finding.check.remedy}: {key[0]} of {key[1]} does not say what it changes"
        if finding.check.changes:
            yield from wrong(with_remedy(fragment, finding), before, key)
