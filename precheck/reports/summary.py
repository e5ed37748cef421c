"""What the projects of a run come to together: by rule, by jurisdiction, and what was not checked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from precheck.checks import Outcome
from precheck.files.source import Place
from precheck.reports import words
from precheck.reports.checked import Checked
from precheck.reports.width import WIDTH, wrapped
from precheck.review.finding import CORRECTIONS, READY

_COLUMNS = {"fix": Outcome.FAIL, "not shown": Outcome.NOT_SHOWN, "review": Outcome.WARN, "error": Outcome.ERROR}


class Tally:
    """Adds up what comes of each file. Holds a number for each rule and jurisdiction, and nothing of the files."""

    def __init__(self) -> None:
        self.verdicts: Counter[str] = Counter()
        self.rules: Counter[tuple[str, str]] = Counter()
        self.places: dict[str, Counter[str]] = {}
        self.not_checked: dict[str, None] = {}
        self.accepted = 0
        self.broken_off = ""  # why the run was, and how far it came
        self.lacking: dict[str, None] = {}  # plugins that did not load, and why
        self._used: set[Place] = set()
        self._unused: dict[Place, str] = {}

    def add(self, checked: Checked) -> None:
        """Count one file."""
        self.verdicts[checked.verdict] += 1
        self.rules.update(dict(checked.rules))
        if checked.jurisdiction:
            self.places.setdefault(checked.jurisdiction, Counter())[checked.verdict] += 1
        self.not_checked.update(dict.fromkeys(f"{checked.jurisdiction}: {line}" for line in checked.not_checked))
        self.accepted += checked.accepted
        self.lacking.update(dict.fromkeys(checked.lacking))
        self._used.update(checked.used)
        self._unused.update(checked.unused)

    @property
    def files(self) -> int:
        """How many files were counted."""
        return self.verdicts.total()

    @property
    def refused(self) -> int:
        """How many of them cannot be used."""
        return self.files - self.verdicts[READY] - self.verdicts[CORRECTIONS]

    @property
    def errors(self) -> int:
        """How many checks failed to run."""
        return sum(n for (_, outcome), n in self.rules.items() if outcome == Outcome.ERROR.word)

    @property
    def unused(self) -> list[str]:
        """The records of accepted findings that no project of the run has a finding for."""
        return [told for place, told in self._unused.items() if place not in self._used]


def render(tally: Tally) -> Iterator[str]:
    """Yield the summary, line by line, ending in the reminder."""
    yield ""
    if tally.broken_off:
        yield from wrapped(f"NOT ALL CHECKED: {tally.broken_off}.")
    yield from wrapped(_files(tally))
    yield from (line for told in tally.lacking for line in wrapped(told))
    yield from _by_rule(tally)
    yield from _by_jurisdiction(tally)
    if tally.unused:
        yield from ("", "ACCEPTED FINDINGS TO RENEW OR REMOVE")
        yield from (line for told in tally.unused for line in wrapped(f"- {told}", hang=2))
    yield from ("", "NOT CHECKED")
    yield from (line for told in sorted(tally.not_checked) for line in wrapped(f"- {told}", hang=2))
    if tally.refused == tally.files:
        yield "Nothing was checked: no file can be used."
    elif not tally.not_checked:
        yield words.ALL_COVERED
    yield ""
    yield from wrapped(words.REMINDER)


def _files(tally: Tally) -> str:
    ready, corrections = tally.verdicts[READY], tally.verdicts[CORRECTIONS]
    refused = f", {tally.refused:,} cannot be used" if tally.refused else ""
    accepted = f" {tally.accepted:,} items accepted." if tally.accepted else ""
    return f"{tally.files:,} files: {ready:,} ready, {corrections:,} not ready{refused}.{accepted}"


def _by_rule(tally: Tally) -> Iterator[str]:
    names = sorted({name for (name, outcome) in tally.rules if outcome in {o.word for o in _COLUMNS.values()}})
    if names:
        yield ""
        yield _row("BY RULE", list(_COLUMNS))
    for name in names:
        yield _row(name, [f"{tally.rules[name, outcome.word]:,}" for outcome in _COLUMNS.values()])


def _by_jurisdiction(tally: Tally) -> Iterator[str]:
    if tally.places:
        yield ""
        yield _row("BY JURISDICTION", ["ready", "not ready"])
    for name in sorted(tally.places):
        yield _row(name, [f"{tally.places[name][verdict]:,}" for verdict in (READY, CORRECTIONS)])


def _row(head: str, cells: list[str]) -> str:
    numbers = "".join(f"{cell:>11}" for cell in cells)
    room = WIDTH - len(numbers)
    return f"{head:<{room}}{numbers}" if len(head) <= room else f"{head}\n{numbers:>{WIDTH}}"
