"""By how much a value misses its limit, or has to spare, in the words of whoever holds the tape."""

from __future__ import annotations

import re
from typing import Any

from precheck.checks.relation import Relation
from precheck.units import Length, Measure, decimal, derived, finely, in_feet, like
from precheck.units.deflection import SpanOverDeflection
from precheck.units.show import LEAST

EXACT = "none"  # the margin of what is exactly at its limit
SPARE = "to spare"
FOOT = Length.parse("1 ft")
UP, ACROSS, DOWN, ALONG = (
    ("too high", "too low"),
    ("too wide", "too narrow"),
    ("too deep", "too shallow"),
    ("too long", "too short"),
)
BIG, AWAY = ("too large", "too small"), ("too far", "too close")
ELSE = ("over", "short")

# What is too much and too little of a thing, by its noun; of what is no length, by the kind of measure.
SIDES: dict[str, tuple[str, str]] = {
    "height": UP, "headroom": UP, "sill": UP, "level": UP, "rise": UP, "riser": UP, "step": UP, "threshold": UP,
    "width": ACROSS, "gap": ACROSS, "opening": ACROSS, "joint": ACROSS,
    "depth": DOWN, "tread": DOWN,
    "length": ALONG, "span": ALONG, "run": ALONG, "cantilever": ALONG, "overhang": ALONG, "duct": ALONG,
    "thickness": ("too thick", "too thin"), "board": ("too thick", "too thin"),
    "spacing": ("too far apart", "too close"), "distance": AWAY, "projection": ("too far", "too short"),
    "diameter": BIG, "size": BIG, "hole": BIG, "sphere": BIG, "area": BIG, "volume": BIG,
    "slope": ("too steep", "too flat"),
}  # fmt: skip
_HEAD_ENDS = re.compile(
    r"[,(:]| (?:of|from|to|at|above|below|beside|between|over|under|in|on|for|with|without|where|that|by|along)\b"
)


def margin_of(measured: Any, limit: Any, relation: Relation, measures: str) -> str:
    """Return the margin of `measured`, as ``2 in too high`` or ``2 in to spare``; nothing where none is told."""
    if not relation.is_ordered or isinstance(limit, SpanOverDeflection):
        return ""
    over = measured - limit
    number = over.n if isinstance(over, Measure) else over
    if not number:
        return EXACT
    misses = (number > 0) is (relation.wrong_side > 0)
    words = sides(measured, measures)[0 if number > 0 else 1] if misses else SPARE
    return f"{_size(abs(over), measured, limit)} {words}"


def sides(measured: Any, measures: str) -> tuple[str, str]:
    """Return the words for too much and too little of what `measures` names, by the last noun of its head that is known."""
    if not isinstance(measured, Length):
        return SIDES.get(getattr(measured, "dimension", ""), ELSE)
    head = _HEAD_ENDS.split(measures.lower(), maxsplit=1)[0]
    nouns = (noun for word in reversed(head.split()) for noun in (word, word.removesuffix("s")))
    return next((SIDES[noun] for noun in nouns if noun in SIDES), ELSE)


def _size(size: Any, measured: Any, limit: Any) -> str:
    if not isinstance(size, Measure):
        return str(size) if isinstance(size, int) else decimal(size)
    if isinstance(size, Length):
        return _length(size, measured, limit)
    return like(size, limit).removeprefix("about ")


def _length(size: Length, measured: Length, limit: Length) -> str:
    """Return a length as the two that it lies between are told: in decimals only where the limit is, as that of a sheet."""
    text = in_feet(size) if size > FOOT and "'" in str(measured) else derived(size)
    tiny = text == LEAST and "." in str(limit)
    return (finely(size, limit) if tiny else text).removeprefix("about ")
