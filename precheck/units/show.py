"""Numbers of a dimension as the trade writes them: feet, inches and fractions; what was written is left as written."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from precheck.units.everyday import CANONICAL, EVERYDAY, FOOT, INCH, Exact

SIXTEENTHS = 16  # to which a length is rounded
FINEST = 64  # parts of an inch that a tape shows, so that nothing is rounded
LEAST = "less than 1/16 in"  # of a length that rounds to nothing
FEET_FROM = 48  # inches; from here on a derived length reads better in feet and inches


def shown(dimension: str, n: Exact) -> str:
    """Return the number `n`, in the canonical unit of `dimension`, in trade units."""
    return _SHOWN.get(dimension, _plain)(dimension, n)


def as_written(dimension: str, n: Exact, text: str) -> str:
    """Return `text`, as which `n` was written; a metric length with its inches, for the limit beside it is in inches."""
    metric = dimension == "length" and text.rstrip().endswith(("m", "M"))
    return f"{text} ({shown(dimension, n)})" if metric else text


def decimal(number: Exact, places: int = 3) -> str:
    """Return a decimal of at most `places` places, or as many as it takes not to be zero; ``about`` where digits were dropped."""
    rounded = round(Fraction(number), places)
    while number and not rounded:
        places += 1
        rounded = round(Fraction(number), places)
    text = f"{float(rounded):,.{places}f}".rstrip("0").rstrip(".")
    return text if rounded == number else f"about {text}"


def feet_and_inches(n: Exact, feet_from: int = FEET_FROM) -> str:
    """Return a length in inches, and from so many inches on in feet and inches, to the nearest sixteenth."""
    inches = Fraction(n) / INCH
    sign, inches = ("-" if inches < 0 else ""), abs(inches)
    near = inches if (inches * FINEST).denominator == 1 else Fraction(round(inches * SIXTEENTHS), SIXTEENTHS)
    if inches and not near:
        return LEAST
    about = "" if near == inches else "about "
    if near < feet_from:
        return f"{about}{sign}{mixed(near)} in"
    feet, rest = divmod(near, 12)
    return f"{about}{sign}{feet}'-{'0 ' if 0 < rest < 1 else ''}{mixed(rest)}\""


def mixed(number: Fraction) -> str:
    """Return a number as a whole one and a fraction: ``7 1/4``."""
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _length(dimension: str, n: Exact) -> str:
    return feet_and_inches(n)


def _area(dimension: str, n: Exact) -> str:
    feet = Fraction(n) / FOOT**2
    if 0 < abs(feet) < Fraction(1, 4):
        return f"{decimal(feet * 144, 1)} sq in"
    return f"{decimal(feet, 2)} sq ft"


def _slope(dimension: str, n: Exact) -> str:
    per_foot = Fraction(n) * 12
    if per_foot >= 1:
        return f"{decimal(per_foot, 2)}:12"
    if (per_foot * 16).denominator == 1:
        return f"{mixed(per_foot)} in per ft"
    return f"{decimal(Fraction(n) * 100, 2)} %"


def _share(dimension: str, n: Exact) -> str:
    return f"{decimal(Fraction(n) * 100, 1)} %"


def _factor(dimension: str, n: Exact) -> str:
    return decimal(n, 2)


def _lettered(dimension: str, n: Exact) -> str:
    return f"{dimension[0]}-{decimal(n).removeprefix('about ')}"


def _plain(dimension: str, n: Exact) -> str:
    unit = CANONICAL[dimension]
    return f"{decimal(Fraction(n) / EVERYDAY[dimension][unit], 2)} {unit}"


_SHOWN: dict[str, Callable[[str, Exact], str]] = {
    "length": _length,
    "area": _area,
    "slope": _slope,
    "share": _share,
    "factor": _factor,
    "R-value": _lettered,
    "U-factor": _lettered,
}
