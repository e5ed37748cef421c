"""The length of bracing that a line needs, written out: the table, each factor with its source, and what each panel counts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from precheck import BracedLine, Length, Limit, is_missing

FOOT = Length.parse("1 ft")


class BracingFactor(NamedTuple):
    """One factor of the length of bracing: what for, how much, by which table."""

    what: str
    value: Fraction
    source: str


class BracingSum(NamedTuple):
    """A line with what it needs: the length of the table, the factors, their product, and what each panel counts for."""

    line: BracedLine
    base: Length
    table: Limit[Any]
    factors: tuple[BracingFactor, ...]
    needed: Length
    panels: tuple[Any, ...]


class SumStep(NamedTuple):
    """One value of the sum, as reports print the lines of a calculation."""

    symbol: str
    meaning: str
    expression: str
    value: float
    unit: str
    source: str


def steps_of(sum_: BracingSum) -> tuple[SumStep, ...]:
    """Return the sum line by line."""
    return tuple(_steps(sum_))


def _steps(sum_: BracingSum) -> Iterator[SumStep]:
    base, table = _feet(sum_.base), f"{sum_.table.name}, {sum_.table.citation}"
    yield SumStep("L0", f"length of the table, next line {sum_.line.to_next_line} off", f"{base:g}", base, "ft", table)
    for number, factor in enumerate(sum_.factors, 1):
        yield SumStep(f"f{number}", factor.what, f"{float(factor.value):g}", float(factor.value), "", factor.source)
    text = " * ".join(f"{number:g}" for number in (base, *(float(f.value) for f in sum_.factors)))
    yield SumStep("L", "length of bracing needed", text, _feet(sum_.needed), "ft", "product")
    given = [(n, one) for n, one in enumerate(sum_.panels, 1) if not is_missing(one)]
    for number, counts in given:
        yield SumStep(
            f"p{number}", f"what panel {number} counts for", f"{_feet(counts):g}", _feet(counts), "ft", "as drawn"
        )
    if given and len(given) == len(sum_.panels):
        total = " + ".join(f"{_feet(counts):g}" for _, counts in given)
        yield SumStep("P", "all panels of the line", total, sum(_feet(counts) for _, counts in given), "ft", "sum")


def _feet(length: Length) -> float:
    return float(length / FOOT)
