"""What commands share: plugins, the library of rulesets, options, and writing output so that nothing is lost."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterable
from datetime import date, datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from precheck.hooks import Plugins, load_plugins
from precheck.missing import is_missing
from precheck.project import Project
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


def adopt_for(project: Project, rulesets: Library, ruleset: str | None, on: datetime | None) -> AdoptedCode:
    """Return the code for `project`: what the options choose, else what the project names. Raises `Unusable`."""
    when: date | None = on.date() if on else None if is_missing(project.applied_on) else project.applied_on
    if ruleset:
        return rulesets.adopt(ruleset, when)
    if is_missing(project.jurisdiction):
        known = ", ".join([*rulesets.jurisdictions, *rulesets.editions])
        what = f"`jurisdiction` is not given; add a line such as `jurisdiction: irc-2021`, or use --ruleset (known: {known})"
        raise Unusable([Problem(project.place, what)])
    try:
        return rulesets.adopt(project.jurisdiction, when)
    except Unusable as error:
        here = project.place_of("jurisdiction")
        raise Unusable(p._replace(place=here) if not p.place.file else p for p in error.problems) from None


def write(text: str, output: Path | None) -> None:
    """Print `text`, or put it in place of file `output` in one step. Raises `Unusable` where that cannot be done."""
    if output is None:
        click.echo(text, nl=False)
        return
    temporary = None
    try:
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", dir=output.parent, delete=False) as file:
            temporary = file.name
            file.write(text)
        Path(temporary).replace(output)
    except OSError as error:
        raise Unusable(
            [Problem(Place(str(output), 1, 1), f"cannot be written ({error.strerror}); name another file")]
        ) from None
    finally:
        if temporary and os.path.exists(temporary):  # noqa: PTH110  # only left over where the write broke off
            os.unlink(temporary)  # noqa: PTH108


__all__ = ["adopt", "adopt_for", "code_options", "library", "load_plugins", "write"]
