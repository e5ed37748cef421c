"""``precheck ruleset``: begin a ruleset of one's own, verify it, and compare two."""

from __future__ import annotations

from importlib import import_module

import click

_COMMANDS = {
    "new": "Begin the ruleset of a jurisdiction: ask, and write a commented file.",
    "verify": "Report every problem of a ruleset, and run the cases that it carries.",
    "compare": "Show what changes between two adoptions or editions, section by section.",
}


class _LazyGroup(click.Group):
    def list_commands(self, ctx: click.Context) -> list[str]:  # as click calls it
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # as click calls it
        if cmd_name not in _COMMANDS:
            return None
        command: click.Command = import_module(f"precheck.cli.ruleset.{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # as click calls it
        with formatter.section("Commands"):
            formatter.write_dl(list(_COMMANDS.items()))


@click.group("ruleset", cls=_LazyGroup, epilog="Example: precheck ruleset verify 'Tamarack County'")
def command() -> None:
    """Begin, verify and compare rulesets: the code as a jurisdiction adopts and amends it."""
