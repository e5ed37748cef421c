"""What of a room has no floor: its outline less the slabs at its level, where another slab lies below."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import shapely

from precheck.importers.plane import P2

LevelFace = tuple[float, list[list[P2]]]  # the height of a level face, and the lines around it, holes too
SLIVER = 0.1  # meters of width, below which what no slab covers is a joint or the thickness of a finish
SMALLEST = 0.25  # square meters of an opening in a floor
COVERED = 0.99  # of an opening, under which a slab must lie, so that it is one


def open_to_below(
    outline: list[P2], floor: float, decks: Sequence[LevelFace], down: float, up: float
) -> list[float] | None:
    """Return the square meters of each opening in the floor of a room; None where it has no floor that slabs tell.

    Its slabs lie from `down` below its `floor` to `up` above that. Where nothing at all is modeled below, a slab may
    just be missing, and no opening is made of that.
    """
    room = shapely.make_valid(shapely.Polygon(outline))
    own = _union(loops for level, loops in decks if floor - down < level <= floor + up)
    lower = _union(loops for level, loops in decks if level <= floor - down)
    if own.intersection(room).area < SMALLEST:
        return None
    bare = room.difference(own).buffer(-SLIVER / 2, join_style="mitre").buffer(SLIVER / 2, join_style="mitre")
    pieces = [piece for piece in shapely.get_parts(bare.intersection(room)) if piece.area >= SMALLEST]
    return [float(piece.area) for piece in pieces if piece.intersection(lower).area >= COVERED * piece.area]


def _union(decks: Iterable[list[list[P2]]]) -> Any:
    faces = []
    for loops in decks:
        face = shapely.Polygon()
        for loop in loops:  # the largest first; a hole lies in what is around it
            face = face.symmetric_difference(shapely.make_valid(shapely.Polygon(loop)))
        faces.append(face)
    return shapely.union_all(faces)


__all__ = ["open_to_below"]
