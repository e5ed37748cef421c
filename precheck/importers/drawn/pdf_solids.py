"""Walls that a plotter filled by thousands of strokes side by side, as the outlines of the solid that they make."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise
from typing import Any

import shapely

from precheck.importers.drawn.sheet import DrawnLine

MANY = 3000  # strokes of one color and width, below which none is a filling
MOST = 120_000  # beyond which they are left as they are
WIDER = 0.55  # line widths on either side of a stroke, so that strokes side by side unite
THIN = 1.3  # line widths; what is no wider than twice that is no solid
SMALLEST = 40.0  # line widths squared of a solid; less is the head of an arrow
FLAT = 0.3  # line widths by which an outline is drawn straighter


def solids_united(lines: list[DrawnLine], widths: dict[str, float]) -> list[DrawnLine]:
    """Return lines with the strokes that fill a solid replaced by its outline, on a layer of its own.

    `widths` are those of strokes in points, by layer.
    """
    by_layer: dict[str, list[DrawnLine]] = defaultdict(list)
    for line in lines:
        by_layer[line.layer].append(line)
    found: list[DrawnLine] = []
    for layer, strokes in by_layer.items():
        width = widths.get(layer, 0.0)
        found += _united(strokes, width, layer) if width and MANY < len(strokes) <= MOST else strokes
    return found


def _united(strokes: list[DrawnLine], width: float, layer: str) -> list[DrawnLine]:
    shapes: Any = shapely.linestrings([[one.start, one.end] for one in strokes])
    whole = shapely.union_all(shapely.buffer(shapes, WIDER * width, quad_segs=1, cap_style="square"))
    solid = whole.buffer(-THIN * width, join_style="mitre").buffer((THIN + 0.5 - WIDER) * width, join_style="mitre")
    kept = [part for part in shapely.get_parts(solid) if part.area >= SMALLEST * width * width]
    if not kept:
        return strokes
    grown = shapely.union_all([part.buffer(width) for part in kept])
    shapely.prepare(grown)
    outside = [one for one, shape in zip(strokes, shapes, strict=True) if not grown.covers(shape)]
    return [*outside, *_outlines(kept, layer, FLAT * width)]


def _outlines(parts: list[Any], layer: str, flat: float) -> list[DrawnLine]:
    found = []
    for part in parts:
        plain = part.simplify(flat)
        for ring in (plain.exterior, *plain.interiors):
            found += [DrawnLine(a, b, f"SOLID OF {layer}", "") for a, b in pairwise(ring.coords)]
    return found


__all__ = ["solids_united"]
