"""``precheck calculated``: of each kind of member, what is calculated, what is read in tables, and what is for the engineer.

Offered to the command line by the entry point group ``precheck.commands``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from precheck_plugins.framing.coverage.modes import Mode

WIDTH = 80
HEAD = (
    "How each way in which a member may fail is looked at. What is calculated is held against its strength or stiffness; "
    "what is tabulated, against a table or rule of the code; the rest is for a licensed engineer, and a finding that is met "
    "says nothing of it."
)
WAY = {"calculated": "calculated", "tabulated": "tabulated", "engineer": "for the engineer"}


@click.command(epilog="Example: precheck calculated --member posts")
@click.option("--member", default="", help="Only kinds of member whose name holds this word.")
@click.option("--report", type=click.Choice(("text", "json")), default="text", show_default=True, help="Format.")
def command(member: str, report: str) -> None:
    """Print what of structure is calculated, tabulated, or for the engineer."""
    from precheck_plugins.framing.coverage.modes import by_member, modes

    known = [(name, rows) for name, rows in by_member() if member.lower() in name.lower()]
    if not known:
        names = "; ".join(dict.fromkeys(mode.member for mode in modes()))
        raise click.UsageError(f"no kind of member is called `{member}`; there are: {names}")
    if report == "json":
        click.echo(json.dumps([row._asdict() for _, rows in known for row in rows], indent=2, ensure_ascii=False))
        return
    for line in _page(known):
        click.echo(line)


def _page(known: list[tuple[str, tuple[Mode, ...]]]) -> Iterator[str]:
    yield from fill(HEAD, WIDTH).splitlines()
    for name, rows in known:
        yield ""
        yield name.upper()
        for row in rows:
            by = f" ({', '.join(row.rules)})" if row.rules else ""
            note = f": {row.note}" if row.note else ""
            text = f"{row.mode}: {WAY[row.way]}{by}{note}"
            yield from fill(text, WIDTH, initial_indent="  ", subsequent_indent="    ").splitlines()
