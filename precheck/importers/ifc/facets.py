"""The faces of a body as triangles: which way each looks, and how high it lies over a point of the plan."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import NamedTuple

from precheck.importers.ifc.shapes import P3, Shape
from precheck.importers.plane import P2

ON_EDGE = 1e-9  # of its sides, by which a point on the edge of a facet still lies in it


class Facet(NamedTuple):
    """A triangle of a body: its corners, and the part of its normal that points up, from -1 to 1."""

    corners: tuple[P3, P3, P3]
    up: float

    @property
    def area(self) -> float:
        """Its area in plan."""
        (ax, ay, _), (bx, by, _), (cx, cy, _) = self.corners
        return abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2

    def height(self, at: P2) -> float | None:
        """Return its height over a point of the plan; None where it does not lie there."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.corners
        if not (min(ax, bx, cx) - ON_EDGE <= at[0] <= max(ax, bx, cx) + ON_EDGE):
            return None
        whole = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if not whole:
            return None
        u = ((at[0] - ax) * (cy - ay) - (at[1] - ay) * (cx - ax)) / whole
        v = ((bx - ax) * (at[1] - ay) - (by - ay) * (at[0] - ax)) / whole
        lies_in = u >= -ON_EDGE and v >= -ON_EDGE and u + v <= 1 + ON_EDGE
        return az + u * (bz - az) + v * (cz - az) if lies_in else None


def facets_of(shape: Shape) -> Iterator[Facet]:
    """Yield the triangles of a body, without those that have no area."""
    for i, j, k in shape.triangles:
        corners = (shape.corners[i], shape.corners[j], shape.corners[k])
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners
        ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
        nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        size = hypot(nx, ny, nz)
        if size:
            yield Facet(corners, nz / size)


__all__ = ["Facet", "facets_of"]
