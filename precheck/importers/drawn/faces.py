"""The faces that walls and closing lines enclose, and how much of each outline is drawn, closed with proof, or without."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import shapely

from precheck.importers.drawn.backing import EdgeBack, edge_backs
from precheck.importers.drawn.closing import ClosingLine
from precheck.importers.drawn.plane_lines import GRID, Line, LineNetwork, along, cross, direction
from precheck.importers.plane import P2, plan_area

AREA = (0.4, 400.0)  # square meters of a room or closet
CORE = 0.27  # meters that may be taken off all around before nothing is left
BODY = (0.65, 1.5)  # a face narrower, in meters, and larger, in square meters, is the body of a wall
ON_WALL = 0.006  # meters from a wall line at which an outline lies on it
HOLES = 0.02  # of its area that may stand free in a room


@dataclass
class PlanFace:
    """A face in meters, with its corners as they are drawn.

    `drawn` and `unproven` are shares of its outline; `edges` tell what lies behind its drawn part. `run_on` counts the
    corners beyond which a line of the outline runs on, as where an old outline lies across a room.
    """

    shape: Any
    outline: list[P2]
    drawn: float
    unproven: float
    edges: list[EdgeBack]
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
    def sides_to_middles(self) -> tuple[float, float]:
        """The sides of the upright box to the middles of the walls around it, in meters, as some drafters write sizes."""
        wide, deep = self.sides
        upright = [edge for edge in self.edges if abs(direction(*edge.edge)[0]) < 0.1]
        level = [edge for edge in self.edges if abs(direction(*edge.edge)[1]) < 0.1]
        return wide + _half_both(upright, 0), deep + _half_both(level, 1)

    @property
    def backed(self) -> float:
        """The share of its drawn outline behind which another face lies."""
        drawn = sum(edge.size for edge in self.edges)
        return sum(edge.size * edge.backed for edge in self.edges) / drawn if drawn else 0.0

    @property
    def is_whole(self) -> bool:
        """Whether nothing large stands free within it."""
        holes = sum(shapely.Polygon(hole).area for hole in self.shape.interiors)
        return bool(holes <= HOLES * self.area)


def _half_both(edges: list[EdgeBack], axis: int) -> float:
    """Return half the thickness of the walls behind the outermost edges on both sides."""
    if not edges:
        return 0.0
    places = sorted((edge.edge[0][axis], edge.size, edge.thick) for edge in edges)
    return (places[0][2] + places[-1][2]) / 2


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
        band = ring.buffer(ON_WALL)
        walls = [shapely.LineString(self.walls.pieces[i]) for i in self.walls.tree.query(band, predicate="intersects")]
        bare = ring.difference(shapely.union_all(walls).buffer(ON_WALL))
        doubtful = [line for i in self._open_tree.query(bare, predicate="dwithin", distance=ON_WALL)
                    if bare.intersection((line := self._open[i]).buffer(ON_WALL)).length > 0.05]  # fmt: skip
        unproven = bare.intersection(shapely.union_all([line.buffer(ON_WALL) for line in doubtful])).length
        lines = [(tuple(line.coords[0]), tuple(line.coords[-1])) for line in doubtful]
        edges, outline = list(edge_backs(shape, self.walls)), self.walls.exact(_corners(shape))
        drawn = 1.0 - bare.length / ring.length
        return PlanFace(shape, outline, drawn, unproven / ring.length, edges, lines, merged, self._run_on(shape))

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
        return bool(len(self.walls.tree.query(shapely.Point(point), predicate="dwithin", distance=ON_WALL)))

    def merged(self, faces: list[PlanFace]) -> PlanFace | None:
        """Return several faces as one; None where they do not come to one."""
        shape = shapely.unary_union([face.shape for face in faces], grid_size=GRID)
        return self.face(shape, merged=True) if shape.geom_type == "Polygon" else None

    def across_doubt(self, one: PlanFace, other: PlanFace) -> bool:
        """Return whether two faces are parted by closing lines alone, none of which is proven."""
        shared = one.shape.exterior.intersection(other.shape.exterior)
        if shared.length < 0.3:
            return False
        near = [
            self._open[i].buffer(ON_WALL) for i in self._open_tree.query(shared, predicate="dwithin", distance=ON_WALL)
        ]
        return bool(shared.difference(shapely.union_all(near)).length < 0.05)


def _is_room(shape: Any) -> bool:
    area = float(shape.area)
    if not AREA[0] <= area <= AREA[1] or shape.buffer(-CORE).is_empty:
        return False
    return not (area > BODY[1] and shape.buffer(-BODY[0] / 2).is_empty)


__all__ = ["Faces", "PlanFace"]
