"""One line of a hand calculation, so that an engineer can follow every number to its origin.

Results keep only numbers. They write their steps when asked, so that trying fifty candidates costs no text.
An expression is plain arithmetic (`*`, `/`, `^`, `sqrt`, `min`, `max`), and its numbers give the step's
value.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Iterable

GIVEN = "given"
STATICS = "statics"


@fixed
class Step:
    """One value: its symbol, its meaning in words, how it was computed, its unit and where it comes from."""

    symbol: str
    meaning: str
    expression: str
    value: float
    unit: str
    source: str

    def __str__(self) -> str:
        """The step as one line of text; a value that is not computed stands once."""
        value = number(self.value)
        computed = f"{self.expression} = " if self.expression != value else ""
        return f"{self.symbol} = {computed}{value}{' ' if self.unit else ''}{self.unit} [{self.source}]"


def given(symbol: str, meaning: str, value: float, unit: str, source: str = GIVEN) -> Step:
    """A value that is not computed here: drawn, published or chosen by the code; `source` says which."""
    return Step(symbol, meaning, number(value), value, unit, source)


def number(value: float) -> str:
    """The number as it stands in a calculation: seven digits, no exponent above 1e-4, no needless zero."""
    if value == 0:
        return "0"
    size = abs(value)
    if size < 1e-4:
        return f"{value:.6e}"
    decimals = 1 if size >= 1e6 else 6 if size < 10 else 4
    return f"{value:.{decimals}f}".rstrip("0").rstrip(".")


def product(values: Iterable[float]) -> str:
    """The numbers joined by multiplication signs."""
    return " * ".join(number(value) for value in values)


@cache
def nds(clause: str) -> str:
    """The clause of the National Design Specification for Wood Construction, in the numbering of 2018.

    Clause numbers and contents are from memory wherever no other source is named.
    """
    return f"NDS 2018 {clause} (from memory)"


def filled(form: str, numbers: Iterable[float]) -> str:
    """The arithmetic of a form such as `{} / {}` with its numbers written in."""
    return form.format(*map(number, numbers))
