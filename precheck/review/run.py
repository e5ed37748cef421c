"""Pair every rule with its subjects, run it, collect what it says. A crash spoils the rule's own findings only."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Iterable, Iterator
from datetime import date
from functools import lru_cache
from itertools import groupby
from time import perf_counter
from typing import Any, NamedTuple

from precheck.checks import Check, Look, Outcome, does_not_apply, look_at, not_shown, unsettled
from precheck.checks.outcome import as_reported, said_of
from precheck.files.missing import is_missing
from precheck.project import Exclusion, Project
from precheck.review.accepted import Acceptance
from precheck.review.accepting import accept
from precheck.review.chosen import chosen_rules
from precheck.review.finding import Finding, Review
from precheck.review.for_some import limit_for, ways_for
from precheck.review.loading import meddled, missing_plugins
from precheck.review.ruled_out import ruled_out
from precheck.review.sketch import held_open
from precheck.review.works import works_of
from precheck.review.worsened import unless_worsened
from precheck.rules.line import Line
from precheck.rules.plugins import Plugins
from precheck.rules.rule import MAY_REMAIN, STANDS_ASIDE, Rule, Signature
from precheck.rules.seal import Seal
from precheck.rules.strangers import prints_aside
from precheck.rules.time_limit import TooLongError, Watch
from precheck.rulesets import CRITERIA, AdoptedCode
from precheck.rulesets.limit import BY_EDITION, Limit
from precheck.survey import Exemption, House
from precheck.survey.candidate import Candidate

_PASSED_ON = (KeyboardInterrupt, TooLongError)  # of the person and of the watch, not of the rule
PATIENCE = 1.0  # seconds for all rules of a project; a house takes a fiftieth of it


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
    findings = held_open(findings, house, lambda other: _timed(chosen.rules, other, code, plugins)[0])
    findings += missing_plugins(project, plugins)
    places = house.places
    findings.sort(key=lambda f: (*(places.get(id(f.subject)) or f.place)[1:], f.rule.name))
    records = [a for a in accepted if a.is_of(project.place.file) and (not wanted or a.topic in wanted)]
    settled, told = accept(findings, records, today, project, chosen.offered) if records else (findings, ())
    return Review(
        project, code, tuple(settled), chosen.not_checked, plugins.left_out, strict, told, tuple(sorted(wanted)), slow,
        works_of(settled, house, code, wanted),
    )  # fmt: skip


def _timed(
    rules: Iterable[Rule], house: House, code: AdoptedCode, plugins: Plugins
) -> tuple[list[Finding], tuple[str, ...]]:
    """Run the rules, and tell which plugins of others took most of a time that a person notices."""
    findings: list[Finding] = []
    took: dict[str, float] = {}
    strange, deepest = plugins.strange_rules, sys.getrecursionlimit()
    in_turn = sorted(rules, key=lambda rule: strange.get(rule.name, "")) if strange else rules  # ours come first
    with Watch() as watch, prints_aside():
        for plugin, of_plugin in groupby(in_turn, lambda rule: strange.get(rule.name, "")):
            watch.start("")
            seal = Seal(house.project.records) if plugin else None
            for rule in of_plugin:
                watch.start(f"{rule.name} of {plugin}" if plugin else "")
                began = watch.began
                try:
                    findings.extend(run(rule, house, code))
                except (TooLongError, RecursionError) as error:
                    sys.setrecursionlimit(deepest)  # which a stranger may have changed
                    findings.append(_erred(rule, house.project, (), error))
                took[rule.name] = perf_counter() - began
            if seal is not None and (changed := seal.broken()):
                findings.append(meddled(plugin, changed, house.project))
    total = sum(took.values())
    return findings, tuple(_slow(plugins, took, total)) if total > PATIENCE else ()


def _slow(plugins: Plugins, took: dict[str, float], total: float) -> Iterator[str]:
    for offer in plugins.offers:
        times = {rule.name: took.get(rule.name, 0.0) for rule in offer.rules if rule.name in plugins.strange_rules}
        own = sum(times.values())
        if own > total / 2:
            slowest = max(times, key=lambda name: times[name])
            told = f"plugin {offer.plugin} ({offer.distribution}): its rules took {own:.1f} s of {total:.1f} s"
            yield f"{told}, most of it {slowest} ({times[slowest]:.1f} s); --without {offer.plugin} leaves it out"


def run(rule: Rule, house: House, code: AdoptedCode, label: str = "") -> Iterator[Finding]:
    """Yield what `rule` finds on each of its subjects in `house`, or only on those of one `label`."""
    try:
        signature = rule.signature
        subjects = house.candidates(signature.subject)
        of_code, undefined = _limits(signature, code)
        read = None if of_code is None else of_code.within(house, signature)
    except _PASSED_ON:
        raise
    except BaseException as error:
        yield _erred(rule, house.project, (), error)
        return
    if read is None:
        yield _undefined(rule, house, subjects, undefined)
        return
    may_be_out = isinstance(rule, Line) or issubclass(Exclusion, signature.subject)
    for one in subjects:
        if one.error is None and not rule.concerns(one.subject, read.own):
            continue
        if one.error is not None:
            yield _erred(rule, one.subject, (), one.error)
            continue
        if label and one.subject.label != label:
            continue
        exempt = None if one.exemption is None else _exempt(one.exemption, one.subject, house, code)
        found = _one(rule, one, read, exempt) if read.alike else _of_ways(rule, one, house, read.limits, exempt)
        found = unless_worsened(found, house, lambda other, label: run(rule, other, code, label))
        yield ruled_out(found, house.project, code) if may_be_out else found


class _Read(NamedTuple):
    """What a rule is called with beside its subject: its limits, its `own` record of them, and the house if it asks for it.

    `unset` is the answer in its place where a limit with whose value it works has none, and `alike` whether all limits hold
    for every part.
    """

    limits: tuple[Limit[Any], ...]
    own: Any
    extra: tuple[Any, ...] = ()
    unset: Check | None = None
    alike: bool = True

    def within(self, house: House, signature: Signature) -> _Read:
        """Return the same with the house, for a rule that asks for it."""
        return (
            _Read(self.limits, self.own, (*self.extra, house), self.unset, self.alike)
            if signature.wants_house
            else self
        )


def _read(signature: Signature, own: Any) -> _Read:
    if own is None:
        return _Read((), None)
    unset = unsettled(*(getattr(own, field) for field in signature.settled))
    return _Read(tuple(own), own, (own,), unset, not any(limit.for_some for limit in own))


def _of_ways(rule: Rule, one: Candidate, house: House, limits: tuple[Limit[Any], ...], exempt: Check | None) -> Finding:
    """Return what a rule finds where a place has another value for some parts: what is missing, where a stop hangs on that."""
    ways = ways_for(limits, one.subject, house)
    record = rule.signature.limits
    assert record is not None  # a rule without limits has none that differ by part
    reads = (_read(rule.signature, record(*way)) for way in ways.ways)
    found = [_one(rule, one, read.within(house, rule.signature), exempt) for read in reads]
    worst = min(reversed(found), key=lambda finding: finding.outcome)
    agree = len({finding.outcome for finding in found}) == 1
    if agree or worst.outcome >= Outcome.WARN or worst.outcome is Outcome.ERROR:
        return worst
    every = {id(limit): limit for finding in found for limit in finding.limits}
    return _one(rule, one, _Read(tuple(every.values()), None), ways.open)


def _one(rule: Rule, one: Candidate, read: _Read, instead: Check | None) -> Finding:
    """Return what a rule finds on one subject, or what is said `instead`."""
    subject, limits = one.subject, read.limits
    try:
        designed = _designed(subject) if rule.engineered == STANDS_ASIDE else None
        check = designed or instead or read.unset or rule.function(subject, *read.extra)
        if not isinstance(check, Check):
            raise TypeError(f"it returned {type(check).__name__}, which is no check")  # noqa: TRY301  # as what it raises
        outcome = check.outcome
    except _PASSED_ON:
        raise
    except BaseException as error:  # the rule is at fault, whatever it raised; the run goes on and names it
        if (left_open := _left_open(limits, error)) is None:
            return _erred(rule, subject, limits, error)
        check, outcome = left_open, left_open.outcome
    if outcome < Outcome.PASS and one.phase == "existing":
        outcome = _of_what_stands(rule, check)
    return Finding(rule, subject, check, outcome, limits)


def _of_what_stands(rule: Rule, check: Check) -> Outcome:
    """Return the outcome for what stands and stays: nobody builds it anew, so at its limit it needs nothing to spare."""
    if check.outcome is Outcome.WARN and check.looks == (Look.CLOSE,):
        return Outcome.PASS
    return as_reported(check.outcome, may_remain=True) if rule.existing == MAY_REMAIN else check.outcome


def _exempt(freed: Exemption, subject: Any, house: House, code: AdoptedCode) -> Check | None:
    """Return that no rule of its topic holds for a subject that the adopted code exempts."""
    limit = code.limits.get(freed.limit)
    limit = limit_for(limit, subject, house) if limit is not None else None
    if limit is None or limit.value is None or is_missing(limit.value):
        return None
    return does_not_apply(f"{freed.why}, which {limit.section or 'the adopted code'} exempts")


def _designed(subject: Any) -> Check | None:
    """Return that a requirement stands aside where the subject, or the part that it belongs to, has its own design."""
    designers = (getattr(part, "designed_by", None) for part in (subject, getattr(subject, "owner", None)))
    designer = next((one for one in designers if one is not None and not is_missing(one)), None)
    return None if designer is None else does_not_apply(f"designed by {designer}")


def _left_open(limits: tuple[Limit[Any], ...], error: BaseException) -> Check | None:
    """Return what to say where a rule could not work with a limit that a place has deleted, or has yet to set.

    A place may lawfully do either with every limit. What then holds of the rest is for the official to say: never a pass,
    and no failure of the check.
    """
    if not isinstance(error, TypeError | AttributeError):
        return None
    unset = [limit.value for limit in limits if is_missing(limit.value) and not limit.name.startswith(CRITERIA)]
    if unset:
        return not_shown(*unset)
    by_place = (
        limit for limit in limits if limit.value is None and limit.history and limit.history[-1].act not in BY_EDITION
    )
    void = [f"{limit.measures} ({limit.why_void})" for limit in by_place]  # what an edition lacks, its rules know of
    return look_at(Look.OFFICIAL, f"worked out with what is not required here: {'; '.join(void)}") if void else None


@lru_cache(maxsize=4096)
def _limits(signature: Signature, code: AdoptedCode) -> tuple[_Read | None, list[str]]:
    """Return what a rule reads of a code, or the names that the code lacks.

    It is the very same for rules that read the same, which may keep what follows from it.
    """
    undefined = [name for name in signature.names if name not in code.limits]
    if undefined:
        return None, undefined
    own = None if signature.limits is None else signature.limits(*(code.limits[name] for name in signature.names))
    return _read(signature, own), []


def _undefined(rule: Rule, house: House, subjects: tuple[Candidate, ...], names: list[str]) -> Finding:
    told = f"the adopted code does not define {', '.join(names)}, which the rule reads"
    subject = next((one.subject for one in subjects if one.error is None), house.project)
    return Finding(rule, subject, does_not_apply(""), Outcome.ERROR, (), told)


def _erred(rule: Rule, subject: Any, limits: tuple[Limit[Any], ...], error: BaseException) -> Finding:
    last = traceback.extract_tb(error.__traceback__)[-1]
    told = f"this check failed to run ({said_of(error)}; in {last.name}, line {last.lineno})"
    return Finding(rule, subject, does_not_apply(""), Outcome.ERROR, limits, told)
