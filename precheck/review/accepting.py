"""Findings and the records that accept them, brought together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from precheck.checks import Outcome
from precheck.project import Project
from precheck.review.accepted import PROJECT, Acceptance, RecordNotice, expired, matches_nothing, names, several
from precheck.review.accepted_value import not_accepted
from precheck.review.finding import Finding
from precheck.rules.rule import Rule
from precheck.survey import part_of

ACCEPTABLE = frozenset((Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN))


def accept(
    findings: list[Finding], records: list[Acceptance], today: date | None, project: Project, offered: Iterable[Rule]
) -> tuple[list[Finding], tuple[RecordNotice, ...]]:
    """Return `findings`, those that `records` accept with their record, and what the records need a hand with.

    Records that ran out before `today` accept nothing, and neither do those that say another value than is drawn, or name
    several findings at once; `offered` are all rules that a record could name.
    """
    day = today or date.today()  # noqa: DTZ011  # a record holds to the end of the day where the person sits
    expired_ = [record for record in records if record.has_expired(day)]
    holding = [record for record in records if not record.has_expired(day)]
    open_ = [finding for finding in findings if finding.outcome in ACCEPTABLE]
    named = {id(record): [finding for finding in open_ if _is_named(finding, record)] for record in holding}
    doubts = {id(record): _doubt(record, named[id(record)]) for record in holding}
    accepted = {id(f): record for record in holding if doubts[id(record)] is None for f in named[id(record)]}
    settled = [replace(f, accepted=accepted.get(id(f))) if id(f) in accepted else f for f in findings]
    rules = {rule.name for rule in offered}
    parts = {PROJECT, *project.by_id, *(str(getattr(f.subject, "label", "")) for f in findings)}
    told = [doubts[id(record)] for record in holding if named[id(record)]]
    unused = [matches_nothing(record, rules, parts) for record in holding if not named[id(record)]]
    return settled, (*map(expired, expired_), *unused, *filter(None, told))


def _doubt(record: Acceptance, named: list[Finding]) -> RecordNotice | None:
    """Return why `record` accepts nothing of the findings that it names, or None where it accepts its one."""
    if len(named) > 1:
        return several(record, [str(finding.subject.label) for finding in named])
    why = not_accepted(named[0], record) if named else ""
    return RecordNotice(record, why) if why else None


def _is_named(finding: Finding, record: Acceptance) -> bool:
    part = part_of(finding.subject)
    about = (finding.rule.name, part.id if part is not None else None, str(getattr(finding.subject, "label", "")))
    return names(record, *about)
