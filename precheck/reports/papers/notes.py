"""Notes to copy onto the sheets: what the work takes that no drawing shows by itself, in plain words, stage by stage."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck.checks import Outcome
from precheck.reports.papers.inspections import ON_SITE
from precheck.reports.papers.marks import called_by, foot, head, plain
from precheck.review.finding import Finding, Review
from precheck.rulesets.limit import Limit
from precheck.survey import part_of

MOST_PARTS = 6  # named in one note
DUE = (Outcome.PASS, Outcome.NOT_SHOWN)


def render(review: Review) -> str:
    """Return the notes of one project."""
    return "\n".join(_lines(review)) + "\n"


def _lines(review: Review) -> Iterator[str]:
    yield from head("Notes to copy onto the sheets", review)
    yield "A note does not take the place of a size: what is to be drawn or listed in a schedule still has to be."
    found = [finding for finding in review.findings if _is_a_note(finding)]
    if not found:
        yield ""
        yield "No note is due for the work as it is drawn."
    for stage in ON_SITE:
        rules = {f.rule.name: [g for g in found if g.rule is f.rule] for f in found if f.rule.stage == stage}
        if rules:
            yield ""
            yield f"## {stage.capitalize()}"
            yield ""
            yield from map(_note, rules.values())
    yield from foot()


def _is_a_note(finding: Finding) -> bool:
    """Return whether a finding is about something that the code requires to be there, beyond what stands."""
    required = any(_is_a_thing(limit) for limit in finding.limits)
    part = part_of(finding.subject)
    return required and finding.outcome in DUE and (part is None or part.phase != "existing")


def _is_a_thing(limit: Limit[Any]) -> bool:
    """Return whether a limit wants something to be there: required, or one of it at a minimum."""
    one = limit.sense == "minimum" and type(limit.value) is int and limit.value == 1
    return one or (limit.value is True and limit.sense != "allowed")


def _note(findings: list[Finding]) -> str:
    """Return one note: what is required, of which parts, and on which sections it rests."""
    labels = list(dict.fromkeys(called_by(finding) for finding in findings))
    more = f" and {len(labels) - MOST_PARTS} more" if len(labels) > MOST_PARTS else ""
    sections = "; ".join(dict.fromkeys(section for finding in findings for section in finding.sections))
    cited = f" ({plain(sections)})" if sections else ""
    return f"- {plain(findings[0].rule.summary)} For {', '.join(labels[:MOST_PARTS])}{more}{cited}."
