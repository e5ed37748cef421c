"""What came of one project file of a run, as plain data that another process can take over."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.files.source import Place, Problem

UNUSABLE = "unusable"


class Checked(NamedTuple):
    """What came of one file, as plain data: the verdict (`unusable` where it cannot be read), counts, and the piece."""

    file: str
    verdict: str
    counts: dict[str, int]
    jurisdiction: str = ""
    rules: tuple[tuple[tuple[str, str], int], ...] = ()  # how many findings of a rule came to an outcome
    problems: tuple[Problem, ...] = ()
    piece: Any = None
    not_checked: tuple[str, ...] = ()
    accepted: int = 0
    used: tuple[Place, ...] = ()
    unused: tuple[tuple[Place, str], ...] = ()
    notices: tuple[str, ...] = ()
    stops: tuple[Any, ...] = ()  # what stops the job, where the run is held against a baseline
    lacking: tuple[str, ...] = ()  # plugins that did not load, and why
