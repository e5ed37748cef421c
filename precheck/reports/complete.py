"""The report for a terminal with everything: the lines of each work, all checks, and what is not checked, with reasons."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from precheck.checks import Outcome
from precheck.checks.evidence import evidence_of
from precheck.files.source import Problem
from precheck.reports import text, words
from precheck.reports.opening import outside
from precheck.reports.width import wrapped
from precheck.review.finding import Finding, Review, WorkState


def render(review: Review, bold: Callable[[str], str] = str) -> str:
    """Return the report on one project with everything in it."""
    return text.render(review, bold, rest)


def piece(review: Review) -> str:
    """Return the report on one project."""
    return render(review)


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the words that a file cannot be used."""
    return text.refused(file, problems)


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield the reports of all projects, one after the other."""
    return text.joined(pieces)


def rest(review: Review, bold: Callable[[str], str]) -> Iterator[str]:
    """Yield what the short report only counts."""
    if review.works:
        yield from ("", bold("WHAT THE WORK TAKES"))
    for one in review.works:
        yield from _work(one)
    yield from _checks(f"MET ({review.counts[Outcome.PASS]})", review, Outcome.PASS, bold)
    yield from _checks(
        f"NOT APPLICABLE ({review.counts[Outcome.DOES_NOT_APPLY]})", review, Outcome.DOES_NOT_APPLY, bold
    )
    unchecked = (*outside(review), *review.not_checked)
    yield from ("", bold(f"NOT CHECKED ({len(unchecked)})"))
    if not unchecked:
        yield words.ALL_COVERED
    for told in unchecked:
        yield from wrapped(f"- {told}", hang=2)


def _work(one: WorkState) -> Iterator[str]:
    yield from wrapped(
        f"{one.work.label}: {f'{one.shown} of {one.of} shown' if one.of else 'no list of what it takes'}", indent=2
    )
    for line in one.lines:
        why = f": {line.by}" if line.by else ""
        yield from wrapped(f"- {line.line}, {line.state}{why}{f' ({line.section})' if line.section else ''}", 2, 5)


def _checks(heading: str, review: Review, outcome: Outcome, bold: Callable[[str], str]) -> Iterator[str]:
    found = [finding for finding in review.findings if finding.outcome is outcome and finding.accepted is None]
    if found:
        yield from ("", bold(heading))
    for finding in found:
        yield from wrapped(f"- {words.label(finding)}: {_told(finding)} ({finding.rule.name})", hang=2)


def _told(finding: Finding) -> str:
    compared = "; ".join(e.sentence for e in evidence_of(finding.check))
    return compared or finding.check.why or finding.rule.summary.rstrip(".")
