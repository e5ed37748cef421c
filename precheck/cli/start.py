"""``precheck start``: a few questions, and a commented project file to go on with."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from precheck.cli.setup import folders_option
from precheck.cli.starter import Job, project_text
from precheck.desk import Desk, Run
from precheck.reports.text import wrapped
from precheck.source import Place, Problem, Unusable

CONVERTED = ("garage", "carport", "attic", "nothing")
ROOMS = ("sleeping room", "living room", "family room", "office", "storage")


@click.command(epilog="Example: precheck start house.yaml")
@click.argument("output", type=click.Path(dir_okay=False, path_type=Path), default="house.yaml")
@folders_option
def command(output: Path, folders: tuple[Path, ...]) -> None:
    """Ask a few questions and write a commented project file, OUTPUT (house.yaml unless named)."""
    from precheck.atomic import put

    if output.exists():
        raise Unusable([Problem(Place(str(output), 1, 1), "is there already; name another file, or move this one")])
    job = _asked(folders)
    try:
        put(output, [project_text(job).encode()])
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another")]
        ) from None
    click.echo("")
    click.echo(f"Written: {output}. What it does not say yet counts as not shown; nothing is assumed.")
    click.echo(f"Next: precheck ask {output}    asks for what is missing, one value at a time")
    click.echo(f"      precheck check {output}  shows what a plan reviewer would ask")


def _asked(folders: tuple[Path, ...]) -> Job:
    rulesets = Desk(Run(folders=folders)).rulesets
    places = [*rulesets.jurisdictions, *rulesets.editions]
    name = str(click.prompt("What is the job called? Such as: 14 Mill Lane, garage to bedroom")).strip()
    for line in wrapped(f"Where is it? A jurisdiction with a ruleset, or a code edition: {', '.join(places)}"):
        click.echo(line)
    where = click.prompt("Where", type=click.Choice(places, case_sensitive=False), show_choices=False)
    applied = click.prompt("Date of application, year-month-day", default=str(date.today()), value_proc=_a_date)  # noqa: DTZ011
    converted = click.prompt("What is converted?", type=click.Choice(CONVERTED))
    room = "" if converted == "nothing" else click.prompt("What does it become?", type=click.Choice(ROOMS))
    remains = converted == "garage" and click.confirm(
        "Does part of the garage remain a garage beside it?", default=False
    )
    return Job(
        name=name,
        where=where,
        applied_on=applied,
        converted="" if converted == "nothing" else converted,
        room=room,
        garage_remains=remains,
        glass_door=click.confirm("Is there a new glass door to the outside?", default=False),
        windows=click.prompt("How many windows are new or changed?", default=0, type=click.IntRange(0, 40)),
        stair=click.confirm("Is there a new or changed stair?", default=False),
        storage=converted != "attic" and click.confirm("Is an attic to be floored for storage?", default=False),
    )


def _a_date(text: str) -> str:
    try:
        return str(date.fromisoformat(text.strip()))
    except ValueError:
        raise click.BadParameter(f"`{text}` is not a date; write year-month-day, such as 2026-03-02") from None
