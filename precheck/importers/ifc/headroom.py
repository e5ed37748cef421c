"""Headroom over a straight flight: from the line of its nosings up to the lowest slab, roof, beam or other stair above it."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot
from typing import Any

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.facets import Facet, facets_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.treads import Treads
from precheck.importers.plane import P2

ABOVE = ("IfcSlab", "IfcRoof", "IfcWall", "IfcCovering", "IfcBeam", "IfcStair", "IfcStairFlight")
SIDES = (-0.45, 0.0, 0.45)  # of the width, from the middle of the flight, where it is looked up
STEPS = 8  # places to a tread where it is looked up
HALVINGS = 12  # by which an edge between two of them is found
LEAST = 0.5  # meters above the nosings, below which a face belongs to what people step on
DOWN = -0.05  # of the upward part of a normal, from which a face looks down


def headroom_of(plan: Plan, stair: Any, treads: Treads) -> Entry:
    """Return the headroom of a straight flight; nothing of another one, or where nothing is modeled above it."""
    if not (treads.riser and treads.going and treads.width and treads.depth):
        return {}
    (x, y), (fx, fy) = treads.middles[0], treads.middles[-1]
    long = hypot(fx - x, fy - y)
    ahead = ((fx - x) / long, (fy - y) / long)
    front = (x - ahead[0] * treads.depth / 2, y - ahead[1] * treads.depth / 2)
    pitch, run = treads.riser / treads.going, treads.going * len(treads.levels)
    faces = _undersides(plan, stair, treads.levels[0])
    found: list[float] = []
    for side in SIDES:
        aside = (front[0] - ahead[1] * side * treads.width, front[1] + ahead[0] * side * treads.width)

        def clear(along: float, start: P2 = aside) -> float | None:
            level = treads.levels[0] + along * pitch
            at = (start[0] + ahead[0] * along, start[1] + ahead[1] * along)
            heights = [z for face in faces if (z := face.height(at)) is not None and z - level >= LEAST]
            return min(heights) - level if heights else None

        found += _lows(clear, run, STEPS * len(treads.levels))
    if not found:
        return {}
    told = "the line of the nosings to the lowest body above it; finishes that are not modeled are not deducted"
    return {"headroom": Value(plan.length(min(found)), told)}


def _lows(clear: Callable[[float], float | None], run: float, steps: int) -> list[float]:
    """Return the headroom at places along a flight, and at the edges of what ends between two of them."""
    places = [run * step / steps for step in range(steps + 1)]
    seen = [clear(place) for place in places]
    found = [one for one in seen if one is not None]
    for index in range(steps):
        here, there = seen[index], seen[index + 1]
        if here is not None and (
            there is None or there > here
        ):  # what hangs over ends on the way up, lowest at its edge
            low, high = places[index], places[index + 1]
            for _ in range(HALVINGS):
                middle = (low + high) / 2
                at = clear(middle)
                if at is not None and at <= here:
                    low, here = middle, at
                else:
                    high = middle
            found.append(here)
    return found


def _undersides(plan: Plan, stair: Any, above: float) -> list[Facet]:
    own = {stair.id(), *(part.id() for relation in stair.IsDecomposedBy or () for part in relation.RelatedObjects)}
    found: list[Facet] = []
    for kind in ABOVE:
        for element in plan.model.all(kind):
            shape = plan.model.shape(element) if element.id() not in own else None
            if shape is not None and shape.top > above:
                found += (facet for facet in facets_of(shape) if facet.up < DOWN)
    return found


__all__ = ["headroom_of"]
