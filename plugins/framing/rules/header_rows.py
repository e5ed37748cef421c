"""Rows of a header table as an edition prints them, cell by cell."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import floor
from typing import Any

from precheck_plugins.framing.drawn.setting import inches
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, given

from precheck import Length, Limit, Pressure, fixed

CARRIES = ("roof", "roof and a floor")
"""What the parts of the table are for, by how many floors the header carries."""


@fixed
class PrintedRow:
    """A row of a printed table: its span (in), its jack studs, and where it stands."""

    tabulated_in: int
    jack_studs: int
    source: str

    def steps(self) -> tuple[Step, ...]:
        """The row, as lines of a calculation."""
        return (
            given("L", "span of the row", float(self.tabulated_in), "in", self.source),
            given("NJ", "jack studs of the row", float(self.jack_studs), "", self.source),
        )


def printed_row(spans: Limit[Any], jacks: Limit[Any], of: tuple[str, int], snow: Pressure, width: Length) -> PrintedRow:
    """Return the row of a size under so many floors, for the next more snow. Raises OutsideMethodError.

    Spans between two widths of the house lie on a straight line, down to the inch; jack studs are those of the wider one.
    """
    lengths, studs = (_row(table.value, *of, snow) for table in (spans, jacks))
    span, count = _between(lengths, width), step_of(studs, Length, width)
    if span is None or count is None:
        told = f"{of[0]} under {of[1]} floor(s), {snow} of snow and a house {width} wide"
        raise OutsideMethodError(f"the header table has no row for {told}")
    return PrintedRow(floor(inches(span)), int(count), f"{spans.name}, {spans.citation}")


def _row(table: Mapping[str, Any], size: str, floors: int, snow: Pressure) -> Mapping[str, Any]:
    rows = table.get(CARRIES[floors], {}).get(size, {}) if floors < len(CARRIES) else {}
    return step_of(rows, Pressure, snow) or {}


def _between(row: Mapping[str, Any], width: Length) -> Length | None:
    points = sorted((Length.parse(name), value) for name, value in row.items())
    for (low, span), (high, shorter) in pairwise(points):
        if low < width <= high:
            return span - (span - shorter) * ((width - low) / (high - low))  # type: ignore[no-any-return]
    return points[0][1] if points and width <= points[0][0] else None


def step_of(row: Mapping[str, Any], kind: Any, wanted: Any) -> Any:
    """Return the value of the first place of a row that is no lower than `wanted`; None beyond its last."""
    places = sorted((kind.parse(name), value) for name, value in row.items())
    return next((value for place, value in places if place >= wanted), None)
