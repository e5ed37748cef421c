"""Measures in words other than their own: in trade units, in feet, in square inches, in decimals."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from precheck.units.everyday import CANONICAL, EVERYDAY, INCH, Exact
from precheck.units.measure import Area, Length, Measure
from precheck.units.notation import NotationError, read
from precheck.units.show import decimal, feet_and_inches, mixed, shown

MOST_PLACES = 4  # of a decimal that is told exactly


def derived(measure: Measure) -> str:
    """Return `measure` in trade units even where it was written otherwise."""
    return shown(measure.dimension, measure.n)


def in_file(value: Any) -> str:
    """Return a measure, a fact, a count or a word as a project file gives it, so that it reads back as the same."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):  # a size, width by height
        return " x ".join(map(in_file, value))
    if not isinstance(value, Measure):
        return str(value)
    if value.text is not None:
        return value.text
    told = derived(value)
    return told if _reads_as(told, value) else _exactly(value)


def _reads_as(told: str, value: Measure) -> bool:
    try:
        return read(value.dimension, told) == value.n
    except NotationError:
        return False


def _exactly(value: Measure) -> str:
    """Return a measure that trade units tell only about, by its own fraction of a unit."""
    n, sign = abs(Fraction(value.n)), "-" if value.n < 0 else ""
    if value.dimension in ("R-value", "U-factor"):
        return f"{value.dimension[0]}-{mixed(n)}"
    if value.dimension == "slope":
        return f"{sign}{mixed(n * 12)} in per ft"
    unit = _unit(value)
    return f"{sign}{mixed(n / EVERYDAY[value.dimension][unit])} {unit}".rstrip()


def in_feet(length: Length) -> str:
    """Return `length` in feet and inches from a foot on: ``3'-2"``, to stand beside what is written so."""
    return feet_and_inches(length.n, feet_from=12)


def in_square_inches(area: Area) -> Area:
    """Return `area` written in square inches, as vents and grilles are sold."""
    return Area(area.n, f"{decimal(Fraction(area.n) / INCH**2, 1)} sq in")


def like(measure: Measure, other: Measure) -> str:
    """Return `measure` in the unit of `other` where that is an area: square inches do not stand beside square feet."""
    if not isinstance(measure, Area) or _unit(measure) == _unit(other):
        return str(measure)
    return str(in_square_inches(measure)) if _unit(other) == "sq in" else _in(measure, "sq ft", 2)


def finely(measure: Measure, other: Measure, beside: Exact = 0) -> str:
    """Return `measure` in decimals of the unit of `other`: exactly, or with as many as tell it from the number `beside`."""
    unit = _unit(other)
    size = EVERYDAY[measure.dimension][unit]
    number, apart_from = Fraction(measure.n) / size, Fraction(beside) / size
    told = (p for p in range(2, 9) if round(number, p) != round(apart_from, p))
    exact = (p for p in range(2, MOST_PLACES + 1) if round(number, p) == number)
    return _in(measure, unit, next(exact, None) or next(told, 9))


def _unit(measure: Measure) -> str:
    if isinstance(measure, Area):
        return "sq in" if str(measure).endswith("sq in") else "sq ft"
    return "in" if isinstance(measure, Length) else CANONICAL[measure.dimension]


def _in(measure: Measure, unit: str, places: int) -> str:
    return f"{decimal(Fraction(measure.n) / EVERYDAY[measure.dimension][unit], places)} {unit}".rstrip()
