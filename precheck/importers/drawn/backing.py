"""What lies behind the edges of an outline: a wall has another face there, and behind that no third line close by.

An old outline, a counter or a step that is drawn on the layer of the walls has none behind it, or the whole wall; that shows
in the distances, which no other edges of the plan have.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from statistics import median
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.plane_lines import GRID, Line, LineNetwork, along, cross, direction, dot, less, long

STEP = 0.1  # meters from one probe along an edge to the next
BACK = (0.03, 0.55)  # meters behind an edge within which the other face of its wall lies
THIRD = 0.4  # meters behind that face within which a third line belongs to the same wall, or makes it none
PARALLEL = 0.995  # cosine of the angle between the two faces of a wall
THICK = 0.36  # meters beyond which a wall is so thick that others of the same thickness are looked for
SAME = 0.01  # meters by which two walls of one kind differ
ON_WALL = 0.006
SHORTEST = 0.25  # meters of drawn edge that counts by itself
BACKED = 0.6  # share of such an edge behind which another face lies
OTHERS = 2  # lines of edges that have the same behind them


class EdgeBack(NamedTuple):
    """The drawn part of an edge, in meters: its share with another face behind, how far that is, and how far a third line."""

    edge: Line
    size: float
    backed: float
    thick: float
    third: float

    @property
    def is_wall(self) -> bool:
        """Whether another face lies behind it, or it is too short to tell: beside a corner, as far as a wall is thick, none does."""
        return self.size < SHORTEST or self.backed * self.size >= min(BACKED * self.size, self.size - self.thick - STEP)

    def is_like(self, other: EdgeBack) -> bool:
        """Return whether the same lies behind another edge, which is no side of the same wall."""
        same = abs(self.thick - other.thick) <= SAME and abs(self.third - other.third) <= SAME
        way = direction(*self.edge)
        aside = abs(cross(way, less(other.edge[0], self.edge[0])))
        return same and (abs(cross(way, direction(*other.edge))) > 0.1 or aside > BACK[1] + THIRD)

    @property
    def line(self) -> tuple[int, int]:
        """What edges in one line with it share: direction and distance from the origin, rounded."""
        way = direction(*self.edge)
        if way < (0.0, 0.0):
            way = -way[0], -way[1]
        return round(way[1] * 50), round(cross(way, self.edge[0]) / (5 * SAME))


def edge_backs(shape: Any, walls: LineNetwork) -> Iterator[EdgeBack]:
    """Yield what lies behind each edge of a shape that is drawn by a wall line."""
    ring = shapely.geometry.polygon.orient(shapely.Polygon(shape.exterior.simplify(GRID)), 1.0).exterior.coords
    for start, end in pairwise(ring):
        size, way = long((start, end)), direction(start, end)
        probes = max(int(size / STEP), 1)
        places = [along(start, way, (n + 0.5) * size / probes) for n in range(probes)]
        drawn = [place for place in places if _lies_on_wall(place, walls)]
        if drawn:
            behind = [found for place in drawn if (found := _behind(place, way, walls))]
            thick = median(first for first, _ in behind) if behind else 0.0
            third = median(second for _, second in behind) if behind else 0.0
            yield EdgeBack((start, end), size * len(drawn) / probes, len(behind) / len(drawn), thick, third)


def strange(edges: Iterable[EdgeBack], all_edges: list[EdgeBack]) -> bool:
    """Return whether behind some edge a third line, or a face far back, lies as it does behind too few others of the plan."""
    doubtful = [edge for edge in edges if edge.size >= SHORTEST and (edge.third or edge.thick > THICK)]
    return any(len({other.line for other in all_edges if edge.is_like(other)}) < OTHERS for edge in doubtful)


def _lies_on_wall(place: tuple[float, float], walls: LineNetwork) -> bool:
    return bool(len(walls.tree.query(shapely.Point(place), predicate="dwithin", distance=ON_WALL)))


def _behind(place: tuple[float, float], way: tuple[float, float], walls: LineNetwork) -> tuple[float, float] | None:
    """Return how far behind a place the next line along its edge lies, and how far behind that a third, or 0."""
    reach = BACK[1] + THIRD
    probe = shapely.LineString((along(place, way, 0.0, -BACK[0]), along(place, way, 0.0, -reach)))
    found = sorted(
        -cross(way, less(walls.pieces[i][0], place))
        for i in walls.tree.query(probe, predicate="intersects")
        if abs(dot(way, direction(*walls.pieces[i]))) > PARALLEL
    )
    if not found or found[0] > BACK[1]:
        return None
    third = next((far - found[0] for far in found if far - found[0] > BACK[0]), 0.0)
    return found[0], third if third <= THIRD else 0.0


__all__ = ["EdgeBack", "edge_backs", "strange"]
