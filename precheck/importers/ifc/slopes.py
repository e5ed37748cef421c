"""Sloped ceilings: the heights across a room, where its body has the same section along the whole of its other side."""

from __future__ import annotations

from typing import NamedTuple

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import P3, Shape
from precheck.importers.plane import P2

SAME = 0.01  # meters by which a height may differ along the room and still be that of one section
EDGE = 0.00001  # meters inside of a corner at which heights are looked at
MOST = 40  # points of a profile; a curve has as many as its facets
LEAN = 0.02  # of the upward part of a normal, from which a face is no wall
LEVEL = 0.999  # of the upward part of a normal, from which a face is no slope
SLOPED = 0.01  # of the floor area, under a slope, from which a ceiling is sloped


class Facet(NamedTuple):
    """A face of the upper side of a body: its corners, and the part of its normal that points up."""

    corners: tuple[P3, P3, P3]
    up: float

    @property
    def area(self) -> float:
        """Its area in plan."""
        (ax, ay, _), (bx, by, _), (cx, cy, _) = self.corners
        return abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2

    def height(self, at: P2) -> float | None:
        """Return the height of the face over a point of the plan; None where it does not lie there."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.corners
        whole = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if not whole:
            return None
        u = ((at[0] - ax) * (cy - ay) - (at[1] - ay) * (cx - ax)) / whole
        v = ((bx - ax) * (at[1] - ay) - (by - ay) * (at[0] - ax)) / whole
        return az + u * (bz - az) + v * (cz - az) if u >= -1e-9 and v >= -1e-9 and u + v <= 1 + 1e-9 else None


def slope_of(plan: Plan, room: ReadSpace, shape: Shape) -> Entry:
    """Return the sloped ceiling of a room: its profile where one section tells it, else that it is sloped; or nothing."""
    facets = _upper(shape)
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


def _upper(shape: Shape) -> list[Facet]:
    found = []
    for i, j, k in shape.triangles:
        corners = (shape.corners[i], shape.corners[j], shape.corners[k])
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners
        ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        size = (nx * nx + ny * ny + nz * nz) ** 0.5
        if size and nz / size > LEAN:
            found.append(Facet(corners, nz / size))
    return found


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
