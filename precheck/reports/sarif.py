"""The report as SARIF 2.1.0, the OASIS standard that code hosts and editors read.

What stops the job (fails, is not shown) is a result of level `error`, what a person should look at one of level
`warning`; viewers hide most others. An accepted finding is a suppressed result. What passed is counted, not listed. A
check that failed to run, a file that cannot be used and what was not checked are notifications of the run. Code hosts
take so many results of a run and no more: what stops a job goes first, and a notification counts what is left out.
"""

from __future__ import annotations

import json
from collections import Counter
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
MOST_RESULTS = 25_000  # of one run, as code hosts publish it; past it they refuse the whole log
LEFT_OUT = "left-out"  # the notification that says so
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
    """Yield the log: what stops a job as it comes, then what to look at; the rules that they name follow them."""
    rules: dict[str, Any] = {}
    told: dict[str, Any] = {}
    artifacts: list[Any] = []
    erred = False
    room = _Room()
    yield f'{{\n"$schema": "{SCHEMA}",\n"version": "2.1.0",\n"runs": [{{\n"results": ['
    for one in pieces:
        rules.update(one["rules"])
        told.update({_text(notification): notification for notification in one["told"]})
        artifacts.append(one["artifact"])
        erred = erred or one["erred"]
        yield from room.taken(one["results"])
    yield from room.rest()
    yield "\n],\n" + _text(_run(rules, [*room.told(), *told.values()], artifacts, erred))[1:-1] + "\n}]\n}\n"


class _Room:
    """The room for results in one run. What one should look at waits until all that stops a job has its place."""

    def __init__(self) -> None:
        self.written = 0
        self.waiting: list[str] = []
        self.left_out: Counter[str] = Counter()

    def taken(self, results: Iterable[dict[str, Any]]) -> Iterator[str]:
        """Yield what has its place at once."""
        for result in results:
            if self.written + len(self.waiting) >= MOST_RESULTS and not self._made_room(result):
                self.left_out[result["level"]] += 1
            elif result["level"] == "error":
                yield self._written(_text(result))
            else:
                self.waiting.append(_text(result))

    def _made_room(self, result: dict[str, Any]) -> bool:
        """Let a result that stops a job have the place of one that waits."""
        if result["level"] != "error" or not self.waiting:
            return False
        self.waiting.pop()
        self.left_out["warning"] += 1
        return True

    def rest(self) -> Iterator[str]:
        """Yield what has waited."""
        for text in self.waiting:
            yield self._written(text)

    def _written(self, text: str) -> str:
        self.written += 1
        return f"{',' if self.written > 1 else ''}\n{text}"

    def told(self) -> Iterator[dict[str, Any]]:
        """Yield the notification of what found no room."""
        if self.left_out:
            stops, looks = self.left_out["error"], self.left_out["warning"]
            what = f"{stops:,} that stop a job and {looks:,} to look at are left out; check fewer files at a time"
            said = f"This log holds {self.written:,} results, as many as code hosts take of one run: {what}"
            yield _notification(LEFT_OUT, "error" if stops else "warning", said)


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
            "globalId": words.subject(finding)["global_id"],
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
