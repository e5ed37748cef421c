"""The faces that walls and closing lines enclose, and how much of each outline is drawn, closed with proof, or without."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import shapely

from precheck.importers.drawn.closing import ClosingLine
from precheck.importers.drawn.plane_lines import GRID, Line, LineNetwork, along, cross, direction, long
from precheck.importers.plane import P2, plan_area

AREA = (0.4, 400.0)  # square meters of a room or closet
CORE = 0.27  # meters that may be taken off all around before nothing is left
BODY = (0.65, 1.5)  # a face narrower, in meters, and larger, in square meters, is the body of a wall
STEP = 0.1  # meters from one probe along an outline to the next
BACK = (0.04, 0.55)  # meters behind an outline within which the other face of its wall lies
HOLES = 0.02  # of its area that may stand free in a room


@dataclass
class PlanFace:
    """A face in meters, with its corners as they are drawn.

    `drawn` and `unproven` are shares of its outline, `backed` that of its drawn part with a wall behind. `run_on` counts the
    corners beyond which a line of the outline runs on, as where an old outline lies across a room.
    """

    shape: Any
    outline: list[P2]
    drawn: float
    unproven: float
    backed: float
    doubtful: list[Line] = field(default_factory=list)
    merged: bool = False
    run_on: int = 0

    @property
    def area(self) -> float:
        """The area inside the outline, in square meters."""
        return plan_area(self.outline)

    @property
    def sides(self) -> tuple[float, float]:
        """The sides of the upright box around it, in meters, for a plan that is turned to its axes."""
        xs, ys = [x for x, _ in self.outline], [y for _, y in self.outline]
        return max(xs) - min(xs), max(ys) - min(ys)

    @property
    def is_whole(self) -> bool:
        """Whether nothing large stands free within it."""
        holes = sum(shapely.Polygon(hole).area for hole in self.shape.interiors)
        return bool(holes <= HOLES * self.area)


def _corners(shape: Any) -> list[P2]:
    """Return the corners of a shape, without those that stand in a straight line."""
    ring = list(shapely.Polygon(shape.exterior).simplify(GRID).exterior.coords)[:-1]
    return [corner for i, corner in enumerate(ring) if not _is_straight(ring[i - 1], corner, ring[(i + 1) % len(ring)])]


def _is_straight(before: P2, corner: P2, after: P2) -> bool:
    return bool(shapely.LineString((before, after)).distance(shapely.Point(corner)) <= GRID)


class Faces:
    """All faces of a plan, from its walls and closing lines."""

    def __init__(self, walls: LineNetwork, closers: Iterable[ClosingLine]) -> None:
        self.walls, self.closers = walls, list(closers)
        lines = [shapely.LineString(one.line) for one in self.closers]
        everything = shapely.unary_union([walls.shape, *lines], grid_size=GRID)
        found = shapely.get_parts(shapely.polygonize(shapely.get_parts(everything)))
        self._open = [line for line, one in zip(lines, self.closers, strict=True) if not one.proven]
        self._open_tree: Any = shapely.STRtree(self._open)
        self.pieces = list(found)
        self.all = [self.face(shape) for shape in self.pieces if _is_room(shape)]

    def face(self, shape: Any, merged: bool = False) -> PlanFace:
        """Return what is known of a shape as a face."""
        ring = shape.exterior
        near = shapely.union_all([shapely.LineString(p) for p in self.walls.near(shape.buffer(0.01))])
        on_walls = shapely.intersection(ring, near.buffer(0.006))
        doubtful = [line for i in self._open_tree.query(ring) if (line := self._open[i])
                    and ring.intersection(line.buffer(0.004)).difference(near.buffer(0.006)).length > 0.05]  # fmt: skip
        loose = shapely.unary_union([line.buffer(0.006) for line in doubtful])
        unproven = ring.intersection(loose).difference(near.buffer(0.006)).length if doubtful else 0.0
        size = ring.length
        lines = [(tuple(line.coords[0]), tuple(line.coords[-1])) for line in doubtful]
        backed, run_on = self._backed(shape), self._run_on(shape)
        outline = self.walls.exact(_corners(shape))
        return PlanFace(shape, outline, on_walls.length / size, unproven / size, backed, lines, merged, run_on)

    def _run_on(self, shape: Any) -> int:
        """Return beyond how many corners between drawn lines one of the two runs on."""
        ring = list(shape.exterior.simplify(GRID).coords)[:-1]
        found = 0
        for i, corner in enumerate(ring):
            ways = [direction(other, corner) for other in (ring[i - 1], ring[(i + 1) % len(ring)])]
            if all(self._lies_on_wall(along(corner, way, -0.03)) for way in ways):
                found += any(self._goes_on(corner, way) for way in ways)
        return found

    def _goes_on(self, corner: P2, way: P2) -> bool:
        beyond = shapely.LineString((along(corner, way, 0.02), along(corner, way, 0.06)))
        return any(
            abs(cross(way, direction(*piece))) < 0.02 and beyond.distance(shapely.LineString(piece)) < 0.004
            for piece in self.walls.near(beyond)
        )

    def _lies_on_wall(self, point: P2) -> bool:
        return bool(len(self.walls.tree.query(shapely.Point(point), predicate="dwithin", distance=0.006)))

    def _backed(self, shape: Any) -> float:
        """Return the share of probes from the drawn outline outward that meet the other face of a wall."""
        ring = shapely.geometry.polygon.orient(shape, 1.0).exterior.coords
        met = tried = 0
        for start, end in pairwise(ring):
            size, way = long((start, end)), direction(start, end)
            probes = max(int(size / STEP), 1)
            for n in range(probes):
                here = along(start, way, (n + 0.5) * size / probes)
                probe = shapely.LineString((along(here, way, 0.0, -BACK[0]), along(here, way, 0.0, -BACK[1])))
                if self._lies_on_wall(here):
                    tried += 1
                    met += bool(len(self.walls.tree.query(probe, predicate="intersects")))
        return met / tried if tried else 0.0

    def merged(self, faces: list[PlanFace]) -> PlanFace | None:
        """Return several faces as one; None where they do not come to one."""
        shape = shapely.unary_union([face.shape for face in faces], grid_size=GRID)
        return self.face(shape, merged=True) if shape.geom_type == "Polygon" else None

    def across_doubt(self, one: PlanFace, other: PlanFace) -> bool:
        """Return whether two faces are parted by closing lines alone, none of which is proven."""
        shared = one.shape.exterior.intersection(other.shape.exterior)
        if shared.length < 0.3:
            return False
        loose = shapely.unary_union([line.buffer(0.006) for line in self._open])
        return bool(shared.difference(loose).length < 0.05)


def _is_room(shape: Any) -> bool:
    area = float(shape.area)
    if not AREA[0] <= area <= AREA[1] or shape.buffer(-CORE).is_empty:
        return False
    return not (2 * area / shape.exterior.length < BODY[0] and area > BODY[1])


__all__ = ["Faces", "PlanFace"]
