"""Findings of an earlier run that may stand: only what is new since then decides the exit status of a later one.

The baseline is the SARIF report of the earlier run, whose results carry the fingerprint of each finding.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from precheck.checks import Outcome
from precheck.files.source import Place, Problem, Unusable
from precheck.reports import words
from precheck.reports.fingerprint import KEY, fingerprint
from precheck.reports.sarif import LEFT_OUT
from precheck.review.finding import Review

HOW = "make one with `precheck check PROJECT... --report sarif --output FILE`"


class Open(NamedTuple):
    """A finding that stops a job: the name by which a later run knows it again, and what is told of it."""

    fingerprint: str
    told: str


class Baseline:
    """What an earlier run found, and what of it a later run comes upon."""

    def __init__(self, path: Path, known: frozenset[str]) -> None:
        self.path, self.known = path, known
        self.new: list[Open] = []
        self._seen: set[str] = set()

    def hold(self, found: Iterable[Open]) -> None:
        """Take what a later run found in one more file."""
        for one in found:
            self._seen.add(one.fingerprint)
            if one.fingerprint not in self.known:
                self.new.append(one)

    def lines(self) -> Iterator[str]:
        """Yield how the later run stands to the baseline, and each finding that is new."""
        stand, gone = len(self.known & self._seen), len(self.known - self._seen)
        yield f"Baseline {self.path}: {stand} of its findings stand, {gone} are gone, {len(self.new)} are new."
        yield from (f"new: {one.told}" for one in self.new)


def read_baseline(path: Path) -> Baseline:
    """Return the baseline that a SARIF report holds. Raises `Unusable` where the file is no such report."""
    try:
        log = json.loads(path.read_text(encoding="utf-8"))
        results = [result for run in log["runs"] for result in run["results"]]
        told = [note for run in log["runs"] for one in run["invocations"] for note in one["toolExecutionNotifications"]]
        partial = any(note["descriptor"]["id"] == LEFT_OUT for note in told)
        known = frozenset(result["partialFingerprints"][KEY] for result in results)
    except FileNotFoundError:
        raise _refused(path, "there is no such file") from None
    except (OSError, UnicodeDecodeError, ValueError, KeyError, TypeError):
        raise _refused(path, "this is no SARIF report of this version") from None
    if partial:
        raise _refused(path, "this report had no room for all findings, so the rest would seem new; hold fewer files")
    return Baseline(path, known)


def open_in(review: Review) -> tuple[Open, ...]:
    """Return the findings of `review` that stop the job."""
    stops = {Outcome.FAIL, Outcome.NOT_SHOWN} | ({Outcome.WARN} if review.strict else set())
    return tuple(
        Open(fingerprint(one), f"{one.place}: {one.rule.name}: {words.message(one)}")
        for one in review.findings
        if one.outcome in stops and one.accepted is None
    )


def _refused(path: Path, what: str) -> Unusable:
    return Unusable([Problem(Place(str(path), 1, 1), f"{what}; {HOW}")])
