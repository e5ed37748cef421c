"""``precheck compare``: what a revision corrected, what it brought, what still stands."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

import click

from precheck.checks import Outcome
from precheck.cli import EXIT_CORRECTIONS, EXIT_READY, EXIT_RULE_ERRED
from precheck.cli.setup import apart, heeded, project_options, write
from precheck.files.inert import inert
from precheck.files.source import Problem, Unusable
from precheck.review.finding import READY
from precheck.runs.desk import Desk, Run


@click.command(epilog="Example: precheck compare house-rev1.yaml house-rev2.yaml")
@click.argument("old")
@click.argument("new")
@project_options
@click.option("--report", type=click.Choice(["text", "json"]), default="text", show_default=True, help="Format.")
@click.option("--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the comparison to this file.")
def command(
    old: str,
    new: str,
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    mapping: Path | None,
    report: str,
    output: Path | None,
) -> None:
    """Compare the findings on two revisions, OLD and NEW: corrected, no longer asked, new, still standing.

    Exit status is that of NEW: 0 ready, 1 corrections, 2 a file cannot be used, 3 a check failed to run.
    """
    from precheck.reports import changes
    from precheck.review.finding import Review

    apart(output, [old, new])
    desk = Desk(Run(ruleset, on.date() if on else None, folders, mapping=heeded(mapping, old, new)))
    reviews: list[Review] = []
    problems: list[Problem] = []
    for file in (old, new):
        try:
            reviews.append(desk.review(file))
        except Unusable as error:
            problems.extend(error.problems)
    if problems:
        raise Unusable(problems)
    render = changes.render if report == "text" else changes.render_json
    told = render(*reviews)
    write([inert(told) if report == "text" else told], output)
    if reviews[1].counts[Outcome.ERROR]:
        sys.exit(EXIT_RULE_ERRED)
    sys.exit(EXIT_READY if reviews[1].verdict == READY else EXIT_CORRECTIONS)
