"""Hold the numbers of the limits against the numbers that stand in the sections they cite, as states adopted them.

python tests/hold_numbers.py TABLE.csv [--topic TOPIC] [--doubts DOUBTS.csv] [--list]

TABLE.csv has a row for each section of an edition: `edition`, `section`, `about` (its heading), `adoptions` (the places
that share the `numbers`, which stand in order and with their units, separated by ` | `) and `elsewhere` (the numbers of
places that amended it). A section without a row does not exist in that edition. A number that is found may still be about
another thing: what it is about is read in the text. A limit whose number cannot be found says why in its `note`.
`--list` prints each limit beside the rows of the sections it cites.
"""

from __future__ import annotations

import argparse
import csv
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library
from precheck.rulesets.limit import Limit
from precheck.units import Area, Length, Measure, Ratio

WORDS = {
    "one": Fraction(1), "two": Fraction(2), "three": Fraction(3), "four": Fraction(4), "five": Fraction(5),
    "six": Fraction(6), "eight": Fraction(8), "ten": Fraction(10), "twelve": Fraction(12), "one-half": Fraction(1, 2),
    "one-third": Fraction(1, 3), "two-thirds": Fraction(2, 3), "one-quarter": Fraction(1, 4),
    "one-fourth": Fraction(1, 4), "three-quarters": Fraction(3, 4),
}  # fmt: skip
INCHES = {"in": Fraction(1), "ft": Fraction(12), "mm": Fraction(10, 254), "m": Fraction(10000, 254)}
SQUARE_INCHES = {"square in": Fraction(1), "square ft": Fraction(144), "mm2": Fraction(100, 64516),
                 "m2": Fraction(100_000_000, 64516)}  # fmt: skip
ENTRY = re.compile(r"((?:\d+/\d+|[\d,]*\.?\d+(?:\s+\d+/\d+)?)|[a-z]+(?:-[a-z]+)?)\s*(.*)")
SECTION = re.compile(r"(?:Table )?[RNM]A?\d{3,4}(?:\.\d+)*(?:\(\d+\))*")
IN_REACH = re.compile(r"(Table )?(R[1-9]|R10|M1[2-5]|N11)")
CLOSE = 0.006  # what a number in millimeters is rounded by


class Number(NamedTuple):
    """A number of a text in the unit of its kind: inches, square inches, per cent, or none."""

    kind: str
    value: Fraction


class Row(NamedTuple):
    """One section of one edition as adopted."""

    section: str
    about: str
    adoptions: str
    numbers: str
    elsewhere: str


class Held(NamedTuple):
    """How one limit of one edition stands to the table."""

    edition: str
    limit: Limit[Any]
    state: str
    rows: tuple[Row, ...]


def table_of(path: Path) -> dict[str, list[Row]]:
    """Return the rows of the table by edition."""
    found: dict[str, list[Row]] = defaultdict(list)
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            found[row["edition"]].append(Row(*(row[key] or "" for key in Row._fields)))
    return found


def numbers_in(row: Row) -> list[Number]:
    """Return the numbers of a section, those of amended adoptions too; feet and inches also taken together."""
    amended = re.split(r" \| |;? ?\b[A-Z]{2,3}: ", row.elsewhere)
    found: list[Number] = []
    before: tuple[str, list[Number]] = ("", [])
    for entry in [*row.numbers.split(" | "), *amended]:
        now = list(_of_entry(entry))
        found += now
        if entry.endswith(" in") and before[0].endswith(" ft") and now and before[1]:
            found.append(Number("in", before[1][0].value + now[0].value))
        before = entry, now
    return found


def _of_entry(entry: str) -> Iterator[Number]:
    match = ENTRY.fullmatch(entry.strip())
    value = _fraction(match[1]) if match else None
    if match is None or value is None:
        return
    unit = match[2].strip()
    if unit in INCHES:
        yield Number("in", value * INCHES[unit])
    elif unit in SQUARE_INCHES:
        yield Number("sq in", value * SQUARE_INCHES[unit])
    elif unit == "percent":
        yield Number("share", value / 100)
    yield Number("", value)


def _fraction(text: str) -> Fraction | None:
    if text in WORDS:
        return WORDS[text]
    try:
        return sum((Fraction(part) for part in text.replace(",", "").split()), Fraction(0))
    except (ValueError, ZeroDivisionError):  # such as 20/20 cut short
        return None


def wanted(limit: Limit[Any]) -> list[Number]:
    """Return in which ways the value of a limit may stand in a text; none where it is no plain number."""
    value = limit.value
    if isinstance(value, bool) or not isinstance(value, Measure | int):
        return []
    written = _leading(limit.text)
    plain = [Number("", written)] if written is not None else []
    if isinstance(value, int):
        return [Number("", Fraction(value))]
    if isinstance(value, Length):
        return [Number("in", Fraction(value / Length.parse("1 in")))]
    if isinstance(value, Area):
        return [Number("sq in", Fraction(value / Area.parse("1 sq in"))), *plain]
    if isinstance(value, Ratio):
        share = Fraction(value.n)
        return [Number("share", share), Number("", share * 12), Number("", 1 / share if share else share), *plain]
    return plain


def _leading(text: str) -> Fraction | None:
    match = re.match(r"(?:R-|U-)?(\d+/\d+|[\d,]*\.?\d+(?:\s+\d+/\d+)?)", text)
    return _fraction(match[1]) if match else None


def rows_of(limit: Limit[Any], rows: Iterable[Row]) -> tuple[tuple[Row, ...], bool]:
    """Return the rows of the sections that `limit` cites, with those below them, and whether all are in reach."""
    rows = tuple(rows)
    cited = [name for name in SECTION.findall(limit.section) if IN_REACH.match(name) and _has_text(name, rows)]
    names = [name.removeprefix("Table ") for name in cited]
    found = tuple(row for row in rows if any(_is_within(row.section.removeprefix("Table "), name) for name in names))
    return found, bool(cited)


def _has_text(name: str, rows: Iterable[Row]) -> bool:
    """Return whether the table has more than bare headings of the chapter that the section `name` stands in."""
    return any("." in row.section and _chapter(row.section) == _chapter(name) for row in rows)


def _chapter(section: str) -> str:
    found = re.match(r"(?:Table )?([A-Z]+\d+)\d\d", section)
    return found[1] if found else section


def _is_within(section: str, name: str) -> bool:
    return section == name or section.startswith((f"{name}.", f"{name}("))


def held(limit: Limit[Any], edition: str, rows: Iterable[Row]) -> Held:
    """Return how `limit` stands to the rows of its edition."""
    found, in_reach = rows_of(limit, rows)
    if not in_reach:
        return Held(edition, limit, "out of reach", ())
    if not found:
        return Held(edition, limit, "section missing", ())
    ways = wanted(limit)
    if not ways:
        return Held(edition, limit, "no plain number", found)
    there = [number for row in found for number in numbers_in(row)]
    hit = any(way.kind == one.kind and _are_close(way.value, one.value) for way in ways for one in there)
    return Held(edition, limit, "found" if hit else "not in section", found)


def _are_close(one: Fraction, other: Fraction) -> bool:
    return abs(float(one - other)) <= max(CLOSE * abs(float(one)), 1e-9)


def all_held(table: Mapping[str, list[Row]], topic: str = "") -> Iterator[Held]:
    """Yield how every limit of every edition that the table has stands to it."""
    library = Library(load_plugins().rulesets)
    for name, edition in library.editions.items():
        for limit in library.edition(name).limits.values() if edition.label in table else ():
            if not topic or limit.name.startswith(f"{topic}."):
                yield held(limit, edition.label, table[edition.label])


def is_doubt(one: Held) -> bool:
    """Return whether the number could not be found and nothing is said of why."""
    return one.state in ("not in section", "section missing") and not one.limit.note and one.limit.value is not None


def main() -> None:
    """Print the counts, and what is asked for besides."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("table", type=Path)
    options.add_argument("--topic", default="")
    options.add_argument("--doubts", type=Path)
    options.add_argument("--list", action="store_true")
    given = options.parse_args()
    every = list(all_held(table_of(given.table), given.topic))
    for (edition, state), count in sorted(Counter((one.edition, one.state) for one in every).items()):
        print(f"{edition} {state}: {count}")
    doubts = [one for one in every if is_doubt(one)]
    read = Counter(one.edition for one in every if one.limit.basis == "read" and one.state != "out of reach")
    total = Counter(one.edition for one in every if one.state != "out of reach")
    for edition in sorted(total):
        print(
            f"{edition}: {read[edition]} of {total[edition]} in reach are read ({read[edition] / total[edition]:.0%})"
        )
    print(f"{len(doubts)} doubts that no note explains")
    if given.doubts:
        with given.doubts.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(("edition", "limit", "value", "section", "basis", "doubt"))
            writer.writerows(
                (d.edition, d.limit.name, d.limit.text, d.limit.section, d.limit.basis, d.state) for d in doubts
            )
    if given.list:
        _list(every)


def _nearest(one: Held) -> list[Row]:
    """Return the rows of the very sections that are cited, else the first of those below."""
    cited = {name.removeprefix("Table ") for name in SECTION.findall(one.limit.section)}
    exact = [row for row in one.rows if row.section.removeprefix("Table ") in cited and row.numbers]
    return exact or list(one.rows[:4])


def _list(every: list[Held]) -> None:
    for name in dict.fromkeys(one.limit.name for one in every):
        print(f"\n{name}: {next(o for o in every if o.limit.name == name).limit.measures}")
        for one in every:
            if one.limit.name == name:
                note = f" note: {one.limit.note}" if one.limit.note else ""
                print(f"  {one.edition} {one.limit.text} | {one.limit.section} | {one.limit.basis} {one.limit.source} | "
                      f"{one.state}{' DOUBT' if is_doubt(one) else ''}{note}")  # fmt: skip
                for row in _nearest(one):
                    elsewhere = f" ; elsewhere {row.elsewhere}" if row.elsewhere else ""
                    print(f"      {row.section} {row.about} [{row.adoptions}]: {row.numbers}{elsewhere}"[:300])


if __name__ == "__main__":
    main()
