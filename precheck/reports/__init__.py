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
from precheck.rules.offered import DESIGN_FORMATS, FORMATS, ReportFormat

__all__ = ["DESIGN_FORMATS", "FORMATS", "Format", "renderer", "streamed"]


class Format(Protocol):
    """What a format's module offers."""

    def piece(self, review: Review) -> Any:
        """Return the report on one project, as plain data that another process can take over."""

    def refused(self, file: str, problems: Sequence[Problem]) -> Any:
        """Return the piece for a file that cannot be used."""

    def joined(self, pieces: Iterable[Any]) -> Iterator[str | bytes]:
        """Yield the whole report, bit by bit."""


def renderer(name: str, added: Iterable[ReportFormat] = ()) -> Callable[..., Any]:
    """Return the `render` function of format `name`, one of `FORMATS` or `DESIGN_FORMATS`, or `added` by a plugin."""
    return _form(name, added).render  # type: ignore[no-any-return]  # each defines it so


def streamed(name: str, added: Iterable[ReportFormat] = ()) -> Format | None:
    """Return format `name`, or None where it takes all reviews at once."""
    form = _form(name, added)
    return form if hasattr(form, "joined") else None


def _form(name: str, added: Iterable[ReportFormat]) -> Any:
    """Return our own module of that name; a plugin cannot take the name of one."""
    for offered in added:
        if offered.name == name:
            from precheck.reports.added import AddedReport

            return AddedReport(offered)
    return import_module(f"precheck.reports.{name}")
