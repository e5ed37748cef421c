"""The failure modes of each kind of member, and how each is looked at: the rows of failure_modes.csv."""

from __future__ import annotations

import csv
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent
WAYS = ("calculated", "tabulated", "engineer")
"""How a failure mode is looked at: by a sum, by a table or rule of the code, or by an engineer alone."""


class Mode(NamedTuple):
    """One way in which a kind of member fails: how it is looked at, by which rules, and what to know of it."""

    member: str
    mode: str
    way: str
    rules: tuple[str, ...]
    note: str


@cache
def modes() -> tuple[Mode, ...]:
    """Return every row, in the order of the file. Raises ValueError for a way that is none."""
    with (HERE / "failure_modes.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(_mode(row) for row in csv.DictReader(lines))


def by_member() -> tuple[tuple[str, tuple[Mode, ...]], ...]:
    """Return the rows of each kind of member together."""
    return tuple((member, tuple(rows)) for member, rows in groupby(modes(), key=lambda mode: mode.member))


def _mode(row: dict[str, str]) -> Mode:
    if row["way"] not in WAYS:
        raise ValueError(f"`{row['way']}` of {row['member']}, {row['mode']}: write one of {', '.join(WAYS)}")
    rules = tuple(name.strip() for name in row["by"].split(";") if name.strip())
    return Mode(row["member"], row["mode"], row["way"], rules, row["note"])
