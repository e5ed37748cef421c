"""The inspection list: stage by stage, the values that the inspector will measure on this project."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, get_args

from precheck.checks import Check, Outcome
from precheck.checks.evidence import Evidence, in_words
from precheck.checks.margin import EXACT
from precheck.checks.outcome import capital
from precheck.project import LotLine
from precheck.reports import words
from precheck.reports.papers.marks import foot, head, plain
from precheck.review.finding import Finding, Review
from precheck.rules.rule import Stage
from precheck.survey import phase_of
from precheck.units import Length, Speed

ON_SITE = tuple(stage for stage in get_args(Stage) if stage not in ("intake", "plan"))


def render(review: Review) -> str:
    """Return the inspection list of one project."""
    return "\n".join(_lines(review)) + "\n"


class InspectionLine(NamedTuple):
    """One line of the list: of what, what is to be met or shown, what is drawn (None: not shown), on what sections."""

    label: str
    said: str
    drawn: str | None
    sections: tuple[str, ...]


def _lines(review: Review) -> Iterator[str]:
    yield from head("Inspection list", review)
    yield "Have the approved set and the job card on site. Existing parts that stay are left out."
    for stage in ON_SITE:
        lines = [line for finding in review.findings if finding.rule.stage == stage for line in _finding(finding)]
        if lines:
            yield ""
            yield f"## {stage.capitalize()} inspection"
            yield ""
            yield from map(_written, _merged(lines))
    yield from foot()


def _finding(finding: Finding) -> Iterator[InspectionLine]:
    if phase_of(finding.subject) == "existing" or finding.outcome in (Outcome.DOES_NOT_APPLY, Outcome.ERROR):
        return
    label = words.label(finding)
    if finding.outcome is Outcome.NOT_SHOWN:
        for need in words.needs(finding):
            yield InspectionLine(label, need, None, finding.sections)
        return
    leaves = [
        leaf
        for leaf in finding.check.leaves()
        if leaf.relation is not None and leaf.outcome is not Outcome.DOES_NOT_APPLY
    ]
    for leaf in leaves:
        if not _is_settled(finding, leaf):
            yield InspectionLine(label, *_value(in_words(leaf)), finding.sections)
    if not leaves:
        yield InspectionLine(label, finding.check.why or finding.rule.summary, "", finding.sections)


def _is_settled(finding: Finding, leaf: Check) -> bool:
    """Return whether the drawings settle a comparison for good: the wind of the place, the distance of a lot line."""
    toward_line = isinstance(getattr(finding.subject, "line", None), LotLine)
    of_the_place = isinstance(leaf.measured, Speed) or (toward_line and isinstance(leaf.measured, Length))
    return of_the_place and leaf.outcome is Outcome.PASS


def _merged(lines: list[InspectionLine]) -> list[InspectionLine]:
    """Return each thing to look at once: what waits for one value together, and values of one part for one limit."""
    found: dict[tuple[str, str], list[InspectionLine]] = {}
    for line in lines:
        found.setdefault(("" if line.drawn is None else line.label, line.said), []).append(line)
    return [
        InspectionLine(
            ", ".join(dict.fromkeys(line.label for line in alike)),
            said,
            _joined([line.drawn for line in alike if line.drawn is not None]),
            tuple(dict.fromkeys(section for line in alike for section in line.sections)),
        )
        for (_, said), alike in found.items()
    ]


def _joined(drawn: list[str]) -> str | None:
    return "; ".join(filter(None, dict.fromkeys(drawn))) if drawn else None


def _written(line: InspectionLine) -> str:
    cite = f" ({plain('; '.join(line.sections))})" if line.sections else ""
    if line.drawn is None:
        return f"- [ ] {plain(line.said)}: not shown yet; add it to the plans before the inspection{cite}"
    drawn = f"; drawn: {plain(line.drawn)}" if line.drawn else ""
    return f"- [ ] {plain(line.label)}: {plain(line.said)}{drawn}{cite}"


def _value(e: Evidence) -> tuple[str, str]:
    """Return what is to be met, and what is drawn."""
    stop = ". FIX THIS FIRST" if e.outcome is Outcome.FAIL else ""
    margin = f" ({e.margin})" if e.margin not in ("", EXACT) else ""
    return f"{capital(e.what)}: {e.asked}", f"{e.measured}{margin}{stop}"
