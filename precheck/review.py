"""Pair every rule with its subjects, run it, collect what it says. A crash spoils the rule's own findings only."""

from __future__ import annotations

import traceback
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from time import perf_counter
from typing import Any

from precheck.accepted import PROJECT, Acceptance, Told, matches_nothing, names, ran_out
from precheck.added import chosen_rules
from precheck.checks import Check, Look, Outcome, does_not_apply
from precheck.hooks import Failure, Plugins
from precheck.limits import Limit
from precheck.patience import TooLongError, Watch
from precheck.project import Project
from precheck.rules import Rule, Signature
from precheck.rulesets import AdoptedCode
from precheck.source import Place
from precheck.survey import House, part_of
from precheck.survey.house import Standing

READY, CORRECTIONS = "ready", "corrections"
PATIENCE = 1.0  # seconds for all rules of a project; a house takes a fiftieth of it
_CORRECTED = frozenset((Outcome.ERROR, Outcome.FAIL, Outcome.NOT_SHOWN))
_ACCEPTABLE = frozenset((Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN))


@dataclass(frozen=True, slots=True)
class Finding:
    """What one rule says of one subject. The check holds the evidence; `limits` are those that the rule read."""

    rule: Rule
    subject: Any
    check: Check
    outcome: Outcome
    limits: tuple[Limit[Any], ...] = ()
    error: str = ""
    accepted: Acceptance | None = None

    @property
    def look(self) -> tuple[Look, ...]:
        """Why a person should look, for a warning."""
        if self.outcome is Outcome.WARN and self.check.outcome is not Outcome.WARN:
            return (Look.EXISTING,)
        return self.check.looks if self.outcome is Outcome.WARN else ()

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


@dataclass(frozen=True)
class Review:
    """All findings on one project under one adopted code, and what was not checked."""

    project: Project
    code: AdoptedCode
    findings: tuple[Finding, ...]
    not_checked: tuple[str, ...]
    failures: tuple[Failure, ...] = ()
    strict: bool = False
    acceptances: tuple[Told, ...] = ()
    topics: tuple[str, ...] = ()  # to which the run was limited
    slow: tuple[str, ...] = ()  # plugins whose rules took too long; told beside the report, which is the same each time

    @cached_property
    def counts(self) -> dict[Outcome, int]:
        """How many findings came to each outcome; those that are accepted stand aside."""
        counted = Counter(finding.outcome for finding in self.findings if finding.accepted is None)
        return {outcome: counted[outcome] for outcome in Outcome}

    @cached_property
    def accepted(self) -> tuple[Finding, ...]:
        """The findings that a document accepts."""
        return tuple(finding for finding in self.findings if finding.accepted is not None)

    def without_told(self, told: Iterable[Told]) -> Review:
        """Return this review without some of what it tells of the records of accepted findings."""
        left_out = list(told)
        return replace(self, acceptances=tuple(t for t in self.acceptances if t not in left_out))

    @property
    def verdict(self) -> str:
        """``corrections`` when anything fails, is not shown or errs (or, if strict, warns); else ``ready``."""
        stops = _CORRECTED | {Outcome.WARN} if self.strict else _CORRECTED
        return CORRECTIONS if any(self.counts[outcome] for outcome in stops) else READY


def review(
    project: Project,
    code: AdoptedCode,
    plugins: Plugins,
    topics: Iterable[str] = (),
    strict: bool = False,
    accepted: Iterable[Acceptance] = (),
    today: date | None = None,
) -> Review:
    """Run every rule of `plugins` (of `topics`, where named) on `project` under `code`.

    Findings that `accepted` names no longer count; records that ran out before `today` do nothing and are told.
    """
    wanted = frozenset(topics)
    chosen = chosen_rules(code, plugins, wanted)
    findings, slow = _timed(chosen.rules, house := House(project), code, plugins)
    places = house.places
    findings.sort(key=lambda f: ((places.get(id(f.subject)) or f.place)[1:], f.rule.name))
    records = [a for a in accepted if a.is_of(project.place.file) and (not wanted or a.topic in wanted)]
    settled, told = _accept(findings, records, today, project, chosen.offered) if records else (findings, ())
    return Review(
        project, code, tuple(settled), chosen.not_checked, plugins.failures, strict, told, tuple(sorted(wanted)), slow
    )


def _timed(
    rules: Iterable[Rule], house: House, code: AdoptedCode, plugins: Plugins
) -> tuple[list[Finding], tuple[str, ...]]:
    """Run the rules, and tell which plugins' rules took most of a time that a person notices."""
    findings: list[Finding] = []
    took: dict[str, float] = {}
    with Watch() as watch:
        for rule in rules:
            watch.start()
            began = watch.began
            try:
                findings.extend(run(rule, house, code))
            except TooLongError as error:
                findings.append(_erred(rule, house.project, (), error))
            took[rule.name] = perf_counter() - began
    total = sum(took.values())
    return findings, tuple(_slow(plugins, took, total)) if total > PATIENCE else ()


def _slow(plugins: Plugins, took: dict[str, float], total: float) -> Iterator[str]:
    for offer in plugins.offers:
        times = {rule.name: took.get(rule.name, 0.0) for rule in offer.rules}
        own = sum(times.values())
        if own > total / 2:
            slowest = max(times, key=lambda name: times[name])
            told = f"plugin {offer.plugin} ({offer.distribution}): its rules took {own:.1f} s of {total:.1f} s"
            yield f"{told}, most of it {slowest} ({times[slowest]:.1f} s); --without {offer.plugin} leaves it out"


def _accept(
    findings: list[Finding], records: list[Acceptance], today: date | None, project: Project, offered: Iterable[Rule]
) -> tuple[list[Finding], tuple[Told, ...]]:
    day = today or date.today()  # noqa: DTZ011  # a record holds to the end of the day where the person sits
    holding = [record for record in records if not record.has_run_out(day)]
    settled = [replace(f, accepted=_record_for(f, holding)) if f.outcome in _ACCEPTABLE else f for f in findings]
    used = {id(finding.accepted) for finding in settled}
    rules = {rule.name for rule in offered}
    parts = {PROJECT, *project.by_id, *(str(getattr(f.subject, "label", "")) for f in findings)}
    unused = (record for record in records if id(record) not in used)
    return settled, tuple(ran_out(r) if r.has_run_out(day) else matches_nothing(r, rules, parts) for r in unused)


def _record_for(finding: Finding, records: list[Acceptance]) -> Acceptance | None:
    part = part_of(finding.subject)
    about = (finding.rule.name, part.id if part is not None else None, str(getattr(finding.subject, "label", "")))
    return next((record for record in records if names(record, *about)), None)


def run(rule: Rule, house: House, code: AdoptedCode) -> Iterator[Finding]:
    """Yield what `rule` finds on each of its subjects in `house`."""
    try:
        signature = rule.signature
        subjects = house.standing(signature.subject)
        limits, undefined = _limits(signature, code)
    except (Exception, SystemExit) as error:
        yield _erred(rule, house.project, (), error)
        return
    if undefined:
        yield _undefined(rule, house, subjects, undefined)
        return
    extra = tuple(x for x in (limits, house if signature.wants_house else None) if x is not None)
    for one in subjects:
        if one.error is not None:
            yield _erred(rule, house.project, (), one.error)
            continue
        yield _one(rule, one, extra, tuple(limits) if limits else ())


def _one(rule: Rule, one: Standing, extra: tuple[Any, ...], limits: tuple[Limit[Any], ...]) -> Finding:
    subject = one.subject
    try:
        check = rule.function(subject, *extra)
        outcome = check.outcome
    except (Exception, SystemExit) as error:  # the rule is at fault, whatever it raised; the run goes on and names it
        return _erred(rule, subject, limits, error)
    if outcome < Outcome.PASS and rule.existing == "may stay" and one.phase == "existing":
        outcome = Outcome.WARN if outcome in (Outcome.FAIL, Outcome.WARN) else Outcome.DOES_NOT_APPLY
    return Finding(rule, subject, check, outcome, limits)


def _limits(signature: Signature, code: AdoptedCode) -> tuple[Any, list[str]]:
    undefined = [name for name in signature.names if name not in code.limits]
    if signature.limits is None or undefined:
        return None, undefined
    return signature.limits(*(code.limits[name] for name in signature.names)), []


def _undefined(rule: Rule, house: House, subjects: tuple[Standing, ...], names: list[str]) -> Finding:
    told = f"the adopted code does not define {', '.join(names)}, which the rule reads"
    subject = next((one.subject for one in subjects if one.error is None), house.project)
    return Finding(rule, subject, does_not_apply(""), Outcome.ERROR, (), told)


def _erred(rule: Rule, subject: Any, limits: tuple[Limit[Any], ...], error: BaseException) -> Finding:
    last = traceback.extract_tb(error.__traceback__)[-1]
    told = f"the rule broke off with {type(error).__name__}: {error} (in {last.name}, line {last.lineno})"
    return Finding(rule, subject, does_not_apply(""), Outcome.ERROR, limits, told)
