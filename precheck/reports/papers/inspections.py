"""The inspection list: stage by stage, the values that the inspector will measure on this project."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, get_args

from precheck.checks import Check, Outcome
from precheck.checks.evidence import Evidence, in_words
from precheck.checks.margin import EXACT
from precheck.checks.outcome import capital
from precheck.files.missing import Need
from precheck.project import LotLine
from precheck.reports import words
from precheck.reports.papers.marks import called_by, foot, head, plain
from precheck.reports.wanted import Wanted
from precheck.review.finding import Finding, Review
from precheck.rules.rule import Stage
from precheck.survey import phase_of
from precheck.units import Length, Speed

NOT_YET = "Not on the plans yet; add it before this inspection:"
ON_SITE = tuple(stage for stage in get_args(Stage) if stage not in ("intake", "plan"))


def render(review: Review) -> str:
    """Return the inspection list of one project."""
    return "\n".join(_lines(review)) + "\n"


class InspectionLine(NamedTuple):
    """One line of the list: of what, what is to be met or given, what is drawn (None: not shown), on what sections."""

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
            yield from _stage(_merged(lines))
    yield from foot()


def _stage(lines: list[InspectionLine]) -> Iterator[str]:
    """Yield what is measured at one inspection, and after it what the plans do not say yet."""
    yield from (_written(line) for line in lines if line.drawn is not None)
    missing = [line for line in lines if line.drawn is None]
    if missing:
        yield from ("", NOT_YET, "", *map(_written, missing))


def _finding(finding: Finding) -> Iterator[InspectionLine]:
    if phase_of(finding.subject) == "existing" or finding.outcome in (Outcome.DOES_NOT_APPLY, Outcome.ERROR):
        return
    label = called_by(finding)
    if finding.outcome is Outcome.NOT_SHOWN:
        yield from (_lacked(finding, need, label) for need in finding.check.needs)
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


def _lacked(finding: Finding, need: Need, label: str) -> InspectionLine:
    """Return the line of a value that the plans do not give; of another part or the project it says itself of what."""
    if need.owner == words.label(finding):
        return InspectionLine(label, Wanted((need,), ()).text_for(need.owner), None, finding.sections)
    return InspectionLine("", str(need), None, finding.sections)


def _is_settled(finding: Finding, leaf: Check) -> bool:
    """Return whether the drawings settle a comparison for good: the wind of the place, the distance of a lot line."""
    toward_line = isinstance(getattr(finding.subject, "line", None), LotLine)
    of_the_place = isinstance(leaf.measured, Speed) or (toward_line and isinstance(leaf.measured, Length))
    return of_the_place and leaf.outcome is Outcome.PASS


def _merged(lines: list[InspectionLine]) -> list[InspectionLine]:
    """Return each thing to look at once: parts that lack the same together, and values of one part for one limit."""
    found: dict[tuple[str, str], list[InspectionLine]] = {}
    for line in lines:
        found.setdefault(("" if line.drawn is None else line.label, line.said), []).append(line)
    return [
        InspectionLine(
            ", ".join(filter(None, dict.fromkeys(line.label for line in alike))),
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
        return f"- [ ] {line.label}{': ' if line.label else ''}{plain(line.said)}{cite}"
    drawn = f"; drawn: {plain(line.drawn)}" if line.drawn else ""
    return f"- [ ] {line.label}: {plain(line.said)}{drawn}{cite}"


def _value(e: Evidence) -> tuple[str, str]:
    """Return what is to be met, and what is drawn."""
    stop = ". FIX THIS FIRST" if e.outcome is Outcome.FAIL else ""
    margin = f" ({e.margin})" if e.margin not in ("", EXACT) else ""
    return f"{capital(e.what)}: {e.asked}", f"{e.measured}{margin}{stop}"
