"""Lines of doors, windows and thresholds on a page, told by what they do: they bridge a gap in a wall, from jamb to jamb.

Where no layer is called after windows, the lines that bridge are given one; and what lies on a layer that is called after
doors or windows and bridges nothing, such as leaves, frames and sills, is taken off it.
"""

from __future__ import annotations

import re
from typing import Any

import shapely

from precheck.importers.drawn.layers import DOORS, WINDOWS, named_layers, paired_layers
from precheck.importers.drawn.plane_lines import long, middle
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet
from precheck.importers.mapping import Mapping

LONG = (0.35, 6.0)  # meters of a line in an opening
TOUCHES = 0.08  # meters from either end to a line of a wall, as wide as a frame
FREE = 0.2  # meters around the middle in which no wall along the line lies, for there it is open
_PEN = re.compile(r"(?:SOLID OF |STROKE |SOLID |FILL )")
CALLED = "WINDOW OR THRESHOLD, "


def name_openings(sheet: DrawnSheet, meter: float, mapping: Mapping) -> None:
    """Give the lines of `sheet` that bridge a gap in a wall a layer of their own; one unit of it is `meter` meters."""
    walls = set(named_layers(sheet, mapping).walls) or set(paired_layers(sheet, meter))
    drawn = [one for one in sheet.lines if one.layer in walls]
    if not drawn:
        return
    bridges = _bridges(drawn, [one for one in sheet.lines if one.layer not in walls], meter)
    sheet.lines = [one if one.layer in walls else _called(one, one in bridges) for one in sheet.lines]


def _called(line: DrawnLine, bridges: bool) -> DrawnLine:
    named = bool(DOORS.search(line.layer) or WINDOWS.search(line.layer))
    if named == bridges:
        return line
    pen = line.layer[len(without_pen(line.layer)) :].strip()
    return line._replace(layer=f"{CALLED}{line.layer}" if bridges else pen)


def without_pen(layer: str) -> str:
    """Return the name of a layer that a plot kept; nothing where it is called by color and width alone."""
    return _PEN.split(layer, maxsplit=1)[0].strip()


def _bridges(walls: list[DrawnLine], others: list[DrawnLine], meter: float) -> set[DrawnLine]:
    """Return the lines both of whose ends lie on walls, and the middle in the open."""
    long_enough = [one for one in others if LONG[0] <= long((one.start, one.end)) * meter <= LONG[1]]
    if not long_enough:
        return set()
    tree: Any = shapely.STRtree(shapely.linestrings([[one.start, one.end] for one in walls]))
    far = TOUCHES / meter
    ends = [
        set(tree.query(shapely.points([one[n] for one in long_enough]), "dwithin", far)[0].tolist()) for n in (0, 1)
    ]
    held = [long_enough[i] for i in sorted(ends[0] & ends[1])]
    return {one for one in held if _is_open(one, tree, FREE / meter, far)}


def _is_open(line: DrawnLine, walls: Any, free: float, far: float) -> bool:
    around = min(free, long((line.start, line.end)) / 2 - far)
    return not len(walls.query(shapely.Point(middle((line.start, line.end))), "dwithin", around))


__all__ = ["name_openings", "without_pen"]
