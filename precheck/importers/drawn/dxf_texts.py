"""Texts and dimensions of a DXF drawing as a sheet holds them."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, degrees, isfinite, radians, sin
from typing import Any

from precheck.importers.draft import plain
from precheck.importers.drawn.sheet import DrawnDimension, DrawnText
from precheck.importers.plane import P2

LETTER = 0.75  # of its height that a letter is wide, on average
ROW = 1.6  # of the height of letters from one row of a text to the next


def texts_of(entity: Any, layer: str, handle: str) -> Iterator[DrawnText]:
    """Yield the text of a TEXT, MTEXT or ATTRIB; nothing where it is empty."""
    rows = entity.plain_text(split=True) if entity.dxftype() == "MTEXT" else [entity.plain_text()]
    text = plain(" ".join(rows))
    if not text:
        return
    height = float(entity.dxf.get("char_height" if entity.dxftype() == "MTEXT" else "height", 0.0) or 0.0)
    angle = _angle(entity)
    wide, tall = max(map(len, rows)) * height * LETTER, height * (1 + (len(rows) - 1) * ROW)
    place, across, up = _placed(entity)
    if all(map(isfinite, (*place, height, angle))):
        yield DrawnText(text, _moved(place, angle, across * wide, up * tall), height, angle, layer, handle)


def dimension_of(entity: Any, layer: str, handle: str) -> Iterator[DrawnDimension]:
    """Yield a linear dimension, with the text that the plot shows; nothing for angles and the like."""
    if entity.dimtype not in (0, 1):
        return
    measured = float(entity.get_measurement())
    shown = str(entity.dxf.get("text", "") or "")
    if shown in ("", "<>"):
        drawn = (e for e in entity.virtual_entities() if e.dxftype() in ("TEXT", "MTEXT"))
        shown = next((e.plain_text() for e in drawn), "")
    point = entity.dxf.get("text_midpoint", entity.dxf.defpoint)
    yield DrawnDimension(abs(measured), plain(shown), (float(point[0]), float(point[1])), layer, handle)


def _angle(entity: Any) -> float:
    if entity.dxftype() == "MTEXT" and entity.dxf.hasattr("text_direction"):
        return float(degrees(entity.dxf.text_direction.angle))
    return float(entity.dxf.get("rotation", 0.0))


def _placed(entity: Any) -> tuple[P2, float, float]:
    """Return the point that a text is placed by, and how far from it, in its own width and height, its middle lies."""
    if entity.dxftype() == "MTEXT":
        row, column = divmod(int(entity.dxf.get("attachment_point", 1)) - 1, 3)
        return _xy(entity.dxf.insert), 0.5 - column / 2, row / 2 - 0.5
    across, up = int(entity.dxf.get("halign", 0)), int(entity.dxf.get("valign", 0))
    aligned = (across or up) and entity.dxf.hasattr("align_point")
    point = _xy(entity.ocs().to_wcs(entity.dxf.align_point if aligned else entity.dxf.insert))
    if across in (3, 5) and aligned:  # between two points
        first = _xy(entity.ocs().to_wcs(entity.dxf.insert))
        return ((point[0] + first[0]) / 2, (point[1] + first[1]) / 2), 0.0, 0.5
    sideways = {1: 0.0, 4: 0.0, 2: -0.5}.get(across, 0.5)
    return point, sideways, 0.0 if across == 4 else {2: 0.0, 3: -0.5}.get(up, 0.5)


def _moved(point: P2, angle: float, along: float, up: float) -> P2:
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] + along * c - up * s, point[1] + along * s + up * c


def _xy(vector: Any) -> P2:
    return float(vector[0]), float(vector[1])


__all__ = ["dimension_of", "texts_of"]
