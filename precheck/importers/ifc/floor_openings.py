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
) -> list[Any] | None:
    """Return each opening in the floor of a room as a polygon; None where it has no floor that slabs tell.

    Its slabs lie from `down` below its `floor` to `up` above that. Where nothing at all is modeled below, a slab may
    just be missing, and no opening is made of that.
    """
    room = shapely.make_valid(shapely.Polygon(outline))
    own = shapely.union_all([within(loops) for level, loops in decks if floor - down < level <= floor + up])
    lower = shapely.union_all([within(loops) for level, loops in decks if level <= floor - down])
    if own.intersection(room).area < SMALLEST:
        return None
    bare = room.difference(own).buffer(-SLIVER / 2, join_style="mitre").buffer(SLIVER / 2, join_style="mitre")
    pieces = [piece for piece in shapely.get_parts(bare.intersection(room)) if piece.area >= SMALLEST]
    return [piece for piece in pieces if piece.intersection(lower).area >= COVERED * piece.area]


def within(loops: Iterable[list[P2]]) -> Any:
    """Return what lies within the lines around a face, the largest first; a hole lies in what is around it."""
    face = shapely.Polygon()
    for loop in loops:
        face = face.symmetric_difference(shapely.make_valid(shapely.Polygon(loop)))
    return face


__all__ = ["open_to_below", "within"]
