"""Sizes as a person types them into a box, and what they may mean: ``12 6`` is 12'-6", ``12 x 14`` a room in feet.

A project file is read strictly. In a box a person leaves out what goes without saying, so here a number without its unit
is taken in each unit in which it is of a likely size. What was understood is written in full, to be shown before it goes
into the file; where it may mean several things, all of them are returned and the person chooses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import NamedTuple, TypeVar

from precheck.files import spelling
from precheck.units import Length, NotationError, derived, in_feet
from precheck.units.notation import in_ascii

_PART = r"[0-9]+/[1-9][0-9]*"
_FEET_INCHES = re.compile(
    rf"(?P<feet>\d+)\s*(?P<mark>'|ft\.?|feet)?[\s-]*(?P<inches>\d+)?(?:[\s-]*(?P<part>{_PART}))?\s*(?:\"|in\.?)?"
)
_NUMBER = re.compile(rf"\d+(?:\.\d+)?|\.\d+|\d+[\s-]+{_PART}|{_PART}")
_RUN_TOGETHER = re.compile(r"(\d{1,2})(\d\d)")  # 1206 is 12'-06"
_CALL_OUT = re.compile(r"(\d{1,2})(\d)(\d)(\d)")  # 2868 is 2'-8" x 6'-8"
_BY = re.compile(r"\s*(?:x|\bby\b|,)\s*", re.IGNORECASE)
_TWO_MARKED = re.compile(r"(.*?['\"])\s+(\d.*['\"])")
_UNITS = ("ft", "in", "mm")
LONGEST = 40  # signs of a size
_T = TypeVar("_T")


class Likely(NamedTuple):
    """The sizes that are likely in a box: a number without a unit is taken in the units that make it one of these."""

    smallest: Length
    largest: Length

    def has(self, length: Length) -> bool:
        """Return whether `length` is a likely one."""
        return self.smallest <= length <= self.largest


def _between(smallest: str, largest: str) -> Likely:
    return Likely(Length.parse(smallest), Length.parse(largest))


ROOM = _between("30 in", "80 ft")
"""A side of a room."""
OPENING = _between("10 in", "20 ft")
"""A side of a door or a window."""
DISTANCE = _between("13 in", "80 ft")
"""A distance along a wall: ``5`` is 5 ft."""
HEIGHT = _between("8 in", "20 ft")
"""A sill, a ceiling, an outlet above the floor."""


class Size(NamedTuple):
    """A width and a height, or a length and a width, each written in full; the operation where a call-out names one."""

    width: str
    height: str
    operation: str = ""

    @property
    def written(self) -> str:
        """The size as the file holds it."""
        return f"{self.width} x {self.height}"


def lengths_typed(text: str, likely: Likely) -> tuple[str, ...]:
    """Return what a length that a person typed may mean, each written in full.

    Raises `NotationError` where it is none, or none that is likely; the message says what to type.
    """
    found = _once(written for _, written in _readings(_plain(text), likely))
    if not found:
        raise NotationError(f"`{text}` is no length that fits here; type it like 12'-6\" or 3.5 m")
    return found


def sizes_typed(text: str, likely: Likely) -> tuple[Size, ...]:
    """Return what a size that a person typed may mean: two lengths, or a call-out such as ``2868`` or ``3050 SH``.

    Raises `NotationError` where it is none, or none that is likely; the message says what to type.
    """
    plain = _plain(text)
    called, operation = spelling.call_out(plain) or (plain, "")
    found = _once(Size(width, height, operation) for width, height in _pairs(called, likely))
    if not found:
        raise NotationError(f"`{text}` is no width and height that fit here; type them like 11'-4\" x 14'-0\"")
    return found


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise NotationError(f"`{text[:24]}...` is too long for a size; type it like 12'-6\"")
    return " ".join(in_ascii(text).split())


def _once(found: Iterator[_T]) -> tuple[_T, ...]:
    return tuple(dict.fromkeys(found))


def _pairs(text: str, likely: Likely) -> Iterator[tuple[str, str]]:
    """Yield the two lengths of each reading; two numbers without a unit are in the same one."""
    if called := _CALL_OUT.fullmatch(text):
        wide, high = (_feet(int(called[n]), Fraction(int(called[n + 1]))) for n in (1, 3))
        if wide and high and likely.has(wide) and likely.has(high):
            yield in_feet(wide), in_feet(high)
    for first, second in _split(text):
        for (unit, width), (other, height) in product(_readings(first, likely), _readings(second, likely)):
            if not unit or not other or unit == other:
                yield width, height


def _split(text: str) -> Iterator[tuple[str, str]]:
    """Yield the two sides of a size, in each way in which it may be taken apart."""
    sides = _BY.split(text)
    if len(sides) == 2:
        yield sides[0], sides[1]
    elif marked := _TWO_MARKED.fullmatch(text):
        yield marked[1], marked[2]
    elif len(sides) == 1:
        numbers = text.split(" ")
        for at in range(1, len(numbers)):
            if not numbers[at].startswith(tuple("abcdefghijklmnopqrstuvwxyz")) and "/" not in numbers[at]:
                yield " ".join(numbers[:at]), " ".join(numbers[at:])


def _readings(text: str, likely: Likely) -> Iterator[tuple[str, str]]:
    """Yield the unit that a number was taken in, empty where it was typed, and the length in full."""
    if text == "0":
        yield "", "0 in"
        return
    if not text.isascii():
        return
    try:
        Length.parse(text)
    except NotationError:
        pass
    else:
        yield "", text
        return
    sign, text = ("-", text[1:].strip()) if text.startswith("-") else ("", text)
    for unit, length in (*_as_feet_inches(text), *((u, one) for u, one in _as_number(text) if likely.has(one))):
        if told := _in_full(unit, length):
            yield unit, sign + told


def _in_full(unit: str, length: Length) -> str:
    """Return `length` in feet and inches, or as it was typed with its unit where no tape shows it so; empty if neither."""
    told = derived(length) if unit == "in" else in_feet(length)
    return length.text or "" if unit == "mm" or told.startswith("about") else told


def _as_feet_inches(text: str) -> Iterator[tuple[str, Length]]:
    """Yield ``12'6``, ``12 6``, ``12-6`` and ``12'6 1/2``, whose inches are under 12."""
    match = _FEET_INCHES.fullmatch(text)
    if match and (match["mark"] or match["inches"] or match["part"]):
        inches = Fraction(int(match["inches"] or 0)) + Fraction(match["part"] or 0)
        if length := _feet(int(match["feet"]), inches):
            yield "", length


def _feet(feet: int, inches: Fraction) -> Length | None:
    return Length.parse(f"{feet * 12} in") + Length.parse("1 in") * inches if inches < 12 else None


def _as_number(text: str) -> Iterator[tuple[str, Length]]:
    """Yield a number without a unit in each unit, and four digits as feet and inches that were run together."""
    if _NUMBER.fullmatch(text):
        for unit in _UNITS:
            yield unit, Length.parse(f"{text} {unit}")
    if (digits := _RUN_TOGETHER.fullmatch(text)) and (length := _feet(int(digits[1]), Fraction(int(digits[2])))):
        yield "ft", length
