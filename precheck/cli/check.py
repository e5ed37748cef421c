"""``precheck check``: read projects, review them, report."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

import click

from precheck.checks import Outcome
from precheck.cli import EXIT_CORRECTIONS, EXIT_READY, EXIT_RULE_ERRED
from precheck.cli.setup import adopt_for, code_options, library, load_plugins, write
from precheck.hooks import Plugins
from precheck.project import read_project
from precheck.reports import FORMATS, renderer
from precheck.review import READY, Review, review
from precheck.rulesets import Library
from precheck.source import Place, Problem, Unusable


@click.command(epilog="Example: precheck check house.yaml --topic stairs --topic escape")
@click.argument("projects", nargs=-1, required=True, metavar="PROJECT...")
@code_options
@click.option("--topic", "topics", multiple=True, help="Check only this topic. May be given again.")
@click.option("--strict", is_flag=True, help="Let things to look at count as corrections.")
@click.option("--report", type=click.Choice(FORMATS), default="text", show_default=True, help="Format of the report.")
@click.option("--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the report to this file.")
def command(
    projects: tuple[str, ...],
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    topics: tuple[str, ...],
    strict: bool,
    report: str,
    output: Path | None,
) -> None:
    """Check project files and report what a plan reviewer would ask.

    Exit status: 0 ready, 1 corrections, 2 a file cannot be used, 3 a rule broke off.
    """
    plugins = load_plugins()
    _known_topics(plugins, topics)
    rulesets = library(plugins, folders)
    reviews, problems = _review_all(projects, plugins, rulesets, ruleset, on, topics, strict)
    if problems:
        raise Unusable(problems)
    write(_rendered(reviews, report, output), output)
    sys.exit(_status(reviews))


def _known_topics(plugins: Plugins, topics: tuple[str, ...]) -> None:
    from precheck.record import nearest

    known = sorted({rule.topic for rule in plugins.rules})
    for topic in topics:
        if topic not in known:
            raise click.BadParameter(f"there is no topic `{topic}`{nearest(topic, known)} Topics: {', '.join(known)}.")


def _review_all(
    projects: tuple[str, ...],
    plugins: Plugins,
    rulesets: Library,
    ruleset: str | None,
    on: datetime | None,
    topics: tuple[str, ...],
    strict: bool,
) -> tuple[list[Review], list[Problem]]:
    reviews: list[Review] = []
    problems: list[Problem] = []
    for name in projects:
        try:
            project = read_project(Path(name), name)
            code = adopt_for(project, rulesets, ruleset, on)
        except Unusable as error:
            problems.extend(p if p.place.file else p._replace(place=Place(name, 1, 1)) for p in error.problems)
            continue
        reviews.append(review(project, code, plugins, topics, strict))
    return reviews, problems


def _rendered(reviews: list[Review], report: str, output: Path | None) -> str:
    render = renderer(report)
    if report != "text":
        return str(render(reviews))
    styled = output is None and sys.stdout.isatty()
    bold = (lambda text: click.style(text, bold=True)) if styled else str
    return "\n".join(render(one, bold) for one in reviews)


def _status(reviews: list[Review]) -> int:
    if any(one.counts[Outcome.ERROR] for one in reviews):
        return EXIT_RULE_ERRED
    return EXIT_READY if all(one.verdict == READY for one in reviews) else EXIT_CORRECTIONS
