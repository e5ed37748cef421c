"""What commands share: plugins, the library of rulesets, options, and writing output so that nothing is lost."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from precheck.atomic import put
from precheck.hooks import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library
from precheck.source import Place, Problem, Unusable

F = TypeVar("F", bound=Callable[..., Any])


folders_option = click.option(
    "--rulesets",
    "folders",
    multiple=True,
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="A folder of your own with editions/ or jurisdictions/. May be given again.",
)


def code_options(function: F) -> F:
    """Add the options that choose the code: which ruleset, as of which date, from which further folders."""
    for option in (
        folders_option,
        click.option("--date", "on", type=click.DateTime(["%Y-%m-%d"]), help="Apply the code as of this date."),
        click.option("--ruleset", help="A jurisdiction, an edition such as irc-2021, or an adoption file."),
    ):  # fmt: skip
        function = option(function)
    return function


def known_plugins(names: Iterable[str]) -> None:
    """Refuse a name that no installed plugin has, with the nearest one."""
    from precheck.hooks import registered
    from precheck.record import nearest

    known = [entry.name for entry in registered()] if names else []
    for name in names:
        if name not in known:
            meant = nearest(name, known) or f"; installed: {', '.join(known)}"
            raise click.BadParameter(f"no plugin is called `{name}`{meant}")


def library(plugins: Plugins, folders: Iterable[Path]) -> Library:
    """Return the library of rulesets: the person's own folders first, then those of plugins."""
    return Library((*folders, *plugins.rulesets))


def adopt(rulesets: Library, ruleset: str | None, on: datetime | None) -> AdoptedCode:
    """Return the code that the options choose; the newest edition where they choose none."""
    return rulesets.adopt(ruleset or list(rulesets.editions)[-1], on.date() if on else None)


def write(bits: Iterable[str | bytes], output: Path | None) -> None:
    """Print a report bit by bit, or put it in place of file `output` in one step. Raises `Unusable`."""
    if output is None:
        for bit in bits:
            if isinstance(bit, bytes) and sys.stdout.isatty():
                raise click.UsageError("this report is not text; name a file for it with --output")
            click.echo(bit, nl=False)
        return
    try:
        put(output, (bit.encode() if isinstance(bit, str) else bit for bit in bits))
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another file")]
        ) from None


__all__ = ["adopt", "code_options", "folders_option", "known_plugins", "library", "load_plugins", "write"]
