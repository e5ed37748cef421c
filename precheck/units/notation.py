"""Trade notation to exact numbers, strictly: what is not understood is refused with what to write instead.

Pint reads several of these spellings wrongly and in silence, so it never sees a person's number; it is asked only for
the size of a unit that the table of everyday units lacks.
"""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache

from precheck.units.everyday import CANONICAL, EVERYDAY
from precheck.units.measure import Exact, Insulation, Length, Measure, Slope, Temperature, Transmittance

LONGEST = 64  # characters; no measure a person writes is longer, and a hostile one is refused before any arithmetic

NUMBER = r"(?:\d+(?:,\d{3})*(?:\.\d+)?(?:(?:\s+|-)\d+/\d+)?|\d+/\d+|\.\d+)"
_ASCII = str.maketrans({"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "×": "x", "−": "-", "–": "-",
                        "²": "2", "³": "3", "°": " deg ", "\u00a0": " ", "¼": " 1/4", "½": " 1/2", "¾": " 3/4",
                        "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"})  # fmt: skip
_FEET = re.compile(
    rf"(?P<sign>-?)\s*(?:(?P<feet>{NUMBER})\s*(?:'|ft\.?|feet|foot)(?P<gap>\s*-?\s*))?"
    rf"(?:(?P<inches>{NUMBER})\s*(?:\"|''|in\.?|inch|inches))?"
)
_PLAIN = re.compile(rf"(?P<sign>-?)\s*(?P<number>{NUMBER})\s*(?P<unit>.*)")
_SPACING = re.compile(r"\s*(?:o\.?\s?c\.?|on cent(?:er|re))\s*$", re.IGNORECASE)
_LETTER = re.compile(rf"(?P<letter>[RU])\s*-?\s*(?P<number>{NUMBER})", re.IGNORECASE)
_PITCH = re.compile(rf"(?P<rise>{NUMBER})\s*(?::|\bin\b(?=\s*\d+\s*$))\s*(?P<run>{NUMBER})")
_PER = re.compile(r"(?P<rise>.+?)\s*(?:\bper\b|/)\s*(?P<run>(?:\d+\s*)?[a-z'\"]+)", re.IGNORECASE)


class NotationError(ValueError):
    """A measure that cannot be read; the message says what is wrong and what to write instead."""


def number(text: str) -> Fraction:
    """Read ``7``, ``7.75``, ``7 3/4``, ``7-3/4`` or ``1,900``. Raises `NotationError`."""
    whole, _, rest = text.replace(",", "").replace("-", " ").partition(" ")
    try:
        return Fraction(whole) + (Fraction(rest) if rest.strip() else 0)
    except ZeroDivisionError:
        raise NotationError(f"`{text}` divides by zero; write a fraction such as 3/4") from None


def read(kind: type[Measure], text: str) -> Exact:
    """Return the number of `text` in the canonical unit of `kind`. Raises `NotationError`."""
    if len(text) > LONGEST:
        raise NotationError(f"`{text[:24]}...` is too long for {kind.a()}; write it like {kind.example}")
    plain = _ascii(text)
    special = _SPECIAL.get(kind)
    found = special(plain) if special else None
    return _with_unit(kind, plain) if found is None else found


@lru_cache(maxsize=4096)
def recognise(text: str) -> Measure | None:
    """Return the measure that `text` writes in an everyday unit, of whichever dimension; None where it writes none."""
    plain = _ascii(text)
    for kind in EVERYDAY:
        with contextlib.suppress(NotationError):  # what is wrong as a slope may be right as something else
            found = _everyday(kind, plain)
            if found is not None:
                return kind(found, text)
    return None


def _everyday(kind: type[Measure], plain: str) -> Exact | None:
    special = _SPECIAL.get(kind)
    found = special(plain) if special else None
    if found is None and (match := _PLAIN.fullmatch(plain)):
        size = _everyday_size(kind, " ".join(match["unit"].rstrip(".").split()))
        return number(match["number"]) * size * (-1 if match["sign"] else 1) if size else None
    return found


def _ascii(text: str) -> str:
    return (text.translate(_ASCII) if not text.isascii() else text).strip()


def _everyday_size(kind: type[Measure], unit: str) -> int | Fraction | None:
    return EVERYDAY[kind].get(unit) or EVERYDAY[kind].get(unit.lower())


def _length(text: str) -> Exact | None:
    match = _FEET.fullmatch(_SPACING.sub("", text))
    if not match or not (match["feet"] or match["inches"]):
        return None
    feet, inches = number(match["feet"] or "0"), number(match["inches"] or "0")
    if match["feet"] and inches >= 12:
        raise NotationError(f"`{text}` has 12 inches or more beside the feet; carry them over into the feet")
    total = (feet * 12 + inches) * EVERYDAY[Length]["in"]
    return -total if match["sign"] else total


def _slope(text: str) -> Exact | None:
    if match := _PITCH.fullmatch(text):
        run = number(match["run"])
        if not run:
            raise NotationError(f"`{text}` has a run of zero; write rise:run, such as 6:12")
        return number(match["rise"]) / run
    if match := _PER.fullmatch(text):
        over = _everyday(Length, match["run"] if match["run"][0].isdigit() else f"1 {match['run']}")
        return Fraction(read(Length, match["rise"])) / over if over else None  # 4,000 Btu/h is no slope
    return None


def _temperature(text: str) -> Exact | None:
    match = re.fullmatch(rf"(-?)\s*({NUMBER})\s*(?:deg(?:rees)?\s*)?C", text)
    if not match:
        return None
    return number(match[2]) * (-1 if match[1] else 1) * Fraction(9, 5) + 32


def _lettered(letter: str) -> Callable[[str], Exact | None]:
    def lettered(text: str) -> Exact | None:
        match = _LETTER.fullmatch(text)
        return number(match["number"]) if match and match["letter"].upper() == letter else None

    return lettered


_SPECIAL: dict[type[Measure], Callable[[str], Exact | None]] = {
    Length: _length,
    Slope: _slope,
    Temperature: _temperature,
    Insulation: _lettered("R"),
    Transmittance: _lettered("U"),
}


def _with_unit(kind: type[Measure], text: str) -> Exact:
    match = _PLAIN.fullmatch(text)
    if not match:
        raise NotationError(f"`{text}` is not {kind.a()}; write it like {kind.example}")
    unit = " ".join(match["unit"].rstrip(".").split())
    if not unit:
        raise NotationError(_no_unit(kind, match["number"]))
    if kind is Length and unit.startswith("'"):
        raise NotationError(f"`{text}` lacks the mark of its inches; write it like 8'-6\"")
    size = _everyday_size(kind, unit) or _from_pint(kind, unit, text)
    return number(match["number"]) * size * (-1 if match["sign"] else 1)


def _no_unit(kind: type[Measure], bare: str) -> str:
    told = f"{bare} {CANONICAL[kind]}" if kind not in _SPECIAL or kind is Length else kind.example
    meant = f"`{told}`, if that is meant, or " if told != kind.example else ""
    return f"`{bare}` has no unit; write {meant}{kind.a()} like `{kind.example}`"


def _from_pint(kind: type[Measure], unit: str, text: str) -> Exact:
    from precheck.units.convert import size_in

    size = size_in(unit, CANONICAL[kind]) if re.fullmatch(r"[A-Za-z_]{1,24}", unit) else None
    if size is None:
        known = ", ".join(sorted(u for u in EVERYDAY[kind] if u.isascii()))
        raise NotationError(f"`{unit}` in `{text}` is not a unit of {kind.dimension}; known here: {known}")
    return size * EVERYDAY[kind][CANONICAL[kind]]
