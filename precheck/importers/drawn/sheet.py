"""What a reader of any form of drawing fills, and recognition alone reads: lines, arcs, texts, dimensions and blocks.

All of it is in the sheet's own unit (the drawing's for DXF, points for PDF), x to the right and y up, angles in degrees
counterclockwise from x. A `layer` is what the form has for it: the layer of a DXF, after the last ``$0$`` of a bound
reference and in upper case, with ``(DASHED)`` for lines with gaps; color and line width of a PDF, such as ``STROKE 0.2 0.2
0.2 WIDTH 1.4``, after the name of the layer where the plot kept it, as ``A-WALL STROKE 0 0 0 WIDTH 1.4``. A `handle` names
the entity that a thing was drawn by, for the provenance of what comes of it: the handle of a DXF entity (of the insert, for
what lies in a block), ``page 1 line 312`` of a PDF.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from precheck.importers.plane import P2

DASHED = "(DASHED)"  # after the layer of a line that is drawn with gaps


class DrawnLine(NamedTuple):
    """A straight line; polylines and flattened curves give one for each of their pieces."""

    start: P2
    end: P2
    layer: str
    handle: str = ""


class SwingArc(NamedTuple):
    """An arc that may be the swing of a door: from `begins` counterclockwise to `ends`, 50 to 110 degrees on."""

    center: P2
    radius: float
    begins: float
    ends: float
    layer: str
    handle: str = ""


class DrawnText(NamedTuple):
    """A text in one line of printable characters, `at` the middle of its box; `height` is that of its letters."""

    text: str
    at: P2
    height: float
    angle: float
    layer: str
    handle: str = ""


class DrawnDimension(NamedTuple):
    """A dimension: what it measures in the sheet's unit, and the text it shows (empty where it shows just that)."""

    measured: float
    shown: str
    at: P2
    layer: str
    handle: str = ""


class PlacedBlock(NamedTuple):
    """A block as placed: its name, where its box lies, and what its attributes say by their tags, in upper case."""

    name: str
    low: P2
    high: P2
    said: tuple[tuple[str, str], ...]
    layer: str
    handle: str = ""


@dataclass
class DrawnSheet:
    """One drawing, or one page.

    `unit_said` is the unit that the form itself names, one of those of a mapping file, or empty; it is often wrong.
    `meter` is how many meters one unit of the sheet is where a person or the form's own proven scale says it, else None;
    `scale_told` says how, and `unit_said` then only in which unit measures are shown.
    `walls` are the layers of walls where the reader found by written sizes which those are.
    `told` are lines for a person about what was left out in reading, such as layers that are off.
    """

    lines: list[DrawnLine] = field(default_factory=list)
    swings: list[SwingArc] = field(default_factory=list)
    texts: list[DrawnText] = field(default_factory=list)
    dimensions: list[DrawnDimension] = field(default_factory=list)
    blocks: list[PlacedBlock] = field(default_factory=list)
    unit_said: str = ""
    meter: float | None = None
    scale_told: str = ""
    walls: tuple[str, ...] = ()
    told: list[str] = field(default_factory=list)


__all__ = ["DASHED", "DrawnDimension", "DrawnLine", "DrawnSheet", "DrawnText", "PlacedBlock", "SwingArc"]
