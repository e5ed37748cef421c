"""What a report on paper says, as plain data: the page and the PDF are two settings of the same content.

It holds what a person acts on. How a limit came to be is told by ``precheck explain``, and each check by ``--all``.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import PurePath
from typing import Any

from precheck import __version__
from precheck.checks import Outcome
from precheck.checks.evidence import Evidence, evidence_of
from precheck.checks.outcome import capital
from precheck.project import Part
from precheck.reports import words
from precheck.reports.groups import LABELS, LOOKS, Group
from precheck.reports.opening import NO_WORK, excluded, first_of, outside, works_told
from precheck.reports.worklist import TEN, Item, counts_of, in_group, in_work_order
from precheck.review.finding import READY, Finding, Review
from precheck.rulesets.limit import Limit

Data = dict[str, Any]


def content_of(review: Review, items: tuple[Item, ...]) -> Data:
    """Return all that a report says of one project."""
    heading, first = first_of(items, TEN)
    return {
        "project": review.project.project,
        "address": review.project.address,
        "scope": review.project.scope,
        "file": PurePath(review.project.place.file).name,
        "code": words.code_line(review),
        "partial": words.code_warning(review),
        "understood": review.understood,
        "ready": review.verdict == READY,
        "limited": words.limited(review),
        "counts": _counts(review, items),
        "works": [{"name": one.name, "count": one.counted} for one in works_told(review)],
        "no_work": NO_WORK,
        "excluded": excluded(review),
        "first": {"heading": heading, "items": [_brief(item) for item in first]},
        "groups": [g for group in Group if (g := _group(group, items, review))],
        "accepted": [{**_short(f), "document": words.accepted_line(f)} for f in in_work_order(review.accepted)],
        "renew": words.record_notices(review),
        "met": review.counts[Outcome.PASS],
        "met_by_topic": _by_topic(f.rule.name for f in review.findings if f.outcome is Outcome.PASS),
        "aside": review.counts[Outcome.DOES_NOT_APPLY],
        "unchecked": len(outside(review)) + len(review.not_checked),
        "not_checked": _not_checked(review),
        "reminder": words.REMINDER,
        "version": __version__,
    }


def _counts(review: Review, items: Sequence[Item]) -> list[Data]:
    """Return how much there is in each group, then how many checks are met."""
    groups = [{"label": g.counted(n), "outcome": g.key, "count": n} for g, n in counts_of(items).items() if n]
    met = review.counts[Outcome.PASS]
    return [*groups, {"label": f"{met} check{'' if met == 1 else 's'} met", "outcome": "pass", "count": met}]


def slug(outcome: Outcome) -> str:
    """Return the outcome as one word for ids and styles."""
    return outcome.word.replace(" ", "-")


def titled(part: Part | None) -> str:
    """Return what a heading calls `part`: kind and id, and its name where it has one."""
    if part is None:
        return "the project"
    name = getattr(part, "name", "")
    return f"{part.label}, {name}" if name else part.label


def _brief(item: Item) -> Data:
    """Return an item as the list of what to do first holds it."""
    fixes = item.remedies if item.group is Group.FIX else ()
    return {"number": item.number, "outcome": slug(item.outcome), "what": item.brief, "fix": capital("; ".join(fixes))}


def _group(group: Group, items: Sequence[Item], review: Review) -> Data | None:
    mine = in_group(items, group)
    if not mine:
        return None
    told = [_item(item, review) for item in mine]
    return {"title": group.title, "key": group.key, "lead": group.lead, "items": told}


def _item(item: Item, review: Review) -> Data:
    first = item.findings[0]
    shown = item.outcome is not Outcome.NOT_SHOWN and item.group is not Group.ASK
    return {
        "number": item.number,
        "label": item.label,
        "name": getattr(item.part, "name", "") if len(item.parts) == 1 else "",
        "outcome": slug(item.outcome),
        "word": LABELS[item.outcome],
        "look": [LOOKS[look] for look in first.look] if shown else [],
        "line": item.line,
        "sheets": list(item.sheets),
        "facts": [_fact(e) for e in words.telling(first)] if shown else [],
        "why": (first.error or first.check.why) if shown else "",
        "question": item.gist if item.group is Group.ASK else "",
        "fix": "; ".join(item.remedies) if shown else "",
        "wanted": list(item.wants) if item.group is not Group.ASK else [],
        "source": "; ".join(_sources(item, review)) if shown else "",
    }


def _fact(e: Evidence) -> Data:
    return {
        "what": capital(e.what),
        "measured": f"{e.lead}{e.measured}",
        "derived": e.value if e.is_worked else e.note,
        "asked": e.asked,
        "margin": f"{e.margin} ({LABELS[e.outcome]})" if e.margin else LABELS[e.outcome],
        "outcome": slug(e.outcome),
    }


def _sources(item: Item, review: Review) -> list[str]:
    """Return where the limits stand that made an item what it is, each in one citation."""
    limits = _telling(item.findings[0])
    return list(dict.fromkeys(told for limit in limits if (told := words.source_of(limit, review))))


def _telling(finding: Finding) -> list[Limit[Any]]:
    told = {e.limit_name for e in words.telling(finding)}
    used = {leaf.bound.name for leaf in finding.check.leaves() if leaf.bound is not None}
    named = [limit for limit in finding.limits if limit.name in (told or used)]
    return named or list(finding.limits)


def _not_checked(review: Review) -> list[str]:
    """Return what is not checked: of the model code by topic and name, and the rest with why."""
    topics: dict[str, list[str]] = {}
    for one in review.code.not_checked:
        topics.setdefault(one.topic, []).append(one.what)
    listed = frozenset(map(str, review.code.not_checked))
    of_the_code = frozenset(review.not_checked) & listed
    told = [line for line in review.not_checked if line not in listed]
    named = (
        f"{topic}: {', '.join(names)}" for topic, names in topics.items() if not review.topics or topic in review.topics
    )
    return [*outside(review), *told, *(named if of_the_code else ())]


def _short(finding: Finding) -> Data:
    told = [e.sentence for e in evidence_of(finding.check)] or [finding.check.why or finding.rule.summary]
    return {"label": words.label(finding), "rule": finding.rule.name, "told": told}


def _by_topic(rules: Iterable[str]) -> list[Data]:
    """Return how often each rule is met, topic by topic."""
    topics: dict[str, list[Data]] = {}
    for rule, count in sorted(Counter(rules).items()):
        topic, _, name = rule.partition(".")
        topics.setdefault(topic, []).append({"name": name, "count": count})
    return [{"topic": topic, "rules": met} for topic, met in topics.items()]
