"""Measures as the trade writes them: feet, inches and fractions; what the author wrote is left as written."""

from __future__ import annotations

from fractions import Fraction

from precheck.units.everyday import CANONICAL, EVERYDAY, FOOT, INCH
from precheck.units.measure import Area, Exact, Insulation, Length, Measure, Ratio, Slope, Transmittance

SIXTEENTHS = 16
FEET_FROM = 48  # inches; from here on a derived length reads better in feet and inches


def show(measure: Measure) -> str:
    """Return the text of `measure`: as written where a person wrote it, else in trade units."""
    if measure.text is not None:
        return _as_written(measure)
    return _SHOWN.get(type(measure), _plain)(measure.n, type(measure))


def derived(measure: Measure) -> str:
    """Return `measure` in trade units even where it was written otherwise."""
    return _SHOWN.get(type(measure), _plain)(measure.n, type(measure))


def in_feet(length: Length) -> str:
    """Return `length` in feet and inches from a foot on: ``3'-2"``, to stand beside what is written so."""
    return _length(length.n, Length, feet_from=12)


def in_square_inches(area: Area) -> Area:
    """Return `area` written in square inches, as vents and grilles are sold."""
    return Area(area.n, f"{decimal(Fraction(area.n) / INCH**2, 1)} sq in")


def finely(measure: Measure, beside: Exact = 0) -> str:
    """Return `measure` in decimals, with as many as it takes to tell it from the number `beside` of its dimension."""
    unit = "in" if isinstance(measure, Length) else CANONICAL[type(measure)]
    size = EVERYDAY[type(measure)][unit]
    number, other = Fraction(measure.n) / size, Fraction(beside) / size
    places = next((p for p in range(2, 9) if round(number, p) != round(other, p)), 9)
    return f"{decimal(number, places)} {unit}"


def decimal(number: Exact, places: int = 3) -> str:
    """Return a decimal of at most `places` places, with a leading ``about`` where digits were dropped."""
    rounded = round(Fraction(number), places)
    text = f"{float(rounded):,.{places}f}".rstrip("0").rstrip(".")
    return text if rounded == number else f"about {text}"


def _as_written(measure: Measure) -> str:
    text = measure.text or ""
    if isinstance(measure, Length) and text.rstrip().endswith(("m", "M")):
        return f"{text} ({derived(measure)})"  # a metric drawing: the limit beside it is in inches
    return text


def _length(n: Exact, kind: type[Measure], feet_from: int = FEET_FROM) -> str:
    inches = Fraction(n) / INCH
    sign, inches = ("-" if inches < 0 else ""), abs(inches)
    shown = Fraction(round(inches * SIXTEENTHS), SIXTEENTHS)
    about = "" if shown == inches else "about "
    if shown < feet_from:
        return f"{about}{sign}{_mixed(shown)} in"
    feet, rest = divmod(shown, 12)
    return f"{about}{sign}{feet}'-{'0 ' if 0 < rest < 1 else ''}{_mixed(rest)}\""


def _mixed(number: Fraction) -> str:
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _area(n: Exact, kind: type[Measure]) -> str:
    feet = Fraction(n) / FOOT**2
    if 0 < abs(feet) < Fraction(1, 4):
        return f"{decimal(feet * 144, 1)} sq in"
    return f"{decimal(feet, 2)} sq ft"


def _slope(n: Exact, kind: type[Measure]) -> str:
    per_foot = Fraction(n) * 12
    if per_foot >= 1:
        return f"{decimal(per_foot, 2)}:12"
    if (per_foot * 16).denominator == 1:
        return f"{_mixed(per_foot)} in per ft"
    return f"{decimal(Fraction(n) * 100, 2)} %"


def _share(n: Exact, kind: type[Measure]) -> str:
    return f"{decimal(Fraction(n) * 100, 1)} %"


def _lettered(n: Exact, kind: type[Measure]) -> str:
    return f"{'R' if kind is Insulation else 'U'}-{decimal(n).removeprefix('about ')}"


def _plain(n: Exact, kind: type[Measure]) -> str:
    unit = CANONICAL[kind]
    return f"{decimal(Fraction(n) / EVERYDAY[kind][unit], 2)} {unit}"


_SHOWN = {
    Length: _length,
    Area: _area,
    Slope: _slope,
    Ratio: _share,
    Insulation: _lettered,
    Transmittance: _lettered,
}
