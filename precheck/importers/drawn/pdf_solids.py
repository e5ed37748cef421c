"""Walls that a plotter filled by thousands of strokes side by side, as the outlines of the solid that they make."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise
from typing import Any

import shapely

from precheck.importers.drawn.pdf_bands import StrokeBands
from precheck.importers.drawn.plane_lines import long, meeting
from precheck.importers.drawn.sheet import DrawnLine
from precheck.importers.plane import P2

MANY = 3000  # strokes of one color and width, below which none is a filling
MOST = 120_000  # beyond which they are left as they are
WIDER = 0.55  # line widths on either side of a stroke, so that strokes side by side unite
THIN = 1.3  # line widths; what is no wider than twice that is no solid
THICK = 1.6  # line widths, of twice its area by its outline, that what is filled is thick on the whole
SMALLEST = 40.0  # line widths squared of a solid; less is the head of an arrow
LONG = 5.0  # line widths that a stroke of a filling is long on the whole; the pieces of drawn curves are shorter
LOOKED_AT = 400  # strokes of a layer by which it is told whether they fill anything
BESIDE = 1.2  # line widths between the middles of strokes whose ink meets
DENSE = 0.4  # of those looked at
CHAMFER = 1.0  # line widths of a side across a corner
THICK_PEN = 2.5  # points from which a stroke is as thick as a wall, whose faces are the edges of its ink
LONG_PEN = 1.5  # of its width that a stroke is long which stands for a wall
FLAT = 0.3  # line widths by which an outline is drawn straighter


def solids_united(lines: list[DrawnLine], widths: dict[str, float]) -> list[DrawnLine]:
    """Return lines with the strokes that fill a solid, and those as thick as a wall, replaced by outlines on layers of their own.

    `widths` are those of strokes in points, by layer.
    """
    by_layer: dict[str, list[DrawnLine]] = defaultdict(list)
    for line in lines:
        by_layer[line.layer].append(line)
    found: list[DrawnLine] = []
    for layer, strokes in by_layer.items():
        width = widths.get(layer, 0.0)
        if width >= THICK_PEN and len(strokes) <= MANY:
            found += _inked(strokes, width, layer)
        else:
            found += _united(strokes, width, layer) if width and MANY < len(strokes) <= MOST else strokes
    return found


def _inked(strokes: list[DrawnLine], width: float, layer: str) -> list[DrawnLine]:
    """Return the outline of the ink of strokes that are long beside their width, and the others as they are."""
    drawn = [one for one in strokes if long((one.start, one.end)) >= LONG_PEN * width]
    if not drawn:
        return strokes
    runs = shapely.line_merge(shapely.multilinestrings([[one.start, one.end] for one in drawn]))
    ink = shapely.union_all(shapely.buffer(shapely.get_parts(runs), width / 2, cap_style="flat", join_style="mitre"))
    left = [one for one in strokes if long((one.start, one.end)) < LONG_PEN * width]
    return [*left, *_outlines(list(shapely.get_parts(ink)), layer, width / 8)]


def _united(strokes: list[DrawnLine], width: float, layer: str) -> list[DrawnLine]:
    shapes: Any = shapely.linestrings([[one.start, one.end] for one in strokes])
    if not _lie_side_by_side(shapes, width):
        return strokes
    bands = list(StrokeBands([(one.start, one.end) for one in strokes], width).shapes())
    whole = shapely.union_all(shapely.buffer(bands, WIDER * width, join_style="mitre"))
    thick = [part for part in shapely.get_parts(whole) if 2 * part.area > THICK * width * part.length]
    solid = (
        shapely.union_all(thick)
        .buffer(-THIN * width, join_style="mitre")
        .buffer((THIN - WIDER) * width, join_style="mitre")
    )
    kept = [part for part in shapely.get_parts(solid) if part.area >= SMALLEST * width * width]
    if not kept:
        return strokes
    grown = shapely.union_all([part.buffer(width) for part in kept])
    shapely.prepare(grown)
    outside = [one for one, is_in in zip(strokes, shapely.covers(grown, shapes), strict=True) if not is_in]
    return [*outside, *_outlines(kept, layer, width)]


def _lie_side_by_side(shapes: Any, width: float) -> bool:
    """Return whether most strokes have others so close that the ink of both meets, judged by some of them."""
    if sum(shapely.length(shapes)) < LONG * width * len(shapes):
        return False
    tree: Any = shapely.STRtree(shapes)
    some = [shape.interpolate(0.5, normalized=True) for shape in shapes[:: max(len(shapes) // LOOKED_AT, 1)]]
    beside = sum(len(tree.query(middle, predicate="dwithin", distance=BESIDE * width)) > 2 for middle in some)
    return beside >= DENSE * len(some)


def _outlines(parts: list[Any], layer: str, width: float) -> list[DrawnLine]:
    found = []
    for part in parts:
        plain = part.simplify(FLAT * width)
        for ring in (plain.exterior, *plain.interiors):
            corners = _sharp(list(ring.coords)[:-1], CHAMFER * width)
            found += [DrawnLine(a, b, f"SOLID OF {layer}", "") for a, b in pairwise([*corners, corners[0]])]
    return found


def _sharp(corners: list[P2], short: float) -> list[P2]:
    """Return corners of an outline without the short sides that strokes aslant leave across its true corners."""
    sides = [side for side in pairwise([*corners, corners[0]]) if long(side) > short]
    found: list[P2] = []
    for side, following in zip(sides, [*sides[1:], *sides[:1]], strict=True):
        if side[1] == following[0]:
            found.append(side[1])
        else:
            corner = meeting(side, following, side[1], 2 * short)
            found += [corner] if corner != side[1] else [side[1], following[0]]
    return found if len(sides) > 2 else corners


__all__ = ["solids_united"]
