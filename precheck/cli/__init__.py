"""The command line. A command's module is imported when the command runs, so that ``--help`` stays quick."""

from __future__ import annotations

import gc
import os
import sys
from importlib import import_module
from io import TextIOWrapper
from typing import TYPE_CHECKING, Any, NoReturn

import click

if TYPE_CHECKING:
    from precheck.files.installed import Registered

COMMANDS_OF_PLUGINS = "precheck.commands"
EXIT_READY, EXIT_CORRECTIONS, EXIT_UNUSABLE, EXIT_RULE_ERRED = 0, 1, 2, 3

_COMMANDS = {
    "start": "Start a project file from a few questions.",
    "import": "Make a project file from a design file, IFC, DXF or PDF, with every doubt said.",
    "check": "Check projects and report what a plan reviewer would ask.",
    "board": "Describe the house on a page in the browser, and answer there what stops it.",
    "ask": "Ask for what the drawings do not show, one question at a time.",
    "watch": "Check a project again each time it is saved.",
    "compare": "Compare two revisions: what was corrected, what is new, what still stands.",
    "papers": "Write the papers of a job: correction list, response, field sheet, inspections.",
    "explain": "Explain a rule or a limit: meaning, value here and now, history, who reads it.",
    "limits": "List the limits in effect, with where each comes from.",
    "ruleset": "Begin a ruleset of your own, verify it, compare two.",
    "plugins": "List the plugins: what each offers, and what did not load and why.",
    "rules": "List the rules by topic.",
    "schema": "Print the JSON Schema of project and ruleset files.",
}
_MODULES = {"import": "importing"}  # where a command's name cannot be a module's


class _LazyGroup(click.Group):
    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _COMMANDS:
            return _offered_command(cmd_name)
        command = import_module(f"precheck.cli.{_MODULES.get(cmd_name, cmd_name)}").command
        assert isinstance(command, click.Command)
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in _COMMANDS and not args[0].startswith("-") and args[0] not in _offered():
            from difflib import get_close_matches

            known = [*_COMMANDS, *_offered()]
            close = get_close_matches(args[0], known, n=1)
            hint = f" Did you mean `{close[0]}`?" if close else f" Commands: {', '.join(known)}."
            ctx.fail(f"there is no command `{args[0]}`.{hint}")
        return super().resolve_command(ctx, args)

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:  # which click would end with the exit status of corrections
            from precheck.rules.strangers import BrokenOff

            raise BrokenOff("stopped before the end, so nothing is decided") from None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(_COMMANDS.items()))
        if offered := _offered():
            with formatter.section("Commands that plugins add"):
                formatter.write_dl([(name, f"See `precheck {name} --help`.") for name in offered])


def _offered() -> dict[str, Registered]:
    """Return the commands that installed plugins add, by what their distributions register; none is imported."""
    from precheck.files.installed import registered

    found = sorted(registered(COMMANDS_OF_PLUGINS), key=lambda entry: entry.name)
    return {entry.name: entry for entry in found if entry.name not in _COMMANDS}


def _offered_command(name: str) -> click.Command | None:
    entry = _offered().get(name)
    if entry is None:
        return None
    try:
        command = entry.load()
    except Exception as error:  # a stranger's command that cannot be loaded is its own failure, named
        raise click.ClickException(f"the command `{name}` of {entry.value} cannot be loaded: {error}") from None
    if not isinstance(command, click.Command):
        raise click.ClickException(f"`{entry.value}`, which is registered as the command `{name}`, is no click command")
    return command


MOST_TOLD = 200  # problems; a file with more has one cause for most of them
FEW_COLLECTIONS = (
    200_000  # objects, twice what one check makes; nearly all of them stay, and a tenth of the time went to looking
)


@click.group(
    cls=_LazyGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="Example: precheck check house.yaml --ruleset 'Tamarack County' --date 2026-03-02",
)
@click.version_option(package_name="precheck", prog_name="precheck")
@click.pass_context
def cli(ctx: click.Context) -> None:
    """Check the drawings of a remodeling job before they go to the building department.

    The local authority has the final say.
    """
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        ctx.color = False  # for every echo of every command


def main() -> None:
    """Run the command line. Files that cannot be used are reported with file and line, and exit 2."""
    from precheck.cli.guard import guarded

    gc.set_threshold(FEW_COLLECTIONS)
    _print_every_sign()
    guarded(_run)


def _print_every_sign() -> None:
    """Print UTF-8 into files and pipes, as all our formats are; a screen that lacks a sign shows a question mark."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace") if stream.isatty() else stream.reconfigure(encoding="utf-8")


def _run() -> None:
    try:
        cli()
    except Exception as error:
        _ended(error)
    finally:
        gc.freeze()  # at its end the interpreter looks twice through all that there is, and would find nothing to clear


def _ended(error: Exception) -> NoReturn:
    """Tell what ended the run, and end it with the exit status for that; what is no one's fault but ours is raised."""
    from precheck.files.inert import inert
    from precheck.files.source import Place, Problem, Unusable
    from precheck.rules.strangers import BrokenOff

    if isinstance(error, BrokenOff):
        click.echo(inert(str(error)), err=True)
        sys.exit(EXIT_RULE_ERRED)
    if isinstance(error, OSError):  # such as a name that is too long, or a full disk behind a redirection
        name = error.filename or "the output"
        if not error.filename:
            _let_go_of_output()
        error = Unusable([Problem(Place(str(name), 1, 1), f"cannot be used ({error.strerror}); name another")])
    if not isinstance(error, Unusable):
        raise error
    for problem in error.problems[:MOST_TOLD]:
        click.echo(inert(str(problem)), err=True)
    if len(error.problems) > MOST_TOLD:
        click.echo(f"and {len(error.problems) - MOST_TOLD:,} more, which may go with these", err=True)
    count = len(error.problems)
    click.echo(f"{count} problem{'s' if count > 1 else ''} to mend first.", err=True)
    sys.exit(EXIT_UNUSABLE)


def _let_go_of_output() -> None:
    """Lead away what could not be written, which Python would try to write again as it ends, with a status of its own."""
    try:
        sys.stdout.flush()
    except OSError:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
