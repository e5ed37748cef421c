"""The report in a format that a plugin adds: it gets the data of the JSON report, and no object of ours."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from precheck.checks.outcome import said_of
from precheck.files.source import Problem
from precheck.immutable import fixed
from precheck.reports.json import as_data, refused_data
from precheck.review.finding import Review
from precheck.rules.offered import ReportFormat
from precheck.rules.strangers import BrokenOff, prints_aside
from precheck.rules.time_limit import Watch


@fixed
class AddedReport:
    """A format of a plugin, with what the modules of our own formats offer."""

    offered: ReportFormat

    def piece(self, review: Review) -> dict[str, Any]:
        """Return the report on one project as plain data."""
        return as_data(review)

    def refused(self, file: str, problems: Sequence[Problem]) -> dict[str, Any]:
        """Return the data of a file that cannot be used."""
        return refused_data(file, problems)

    def joined(self, pieces: Iterable[dict[str, Any]]) -> Iterator[str | bytes]:
        """Yield the whole report at once. Raises `BrokenOff` where the plugin does not make one."""
        yield self._made(list(pieces))

    def render(self, reviews: Iterable[Review]) -> str | bytes:
        """Return the report. Raises `BrokenOff` where the plugin does not make one."""
        return self._made([self.piece(review) for review in reviews])

    def _made(self, projects: list[dict[str, Any]]) -> str | bytes:
        try:
            with Watch() as watch, prints_aside():
                watch.start(f"the report `{self.offered.name}` of a plugin")
                made = self.offered.render(projects)
        except KeyboardInterrupt:
            raise
        except BaseException as error:  # whatever a stranger's format raises is its own failure
            raise self._failed(said_of(error)) from None
        if not isinstance(made, str | bytes):
            raise self._failed(f"it returned {type(made).__name__}, which is neither text nor bytes")
        return made

    def _failed(self, why: str) -> BrokenOff:
        return BrokenOff(
            f"the report `{self.offered.name}`, which a plugin offers, failed ({why}); use another --report"
        )
