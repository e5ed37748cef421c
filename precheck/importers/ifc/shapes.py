"""The shape of an element in plan and height, in meters, from the triangles of its body."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from importlib import import_module
from itertools import pairwise
from math import hypot
from typing import Any, NamedTuple

from precheck.importers.plane import P2, plan_area

P3 = tuple[float, float, float]
FLAT = 0.99  # of the upward part of a normal, from which a face counts as level
STEEPEST = 0.2  # of the upward part of a normal, from which a face is a roof and no wall
LEVEL = 0.002  # meters within which faces count as one level
_GRID = 4  # decimals to which corners are taken for the same


BUILT = (
    "IfcSpace", "IfcWall", "IfcDoor", "IfcWindow", "IfcSlab", "IfcStair", "IfcStairFlight", "IfcRailing", "IfcRoof",
    "IfcBeam", "IfcColumn", "IfcMember", "IfcFooting", "IfcPlate",
)  # fmt: skip
"""The kinds of element whose bodies are built at once, by which those that share a representation have it built once."""


class Shape(NamedTuple):
    """The triangles of a body in the building, and its size along the axes of its own placement."""

    corners: list[P3]
    triangles: list[tuple[int, int, int]]
    own_low: P3
    own_high: P3
    axes: tuple[float, ...]  # the placement: a 4 x 4 matrix, column by column
    bottom: float = 0.0  # the lowest point
    top: float = 0.0  # the highest point

    def world(self, x: float, y: float, z: float) -> P3:
        """Return the point of the building that has those coordinates in the element's own placement."""
        m = self.axes
        a, b, c = (m[i] * x + m[4 + i] * y + m[8 + i] * z + m[12 + i] for i in range(3))
        return a, b, c


class Body(NamedTuple):
    """The triangles of a body in its own placement, and that placement in the world: a 4 x 4 matrix, column by column."""

    points: list[P3]
    triangles: list[tuple[int, int, int]]
    axes: tuple[float, ...]


def bodies_of(ifc: Any, elements: list[Any]) -> Iterator[tuple[int, Body | None]]:
    """Yield the bodies of `elements` by the ids of these; one that cannot be built is left out."""
    geom: Any = import_module("ifcopenshell.geom")
    if not elements:
        return
    built = geom.iterator(geom.settings(), ifc, 1, include=elements)
    more = built.initialize()
    while more:
        made = built.get()
        yield made.id, _body(made)
        more = built.next()


def body_of(element: Any) -> Body | None:
    """Return the body of `element`; None where it has none, or one that cannot be built."""
    geom: Any = import_module("ifcopenshell.geom")
    if not getattr(element, "Representation", None):
        return None
    try:
        made = geom.create_shape(geom.settings(), element)
    except Exception:  # whatever the kernel meets in a broken body
        return None
    return _body(made)


def _body(made: Any) -> Body | None:
    flat, faces = made.geometry.verts, made.geometry.faces
    own = list(zip(flat[::3], flat[1::3], flat[2::3], strict=True))
    if not own or not faces:
        return None
    return Body(own, list(zip(faces[::3], faces[1::3], faces[2::3], strict=True)), tuple(made.transformation.matrix))


def shape_in(axes: tuple[float, ...], body: Body) -> Shape:
    """Return the shape of `body` where its placement is `axes`."""
    xs, ys, zs = zip(*body.points, strict=True)
    low, high = (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))
    empty = Shape([], body.triangles, low, high, axes)
    corners = [empty.world(*p) for p in body.points]
    heights = [z for _, _, z in corners]
    return empty._replace(corners=corners, bottom=min(heights), top=max(heights))


def level_faces(shape: Shape, sign: int) -> dict[float, list[tuple[P3, P3, P3]]]:
    """Return the level triangles that face up (1) or down (-1), by the height at which they lie, lowest first."""
    found: dict[float, list[tuple[P3, P3, P3]]] = {}
    for indices in shape.triangles:
        one = (shape.corners[indices[0]], shape.corners[indices[1]], shape.corners[indices[2]])
        if _upward(one) * sign > FLAT:
            z = sum(p[2] for p in one) / 3
            near = next((known for known in found if abs(known - z) < LEVEL), z)
            found.setdefault(near, []).append(one)
    return dict(sorted(found.items()))


def planes_up(shape: Shape) -> list[tuple[float, float]]:
    """Return rise over run and area in plan of each triangle that faces up and is no wall."""
    found = []
    for indices in shape.triangles:
        one = (shape.corners[indices[0]], shape.corners[indices[1]], shape.corners[indices[2]])
        up = _upward(one)
        if up > STEEPEST:
            found.append(((1 - min(up, 1.0) ** 2) ** 0.5 / up, area_of([one])))
    return found


def area_of(triangles: Iterable[tuple[P3, P3, P3]]) -> float:
    """Return the area in plan of `triangles`."""
    return sum(abs(_twice((a[0], a[1]), (b[0], b[1]), (c[0], c[1]))) / 2 for a, b, c in triangles)


def middle_of(triangles: Iterable[tuple[P3, P3, P3]]) -> P2:
    """Return the middle of the box around `triangles` in plan."""
    xs, ys = zip(*((p[0], p[1]) for one in triangles for p in one), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def outlines(triangles: Iterable[tuple[P3, P3, P3]]) -> list[list[P2]]:
    """Return the closed lines around `triangles` in plan, the largest first; none where they do not close."""
    edges: dict[tuple[P2, P2], int] = defaultdict(int)
    for one in triangles:
        points = [(round(p[0], _GRID), round(p[1], _GRID)) for p in one]
        for a, b in pairwise([*points, points[0]]):
            edges[a, b] += 1
    onward: dict[P2, list[P2]] = defaultdict(list)
    for a, b in edges:
        if a != b and (b, a) not in edges:
            onward[a].append(b)
    loops = []
    while onward:
        loop = _loop(onward)
        if loop is None:
            return []
        loops.append(_straightened(loop))
    return sorted((loop for loop in loops if len(loop) > 2), key=plan_area, reverse=True)


def touching(one: list[P2], other: list[P2]) -> float:
    """Return the length along which the edges of two outlines lie on each other."""
    total = 0.0
    for a, b in pairwise([*one, one[0]]):
        size = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        for c, d in pairwise([*other, other[0]]):
            if max(abs(_twice(a, b, c)), abs(_twice(a, b, d))) / size < LEVEL:
                along = [((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / size for p in (c, d)]
                total += max(0.0, min(size, max(along)) - max(0.0, min(along)))
    return total


def _loop(onward: dict[P2, list[P2]]) -> list[P2] | None:
    start = next(iter(onward))
    loop = [start]
    while True:
        nexts = onward.get(loop[-1])
        if not nexts:
            return None
        step = nexts.pop()
        if not nexts:
            del onward[loop[-1]]
        if step == start:
            return loop
        loop.append(step)


def _straightened(loop: list[P2]) -> list[P2]:
    """Return `loop` without the corners that lie on a straight line."""
    return [
        here
        for before, here, after in zip([loop[-1], *loop], loop, [*loop[1:], loop[0]], strict=False)
        if abs(_twice(before, here, after)) > 1e-3 * (hypot(after[0] - before[0], after[1] - before[1]) or 1)
    ]


def _twice(a: P2, b: P2, c: P2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def _upward(one: tuple[P3, P3, P3]) -> float:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = one
    ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
    nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    size = (nx * nx + ny * ny + nz * nz) ** 0.5
    return nz / size if size else 0.0


__all__ = [
    "BUILT",
    "Body",
    "Shape",
    "area_of",
    "bodies_of",
    "body_of",
    "level_faces",
    "middle_of",
    "outlines",
    "planes_up",
    "shape_in",
    "touching",
]
