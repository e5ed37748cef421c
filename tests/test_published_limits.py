"""Each limit of the five first topics, in every edition, against a table of what others publish, which names its sources."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.files.record import Record, read_record
from precheck.files.source import read_file
from precheck.rulesets.limit import value_of
from precheck.testing import code, editions
from precheck.units import Ratio, Slope

FILE = Path(__file__).parent / "published" / "limits.yaml"
TOPICS = frozenset(("stairs", "doors", "escape", "ceilings", "separation"))
NO_PAGE = ("from memory", "common practice", "our own words", "a published summary of the 2024 code")


class Row(Record):
    """One value as published, and the editions that it is held against."""

    kind = "row"
    editions: tuple[str, ...]
    value: Any
    source: str
    url: str = ""
    same_page: bool = False


class Table(Record):
    """The file of limits."""

    kind = "table of limits"
    limits: dict[str, tuple[Row, ...]]


TABLE = read_record(Table, read_file(FILE)).limits
HELD = [
    (edition, name)
    for edition in editions()
    for name, limit in code(edition).limits.items()
    if name.partition(".")[0] in TOPICS
    and limit.takes is None  # for which works a line is due is no number of the code
]


def plain(value: Any) -> Any:
    """Return a value so that a slope and the share that it is written as compare."""
    return Slope(value.n, value.text) if isinstance(value, Ratio) else value


@pytest.mark.parametrize(("edition", "name"), HELD)
def test_a_limit_is_what_the_table_says_is_published(edition: str, name: str) -> None:
    """A limit that the table lacks, or holds at another value, fails; so does one that the table holds twice."""
    rows = [row for row in TABLE.get(name, ()) if edition in row.editions]
    assert len(rows) == 1, f"{name} has {len(rows)} rows for {edition} in {FILE.name}; give it one"
    assert plain(value_of(rows[0].value, name)) == plain(code(edition).limits[name].value)


def test_the_table_names_no_limit_and_no_edition_that_is_gone() -> None:
    """Every row is held against something."""
    assert {(edition, name) for name, rows in TABLE.items() for row in rows for edition in row.editions} == set(HELD)


def test_every_row_names_its_page_or_says_that_there_is_none() -> None:
    """A source is a page with its address, or plainly none."""
    rows = [row for rows in TABLE.values() for row in rows]
    assert [row.source for row in rows if not row.url.startswith("http") and not row.source.startswith(NO_PAGE)] == []


def test_a_row_that_rests_on_the_page_of_the_edition_says_so() -> None:
    """Most rows rest on another page than the edition does, and the others are marked."""
    for name, rows in TABLE.items():
        for row in rows:
            own = {code(edition).limits[name].source for edition in row.editions}
            assert row.same_page == ((row.url or row.source) in own), name
    independent = [row for rows in TABLE.values() for row in rows if row.url and not row.same_page]
    assert len(independent) > len(TABLE) / 2
