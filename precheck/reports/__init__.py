"""Reports on reviews, one module a format, imported when it is asked for.

A module makes a `piece` of each review (or of each file that cannot be used, with `refused`) and has them `joined`, so
that pieces can be made in many processes and written as they come. `render` does both for reviews at hand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from importlib import import_module
from typing import Any, Protocol

from precheck.files.source import Problem
from precheck.review.finding import Review

FORMATS = ("text", "json", "sarif", "junit", "github", "markdown", "html", "pdf")


class Format(Protocol):
    """What a format's module offers."""

    def piece(self, review: Review) -> Any:
        """Return the report on one project, as plain data that another process can take over."""

    def refused(self, file: str, problems: Sequence[Problem]) -> Any:
        """Return the piece for a file that cannot be used."""

    def joined(self, pieces: Iterable[Any]) -> Iterator[str]:
        """Yield the whole report, bit by bit."""


def renderer(name: str) -> Callable[..., Any]:
    """Return the `render` function of format `name`, one of `FORMATS`."""
    return import_module(f"precheck.reports.{name}").render  # type: ignore[no-any-return]  # each module defines it so


def streamed(name: str) -> Format | None:
    """Return the module of format `name`, or None where the format takes all reviews at once."""
    module: Any = import_module(f"precheck.reports.{name}")
    return module if hasattr(module, "joined") else None
