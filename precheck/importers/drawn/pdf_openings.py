"""Lines of doors, windows and thresholds on a page, told by what they do: they bridge a gap in a wall, from jamb to jamb.

Where no layer is called after windows, the lines that bridge are given one; and what lies on a layer that is called after
doors or windows and bridges nothing, such as leaves, frames and sills, is taken off it.
"""

from __future__ import annotations

import re
from typing import Any

import shapely

from precheck.importers.drawn.layers import DOORS, WINDOWS, named_layers, paired_layers
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet
from precheck.importers.mapping import Mapping

LONG = (0.35, 6.0)  # meters of a line in an opening
TOUCHES = 0.03  # meters from either end to a line of a wall
FREE = 0.2  # meters around the middle in which no wall along the line lies, for there it is open
_PEN = re.compile(r"(?=(?:STROKE|SOLID) )")
CALLED = "WINDOW OR THRESHOLD, "


def name_openings(sheet: DrawnSheet, meter: float, mapping: Mapping) -> None:
    """Give the lines of `sheet` that bridge a gap in a wall a layer of their own; one unit of it is `meter` meters."""
    walls = set(named_layers(sheet, mapping).walls) or set(paired_layers(sheet, meter))
    drawn = [one for one in sheet.lines if one.layer in walls]
    if not drawn:
        return
    bridging = _Bridging(drawn, meter)
    sheet.lines = [one if one.layer in walls else _called(one, bridging.is_bridge(one)) for one in sheet.lines]


def _called(line: DrawnLine, bridges: bool) -> DrawnLine:
    named = bool(DOORS.search(line.layer) or WINDOWS.search(line.layer))
    if named == bridges:
        return line
    return line._replace(layer=f"{CALLED}{line.layer}" if bridges else _PEN.split(line.layer)[-1])


class _Bridging:
    def __init__(self, walls: list[DrawnLine], meter: float) -> None:
        self.meter = meter
        self.tree: Any = shapely.STRtree(shapely.linestrings([[one.start, one.end] for one in walls]))

    def is_bridge(self, line: DrawnLine) -> bool:
        shape = shapely.LineString((line.start, line.end))
        if not LONG[0] <= shape.length * self.meter <= LONG[1]:
            return False
        far = TOUCHES / self.meter
        ends = all(len(self.tree.query(shapely.Point(end), "dwithin", far)) for end in (line.start, line.end))
        middle = shape.interpolate(0.5, normalized=True)
        return ends and not len(self.tree.query(middle, "dwithin", min(FREE / self.meter, shape.length / 2 - far)))


__all__ = ["name_openings"]
