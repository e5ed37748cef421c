"""What ``precheck ask`` tells besides its questions: why it asks, what an answer settled, how the job stands."""

from __future__ import annotations

from collections.abc import Iterator

import click

from precheck.checks import Outcome
from precheck.cli.setup import say
from precheck.files.missing import Need
from precheck.project import Part
from precheck.questions.by_hand import SPACE, lines_for
from precheck.questions.question import Questions, plain_key
from precheck.reports import words
from precheck.reports.changes import key_of
from precheck.reports.first_screen import first_screen
from precheck.reports.width import wrapped
from precheck.reports.worklist import items_of
from precheck.review.finding import Finding, Review

MOST_SETTLED = 6  # findings that one answer settles and that are told one by one


def tell_by_hand(need: Need, questions: Questions) -> None:
    """Tell a need that no answer meets, with lines that would, where their form is known."""
    owner = questions.owner(need)
    where, lines = lines_for(need, owner.id if isinstance(owner, Part) else SPACE, plain_key(need.key))
    line = f", line {need.place[1]}" if need.place else ""
    say_wrapped(f"- {need}{line}{f'; {where}, such as:' if lines else ''}", indent=2, hang=2)
    for one in lines:
        say(f"      {one}")


def say_wrapped(text: str, indent: int = 0, hang: int = 0) -> None:
    """Say `text` within the width of the terminal."""
    for line in wrapped(text, indent=indent, hang=hang):
        say(line)


def show(review: Review) -> None:
    """Show how the job stands: the first screen of its report."""
    click.echo("")
    for line in first_screen(review, items_of(review)):
        say(line)


def why_lines(waiting: list[Finding]) -> Iterator[str]:
    """Yield why something is asked: the rules that wait for it."""
    for finding in waiting:
        sections = f" ({'; '.join(finding.sections)})" if finding.sections else ""
        yield from wrapped(f"- {words.label(finding)}: {finding.rule.summary}{sections}", indent=4, hang=2)


def settled_by(before: Review, after: Review) -> list[Finding]:
    """Return the findings that waited before and are decided after."""
    waited = {key_of(f) for f in before.findings if f.outcome is Outcome.NOT_SHOWN}
    return [f for f in after.findings if key_of(f) in waited and f.outcome is not Outcome.NOT_SHOWN]


def tell_settled(settled: list[Finding]) -> None:
    """Tell what an answer settled."""
    say(f"  Saved. {len(settled)} item{'' if len(settled) == 1 else 's'} resolved.")
    for finding in settled[:MOST_SETTLED]:
        for line in wrapped(f"- {finding.outcome.word}: {words.message(finding)}", indent=4, hang=2):
            say(line)
    if len(settled) > MOST_SETTLED:
        say(f"    and {len(settled) - MOST_SETTLED} more")
