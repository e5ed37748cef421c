"""The tables of foundation walls: thickness of plain masonry, and bars of masonry and of flat concrete walls.

A row is that of the next higher wall and the next deeper fill that the table lists; its cells go by the lateral load of
the soil.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from precheck import FoundationWall, Length

NO_BARS = "no bars"
_BARS = re.compile(r"No\. (\d+) at (\d+) in")


class Upright(NamedTuple):
    """The vertical bars that a cell asks: their size, and how far apart at the most."""

    number: int
    spacing: Length


def lateral_load(soil: str, classes: Mapping[str, Any]) -> str | None:
    """Return the lateral load per foot of depth under which the tables list a class of soil; None where they do not."""
    return next((load for load, listed in classes.items() if soil in listed), None)


def cell(table: Mapping[str, Any], wall: FoundationWall, load: str) -> Any:
    """Return the cell of a wall whose height and fill are given; None beyond the table."""
    row = _next(table, wall.height)
    return None if row is None else (_next(row, wall.fill_held) or {}).get(load)


def nominal(thicknesses: Mapping[str, Any], thick: Length) -> str | None:
    """Return the greatest thickness that the table lists and that a wall has; None where it is thinner than all."""
    listed = sorted(((least, name) for name, least in thicknesses.items()), reverse=True)
    return next((name for least, name in listed if thick >= least), None)


def bars_of(word: str) -> Upright | None:
    """Return the bars that a cell such as ``No. 5 at 48 in`` asks; None where it asks none."""
    match = _BARS.fullmatch(word)
    return Upright(int(match[1]), Length.parse(f"{match[2]} in")) if match else None


def _next(rows: Mapping[str, Any], wanted: Any) -> Any:
    """Return the first row that is listed for no less than `wanted`."""
    listed = sorted((Length.parse(name), row) for name, row in rows.items())
    return next((row for length, row in listed if length >= wanted), None)
