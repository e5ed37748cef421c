"""The report for machines: stable keys in a stable order; the same input gives the same bytes."""

from __future__ import annotations

import json
from typing import Any

from precheck import __version__
from precheck.checks import Outcome
from precheck.limits import Limit
from precheck.reports import words
from precheck.review import Finding, Review
from precheck.source import Place


def render(reviews: list[Review]) -> str:
    """Return one object for one project, and a list of them for several."""
    objects = [as_data(review) for review in reviews]
    return json.dumps(objects[0] if len(objects) == 1 else objects, indent=2, ensure_ascii=False) + "\n"


def as_data(review: Review) -> dict[str, Any]:
    """Return the report on one project as plain data."""
    code = review.code
    return {
        "tool": {"name": "precheck", "version": __version__},
        "project": {"name": review.project.project, "file": review.project.place.file},
        "code": {
            "jurisdiction": code.name,
            "applied_on": str(code.applied_on) if code.applied_on else None,
            "chain": [_step(step) for step in code.chain],
            "partial": code.partial,
        },
        "verdict": review.verdict,
        "counts": {outcome.word: review.counts[outcome] for outcome in reversed(Outcome)},
        "findings": [_finding(finding) for finding in review.findings],
        "not_checked": list(review.not_checked),
        "reminder": words.REMINDER,
    }


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
                "what": words.means(finding, e),
                "measured": e.measured,
                "relation": e.relation,
                "limit": e.limit,
                "derived": e.derived,
                "margin": e.margin,
            }
            for e in check.evidence()
        ],
        "sections": list(finding.sections),
        "limits": [_limit(limit) for limit in finding.limits],
        "needs": words.needs(finding),
        "remedy": check.remedy,
        "stage": finding.rule.stage,
        "message": words.message(finding),
    }


def _limit(limit: Limit[Any]) -> dict[str, Any]:
    history = [{"act": e.act, "value": e.value, "source": e.source, "place": str(e.place)} for e in limit.history]
    return {"name": limit.name, "value": limit.text, "section": limit.section, "basis": limit.basis, "history": history}


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
