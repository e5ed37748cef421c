"""Measures in words other than their own: in trade units, in feet, in square inches, in decimals."""

from __future__ import annotations

from fractions import Fraction

from precheck.units.everyday import CANONICAL, EVERYDAY, INCH, Exact
from precheck.units.measure import Area, Length, Measure
from precheck.units.show import decimal, feet_and_inches, shown


def derived(measure: Measure) -> str:
    """Return `measure` in trade units even where it was written otherwise."""
    return shown(measure.dimension, measure.n)


def in_feet(length: Length) -> str:
    """Return `length` in feet and inches from a foot on: ``3'-2"``, to stand beside what is written so."""
    return feet_and_inches(length.n, feet_from=12)


def in_square_inches(area: Area) -> Area:
    """Return `area` written in square inches, as vents and grilles are sold."""
    return Area(area.n, f"{decimal(Fraction(area.n) / INCH**2, 1)} sq in")


def finely(measure: Measure, beside: Exact = 0) -> str:
    """Return `measure` in decimals, with as many as it takes to tell it from the number `beside` of its dimension."""
    unit = "in" if isinstance(measure, Length) else CANONICAL[measure.dimension]
    size = EVERYDAY[measure.dimension][unit]
    number, other = Fraction(measure.n) / size, Fraction(beside) / size
    places = next((p for p in range(2, 9) if round(number, p) != round(other, p)), 9)
    return f"{decimal(number, places)} {unit}"
