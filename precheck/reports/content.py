"""What a report on paper says, as plain data: the page and the PDF are two settings of the same content."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any

from precheck import __version__
from precheck.checks import Outcome
from precheck.checks.evidence import Evidence, evidence_of
from precheck.checks.outcome import capital
from precheck.project import Part
from precheck.reports import words
from precheck.reports.groups import LABELS, LOOKS, Group, counts_of
from precheck.reports.worklist import Item, in_work_order
from precheck.review.finding import READY, Finding, Review
from precheck.rulesets.limit import Event, Limit

_BASES = {
    "read": "read for this edition",
    "read elsewhere": "read in another edition or a summary",
    "memory": "from memory, not read: look it up before you rely on it",
    "practice": "common practice, no source",
    "local": "set by the jurisdiction",
    "demo": "invented for a demonstration",
}
Data = dict[str, Any]


def content_of(review: Review, items: tuple[Item, ...]) -> Data:
    """Return all that a report says of one project."""
    return {
        "project": review.project.project,
        "address": review.project.address,
        "scope": review.project.scope,
        "file": PurePath(review.project.place.file).name,
        "code": words.code_line(review),
        "partial": words.partial_line(review),
        "ready": review.verdict == READY,
        "limited": words.limited(review),
        "counts": _counts(review),
        "todo": _todo(items, review.strict),
        "looks": [] if review.strict else _looks(items),
        "groups": [g for group in Group if (g := _group(group, items))],
        "accepted": [{**_short(f), "document": words.accepted_line(f)} for f in in_work_order(review.accepted)],
        "renew": words.record_notices(review),
        "met": [_short(f) for f in in_work_order(review.findings) if f.outcome is Outcome.PASS],
        "aside": [_short(f) for f in in_work_order(review.findings) if f.outcome is Outcome.DOES_NOT_APPLY],
        "not_checked": list(review.not_checked),
        "reminder": words.REMINDER,
        "version": __version__,
    }


def _counts(review: Review) -> list[Data]:
    """Return how many findings there are of each group, then those that are met and those that do not apply."""
    groups = [{"label": g.title, "outcome": g.key, "count": n} for g, n in counts_of(review).items()]
    rest = (Outcome.PASS, Outcome.DOES_NOT_APPLY)
    return [*groups, *({"label": LABELS[o], "outcome": slug(o), "count": review.counts[o]} for o in rest)]


def _looks(items: tuple[Item, ...]) -> list[Data]:
    """Return how much there is to ask and to review, which stops nothing."""
    found = ((group, sum(item.group is group for item in items)) for group in (Group.ASK, Group.REVIEW))
    return [{"key": group.key, "text": group.counted(count)} for group, count in found if count]


def slug(outcome: Outcome) -> str:
    """Return the outcome as one word for ids and styles."""
    return outcome.word.replace(" ", "-")


def _todo(items: tuple[Item, ...], strict: bool) -> list[Data]:
    """Return what to do, part by part: the first thing anybody reads."""
    parts: dict[str, list[Item]] = {}
    for item in items:
        if strict or item.outcome is not Outcome.WARN:
            parts.setdefault(titled(item.part), []).append(item)
    return [
        {
            "part": part,
            "items": [
                {"number": i.number, "outcome": slug(i.outcome), "do": _do(i), "since": _since(i)} for i in found
            ],
        }
        for part, found in parts.items()
    ]


def _do(item: Item) -> str:
    if item.outcome is Outcome.NOT_SHOWN:
        return capital(item.gist)
    finding = item.findings[0]
    if finding.check.remedy or finding.error or evidence_of(finding.check) or item.outcome is Outcome.FAIL:
        return capital(finding.check.remedy or words.lines_of(finding)[0])
    return f"{finding.rule.summary.rstrip('.')}: {finding.check.why}"


def titled(part: Part | None) -> str:
    """Return what a heading calls `part`: kind and id, and its name where it has one."""
    if part is None:
        return "the project"
    name = getattr(part, "name", "")
    return f"{part.label}, {name}" if name else part.label


def _since(item: Item) -> str:
    """Return what the remedy answers, where `_do` gives a remedy."""
    first = item.findings[0]
    return words.lines_of(first)[0] if item.outcome is not Outcome.NOT_SHOWN and first.check.remedy else ""


def _group(group: Group, items: tuple[Item, ...]) -> Data | None:
    mine = [item for item in items if item.group is group]
    if not mine:
        return None
    return {"title": group.title, "key": group.key, "lead": group.lead, "items": [_item(item) for item in mine]}


def _item(item: Item) -> Data:
    first = item.findings[0]
    shown = item.outcome is not Outcome.NOT_SHOWN
    return {
        "number": item.number,
        "label": item.label,
        "name": getattr(item.part, "name", ""),
        "outcome": slug(item.outcome),
        "word": LABELS[item.outcome],
        "look": [LOOKS[look] for look in first.look],
        "topic": first.rule.topic,
        "summary": first.rule.summary if shown else "",
        "line": item.line,
        "sheets": list(item.sheets),
        "facts": [_fact(e) for e in words.telling(first)] if shown else [],
        "why": first.error or first.check.why if shown else "",
        "fix": first.check.remedy if shown else "",
        "wanted": [{"what": w.text_for(item.label), "for": w.waiting(item.label, _waiting)} for w in item.wanted],
        "sections": list(dict.fromkeys(s for f in item.findings for s in f.sections)),
        "origins": [_limit(limit) for limit in _telling(first)] if shown else [],
        "checks": [_check(finding) for finding in item.findings],
    }


def _waiting(finding: Finding) -> str:
    return finding.rule.summary.rstrip(".")


def _fact(e: Evidence) -> Data:
    return {
        "what": capital(e.what),
        "measured": f"{e.lead}{e.measured}",
        "derived": e.value if e.is_worked else e.note,
        "asked": e.asked,
        "margin": f"{e.margin} ({LABELS[e.outcome]})" if e.margin else LABELS[e.outcome],
        "outcome": slug(e.outcome),
    }


def _check(finding: Finding) -> Data:
    """Return one rule's calculation and the history of its limits: what is folded beneath."""
    return {
        "rule": finding.rule.name,
        "summary": finding.rule.summary,
        "stage": finding.rule.stage,
        "outcome": slug(finding.outcome),
        "facts": [_fact(e) for e in evidence_of(finding.check)],
        "limits": [_limit(limit) for limit in _used(finding)],
    }


def _telling(finding: Finding) -> list[Limit[Any]]:
    names = {e.limit_name for e in words.telling(finding)}
    return [limit for limit in _used(finding) if limit.name in names]


def _used(finding: Finding) -> list[Limit[Any]]:
    used = {leaf.bound.name for leaf in finding.check.leaves() if leaf.bound is not None}
    return [limit for limit in finding.limits if limit.name in used] or list(finding.limits)


def _limit(limit: Limit[Any]) -> Data:
    return {
        "name": limit.name,
        "measures": limit.measures,
        "value": limit.text,
        "section": limit.section,
        "basis": _BASES[limit.basis],
        "advised": limit.advised,
        "tolerance": str(limit.tolerance) if limit.tolerance is not None else "",
        "history": [_event(event) for event in limit.history],
    }


def _event(event: Event) -> Data:
    act, value = words.act(event)
    return {"act": act, "value": value, "source": event.source, "place": _near(event)}


def _near(event: Event) -> str:
    """Return file and line, the file from its edition or place on, without the folders of the machine at hand."""
    path = PurePath(event.place.file)
    return f"{'/'.join(path.parts[-3:] if path.is_absolute() else path.parts)}:{event.place.line}"


def _short(finding: Finding) -> Data:
    told = [e.sentence for e in evidence_of(finding.check)] or [finding.check.why or finding.rule.summary]
    return {
        "label": words.label(finding),
        "topic": finding.rule.topic,
        "rule": finding.rule.name,
        "told": told,
        "sections": list(finding.sections),
    }
