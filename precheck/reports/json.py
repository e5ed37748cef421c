"""The report for machines: stable keys in a stable order; the same input gives the same bytes."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from textwrap import indent
from typing import Any

from precheck import __version__
from precheck.checks import NewValue, Outcome
from precheck.checks.evidence import evidence_of
from precheck.checks.outcome import WorkStep
from precheck.files.missing import is_missing
from precheck.files.path import path_to
from precheck.files.record import key_of
from precheck.files.source import Place, Problem
from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.worklist import Item, items_of
from precheck.review.accepted import Acceptance
from precheck.review.finding import Finding, Review, WorkState
from precheck.rulesets.limit import Limit
from precheck.survey import part_of
from precheck.units.wording import in_file


def render(reviews: list[Review]) -> str:
    """Return one object for one project, and a list of them for several."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the object of one project, each finding on a line of its own."""
    data = as_data(review)
    found = [json.dumps(finding, ensure_ascii=False) for finding in data["findings"]]
    whole = json.dumps({**data, "findings": []}, indent=2, ensure_ascii=False)
    lines = "[\n    " + ",\n    ".join(found) + "\n  ]" if found else "[]"
    return whole.replace('"findings": []', f'"findings": {lines}', 1)  # within a text the quotes would be escaped


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the object of a file that cannot be used."""
    return json.dumps(refused_data(file, problems), indent=2, ensure_ascii=False)


def refused_data(file: str, problems: Sequence[Problem]) -> dict[str, Any]:
    """Return what is told of a file that cannot be used as plain data."""
    told = [{"place": _place(problem.place), "what": problem.what} for problem in problems]
    return {**_tool(), "project": {"name": None, "file": file}, "verdict": "unusable", "problems": told}


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield the one object as it is, and several as a list."""
    coming = iter(pieces)
    first, second = next(coming, None), next(coming, None)
    if second is None:
        yield f"{first or '[]'}\n"
        return
    yield f"[\n{indent(first or '', '  ')},\n{indent(second, '  ')}"
    for one in coming:
        yield f",\n{indent(one, '  ')}"
    yield "\n]\n"


def as_data(review: Review) -> dict[str, Any]:
    """Return the report on one project as plain data."""
    code = review.code
    return {
        **_tool(),
        "project": {"name": review.project.project, "file": review.project.place.file},
        "code": {
            "jurisdiction": code.name,
            "applied_on": str(code.applied_on) if code.applied_on else None,
            "chain": [_step(step) for step in code.chain],
            "partial": code.partial,
            "choices": [str(choice) for choice in code.choices],
        },
        "verdict": review.verdict,
        "understood": review.understood,
        "works": [_state_of(one) for one in review.works],
        "not_in_this_job": [{"what": one.what, "why": one.why} for one in review.project.not_in_this_job],
        "to_do": [_to_do(item) for item in items_of(review)],
        "counts": {outcome.word: review.counts[outcome] for outcome in reversed(Outcome)},
        "accepted": {"count": len(review.accepted), "to_renew_or_remove": words.record_notices(review)},
        "findings": [_finding(finding) for finding in review.findings],
        "not_checked": list(review.not_checked),
        "reminder": words.REMINDER,
    }


def _tool() -> dict[str, Any]:
    return {"tool": {"name": "precheck", "version": __version__}}


def _step(step: Any) -> dict[str, Any]:
    in_force = str(step.in_force) if step.in_force else None
    return {"name": step.name, "by": step.by, "in_force": in_force, "partial": step.partial}


def _finding(finding: Finding) -> dict[str, Any]:
    check = finding.check
    return {
        "rule": finding.rule.name,
        "topic": finding.rule.topic,
        "subject": words.subject(finding),
        "place": _place(finding.place),
        "outcome": finding.outcome.word,
        "why": finding.error or check.why,
        "look": [look.value for look in finding.look],
        "evidence": [
            {
                "what": e.what,
                "measured": e.measured,
                "relation": e.relation,
                "limit": e.limit,
                "derived": e.derived,
                "margin": e.margin,
            }
            for e in evidence_of(check)
        ],
        "sections": list(finding.sections),
        "limits": [_limit(limit) for limit in finding.limits],
        "needs": words.needs(finding),
        "remedy": check.remedy,
        "changes": [change_data(one) for one in finding.changes],
        "decide": check.decide,
        "work": [_work(step) for step in check.work],
        "stage": finding.rule.stage,
        "message": words.message(finding),
        "accepted": _accepted(finding.accepted) if finding.accepted else None,
    }


def _state_of(one: WorkState) -> dict[str, Any]:
    part = part_of(one.work.about)
    return {
        "work": one.work.kind,
        "subject": {"kind": part.kind if part is not None else "project", "id": part.id if part is not None else ""},
        "listed": one.work.listed,
        "shown": one.shown,
        "of": one.of,
        "lines": [
            {"line": line.line, "name": line.name, "topic": line.topic, "state": line.state, "by": line.by,
             "section": line.section, "asked": line.asked, "show_on": line.show_on}
            for line in one.lines
        ],
    }  # fmt: skip


def _to_do(item: Item) -> dict[str, Any]:
    """Return one thing to do, in the order and the words of the reports for people."""
    return {
        "number": item.number,
        "group": item.group.key,
        "about": item.label,
        "parts": [part.id for part in item.parts],
        "what": list(item.wants) if item.group is Group.ADD else [item.gist],
        "rules": list(dict.fromkeys(finding.rule.name for finding in item.findings)),
    }


def change_data(one: NewValue) -> dict[str, Any]:
    """Return a value that the remedy changes: of which part and record, under which key, and where that stands.

    `path` leads to it in the file, and `value` is what to write there; a list is one of such values.
    """
    part, key = part_of(one.record), key_of(type(one.record), one.field)
    return {
        "part": part.id if part is not None else "",
        "record": one.record.label,
        "key": key,
        "path": [*path_to(one.record), key],
        "value": [*map(in_file, one.value)] if type(one.value) is tuple else in_file(one.value),
        "place": _place(one.record.place),
    }


def _accepted(record: Acceptance) -> dict[str, Any]:
    until = None if is_missing(record.until) else str(record.until)
    return {"document": record.document, "by": record.by, "until": until, "note": record.note,
            "place": _place(record.place)}  # fmt: skip


def _work(step: WorkStep) -> dict[str, Any]:
    return {name: getattr(step, name) for name in ("symbol", "meaning", "expression", "value", "unit", "source")}


def _limit(limit: Limit[Any]) -> dict[str, Any]:
    history = [
        {"act": e.act, "value": e.value, "source": e.source, "of": e.of, "place": str(e.place)} for e in limit.history
    ]
    return {"name": limit.name, "value": limit.text, "section": limit.section, "basis": limit.basis, "history": history}


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
