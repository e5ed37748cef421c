"""Trade notation to exact numbers, strictly: what is not understood is refused with what to write instead.

Pint reads several of these spellings wrongly and in silence, so it never sees a person's number; it is asked only for
the size of a unit that the table of everyday units lacks.
"""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable
from fractions import Fraction

from precheck.units.everyday import CANONICAL, EVERYDAY, EXAMPLES, Exact, with_article

LONGEST = 64  # characters; no measure a person writes is longer, and a hostile one is refused before any arithmetic

NUMBER = r"(?:[0-9]+/[0-9]+|[0-9]+(?:,[0-9]{3})*(?:\.[0-9]+)?(?:(?:\s+|-)[0-9]+/[0-9]+)?|\.[0-9]+)"
_NUMBER = re.compile(NUMBER)
_ASCII = str.maketrans({"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "×": "x", "−": "-", "–": "-",
                        "°": " deg ", "\u00a0": " ", "¼": " 1/4", "½": " 1/2", "¾": " 3/4",
                        "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"})  # fmt: skip
_POWER = re.compile("(?<=[A-Za-z])[²³]")  # of a unit; a number to a power is no measure
_FEET = re.compile(
    rf"(?P<sign>-?)\s*(?:(?P<feet>{NUMBER})\s*(?:'|ft\.?|feet|foot)(?P<gap>\s*-?\s*))?"
    rf"(?:(?P<inches>{NUMBER})\s*(?:\"|''|in\.?|inch|inches))?"
)
_PLAIN = re.compile(rf"(?P<sign>-?)\s*(?P<number>{NUMBER})\s*(?P<unit>.*)")
_SPACING = re.compile(r"\s*(?:o\.?\s?c\.?|on cent(?:er|re))\s*$", re.IGNORECASE)
_LETTER = re.compile(rf"(?P<letter>[RU])\s*-?\s*(?P<number>{NUMBER})", re.IGNORECASE)
_PITCH = re.compile(rf"(?P<rise>{NUMBER})\s*(?::|\bin\b(?=\s*[0-9]+\s*$))\s*(?P<run>{NUMBER})")
_PART = re.compile(r"(?P<part>(?:L|[0-9]+)\s*/\s*[0-9]+)")
_DECIMAL = re.compile(r"[0-9]*\.[0-9]+")
_PER = re.compile(r"(?P<rise>.+?)\s*(?:\bper\b|/)\s*(?P<run>(?:[0-9]+\s*)?[a-z'\"]+)", re.IGNORECASE)


class NotationError(ValueError):
    """A measure that cannot be read; the message says what is wrong and what to write instead."""


def number(text: str) -> Fraction:
    """Read ``7``, ``7.75``, ``7 3/4``, ``7-3/4`` or ``1,900``. Raises `NotationError`."""
    if len(text) > LONGEST or not _NUMBER.fullmatch(text):
        raise NotationError(f"`{text[:LONGEST]}` is not a number; write it like 7.75 or 7 3/4")
    whole, *after = text.replace(",", "").replace("-", " ").split()
    rest = "".join(after)
    try:
        if rest and ("." in whole or Fraction(rest) >= 1):
            raise NotationError(f"`{text}` has a fraction that does not go on from `{whole}`; write it like 7 3/4")
        return Fraction(whole) + (Fraction(rest) if rest else 0)
    except ZeroDivisionError:
        raise NotationError(f"`{text}` divides by zero; write a fraction such as 3/4") from None


def read(dimension: str, text: str) -> Exact:
    """Return the number of `text` in the canonical unit of `dimension`. Raises `NotationError`."""
    if len(text) > LONGEST:
        raise NotationError(
            f"`{text[:24]}...` is too long for {with_article(dimension)}; write it like {EXAMPLES[dimension]}"
        )
    plain = in_ascii(text)
    special = _SPECIAL.get(dimension)
    found = special(plain) if special else None
    return _with_unit(dimension, plain) if found is None else found


def recognized(text: str) -> tuple[str, Exact] | None:
    """Return the dimension and number that `text` writes in an everyday unit; None where it writes none."""
    plain = in_ascii(text)
    for dimension in EVERYDAY:
        with contextlib.suppress(NotationError):  # what is wrong as a slope may be right as something else
            found = _everyday(dimension, plain)
            if found is not None:
                return dimension, found
    return None


def _everyday(dimension: str, plain: str) -> Exact | None:
    special = _SPECIAL.get(dimension)
    found = special(plain) if special else None
    if found is None and (match := _PLAIN.fullmatch(plain)):
        size = _everyday_size(dimension, " ".join(match["unit"].rstrip(".").split()))
        return number(match["number"]) * size * (-1 if match["sign"] else 1) if size else None
    return found


def in_ascii(text: str) -> str:
    """Return `text` with the marks, fractions and dashes that people type as those of a plain keyboard."""
    if text.isascii():
        return text.strip()
    return _POWER.sub(lambda power: "2" if power[0] == "²" else "3", text.translate(_ASCII)).strip()


def _everyday_size(dimension: str, unit: str) -> int | Fraction | None:
    return (EVERYDAY[dimension].get(unit) or EVERYDAY[dimension].get(unit.lower())) if unit else None


def _length(text: str) -> Exact | None:
    match = _FEET.fullmatch(_SPACING.sub("", text))
    if not match or not (match["feet"] or match["inches"]):
        return None
    feet, inches = number(match["feet"] or "0"), number(match["inches"] or "0")
    if match["feet"] and inches >= 12:
        raise NotationError(f"`{text}` has 12 inches or more beside the feet; carry them over into the feet")
    total = (feet * 12 + inches) * EVERYDAY["length"]["in"]
    return -total if match["sign"] else total


def _slope(text: str) -> Exact | None:
    if match := _PITCH.fullmatch(text):
        run = number(match["run"])
        if not run:
            raise NotationError(f"`{text}` has a run of zero; write rise:run, such as 6:12")
        return number(match["rise"]) / run
    if match := _PER.fullmatch(text):
        over = _everyday("length", match["run"] if match["run"][0].isdigit() else f"1 {match['run']}")
        return Fraction(read("length", match["rise"])) / over if over else None  # 4,000 Btu/h is no slope
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


def _share(text: str) -> Exact | None:
    """Return a share that is written as a part, ``1/150``, or as a deflection is, ``L/360``."""
    match = _PART.fullmatch(text)
    return number(match["part"].replace("L", "1").replace(" ", "")) if match else None


def _factor(text: str) -> Exact | None:
    """Return a number that is written with its decimals, ``0.25`` or ``1.30``."""
    return number(text) if _DECIMAL.fullmatch(text) else None


def _line_load(text: str) -> Exact | None:
    """Return the number of a load that is written by the pound: the key under which it stands says that it is per foot."""
    match = _PLAIN.fullmatch(text)
    per_foot = EVERYDAY["force"] if match and match["unit"] in ("lb", "lbs", "pounds", "kip") else {}
    return (
        number(match["number"]) * per_foot[match["unit"]] * (-1 if match["sign"] else 1) if match and per_foot else None
    )


_SPECIAL: dict[str, Callable[[str], Exact | None]] = {
    "length": _length,
    "line load": _line_load,
    "share": _share,
    "factor": _factor,
    "slope": _slope,
    "temperature": _temperature,
    "R-value": _lettered("R"),
    "U-factor": _lettered("U"),
}


def _with_unit(dimension: str, text: str) -> Exact:
    match = _PLAIN.fullmatch(text)
    if not match:
        raise NotationError(f"`{text}` is not {with_article(dimension)}; write it like {EXAMPLES[dimension]}")
    unit = " ".join(match["unit"].rstrip(".").split())
    if not unit and "" not in EVERYDAY[dimension]:
        raise NotationError(_no_unit(dimension, match["number"]))
    if dimension == "length" and unit.startswith("'"):
        raise NotationError(f"`{text}` lacks the mark of its inches; write it like 8'-6\"")
    size = (_everyday_size(dimension, unit) if unit else 1) or _from_pint(dimension, unit, text)
    return number(match["number"]) * size * (-1 if match["sign"] else 1)


def _no_unit(dimension: str, bare: str) -> str:
    told = (
        f"{bare} {CANONICAL[dimension]}" if dimension not in _SPECIAL or dimension == "length" else EXAMPLES[dimension]
    )
    meant = f"`{told}`, if that is meant, or " if told != EXAMPLES[dimension] else ""
    return f"`{bare}` has no unit; write {meant}{with_article(dimension)} like `{EXAMPLES[dimension]}`"


def _from_pint(dimension: str, unit: str, text: str) -> Exact:
    from precheck.units.convert import size_in

    size = size_in(unit, CANONICAL[dimension]) if re.fullmatch(r"[A-Za-z_]{1,24}", unit) else None
    if size is None:
        known = ", ".join(sorted(u for u in EVERYDAY[dimension] if u.isascii()))
        raise NotationError(f"`{unit}` in `{text}` is not a unit of {dimension}; known here: {known}")
    return size * EVERYDAY[dimension][CANONICAL[dimension]]
