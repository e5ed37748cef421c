"""What a review comes to: its findings, what they count to, and the verdict."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cached_property
from typing import Any, Literal, NamedTuple

from precheck.checks import Check, Look, NewValue, Outcome
from precheck.files.missing import is_missing
from precheck.files.record import fields_of
from precheck.files.source import Place
from precheck.immutable import fixed
from precheck.project import Exclusion, Part, Project, ScheduleRow
from precheck.review.accepted import Acceptance, RecordNotice
from precheck.rules.rule import Rule
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import Limit
from precheck.survey.works import Work

READY, CORRECTIONS = "ready", "corrections"
_CORRECTED = frozenset((Outcome.ERROR, Outcome.FAIL, Outcome.NOT_SHOWN))


@fixed
class Finding:
    """What one rule says of one subject. The check holds the evidence; `limits` are those that the rule read."""

    rule: Rule
    subject: Any
    check: Check
    outcome: Outcome
    limits: tuple[Limit[Any], ...] = ()
    error: str = ""
    accepted: Acceptance | None = None
    ruled_out: Exclusion | None = None

    @property
    def look(self) -> tuple[Look, ...]:
        """Why a person should look, for a warning."""
        if self.outcome is Outcome.WARN and self.check.outcome is not Outcome.WARN:
            return (Look.EXISTING,)
        return self.check.looks if self.outcome is Outcome.WARN else ()

    @property
    def changes(self) -> tuple[NewValue, ...]:
        """The remedy as data: what the check changes, and what a schedule says of the same."""
        return tuple(each for change in self.check.changes for each in (change, *_in_schedule(change)))

    @property
    def place(self) -> Place:
        """Where the subject stands in the project file."""
        return getattr(self.subject, "place", None) or Place("", 1, 1)

    @property
    def sections(self) -> tuple[str, ...]:
        """The sections of the limits that the check used, or of all that the rule reads where it used none."""
        used = {leaf.bound.name for leaf in self.check.leaves() if leaf.bound is not None}
        limits = [limit for limit in self.limits if limit.name in used] or self.limits
        cited = tuple(dict.fromkeys(limit.citation for limit in limits if limit.citation))
        parts = {one: set(one.split(", ")) for one in cited}
        return tuple(one for one in cited if not any(parts[one] < parts[other] for other in cited))


def _in_schedule(change: NewValue) -> Iterator[NewValue]:
    """Yield the rows of a schedule that state what a remedy changes on the plan, changed likewise."""
    project, field = getattr(change.record, "owner", None), change.field
    if not isinstance(project, Project) or field in fields_of(Part) or field not in fields_of(ScheduleRow):
        return
    for row in project.schedule:
        if row.of == change.record.id and not is_missing(getattr(row, field)):
            yield NewValue(row, field, change.value)


State = Literal["shown", "to show", "ruled out", "not checked"]


class LineState(NamedTuple):
    """One line of a work: its text, whose topic it is, its state, and by what it is shown or ruled out."""

    line: str
    name: str
    topic: str
    state: State
    by: str
    section: str
    asked: str
    show_on: str


class WorkState(NamedTuple):
    """One work and the lines of what it takes."""

    work: Work
    lines: tuple[LineState, ...]

    @property
    def shown(self) -> int:
        """How many lines are shown, or ruled out in words."""
        return sum(line.state in ("shown", "ruled out") for line in self.lines)

    @property
    def of(self) -> int:
        """How many lines it takes that can be told here."""
        return sum(line.state != "not checked" for line in self.lines)


@fixed
class Review:
    """All findings on one project under one adopted code, and what was not checked."""

    project: Project
    code: AdoptedCode
    findings: tuple[Finding, ...]
    not_checked: tuple[str, ...]
    left_out: tuple[str, ...] = ()  # plugins that the person left out of the run
    strict: bool = False
    record_notices: tuple[RecordNotice, ...] = ()
    topics: tuple[str, ...] = ()  # to which the run was limited
    notices: tuple[str, ...] = ()  # of slow plugins and words of before; beside the report, which stays the same
    works: tuple[WorkState, ...] = ()  # what is being done, with what of it is shown
    understood: str = ""  # of a design file: how much of it was read, in one line

    @cached_property
    def counts(self) -> dict[Outcome, int]:
        """How many findings came to each outcome; those that are accepted stand aside."""
        counted = Counter(finding.outcome for finding in self.findings if finding.accepted is None)
        return {outcome: counted[outcome] for outcome in Outcome}

    @cached_property
    def accepted(self) -> tuple[Finding, ...]:
        """The findings that a document accepts."""
        return tuple(finding for finding in self.findings if finding.accepted is not None)

    def without_notices(self, told: Iterable[RecordNotice]) -> Review:
        """Return this review without some of what it tells of the records of accepted findings."""
        left_out = list(told)
        return replace(self, record_notices=tuple(t for t in self.record_notices if t not in left_out))

    @property
    def verdict(self) -> str:
        """``corrections`` when anything fails, is not shown or errs (or, if strict, warns), or no work is told; else ``ready``."""
        if not self.works:
            return CORRECTIONS
        stops = _CORRECTED | {Outcome.WARN} if self.strict else _CORRECTED
        return CORRECTIONS if any(self.counts[outcome] for outcome in stops) else READY
