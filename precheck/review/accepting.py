"""Findings and the records that accept them, brought together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from precheck.checks import Outcome
from precheck.project import Project
from precheck.review.accepted import PROJECT, Acceptance, RecordNotice, expired, matches_nothing, names
from precheck.review.finding import Finding
from precheck.rules.rule import Rule
from precheck.survey import part_of

ACCEPTABLE = frozenset((Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN))


def accept(
    findings: list[Finding], records: list[Acceptance], today: date | None, project: Project, offered: Iterable[Rule]
) -> tuple[list[Finding], tuple[RecordNotice, ...]]:
    """Return `findings`, those that `records` accept with their record, and what the records need a hand with.

    Records that ran out before `today` accept nothing; `offered` are all rules that a record could name.
    """
    day = today or date.today()  # noqa: DTZ011  # a record holds to the end of the day where the person sits
    holding = [record for record in records if not record.has_expired(day)]
    settled = [replace(f, accepted=_record_for(f, holding)) if f.outcome in ACCEPTABLE else f for f in findings]
    used = {id(finding.accepted) for finding in settled}
    rules = {rule.name for rule in offered}
    parts = {PROJECT, *project.by_id, *(str(getattr(f.subject, "label", "")) for f in findings)}
    unused = (record for record in records if id(record) not in used)
    return settled, tuple(expired(r) if r.has_expired(day) else matches_nothing(r, rules, parts) for r in unused)


def _record_for(finding: Finding, records: list[Acceptance]) -> Acceptance | None:
    part = part_of(finding.subject)
    about = (finding.rule.name, part.id if part is not None else None, str(getattr(finding.subject, "label", "")))
    return next((record for record in records if names(record, *about)), None)
