"""``precheck start``: a few questions, and a commented project file to go on with."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

import click

from precheck.cli.setup import folders_option, say
from precheck.files import spelling
from precheck.files.mistakes import nearest
from precheck.files.source import Place, Problem, Unusable
from precheck.questions.starter import KINDS, MORE, ROOMS, WITH_A_ROOM, Job, project_text
from precheck.reports.width import wrapped
from precheck.rulesets import slug
from precheck.runs.desk import Desk, Run

MOST_WINDOWS = 40


@click.command(epilog="Example: precheck start house.yaml")
@click.argument("output", type=click.Path(dir_okay=False, path_type=Path), default="house.yaml")
@folders_option
def command(output: Path, folders: tuple[Path, ...]) -> None:
    """Ask what kind of job it is and what is in it, and write a commented project file, OUTPUT (house.yaml unless named)."""
    from precheck.files.atomic import put

    _not_there(output)
    job = _asked(folders)
    _not_there(output)  # nor written by another while this one was asked
    try:
        put(output, [project_text(job).encode()])
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another")]
        ) from None
    click.echo("")
    say(f"Saved: {output}. What it does not say yet counts as not shown; nothing is assumed.")
    say(f"Next: precheck ask {output}    asks for what is missing, one value at a time")
    say(f"      precheck check {output}  shows what a plan reviewer would ask")


def _not_there(output: Path) -> None:
    if output.exists():
        raise Unusable([Problem(Place(str(output), 1, 1), "is there already; name another file, or move this one")])


def _asked(folders: tuple[Path, ...]) -> Job:
    rulesets = Desk(Run(folders=folders)).rulesets
    places = [*rulesets.jurisdictions, *rulesets.editions]
    name = click.prompt("What is the job called? Such as: 14 Mill Lane, garage to bedroom", value_proc=_a_name)
    for line in wrapped(f"Where is it? A jurisdiction with a ruleset, or a code edition: {', '.join(places)}"):
        say(line)
    where = click.prompt("Where", value_proc=lambda text: _place(places, text))
    applied = click.prompt("Date of application, year-month-day", default=str(date.today()), value_proc=_a_date)  # noqa: DTZ011
    for line in wrapped(f"What kind of job is it? {', '.join(KINDS)}", hang=2):
        say(line)
    kind = click.prompt("Kind of job", value_proc=lambda text: _one_of(KINDS, text))
    room = _choice("What does it become?", ROOMS) if kind in WITH_A_ROOM else ""
    remains = kind == "garage to room" and click.confirm("Does part of the garage stay a garage?", default=False)
    for line in wrapped(f"What else is in it? With commas, Enter for nothing: {', '.join(MORE)}", hang=2):
        say(line)
    more = click.prompt("Also in it", default="", show_default=False, value_proc=_several)
    return Job(
        name=name,
        where=where,
        applied_on=applied,
        kind=kind,
        more=tuple(one for one in more if one != kind),
        room=room,
        garage_remains=remains,
        glass_door=click.confirm("Any new glass door to the outside?", default=False),
        windows=click.prompt("How many new or changed windows?", default=0, value_proc=_a_count),
    )


def _choice(question: str, known: tuple[str, ...]) -> str:
    asked = f"{question} ({', '.join(known)})"
    return str(click.prompt(asked, value_proc=lambda text: _one_of(known, text)))


def _place(known: Iterable[str], text: str) -> str:
    if slug(text) not in known:
        raise click.BadParameter(f"`{text}` is not one of them{nearest(slug(text), known)}")
    return slug(text)


def _one_of(known: Iterable[str], text: str) -> str:
    meant = spelling.choice(text, known)
    if meant is None:
        raise click.BadParameter(f"`{text}` is not one of them{nearest(text.strip().lower(), known)}")
    return meant


def _several(text: str) -> tuple[str, ...]:
    """Return the works that a person names with commas between; none for nothing."""
    if isinstance(text, tuple):
        return text
    return tuple(dict.fromkeys(_one_of(MORE, one) for one in text.split(",") if one.strip()))


def _a_name(text: str) -> str:
    if not text.strip():
        raise click.BadParameter("write a few words, by which the job is known")
    return text.strip()


def _a_count(text: str) -> int:
    if not str(text).isdecimal() or int(text) > MOST_WINDOWS:
        raise click.BadParameter(f"`{text}` is no number from 0 to {MOST_WINDOWS}")
    return int(text)


def _a_date(text: str) -> str:
    try:
        return str(spelling.day(text) or date.fromisoformat(text.strip()))
    except ValueError:
        raise click.BadParameter(f"`{text}` is not a date; write it like 3/2/2026 or 2026-03-02") from None
