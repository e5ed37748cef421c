"""What commands share: plugins, the library of rulesets, options, and writing output so that nothing is lost."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterable
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from precheck.hooks import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library
from precheck.source import Place, Problem, Unusable

F = TypeVar("F", bound=Callable[..., Any])


def code_options(function: F) -> F:
    """Add the options that choose the code: which ruleset, as of which date, from which further folders."""
    for option in (
        click.option("--rulesets", "folders", multiple=True, type=click.Path(exists=True, file_okay=False, path_type=Path),
                     help="A folder of your own with editions/ or jurisdictions/. May be given again."),
        click.option("--date", "on", type=click.DateTime(["%Y-%m-%d"]), help="Apply the code as of this date."),
        click.option("--ruleset", help="A jurisdiction, an edition such as irc-2021, or an adoption file."),
    ):  # fmt: skip
        function = option(function)
    return function


def library(plugins: Plugins, folders: Iterable[Path]) -> Library:
    """Return the library of rulesets: the person's own folders first, then those of plugins."""
    return Library((*folders, *plugins.rulesets))


def adopt(rulesets: Library, ruleset: str | None, on: datetime | None) -> AdoptedCode:
    """Return the code that the options choose; the newest edition where they choose none."""
    return rulesets.adopt(ruleset or list(rulesets.editions)[-1], on.date() if on else None)


def write(bits: Iterable[str], output: Path | None) -> None:
    """Print a text bit by bit, or put it in place of file `output` in one step. Raises `Unusable`."""
    if output is None:
        for bit in bits:
            click.echo(bit, nl=False)
        return
    temporary = None
    try:
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", dir=output.parent, delete=False) as file:
            temporary = file.name
            file.writelines(bits)
        Path(temporary).replace(output)
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another file")]
        ) from None
    finally:
        if temporary and os.path.exists(temporary):  # noqa: PTH110  # only left over where the write broke off
            os.unlink(temporary)  # noqa: PTH108


__all__ = ["adopt", "code_options", "library", "load_plugins", "write"]
