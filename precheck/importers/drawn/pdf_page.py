"""The page of a PDF as what is drawn on it: strokes and fills as paths, through forms at any depth, and its pictures.

All in points, x to the right and y up as a person sees the page, whichever way the file says that it is turned.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from ctypes import byref, c_float, c_int, c_uint
from importlib import import_module
from typing import Any, NamedTuple

from precheck.importers.drawn.pdf_clips import Cutting, cut
from precheck.importers.drawn.pdf_layers import LayerMarks
from precheck.importers.plane import P2

DEEPEST = 24  # forms within forms
FARTHEST = 1e6  # points from the corner of a page to anything on it
MOST = 400_000  # corners of one page
CURVE = 8  # pieces to one curve, of which a quarter of a circle has one or two
_STROKED, _FILLED, _PICTURE, _FORM = "STROKE", "FILL", 3, 5
_SOLID = "SOLID"  # a fill on a layer that has a name, which is called after no hatch by that
_PATH = 2
_LINE, _BEZIER, _MOVE = 0, 1, 2
_SHADES = 255.0
_WHITE = 250  # of 255 in all three colors, which nobody sees on paper


class Matrix(NamedTuple):
    """How a form or an object lies on the page."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def after(self, inner: Matrix) -> Matrix:
        """Return what does `inner` first, then this."""
        return Matrix(
            self.a * inner.a + self.c * inner.b,
            self.b * inner.a + self.d * inner.b,
            self.a * inner.c + self.c * inner.d,
            self.b * inner.c + self.d * inner.d,
            self.a * inner.e + self.c * inner.f + self.e,
            self.b * inner.e + self.d * inner.f + self.f,
        )

    def at(self, x: float, y: float) -> P2:
        """Return where a point comes to lie."""
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    @property
    def growth(self) -> float:
        """How much longer lengths become, on the whole."""
        return float(abs(self.a * self.d - self.b * self.c) ** 0.5)


class PlottedPath(NamedTuple):
    """One run of corners; `layer` is its color and the width of its stroke, after the name of its layer where the plot kept it.

    `width` is that of the stroke in points (0 for a fill).
    """

    corners: tuple[P2, ...]
    layer: str
    width: float
    handle: str


class _Within(NamedTuple):
    """How things lie on the page, to which shapes they are cut, and how many forms deep they are."""

    matrix: Matrix
    shapes: tuple[Any, ...] = ()
    depth: int = 0


class PdfPage:
    """One page of an opened document, by its number from 1."""

    def __init__(self, document: Any, number: int, hidden: frozenset[str] = frozenset()) -> None:
        self.number = number
        self._pdf: Any = import_module("pypdfium2.raw")
        self.page: Any = document[number - 1]
        self.upright = _upright(self.page)
        self._layers, self._cutting = LayerMarks(self._pdf), Cutting(self._pdf)
        self._hidden = hidden
        self.left: Counter[str] = Counter()
        self.pictures = 0.0
        self.full = False
        self._count = 0
        self._corners = 0

    @property
    def size(self) -> P2:
        """Width and height in points, as the page is seen."""
        width, height = self.page.get_size()
        return float(width), float(height)

    def paths(self) -> Iterator[PlottedPath]:
        """Yield what is stroked or filled on the page; pictures are counted by the share of the page that they cover."""
        pdf = self._pdf
        objects = (pdf.FPDFPage_GetObject(self.page.raw, i) for i in range(pdf.FPDFPage_CountObjects(self.page.raw)))
        yield from self._objects(objects, _Within(self.upright))

    def is_shown(self, thing: Any) -> bool:
        """Return whether a thing of the page is on no layer that is switched off."""
        off = self._hidden & {*self._layers.layers_of(thing)} if self._hidden else frozenset()
        for name in off:
            self.left[f"layer {name}, which is off"] += 1
        return not off

    def _objects(self, objects: Iterator[Any], within: _Within) -> Iterator[PlottedPath]:
        for one in objects:
            if self._corners > MOST:
                self.full = True
                return
            if self.is_shown(one):
                yield from self._object(one, self._pdf.FPDFPageObj_GetType(one), within)

    def _object(self, one: Any, kind: int, within: _Within) -> Iterator[PlottedPath]:
        pdf, shape = self._pdf, self._cutting.shape_of(one, within.matrix.at)
        inner = _Within(within.matrix.after(_matrix(pdf, one)), (*within.shapes, *([] if shape is None else [shape])))
        if kind == _PATH:
            self._count += 1
            yield from self._path(one, inner)
        elif kind == _PICTURE:
            width, height = self.size
            self.pictures += min(inner.matrix.growth**2 / max(width * height, 1.0), 1.0)
        elif kind == _FORM and within.depth >= DEEPEST:
            self.left[f"what lies more than {DEEPEST} drawings deep in one another"] += 1
        elif kind == _FORM:
            things = (pdf.FPDFFormObj_GetObject(one, i) for i in range(pdf.FPDFFormObj_CountObjects(one)))
            yield from self._objects(things, inner._replace(depth=within.depth + 1))

    def _path(self, one: Any, within: _Within) -> Iterator[PlottedPath]:
        layers = list(_layers(self._pdf, one, within.matrix.growth))
        if not layers:
            return
        handle = f"page {self.number} path {self._count}"
        (layer, width), names = layers[0], self._layers.layers_of(one)
        named = f"{names[-1]} {layer.replace(_FILLED, _SOLID)}" if names else layer
        for whole in self._runs(one, within.matrix):
            if not all(abs(x) < FARTHEST and abs(y) < FARTHEST for x, y in whole):
                self.left["lines without numbers for their place"] += 1
                continue
            for corners in _cut(whole, within.shapes, not width and layer.startswith(_FILLED)):
                self._corners += len(corners)
                yield PlottedPath(corners, named, width, handle)

    def _runs(self, one: Any, matrix: Matrix) -> Iterator[tuple[P2, ...]]:
        """Yield the runs of corners of a path, closed ones with their first corner again, curves as pieces."""
        pdf, x, y = self._pdf, c_float(), c_float()
        run: list[P2] = []
        bends: list[P2] = []
        for i in range(pdf.FPDFPath_CountSegments(one)):
            segment = pdf.FPDFPath_GetPathSegment(one, i)
            pdf.FPDFPathSegment_GetPoint(segment, byref(x), byref(y))
            at, kind = matrix.at(x.value, y.value), pdf.FPDFPathSegment_GetType(segment)
            if kind == _MOVE:
                if len(run) > 1:
                    yield tuple(run)
                run = [at]
            elif kind == _LINE:
                run.append(at)
            else:
                bends.append(at)
                if len(bends) == 3 and run:
                    run += _bent(run[-1], *bends)
                    bends = []
            if pdf.FPDFPathSegment_GetClose(segment) and run and run[0] != run[-1]:
                run.append(run[0])
        if len(run) > 1:
            yield tuple(run)


def _cut(run: tuple[P2, ...], shapes: tuple[Any, ...], filled: bool) -> Iterator[tuple[P2, ...]]:
    """Yield what is seen of a run that is cut to one shape after another."""
    if not shapes:
        yield run
    else:
        for part in cut(run, shapes[0], filled):
            yield from _cut(part, shapes[1:], filled)


def _bent(start: P2, one: P2, other: P2, end: P2) -> Iterator[P2]:
    """Yield the corners after `start` of a cubic curve as pieces."""
    for step in range(1, CURVE + 1):
        t = step / CURVE
        s = 1 - t
        weights = (s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t)
        points = (start, one, other, end)
        yield (
            sum(w * p[0] for w, p in zip(weights, points, strict=True)),
            sum(w * p[1] for w, p in zip(weights, points, strict=True)),
        )


def _layers(pdf: Any, one: Any, growth: float) -> Iterator[tuple[str, float]]:
    """Yield how a path is seen: stroked, or filled only; nothing where it is white or wholly transparent."""
    fill, stroke, width = c_int(), c_int(), c_float()
    pdf.FPDFPath_GetDrawMode(one, byref(fill), byref(stroke))
    if stroke.value and (color := _color(pdf.FPDFPageObj_GetStrokeColor, one)):
        pdf.FPDFPageObj_GetStrokeWidth(one, byref(width))
        seen = width.value * growth
        yield f"{_STROKED} {color} WIDTH {seen:.3g}", seen
    if fill.value and (color := _color(pdf.FPDFPageObj_GetFillColor, one)):
        yield f"{_FILLED} {color}", 0.0


def _color(read: Any, one: Any) -> str:
    red, green, blue, alpha = c_uint(), c_uint(), c_uint(), c_uint()
    if not read(one, byref(red), byref(green), byref(blue), byref(alpha)) or not alpha.value:
        return ""
    shades = (red.value, green.value, blue.value)
    if min(shades) >= _WHITE:
        return ""
    return " ".join(f"{shade / _SHADES:.2g}" for shade in shades)


def _matrix(pdf: Any, one: Any) -> Matrix:
    read = pdf.FS_MATRIX()
    if not pdf.FPDFPageObj_GetMatrix(one, byref(read)):
        return Matrix()
    return Matrix(read.a, read.b, read.c, read.d, read.e, read.f)


def _upright(page: Any) -> Matrix:
    """Return what turns the file's own page into the one that is seen, whose lower left corner is the origin."""
    left, bottom, right, top = page.get_cropbox()
    turns = {
        0: Matrix(1, 0, 0, 1, -left, -bottom),
        90: Matrix(0, -1, 1, 0, -bottom, right),
        180: Matrix(-1, 0, 0, -1, right, top),
        270: Matrix(0, 1, -1, 0, top, -left),
    }
    return turns.get(int(page.get_rotation()) % 360, turns[0])


__all__ = ["Matrix", "PdfPage", "PlottedPath"]
