"""A sketch: what its findings would be with what is not drawn yet, so that none of them hangs on that unnoticed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from precheck.checks import Outcome, not_shown
from precheck.checks.outcome import as_reported
from precheck.files.missing import Missing, Need
from precheck.review.finding import Finding
from precheck.rules.rule import MAY_REMAIN
from precheck.survey import House
from precheck.survey.fact import phase_of
from precheck.survey.not_drawn import is_sketch, may_come, with_what_may_come

_Key = tuple[str, str, int]
Run = Callable[[House], list[Finding]]


def held_open(findings: list[Finding], house: House, run_rules: Run) -> list[Finding]:
    """Return `findings` of `house`, where it is a sketch with those not shown that what is not drawn yet may change.

    Every rule runs once more over the house with a thing of which nothing is known wherever one may still come. What it
    then says otherwise, or no longer says, waits for the drawing.
    """
    if not is_sketch(house.project):
        return findings
    fuller = with_what_may_come(house)
    if fuller is None:
        return findings
    others = dict(_by_key(run_rules(House(fuller.project))))
    return [_settled(finding, others.get(key), fuller.wanted) for key, finding in _by_key(findings)]


def _by_key(findings: Iterable[Finding]) -> Iterator[tuple[_Key, Finding]]:
    """Yield each finding with what it is known by in both runs: its rule, what it is about, and which of those it is."""
    seen: Counter[tuple[str, str]] = Counter()
    for finding in findings:
        label = str(getattr(finding.subject, "label", ""))
        if not may_come(label):
            key = (finding.rule.name, label)
            seen[key] += 1
            yield (*key, seen[key]), finding


def _settled(finding: Finding, other: Finding | None, wanted: dict[str, Need]) -> Finding:
    """Return `finding`, or that it is not shown where the `other` one, with what may come, is not the same."""
    gone = other is None and finding.outcome is Outcome.DOES_NOT_APPLY
    settled = finding.outcome in (Outcome.ERROR, Outcome.NOT_SHOWN) or finding.ruled_out is not None
    if settled or gone or (other is not None and other.outcome is finding.outcome):
        return finding
    named = [wanted[need.owner] for need in (other.check.needs if other else ()) if need.owner in wanted]
    missing = Missing(*dict.fromkeys(named or wanted.values()))
    remains = finding.rule.existing == MAY_REMAIN and phase_of(finding.subject) == "existing"
    advised = bool(finding.limits) and all(limit.advised for limit in finding.limits)
    outcome = as_reported(Outcome.NOT_SHOWN, advised=advised, may_remain=remains)
    return replace(finding, check=not_shown(missing), outcome=outcome)
