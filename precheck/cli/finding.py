"""What ``precheck explain`` says of findings on a project: each with the calculation behind it, for an engineer to check."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import click

from precheck.checks.outcome import WorkStep
from precheck.files.mistakes import nearest
from precheck.reports import words
from precheck.reports.width import wrapped
from precheck.review.finding import Finding
from precheck.runs.desk import Desk, Run


def explained(
    rule: str,
    project: str,
    part: str | None,
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    mapping: Path | None = None,
) -> Iterator[str]:
    """Yield what the rule called `rule` finds on a project, or on one part of it, with every step of the calculation."""
    day, topics = on.date() if on else None, (rule.partition(".")[0],)
    run = Run(ruleset=ruleset, on=day, folders=folders, topics=topics, mapping=mapping)
    review = Desk(run).review(project)
    found = [f for f in review.findings if f.rule.name == rule]
    chosen = [f for f in found if part is None or words.subject(f)["id"] == part]
    if not chosen:
        raise click.BadParameter(_none(rule, part, found))
    yield from wrapped(f"Code: {words.code_line(review)}", hang=6)
    for finding in chosen:
        yield from _finding(finding)
    yield ""
    yield from wrapped(words.REMINDER)


def _none(rule: str, part: str | None, found: list[Finding]) -> str:
    if part is None or not found:
        return f"`{rule}` finds nothing on this project"
    ids = dict.fromkeys(words.subject(f)["id"] for f in found)
    return f"`{rule}` finds nothing on a part `{part}`{nearest(part, ids) or '.'} Parts: {', '.join(ids)}"


def _finding(finding: Finding) -> Iterator[str]:
    yield ""
    yield f"{words.label(finding)}: {finding.outcome.word}"
    for line in (*words.lines_of(finding), *words.to_do(finding)):
        yield from wrapped(line, indent=2, hang=2)
    work = finding.check.work
    yield "  CALCULATION" if work else "  No calculation: the rule compares what is drawn."
    for step in work:
        yield from wrapped(_line(step), indent=4, hang=2)


def _line(step: WorkStep) -> str:
    """Write one step: meaning, symbol, how it was computed unless it was given, value, unit and source."""
    value = f"{step.value:.7g}" if abs(step.value) < 1e6 else f"{step.value:,.0f}"
    computed = f"{step.expression} = " if any(sign in step.expression for sign in " (") else ""
    return f"{step.meaning}: {step.symbol} = {computed}{value}{' ' if step.unit else ''}{step.unit} [{step.source}]"
