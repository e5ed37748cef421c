"""What stands may remain as it is, and not as the work leaves it: what was met before the work took something away is due."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from precheck.checks import Outcome
from precheck.review.finding import Finding
from precheck.survey import House
from precheck.survey.taken_away import put_back, taken_away

Run = Callable[[House, str], Iterable[Finding]]


def unless_worsened(finding: Finding, house: House, run_rule: Run) -> Finding:
    """Return a `finding` of what stands, as of new work where the same was met with what the work takes away put back.

    `run_rule` runs its rule once more on what has that label in another house.
    """
    if finding.outcome is finding.check.outcome or finding.check.outcome not in (Outcome.FAIL, Outcome.NOT_SHOWN):
        return finding
    gone = taken_away(house)
    if not gone or not _was_met(finding, put_back(house, frozenset(part.id for part in gone)), run_rule):
        return finding
    by = (part.label for part in gone if _was_met(finding, put_back(house, frozenset((part.id,))), run_rule))
    why = f"the work takes away {next(by, 'what served here')}"
    told = "; ".join(filter(None, (finding.check.why, why)))
    return replace(finding, check=finding.check.because(told), outcome=finding.check.outcome)


def _was_met(finding: Finding, before: House | None, run_rule: Run) -> bool:
    """Return whether a rule came to a pass there, or to nothing worse than a look, on the same part."""
    if before is None:
        return False
    label = _label(finding)
    then = [one.check.outcome for one in run_rule(before, label) if _label(one) == label]
    return bool(then) and all(outcome in (Outcome.PASS, Outcome.WARN) for outcome in then)


def _label(finding: Finding) -> str:
    return str(getattr(finding.subject, "label", ""))
