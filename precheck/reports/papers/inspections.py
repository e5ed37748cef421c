"""The inspection list: stage by stage, the values that the inspector will measure on this project."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from precheck.checks import Outcome
from precheck.checks.evidence import Evidence
from precheck.reports import words
from precheck.reports.papers.marks import cited, foot, head, plain
from precheck.review import Finding, Review
from precheck.rules import Stage
from precheck.survey import phase_of

ON_SITE = tuple(stage for stage in get_args(Stage) if stage not in ("intake", "plan"))


def render(review: Review) -> str:
    """Return the inspection list of one project."""
    return "\n".join(_lines(review)) + "\n"


def _lines(review: Review) -> Iterator[str]:
    yield from head("Inspection list", review)
    yield "Have the approved set and the job card on site. Existing parts that stay are left out."
    for stage in ON_SITE:
        lines = [line for finding in review.findings if finding.rule.stage == stage for line in _finding(finding)]
        if lines:
            yield ""
            yield f"## {stage.capitalize()} inspection"
            yield ""
            yield from dict.fromkeys(lines)
    yield from foot()


def _finding(finding: Finding) -> Iterator[str]:
    if phase_of(finding.subject) == "existing" or finding.outcome in (Outcome.DOES_NOT_APPLY, Outcome.ERROR):
        return
    label, cite = plain(words.label(finding)), cited(finding)
    if finding.outcome is Outcome.NOT_SHOWN:
        yield f"- [ ] {label}: {plain(', '.join(words.needs(finding)))} not shown yet; settle it before the inspection{cite}"
        return
    evidence = [e for e in finding.check.evidence() if e.outcome is not Outcome.DOES_NOT_APPLY]
    for e in evidence:
        yield f"- [ ] {label}: {plain(_value(finding, e))}{cite}"
    if not evidence:
        yield f"- [ ] {label}: {plain(finding.check.why or finding.rule.summary)}{cite}"


def _value(finding: Finding, e: Evidence) -> str:
    means = words.means(finding, e) or finding.rule.summary.rstrip(".")
    if e.relation == "is":
        return f"{means}; drawn: {e.measured}"
    margin = f" ({e.margin})" if e.margin not in ("", "none") else ""
    limit = f"{e.relation} {e.limit}"
    stop = ". CORRECT THIS FIRST" if e.outcome is Outcome.FAIL else ""
    return f"{means}: {limit}; drawn: {e.measured}{margin}{stop}"
