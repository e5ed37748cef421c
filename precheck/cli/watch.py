"""``precheck watch``: check a project again each time it is saved, and tell what the save changed."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

import click

from precheck.cli.setup import heeded, project_options, say
from precheck.files.source import Unusable
from precheck.reports.changes import STANDS, TITLES, changes
from precheck.reports.opening import verdict_line
from precheck.reports.width import wrapped
from precheck.review.finding import Review
from precheck.runs.desk import Desk, Run

POLL = 0.15  # seconds between two looks at the file
Stamp = tuple[int, int, int] | None


@click.command(epilog="Example: precheck watch house.yaml")
@click.argument("project")
@project_options
def command(
    project: str, ruleset: str | None, on: datetime | None, folders: tuple[Path, ...], mapping: Path | None
) -> None:
    """Check PROJECT again each time it is saved, and tell what changed. Stop with Ctrl-C."""
    desk = Desk(Run(ruleset, on.date() if on else None, folders, mapping=heeded(mapping, project)))
    try:
        for line in watched(project, desk, saves(Path(project))):
            say(line)
    except KeyboardInterrupt:
        click.echo("")


def saves(path: Path, sleep: Callable[[float], None] = time.sleep) -> Iterator[None]:
    """Yield at once, and then each time that the file changes."""
    seen: Stamp = None
    first = True
    while True:
        now = _stamp(path)
        if first or now != seen:
            seen, first = now, False
            yield
        else:
            sleep(POLL)


def _stamp(path: Path) -> Stamp:
    """Return what changes with a save, also with one that puts a new file in the old one's place."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def watched(file: str, desk: Desk, turns: Iterator[None]) -> Iterator[str]:
    """Yield what to tell at each of `turns`: the verdict, and from the second on what the save changed."""
    before: Review | None = None
    for _ in turns:
        started = time.perf_counter()
        try:
            review = desk.review(file)
        except Unusable as error:
            yield from (str(problem) for problem in error.problems)
            yield from _ended(started, "cannot be used yet; fix it and save again")
            continue
        yield from _told(before, review)
        yield from _ended(started, verdict_line(review))
        before = review


def _told(before: Review | None, review: Review) -> Iterator[str]:
    if before is None:
        yield f"Watching {review.project.place.file}. Save it to check it again; Ctrl-C stops."
        return
    found = [change for change in changes(before, review) if change.kind != STANDS or change.old != change.new]
    for kind in TITLES:
        for change in found:
            if change.kind == kind and (change.kind != STANDS or change.text.startswith("was: ")):
                yield from wrapped(f"{kind}: {change.key[1]}: {change.key[0]}: {change.text}", hang=2)


def _ended(started: float, told: str) -> Iterator[str]:
    at = f"{datetime.now():%H:%M:%S}"  # noqa: DTZ005  # the wall's time
    yield from wrapped(f"{at} {told} ({time.perf_counter() - started:.2f} s)", hang=len(at) + 1)
