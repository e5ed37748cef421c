"""Sizes, areas and heights as drafters write them into a plan, in meters; a bare number keeps that it has no unit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from precheck.importers.measures import FOOT, INCH

_MARKS = str.maketrans({"′": "'", "’": "'", "‘": "'", "`": "'", "″": '"', "”": '"', "“": '"', "×": "x", "X": "x", "–": "-",
                        "−": "-", "½": " 1/2", "¼": " 1/4", "¾": " 3/4"})  # fmt: skip
_FRACTION = r"(?:\s*-?\s*(?P<n{0}>\d{{1,2}})/(?P<d{0}>\d{{1,2}}))?"
_FEET = (
    rf"(?P<f{{0}}>\d{{{{1,3}}}}(?:\.\d+)?)\s*'(?:\s*-?\s*(?P<i{{0}}>\d{{{{1,2}}}}(?:\.\d+)?){_FRACTION}\s*(?:\"|'')?)?"
)
_INCHES = r"(?P<o{0}>\d{{1,3}}(?:\.\d+)?)\s*(?:\"|'')"
_METRIC = r"(?P<m{0}>\d{{1,5}}(?:[.,]\d{{1,3}})?)\s*(?P<u{0}>mm|cm|m)?"
_ONE = rf"(?:{_FEET}|{_INCHES}|{_METRIC}(?![\d.'\"]))"
_BY = r"\s*(?:W\s*)?(?:[x*]|\bby\b)\s*"
_PAIR = re.compile(rf"(?<![\w.,/'\"]){_ONE.format(1)}{_BY}{_ONE.format(2)}(?![\w/])", re.IGNORECASE)
_IN_WORDS = ((re.compile(r"(?<=\d)\s?(?:feet|foot|ft)(?![\w.])\.?|(?<=\d)\s?ft\.(?!\w)", re.IGNORECASE), "'"),
             (re.compile(r"(?<=\d)\s?(?:inches|inch|in)(?![\w.])|(?<=\d)\s?in\.(?!\w)", re.IGNORECASE), '"'))  # fmt: skip
_LONE = re.compile(rf"{_FEET.format(1)}|{_INCHES.format(1)}")
_AREA = re.compile(
    r"(?<![\w.,'])(?:(?:a|m2|m²|mq)\s*[=:]\s*)?(\d[\d,]*(?:\.\d+)?|\d+,\d+)\s*"
    r"(sq\.?\s*ft\.?|sqft|sf|s\.f\.|ft2|ft²|sq\.?\s*m\.?|sqm|m2|m²|m\^2|qm)(?!\w)",
    re.IGNORECASE,
)
_CEILING = re.compile(r"\b(?:c(?:ei)?l(?:in)?g\.?|c\.?h\.?|ceiling)\b\.?", re.IGNORECASE)
_CODE = re.compile(
    r"(\d{1,2})(\d)(\d)(\d)(?:\s?[A-Z]{2,3})?"
)  # as of a door 2868, a garage door 16070, a window 3040 SH
DOOR_HEIGHTS = (1.95, 2.45)  # meters; a size with this second number beside an opening is the opening's
ROOM_SIDES = (0.5, 30.0)


class WrittenSize(NamedTuple):
    """Two sides in meters; `bare` where they were written without a unit, which was then told from their digits."""

    first: float
    second: float
    bare: bool
    text: str


def sizes_in(text: str) -> Iterator[WrittenSize]:
    """Yield each size of two sides in a text."""
    for match in _PAIR.finditer(_marked(text)):
        sides = [_side(match, number) or _like_other(match, number) for number in (1, 2)]
        if sides[0] and sides[1]:
            yield WrittenSize(sides[0][0], sides[1][0], sides[0][1] or sides[1][1], match[0])


def _marked(text: str) -> str:
    """Return a text with feet and inches by their usual marks, however they are written."""
    plain = text.translate(_MARKS)
    for words, mark in _IN_WORDS:
        plain = words.sub(mark, plain)
    return plain


def without_sizes(text: str) -> str:
    """Return a text without its sizes, areas and heights, which is what may name a room."""
    rest = _AREA.sub(" ", _PAIR.sub(" ", _marked(text)))
    return " ".join(rest.split())


def area_in(text: str) -> float | None:
    """Return the area that a text says, in square meters."""
    match = _AREA.search(text)
    if match is None:
        return None
    number, feet = match[1], "f" in match[2].lower()
    decimal = number.replace(",", "") if feet or "." in number else number.replace(",", ".")
    return float(decimal) * (FOOT**2 if feet else 1.0)


def ceiling_height_in(text: str) -> tuple[float, str] | None:
    """Return the ceiling height that a text says, in meters, and how it is written there."""
    plain = _marked(text)
    if _CEILING.search(plain) is None:
        return None
    match = _LONE.search(plain)
    if match and (side := _side(match, 1)) and 1.5 <= side[0] <= 8.0:
        return side[0], match[0].strip()
    return None


def length_in(text: str) -> float | None:
    """Return the length in feet and inches that a whole text is, in meters."""
    match = _LONE.fullmatch(_marked(text).strip())
    side = _side(match, 1) if match else None
    return side[0] if side else None


def opening_code(text: str) -> tuple[float, float] | None:
    """Return width and height in meters of a call-out such as 2668 (2'-6" by 6'-8"); None where the text is none."""
    match = _CODE.fullmatch(text.strip())
    if match is None:
        return None
    feet_wide, inches_wide, feet_high, inches_high = map(int, match.groups())
    if max(inches_wide, inches_high) > 11 or not feet_wide:
        return None
    return feet_wide * FOOT + inches_wide * INCH, feet_high * FOOT + inches_high * INCH


def is_opening_size(size: WrittenSize) -> bool:
    """Return whether a size may be that of a door."""
    return DOOR_HEIGHTS[0] <= size.second <= DOOR_HEIGHTS[1] and size.first <= 5.5


def _side(match: re.Match[str], number: int) -> tuple[float, bool] | None:
    part = {key[0]: value for key, value in match.groupdict().items() if key.endswith(str(number)) and value}
    if "f" in part:
        over = float(part.get("i", 0)) + (int(part["n"]) / max(int(part["d"]), 1) if "n" in part else 0.0)
        return float(part["f"]) * FOOT + over * INCH, False
    if "o" in part:
        return float(part["o"]) * INCH, False
    return _metric(part) if "m" in part else None


def _like_other(match: re.Match[str], number: int) -> tuple[float, bool] | None:
    """Return a side that is a whole number without a unit, in feet or meters as the other one is, such as 6 x 5.5 M."""
    groups, other = match.groupdict(), 3 - number
    written, unit = groups[f"m{number}"], (groups[f"u{other}"] or "").lower()
    if not written or groups[f"u{number}"]:
        return None
    if groups[f"f{other}"]:
        return float(written) * FOOT, True
    decimal = bool(re.search(r"[.,]", groups[f"m{other}"] or ""))
    return (float(written), True) if unit == "m" or (decimal and not unit) else None


def _metric(part: dict[str, str]) -> tuple[float, bool] | None:
    number, unit = float(part["m"].replace(",", ".")), part.get("u", "").lower()
    if unit:
        return number * {"mm": 0.001, "cm": 0.01, "m": 1.0}[unit], False
    whole = "." not in part["m"] and "," not in part["m"]
    if whole and number >= 1000:
        return number * 0.001, True
    if whole and number >= 100:
        return number * 0.01, True
    return (number, True) if not whole and number <= ROOM_SIDES[1] else None


__all__ = [
    "WrittenSize", "area_in", "ceiling_height_in", "is_opening_size", "length_in", "opening_code", "sizes_in", "without_sizes",
]  # fmt: skip
