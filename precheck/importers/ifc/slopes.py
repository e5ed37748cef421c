"""Sloped ceilings: the heights across a room, where its body has the same section along the whole of its other side."""

from __future__ import annotations

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.facets import Facet, facets_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape
from precheck.importers.plane import P2

SAME = 0.01  # meters by which a height may differ along the room and still be that of one section
EDGE = 0.00001  # meters inside of a corner at which heights are looked at
MOST = 40  # points of a profile; a curve has as many as its facets
LEAN = 0.02  # of the upward part of a normal, from which a face is no wall
LEVEL = 0.999  # of the upward part of a normal, from which a face is no slope
SLOPED = 0.01  # of the floor area, under a slope, from which a ceiling is sloped


def slope_of(plan: Plan, room: ReadSpace, shape: Shape) -> Entry:
    """Return the sloped ceiling of a room: its profile where one section tells it, else that it is sloped; or nothing."""
    facets = [facet for facet in facets_of(shape) if facet.up > LEAN]
    sloped = sum(facet.area for facet in facets if facet.up < LEVEL)
    if sloped < SLOPED * sum(facet.area for facet in facets):
        return {}
    profile = _profile(room.outline, shape, facets)
    if not profile:
        plan.model.draft.doubt("its ceiling is sloped, and no one section tells it: heights are not shown", room.id)
        return {"ceiling": {"sloped": Value("yes", "the top of its body")}}
    told = "the top of its body, alike along the room"
    points = [{"across": Value(plan.length(x), told), "height": Value(plan.length(z), told)} for x, z in profile]
    return {"ceiling": {"profile": points}}


def _profile(outline: list[P2], shape: Shape, facets: list[Facet]) -> list[tuple[float, float]]:
    """Return distance across and height above the floor at each bend; nothing where a section does not tell them."""
    xs, ys = sorted({round(x, 3) for x, _ in outline}), sorted({round(y, 3) for _, y in outline})
    if len(outline) != 4 or len(xs) != 2 or len(ys) != 2:
        return []
    for axis, (low, high), (near, far) in ((0, (xs[0], xs[1]), (ys[0], ys[1])), (1, (ys[0], ys[1]), (xs[0], xs[1]))):
        bends = sorted({low, high, *(round(p[axis], 3) for f in facets for p in f.corners if low < p[axis] < high)})
        along = [near + EDGE + (far - near - 2 * EDGE) * share for share in (0.0, 0.29, 0.5, 0.77, 1.0)]
        heights = [_heights(facets, axis, min(max(bend, low + EDGE), high - EDGE), along) for bend in bends]
        if len(bends) <= MOST and all(one and max(one) - min(one) <= SAME for one in heights):
            return [(bend - low, one[0] - shape.bottom) for bend, one in zip(bends, heights, strict=True)]
    return []


def _heights(facets: list[Facet], axis: int, across: float, along: list[float]) -> list[float]:
    """Return the heights over points of the plan at one distance across; nothing where one has no ceiling over it."""
    points: list[P2] = [(across, one) if axis == 0 else (one, across) for one in along]
    found = [[z for facet in facets if (z := facet.height(point)) is not None] for point in points]
    return [max(one) for one in found] if all(found) else []


__all__ = ["slope_of"]
