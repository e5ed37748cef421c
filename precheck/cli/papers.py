"""``precheck papers``: correction list, response letter, field-verify sheet, inspection list, summary for the owner."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from importlib import import_module
from pathlib import Path

import click

from precheck.cli.setup import apart, heeded, project_options, write
from precheck.runs.desk import Desk, Run

Folders = tuple[Path, ...]
_output = click.option(
    "--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the paper to this file."
)


@click.group(epilog="Example: precheck papers corrections house.yaml --output corrections.md")
def command() -> None:
    """Write the papers of a job, in Markdown, from the same findings as the check."""


def _paper(name: str, told: str) -> Callable[..., None]:
    def paper(
        project: str,
        ruleset: str | None,
        on: datetime | None,
        folders: Folders,
        mapping: Path | None,
        output: Path | None,
    ) -> None:
        apart(output, [project])
        made = import_module(f"precheck.reports.papers.{_MODULES[name]}")
        write([made.render(_desk(ruleset, on, folders, heeded(mapping, project)).review(project))], output)

    paper.__doc__ = told
    return _output(project_options(paper))


def _desk(ruleset: str | None, on: datetime | None, folders: Folders, mapping: Path | None) -> Desk:
    return Desk(Run(ruleset, on.date() if on else None, folders, mapping=mapping))


_MODULES = {"corrections": "corrections", "field-verify": "field", "inspections": "inspections", "owner": "owner"}
for _name, _told in (
    ("corrections", "Write the numbered correction list of PROJECT, by sheet."),
    ("field-verify", "Write what to measure and photograph in the existing house of PROJECT."),
    ("inspections", "Write what the inspector will measure on PROJECT, stage by stage."),
    ("owner", "Write a summary of PROJECT for the owner, on one page."),
):
    _example = f"Example: precheck papers {_name} house.yaml --output {_name}.md"
    command.command(_name, short_help=_told, epilog=_example)(click.argument("project")(_paper(_name, _told)))


@command.command(
    "response",
    short_help="Write the response letter to the comments on revision OLD.",
    epilog="Example: precheck papers response rev1.yaml rev2.yaml --answers answers.yaml --output response.md",
)
@click.argument("old")
@click.argument("new")
@project_options
@click.option("--answers", type=click.Path(path_type=Path), help="The file with an answer to each comment on OLD.")
@click.option("--blank", is_flag=True, help="Write an answers file to fill in, instead of the letter.")
@_output
def response(
    old: str,
    new: str,
    ruleset: str | None,
    on: datetime | None,
    folders: Folders,
    mapping: Path | None,
    answers: Path | None,
    blank: bool,
    output: Path | None,
) -> None:
    """Write the response letter to the comments on revision OLD, from what revision NEW changed.

    Refused while a comment has no answer, or still stands and nothing is requested.
    """
    from precheck.reports.papers import response as letter

    apart(output, [old, new, *([answers] if answers else [])])
    desk = _desk(ruleset, on, folders, heeded(mapping, old, new))
    before = desk.review(old)
    if blank:
        write([letter.blank(before)], output)
        return
    if answers is None:
        raise click.UsageError("name the answers with --answers FILE; --blank writes one to fill in")
    write([letter.render(before, desk.review(new), letter.read_answers(answers))], output)


@command.command(
    "letter",
    short_help="Write the response to the town's letter, by its own numbers.",
    epilog="Example: precheck papers letter house.yaml letter.txt --answers answers.yaml --output response.md",
)
@click.argument("project")
@click.argument("letter", type=click.Path(path_type=Path))
@project_options
@click.option(
    "--answers", type=click.Path(path_type=Path), help="The file with your answer to each item of the letter."
)
@_output
def town_letter(
    project: str,
    letter: Path,
    ruleset: str | None,
    on: datetime | None,
    folders: Folders,
    mapping: Path | None,
    answers: Path | None,
    output: Path | None,
) -> None:
    """Write the response to LETTER, the text of the town's review of PROJECT, item by item.

    Each item is set beside what the project file says by now of what it seems to be about.
    """
    from precheck.files.source import text_of
    from precheck.reports.papers import letter as town

    apart(output, [project, str(letter), *([str(answers)] if answers else [])])
    review = _desk(ruleset, on, folders, heeded(mapping, project)).review(project)
    write(
        [town.render(review, text_of(letter, str(letter)), town.read_letter_answers(answers) if answers else {})],
        output,
    )
