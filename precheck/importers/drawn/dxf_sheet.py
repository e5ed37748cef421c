"""A DXF drawing as a sheet: blocks taken apart at any depth, curves as pieces, arcs that may be swings kept apart.

What is off, frozen or invisible is not read, since nobody sees it on the plot. What lies in a block on layer 0 is on the
layer of the insert, and a layer of a bound reference is called by its own name, without that of the reference.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from importlib import import_module
from itertools import pairwise
from math import hypot
from typing import Any, NamedTuple

from precheck.importers.draft import plain
from precheck.importers.drawn.dxf_texts import dimension_of, texts_of
from precheck.importers.drawn.joined_sizes import sizes_joined
from precheck.importers.drawn.sheet import DASHED, DrawnLine, DrawnSheet, PlacedBlock, SwingArc
from precheck.importers.plane import P2

DEEPEST = 8  # blocks within blocks
MOST = 200_000  # lines of one sheet; beyond, the rest is left out and told
SWEEP = (50.0, 110.0)  # degrees that a swing is drawn over
FLAT = 24  # pieces to a full turn of a curve
_BROKEN = re.compile(r"HIDDEN|DASH|PHANTOM|CENTER|DOT|VERDECKT|STRICH|TRAZO|OCULT|TRATTEGG|CACHE|MITTE")
_CURVES = frozenset(("ARC", "CIRCLE", "ELLIPSE", "SPLINE"))
_TAKEN_APART = frozenset(("LWPOLYLINE", "POLYLINE", "MLINE"))


class _Within(NamedTuple):
    """Where an entity stands: the layer of its insert and the handle of the outermost one, and how deep it is."""

    layer: str = "0"
    handle: str = ""
    depth: int = 0


class _Full(Exception):
    """There are more lines than are read."""


class DxfSheetReader:
    """Reads one opened document into a sheet."""

    def __init__(self, document: Any, unit_said: str = "") -> None:
        self.sheet = DrawnSheet(unit_said=unit_said)
        self._hidden = {layer.dxf.name.upper() for layer in document.layers if layer.is_off() or layer.is_frozen()}
        self._linetypes = {one.dxf.name.upper(): str(one.dxf.get("linetype", "")).upper() for one in document.layers}
        self._left = Counter[str]()
        self._space = document.modelspace()

    def read(self) -> DrawnSheet:
        """Return the sheet of the document's model space."""
        try:
            for entity in self._space:
                self._take(entity, _Within())
        except _Full:
            self.sheet.told.append(
                f"the drawing has more than {MOST:,} lines; the rest is not read: import one plan of it"
            )
        self.sheet.texts = sizes_joined(self.sheet.texts)
        if self._left:
            listed = ", ".join(f"{n} {kind}" for kind, n in sorted(self._left.items()))
            self.sheet.told.append(f"not read in the drawing: {listed}")
        return self.sheet

    def _take(self, entity: Any, within: _Within) -> None:
        own = str(entity.dxf.get("layer", "0"))
        full = within.layer if own == "0" and within.depth else own
        if self._is_hidden(own, full) or entity.dxf.get("invisible", 0):
            return
        layer = plain(full.split("$0$")[-1]).upper()
        if self._is_dashed(entity, full):
            layer = f"{layer} {DASHED}"
        handle = within.handle or str(entity.dxf.get("handle", None) or "")
        kind = entity.dxftype()
        try:
            if kind == "INSERT":
                self._insert(entity, layer, handle, within.depth)
            else:
                self._plain(entity, kind, layer, handle)
        except (ArithmeticError, ValueError, TypeError, AttributeError, import_module("ezdxf").DXFError):
            self._left[f"broken {plain(kind)}"] += 1

    def _is_dashed(self, entity: Any, layer: str) -> bool:
        """Return whether a line is drawn with gaps, as what is overhead, behind or taken away is."""
        linetype = str(entity.dxf.get("linetype", "BYLAYER")).upper()
        if linetype == "BYLAYER":
            linetype = self._linetypes.get(layer.upper(), "")
        return entity.dxftype() != "INSERT" and bool(_BROKEN.search(linetype))

    def _is_hidden(self, *names: str) -> bool:
        return any(name.upper() in self._hidden for name in names)

    def _plain(self, entity: Any, kind: str, layer: str, handle: str) -> None:
        sheet = self.sheet
        if kind == "LINE":
            self._lines([_xy(entity.dxf.start), _xy(entity.dxf.end)], layer, handle)
        elif kind in _TAKEN_APART:
            for piece in entity.virtual_entities():
                self._plain(piece, piece.dxftype(), layer, handle)
        elif kind in _CURVES:
            self._curve(entity, kind, layer, handle)
        elif kind in ("SOLID", "TRACE"):
            corners = [_xy(corner) for corner in entity.wcs_vertices()]
            self._lines([*corners, *corners[:1]], layer, handle)
        elif kind in ("TEXT", "MTEXT", "ATTRIB"):
            sheet.texts += texts_of(entity, layer, handle)
        elif kind == "DIMENSION":
            sheet.dimensions += dimension_of(entity, layer, handle)

    def _curve(self, entity: Any, kind: str, layer: str, handle: str) -> None:
        if kind == "ARC":
            begins, ends = float(entity.dxf.start_angle) % 360, float(entity.dxf.end_angle) % 360
            turned = entity.dxf.extrusion.z < 0  # seen from behind, as in a mirrored block
            if turned:
                begins, ends = (180 - ends) % 360, (180 - begins) % 360
            if SWEEP[0] <= (ends - begins) % 360 <= SWEEP[1]:
                center, (radius, _) = _xy(entity.ocs().to_wcs(entity.dxf.center)), _xy((entity.dxf.radius, 0.0))
                self.sheet.swings.append(SwingArc(center, radius, begins, ends, layer, handle))
                return
        path = import_module("ezdxf.path").make_path(entity)
        start, end = path.start, path.end
        size = max((hypot(*(_xy(p - start))) for p in path.control_vertices()), default=0.0) or hypot(*_xy(end - start))
        self._lines([_xy(p) for p in path.flattening(max(size / FLAT, 1e-9))], layer, handle)

    def _lines(self, corners: Iterable[P2], layer: str, handle: str) -> None:
        for start, end in pairwise(corners):
            if start != end:
                self.sheet.lines.append(DrawnLine(start, end, layer, handle))
        if len(self.sheet.lines) > MOST:
            raise _Full

    def _insert(self, entity: Any, layer: str, handle: str, depth: int) -> None:
        if depth >= DEEPEST:
            self._left["blocks nested too deeply"] += 1
            return
        before, inner = len(self.sheet.lines), _Within(layer, handle, depth + 1)
        for copy in entity.multi_insert() if entity.mcount > 1 else (entity,):
            for piece in copy.virtual_entities():
                self._take(piece, inner)
        for attribute in entity.attribs:
            if not attribute.is_invisible:
                self._take(attribute, inner)
        said = tuple((str(a.dxf.tag).upper(), plain(a.dxf.text)) for a in entity.attribs if plain(a.dxf.text))
        points = [p for line in self.sheet.lines[before:] for p in (line.start, line.end)] or [_xy(entity.dxf.insert)]
        low, high = ((f(p[0] for p in points), f(p[1] for p in points)) for f in (min, max))
        name = plain(str(entity.dxf.name).split("$0$")[-1]).upper()
        self.sheet.blocks.append(PlacedBlock(name, low, high, said, layer, handle))


def _xy(vector: Any) -> P2:
    x, y = float(vector[0]), float(vector[1])
    if not (abs(x) < 1e12 and abs(y) < 1e12):
        raise ValueError("a coordinate that is no number")
    return x, y


def dxf_sheet(document: Any, unit_said: str = "") -> DrawnSheet:
    """Return the sheet of an opened document, whose header says that it is in `unit_said`."""
    return DxfSheetReader(document, unit_said).read()


__all__ = ["dxf_sheet"]
