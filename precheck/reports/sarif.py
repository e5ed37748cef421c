"""The report as SARIF 2.1.0, the OASIS standard that code hosts and editors read.

What stops the job (fails, is not shown) is a result of level `error`, what a person should look at one of level
`warning`; viewers hide most others. An accepted finding is a suppressed result. What passed is counted, not listed. A
check that failed to run, a file that cannot be used and what was not checked are notifications of the run.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from precheck import __version__
from precheck.checks import Outcome
from precheck.files.source import Place, Problem
from precheck.reports import words
from precheck.reports.fingerprint import KEY, fingerprint
from precheck.reports.uri import uri
from precheck.review.finding import Finding, Review
from precheck.rules.rule import Rule

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS = {Outcome.FAIL: "error", Outcome.NOT_SHOWN: "error", Outcome.WARN: "warning"}


def render(reviews: list[Review]) -> str:
    """Return the log of one run over all projects."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> dict[str, Any]:
    """Return the results on one project, the rules that they name, and what else the run has to tell of it."""
    findings = [f for f in review.findings if f.outcome in _LEVELS]
    erred = [f for f in review.findings if f.outcome is Outcome.ERROR]
    return {
        "artifact": _artifact(review),
        "results": [_result(finding) for finding in findings],
        "rules": {f.rule.name: _rule(f.rule) for f in (*findings, *erred)},
        "told": [*map(_broke_off, erred), *_notices(review), *_not_checked(review)],
        "erred": bool(erred),
    }


def refused(file: str, problems: Sequence[Problem]) -> dict[str, Any]:
    """Return the notifications that a file cannot be used."""
    told = [_notification("unusable-file", "error", problem.what, problem.place) for problem in problems]
    return {"artifact": {"location": {"uri": uri(file)}}, "results": [], "rules": {}, "told": told, "erred": True}


def joined(pieces: Iterable[dict[str, Any]]) -> Iterator[str]:
    """Yield the log, the results as they come; the rules that they name follow them."""
    rules: dict[str, Any] = {}
    told: dict[str, Any] = {}
    artifacts: list[Any] = []
    erred = False
    yield f'{{\n"$schema": "{SCHEMA}",\n"version": "2.1.0",\n"runs": [{{\n"results": ['
    lead = "\n"
    for one in pieces:
        rules.update(one["rules"])
        told.update({_text(notification): notification for notification in one["told"]})
        artifacts.append(one["artifact"])
        erred = erred or one["erred"]
        for result in one["results"]:
            yield f"{lead}{_text(result)}"
            lead = ",\n"
    yield "\n],\n" + _text(_run(rules, list(told.values()), artifacts, erred))[1:-1] + "\n}]\n}\n"


def _run(rules: dict[str, Any], told: list[Any], artifacts: list[Any], erred: bool) -> dict[str, Any]:
    driver = {
        "name": "precheck",
        "version": __version__,
        "semanticVersion": __version__,
        "shortDescription": {"text": "A pre-check of residential remodeling drawings."},
        "fullDescription": {"text": words.REMINDER},
        "rules": [rules[name] for name in sorted(rules)],
    }
    invocation = {"executionSuccessful": not erred, "toolExecutionNotifications": told}
    return {"tool": {"driver": driver}, "invocations": [invocation], "artifacts": artifacts,
            "columnKind": "unicodeCodePoints", "properties": {"reminder": words.REMINDER}}  # fmt: skip


def _text(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False)


def _artifact(review: Review) -> dict[str, Any]:
    return {
        "location": {"uri": uri(review.project.place.file)},
        "properties": {
            "project": review.project.project,
            "code": words.code_line(review),
            "partial": review.code.partial,
            "choices": [str(choice) for choice in review.code.choices],
            "verdict": review.verdict,
            "counts": {outcome.word: review.counts[outcome] for outcome in reversed(Outcome)},
        },
    }


def _rule(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.name,
        "shortDescription": {"text": rule.summary},
        "fullDescription": {"text": rule.meaning or rule.summary},
        "properties": {"tags": [rule.topic], "stage": rule.stage},
    }


def _result(finding: Finding) -> dict[str, Any]:
    accepted = words.accepted_line(finding)
    suppressions = [{"kind": "external", "status": "accepted", "justification": accepted}] if accepted else []
    return {
        "ruleId": finding.rule.name,
        "kind": "fail",
        "level": _LEVELS[finding.outcome],
        "message": {"text": words.full_message(finding)},
        "locations": [_location(finding.place, words.label(finding))],
        "partialFingerprints": {KEY: fingerprint(finding)},
        "properties": {
            "outcome": finding.outcome.word,
            "sections": list(finding.sections),
            "needs": words.needs(finding),
            "remedy": finding.check.remedy,
        },
        "suppressions": suppressions,
    }


def _location(place: Place, label: str = "") -> dict[str, Any]:
    where: dict[str, Any] = {
        "physicalLocation": {
            "artifactLocation": {"uri": uri(place.file)},
            "region": {"startLine": place.line, "startColumn": place.column},
        }
    }
    if label:
        where["logicalLocations"] = [{"fullyQualifiedName": label}]
    return where


def _broke_off(finding: Finding) -> dict[str, Any]:
    told = _notification("rule-broke-off", "error", words.message(finding), finding.place)
    return {**told, "associatedRule": {"id": finding.rule.name}}


def _notices(review: Review) -> Iterator[dict[str, Any]]:
    for told in review.record_notices:
        yield _notification("accepted-finding", "warning", str(told), told.record.place)


def _not_checked(review: Review) -> Iterator[dict[str, Any]]:
    for line in review.not_checked:
        yield _notification("not-checked", "note", f"Not checked under {review.code.name}: {line}")


def _notification(name: str, level: str, text: str, place: Place | None = None) -> dict[str, Any]:
    notification = {"descriptor": {"id": name}, "level": level, "message": {"text": text}}
    return notification if place is None else {**notification, "locations": [_location(place)]}
