"""The unit of a drawing by vote: its dimensions, swings, sizes and extent; what its header says is one voice only."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import median
from typing import NamedTuple

from precheck.importers.drawing import BY_NAME
from precheck.importers.drawn.plane_lines import Line
from precheck.importers.drawn.sheet import DrawnSheet
from precheck.importers.drawn.sizes import length_in

MARGIN = 1.5  # votes that the first is ahead of the second by, so that nobody need be asked
SWING = (0.58, 1.08)  # meters of a door leaf
EXTENT = (4.0, 70.0)  # meters of a plan, or of a few on one sheet
LETTERS = (0.06, 0.5)  # meters, drawn at full size, of the letters of a plan
SAME = 0.01  # of a length, by which a dimension and its text may differ


class UnitVote(NamedTuple):
    """What the voices come to: the unit, by name, or none where they do not tell; and each voice in words."""

    unit: str
    voices: tuple[str, ...]


def vote(sheet: DrawnSheet, walls: Iterable[Line]) -> UnitVote:
    """Return the unit of a sheet by what is drawn on it."""
    votes = dict.fromkeys(BY_NAME, 0.0)
    voices: list[str] = []
    for what, shares in (
        ("dimensions", _dimensions(sheet)), ("swings of doors", _swings(sheet)), ("header", _header(sheet)),
        ("extent of the walls", _extent(walls)), ("height of the letters", _letters(sheet)),
    ):  # fmt: skip
        for unit, share in shares.items():
            votes[unit] += share
        if shares:
            best = max(shares.values())
            voices.append(f"{what}: {' or '.join(unit for unit, share in shares.items() if share == best)}")
    first, second = sorted(votes, key=lambda unit: -votes[unit])[:2]
    return UnitVote(first if votes[first] - votes[second] >= MARGIN else "", tuple(voices))


def _dimensions(sheet: DrawnSheet) -> dict[str, float]:
    found: dict[str, int] = {}
    whole = 0
    told = 0
    for one in sheet.dimensions:
        meters = length_in(one.shown)
        if meters and one.measured > 0:
            told += 1
            unit = next((u for u, m in BY_NAME.items() if abs(one.measured * m - meters) <= SAME * meters), None)
            if unit:
                found[unit] = found.get(unit, 0) + 1
        elif one.shown.isdigit() and 3 <= len(one.shown) <= 5 and abs(int(one.shown) - one.measured) < 1:
            whole += 1
    if found:
        best = max(found, key=lambda u: found[u])
        return {best: 3.0} if found[best] * 2 > told else {}
    return {"millimeters": 2.5} if whole >= 2 else {}


def _swings(sheet: DrawnSheet) -> dict[str, float]:
    radii = [one.radius for one in sheet.swings]
    shares = {
        unit: sum(SWING[0] <= radius * meter <= SWING[1] for radius in radii) / max(len(radii), 1)
        for unit, meter in BY_NAME.items()
    }
    return {unit: min(0.5 + 2 * share, 2.5) for unit, share in shares.items() if share >= 0.3}


def _header(sheet: DrawnSheet) -> dict[str, float]:
    return {sheet.unit_said: 1.0} if sheet.unit_said in BY_NAME else {}


def _extent(walls: Iterable[Line]) -> dict[str, float]:
    points = [point for line in walls for point in line]
    if not points:
        return {}
    size = max(max(p[i] for p in points) - min(p[i] for p in points) for i in (0, 1))
    return {unit: 1.0 for unit, meter in BY_NAME.items() if EXTENT[0] <= size * meter <= EXTENT[1]}


def _letters(sheet: DrawnSheet) -> dict[str, float]:
    heights = [text.height for text in sheet.texts if text.height > 0]
    if not heights:
        return {}
    height = median(heights)
    return {unit: 0.5 for unit, meter in BY_NAME.items() if LETTERS[0] <= height * meter <= LETTERS[1]}


__all__ = ["UnitVote", "vote"]
