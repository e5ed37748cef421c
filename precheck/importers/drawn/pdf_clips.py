"""What of a thing on a page is seen: a file may draw a thing whole and cut it to a shape."""

from __future__ import annotations

from collections.abc import Iterator
from ctypes import byref, c_float
from typing import Any

import shapely

from precheck.importers.plane import P2

Run = tuple[P2, ...]
_MOVE = 2
HAIR = 0.01  # points by which what lies along the edge of a shape is within it
MOST = 5000  # corners of a shape; beyond, it is taken for none


class Cutting:
    """Cuts runs of corners to the shapes that things of a page are cut to; `at` says where a corner of the file lies."""

    def __init__(self, pdf: Any) -> None:
        self._pdf = pdf
        self._known: dict[tuple[Run, ...], Any] = {}

    def shape_of(self, thing: Any, at: Any) -> Any:
        """Return the shape that a thing is cut to; none where it is not cut."""
        clip = self._pdf.FPDFPageObj_GetClipPath(thing)
        count = self._pdf.FPDFClipPath_CountPaths(clip) if clip else 0
        if count <= 0:
            return None
        paths = tuple(run for n in range(count) for run in self._runs(clip, n, at))
        if paths not in self._known:
            self._known[paths] = _common(paths)
        return self._known[paths]

    def _runs(self, clip: Any, number: int, at: Any) -> Iterator[Run]:
        pdf, x, y = self._pdf, c_float(), c_float()
        run: list[P2] = []
        for i in range(min(pdf.FPDFClipPath_CountPathSegments(clip, number), MOST)):
            segment = pdf.FPDFClipPath_GetPathSegment(clip, number, i)
            pdf.FPDFPathSegment_GetPoint(segment, byref(x), byref(y))
            if pdf.FPDFPathSegment_GetType(segment) == _MOVE and run:
                yield tuple(run)
                run = []
            run.append(at(x.value, y.value))
        yield tuple(run)


def _common(paths: tuple[Run, ...]) -> Any:
    shapes = [shapely.make_valid(shapely.Polygon(path)) for path in paths if len(path) > 2]
    if not shapes:
        return None
    common = shapes[0]
    for shape in shapes[1:]:
        common = common.intersection(shape)
    grown = common.buffer(HAIR, join_style="mitre")
    shapely.prepare(grown)
    return grown


def cut(run: Run, shape: Any, filled: bool) -> Iterator[Run]:
    """Yield what of a run of corners, or of the outline of what it fills, lies within a shape."""
    line = shapely.LineString(run)
    if shape is None or shape.covers(line):
        yield run
        return
    if filled and len(run) > 2:
        inside = shapely.make_valid(shapely.Polygon(run)).intersection(shape)
        parts = [part for part in shapely.get_parts(inside) if part.geom_type == "Polygon"]
        rings = [ring for part in parts for ring in (part.exterior, *part.interiors)]
    else:
        rings = [part for part in shapely.get_parts(line.intersection(shape)) if part.geom_type == "LineString"]
    for ring in rings:
        if ring.length > HAIR:
            yield tuple((float(x), float(y)) for x, y in ring.coords)


__all__ = ["Cutting", "cut"]
