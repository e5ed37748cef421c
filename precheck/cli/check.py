"""``precheck check``: read projects, review them, report."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from precheck.checks import Outcome
from precheck.cli import EXIT_CORRECTIONS, EXIT_READY, EXIT_RULE_ERRED, EXIT_UNUSABLE
from precheck.cli.files import project_files
from precheck.cli.setup import apart, heeded, known_plugins, known_topics, project_options, say, write
from precheck.cli.stopping import Stopping
from precheck.files.inert import inert
from precheck.files.source import Place, Problem, Unusable
from precheck.reports import DESIGN_FORMATS, FORMATS, renderer
from precheck.reports.checked import Checked
from precheck.reports.summary import Tally
from precheck.review.accepted import beside
from precheck.review.finding import READY, Review
from precheck.rules.strangers import BrokenOff
from precheck.runs.baseline import Baseline, open_in, read_baseline
from precheck.runs.desk import Desk, Run, desk

_FORMATS = (*FORMATS, *DESIGN_FORMATS)
_A_FILE = click.Path(dir_okay=False, path_type=Path)


class _Form(click.Choice[str]):
    """A format of the report: one of ours, or another name, which plugins may offer and which is held to them later."""

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        return super().convert(value, param, ctx) if value in _FORMATS else value


@click.command(epilog="Example: precheck check 'plans/*.yaml' --topic stairs --topic escape")
@click.argument("projects", nargs=-1, required=True, metavar="PROJECT...")
@project_options
@click.option("--topic", "topics", multiple=True, help="Check only this topic. May be given again.")
@click.option("--strict", is_flag=True, help="Treat items to ask or review as corrections.")
@click.option("--accepted", type=_A_FILE, help="Accepted findings, in place of accepted.yaml beside each project.")
@click.option(
    "--report",
    type=_Form(_FORMATS),
    default="text",
    show_default=True,
    metavar="FORMAT",
    help=f"Format of the report: {', '.join(_FORMATS)}, or one that a plugin offers.",
)
@click.option("--all", "everything", is_flag=True, help="List too what is met, does not apply or is not checked.")
@click.option("--full", is_flag=True, help="Report each of several projects in full, not in one line.")
@click.option("--output", type=_A_FILE, help="Write the report to this file.")
@click.option(
    "--baseline", type=_A_FILE, help="An earlier SARIF report: only what is new since decides the exit status."
)
@click.option("--without", multiple=True, metavar="PLUGIN", help="Leave this plugin out. May be given again.")
@click.option("--jobs", type=click.IntRange(1), help="Processes for many files.  [default: one for each core]")
@click.option("--scheduler", metavar="ADDRESS", help="Check on the Dask cluster of this scheduler.")
def command(
    projects: tuple[str, ...],
    ruleset: str | None,
    on: datetime | None,
    folders: tuple[Path, ...],
    mapping: Path | None,
    topics: tuple[str, ...],
    strict: bool,
    accepted: Path | None,
    report: str,
    everything: bool,
    full: bool,
    output: Path | None,
    baseline: Path | None,
    without: tuple[str, ...],
    jobs: int | None,
    scheduler: str | None,
) -> None:
    """Check project files and report what a plan reviewer would ask.

    A PROJECT is a file, or a pattern in quotes for several. Exit status: 0 ready, 1 corrections, 2 a file cannot be
    used, 3 a check failed to run or the run was broken off; of several files, the highest.
    """
    files = project_files(projects)
    held = read_baseline(baseline) if baseline else None
    apart(output, [*files, *filter(None, (accepted, mapping, baseline, *map(beside, map(Path, files))))])
    several = len(files) > 1
    form = _form(report, several and not full, everything)
    run = Run(
        ruleset, on.date() if on else None, folders, topics, strict, accepted, report=form, several=several, without=without,
        mapping=heeded(mapping, *files), baseline=held is not None,
    )  # fmt: skip
    known_plugins(without)
    _known_form(report, desk(run))
    _known_topics(desk(run), topics)
    _ = desk(run).mapping if mapping else None  # refused once, not file by file
    _tick(desk(run), not several)
    if scheduler or (several and desk(run).format):
        sys.exit(_to_the_end(lambda: _stream(files, run, jobs, scheduler, output, held)))
    sys.exit(_to_the_end(lambda: _at_once(files, desk(run), output, held)))


def _to_the_end(work: Callable[[], int]) -> int:
    """Return the status that `work` comes to. Only this command ends the program: a SystemExit in it is a stranger's."""
    try:
        return work()
    except SystemExit:
        raise BrokenOff("a plugin tried to end the run, so nothing is decided") from None


def _tick(here: Desk, alone: bool) -> None:
    """Tell a person who waits for one file how far it is."""
    if alone and sys.stderr.isatty():
        from precheck.cli.importing import drawn

        here.tick = drawn


def _form(report: str, in_a_line: bool, everything: bool) -> str:
    """Return the format that is made: text is a line each of several projects, and has everything where that is wanted."""
    if report != "text":
        return report
    return "complete" if everything else "lines" if in_a_line else "text"


def _known_form(report: str, here: Desk) -> None:
    """Refuse a format that neither we nor a plugin offers, with the nearest one."""
    from precheck.files.mistakes import nearest

    known = [*_FORMATS, *(one.name for one in here.plugins.reports)]
    if report not in known:
        meant = nearest(report, known) or "."
        raise click.BadParameter(f"`{report}` is no format of the report{meant} Formats: {', '.join(known)}.")


def _known_topics(here: Desk, topics: tuple[str, ...]) -> None:
    known = {rule.topic for rule in here.plugins.rules}
    if not known.issuperset(topics):  # rulesets may add topics of their own
        known |= here.rulesets.topics_added(here.run.ruleset or "")
    known_topics(topics, known)


def _stream(
    files: list[str], run: Run, jobs: int | None, scheduler: str | None, output: Path | None, held: Baseline | None
) -> int:
    """Check many files, writing the report as it comes; one that cannot be used is told and the rest go on."""
    from precheck.cli.progress import watched
    from precheck.reports import summary
    from precheck.runs.many import check_many

    tally = Tally()
    form: Any = desk(run).format
    with Stopping() as stopping:
        results = watched(check_many(files, run, jobs, scheduler), len(files))
        in_lines = run.report == "lines"  # whose summary tells that the run was broken off
        text = form.joined(_pieces(results, tally, held, stopping, files, None if in_lines else form))
        write(_in_words(text, (f"{line}\n" for line in summary.render(tally))) if in_lines else text, output)
    for told in tally.unused if not in_lines else ():
        say(told, err=True)
    return _against(held, _status_of(tally))


def _in_words(*texts: Iterable[str]) -> Iterator[str]:
    """Yield what is for people, which nothing in a file may turn into more."""
    for text in texts:
        yield from map(inert, text)


def _pieces(
    results: Iterable[Checked], tally: Tally, held: Baseline | None, stopping: Stopping, files: list[str], form: Any
) -> Iterator[Any]:
    """Yield what is reported of each file; where the run is broken off, that the rest was not checked."""
    why = ""
    try:
        for checked in results:
            tally.add(checked)
            if held is not None:
                held.hold(checked.stops)
            _tell((*checked.problems, *checked.notices))
            yield checked.piece
            if stopping.asked:
                why = "stopped"
                break
    except BrokenOff as error:
        why = str(error)
    done = tally.files
    if why and done < len(files):
        tally.broken_off = f"{why}: {done:,} of {len(files):,} files are checked, and the report holds these alone"
        say(tally.broken_off, err=True)
        left = Problem(Place(files[done], 1, 1), f"not checked, nor what follows it: {tally.broken_off}")
        if form is not None:
            yield form.refused(files[done], [left])


def _tell(problems: Iterable[Problem | str]) -> None:
    for problem in problems:
        say(str(problem), err=True)


def _at_once(files: list[str], here: Desk, output: Path | None, held: Baseline | None) -> int:
    """Check a file, or the files of a format that needs all reviews at hand."""
    reviews, problems = [], list[Problem]()
    for file in files:
        try:
            reviews.append(here.review(file))
        except Unusable as error:
            problems.extend(error.problems)
    if len(files) == 1 and problems:
        raise Unusable(problems)
    _tell((*problems, *(told for one in reviews for told in one.notices)))
    write([_rendered(reviews, here, output)], output)
    if held is not None:
        held.hold(found for one in reviews for found in open_in(one))
    return _against(held, max(_status(reviews), EXIT_UNUSABLE if problems else EXIT_READY))


def _against(held: Baseline | None, status: int) -> int:
    """Return the exit status where a baseline is held against: corrections only where one is new, which is told."""
    if held is None:
        return status
    for line in held.lines():
        say(line, err=True)
    return (EXIT_CORRECTIONS if held.new else EXIT_READY) if status == EXIT_CORRECTIONS else status


def _rendered(reviews: list[Review], here: Desk, output: Path | None) -> str | bytes:
    form = here.run.report or "text"
    render = renderer(form, here.plugins.reports)
    if form not in ("text", "complete"):
        made: str | bytes = render(reviews)
        return made
    styled = output is None and sys.stdout.isatty()
    bold = (lambda text: click.style(text, bold=True)) if styled else str
    return "\n".join(inert(render(one, bold)) for one in reviews)


def _status(reviews: list[Review]) -> int:
    if any(one.counts[Outcome.ERROR] for one in reviews):
        return EXIT_RULE_ERRED
    return EXIT_READY if all(one.verdict == READY for one in reviews) else EXIT_CORRECTIONS


def _status_of(tally: Tally) -> int:
    """Return the worst of what the files come to; the exit statuses are numbered so that the higher is the worse."""
    if tally.errors or tally.broken_off:
        return EXIT_RULE_ERRED
    if tally.refused:
        return EXIT_UNUSABLE
    return EXIT_READY if tally.verdicts[READY] == tally.files else EXIT_CORRECTIONS
