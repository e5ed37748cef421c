"""Lines of windows and thresholds on a page, told by what they do: they bridge a gap in a wall, from jamb to jamb.

A page has no layer that is called after windows; the lines that bridge are given one.
"""

from __future__ import annotations

from fnmatch import fnmatchcase
from typing import Any

import shapely

from precheck.importers.drawn.layers import paired_layers
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet
from precheck.importers.mapping import Mapping

LONG = (0.35, 6.0)  # meters of a line in an opening
TOUCHES = 0.03  # meters from either end to a line of a wall
FREE = 0.2  # meters around the middle in which no wall along the line lies, for there it is open
CALLED = "WINDOW OR THRESHOLD, "


def name_openings(sheet: DrawnSheet, meter: float, mapping: Mapping) -> None:
    """Give the lines of `sheet` that bridge a gap in a wall a layer of their own; one unit of it is `meter` meters."""
    chosen = mapping.layers.wall_faces
    layers = {one.layer for one in sheet.lines if any(fnmatchcase(one.layer, like.upper()) for like in chosen)}
    walls = layers or set(sheet.walls) or set(paired_layers(sheet, meter))
    drawn = [one for one in sheet.lines if one.layer in walls]
    if not drawn:
        return
    bridging = _Bridging(drawn, meter)
    sheet.lines = [
        one._replace(layer=f"{CALLED}{one.layer}") if one.layer not in walls and bridging.is_bridge(one) else one
        for one in sheet.lines
    ]


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
