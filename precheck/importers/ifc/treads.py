"""The treads of a flight as modeled: the level faces of its body that people step on."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from statistics import median
from typing import NamedTuple

from precheck.importers.ifc.shapes import P3, Shape, area_of, level_faces, middle_of, outlines
from precheck.importers.ifc.stair_statements import AGREES
from precheck.importers.ifc.tapered_treads import tapered_treads
from precheck.importers.plane import P2, inside

TREAD_AREA = 0.3  # of the largest level face, from which one counts as a tread where none is large
LARGE = 0.1  # square meters from which a face is a tread beside any landing
STEPPED = 1.0  # meters above a face within which another one of the flight keeps people from stepping on it

Faces = dict[float, list[tuple[P3, P3, P3]]]


class Treads(NamedTuple):
    """A flight as modeled: levels of the treads, and what follows from them; None where that is not clear."""

    levels: list[float]
    middles: list[P2]
    riser: float | None
    going: float | None
    width: float | None
    depth: float | None
    outlines: list[list[P2]]  # of each tread, with what lies under the next one; empty where it does not close


def treads_of(shape: Shape) -> Treads:
    """Return the treads of a flight."""
    whole = level_faces(shape, 1)
    faces = _open_above(whole)
    areas = {z: area_of(one) for z, one in faces.items()}
    enough = min(TREAD_AREA * max(areas.values(), default=0.0), LARGE)
    levels = _without_odd_one([z for z in faces if areas[z] >= enough])
    middles = [middle_of(faces[z]) for z in levels]
    goings = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(middles)]
    steps = [b - a for a, b in pairwise(levels)]
    alike = _alike(levels)
    lines = [next(iter(outlines(whole[z])), []) for z in levels]
    straight = alike and max(goings) - min(goings) < AGREES and not tapered_treads(lines)
    width = _across([p for z in levels for one in faces[z] for p in one], middles) if straight else None
    deep = _across([p for one in faces[levels[0]] for p in one], middles, along=True) if straight else None
    riser, going = median(steps) if alike else None, median(goings) if straight else None
    return Treads(levels, middles, riser, going, width, deep, lines)


def _open_above(faces: Faces) -> Faces:
    """Return of each level the faces on which one can step: those over which no other face of the flight lies close."""
    found: Faces = {}
    for z, own in faces.items():
        above = [face for higher, others in faces.items() if z < higher <= z + STEPPED for face in others]
        kept = [face for face in own if not any(inside(_center(face), _plan(other)) for other in above)]
        if kept:
            found[z] = kept
    return found


def _center(face: tuple[P3, P3, P3]) -> P2:
    return sum(p[0] for p in face) / 3, sum(p[1] for p in face) / 3


def _plan(face: tuple[P3, P3, P3]) -> list[P2]:
    return [(x, y) for x, y, _ in face]


def _without_odd_one(levels: list[float]) -> list[float]:
    """Return `levels` without the one between two steps that keeps them from being alike, such as the top of a beam.

    Without a tread that people step on they could not be alike, for two risers would be one.
    """
    if _alike(levels):
        return levels
    for index in range(len(levels)):
        rest = levels[:index] + levels[index + 1 :]
        if _alike(rest):
            return rest
    return levels


def _alike(levels: list[float]) -> bool:
    steps = [b - a for a, b in pairwise(levels)]
    return len(steps) > 1 and max(steps) - min(steps) < AGREES


def _across(points: list[tuple[float, float, float]], middles: list[P2], along: bool = False) -> float:
    """Return how wide the treads are, square to the way up, or how deep `along` it."""
    dx, dy = middles[-1][0] - middles[0][0], middles[-1][1] - middles[0][1]
    size = hypot(dx, dy) or 1.0
    if along:
        dx, dy = dy, -dx
    sideways = [(-dy * x + dx * y) / size for x, y, _ in points]
    return max(sideways) - min(sideways)


__all__ = ["Treads", "treads_of"]
