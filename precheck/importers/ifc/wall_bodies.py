"""Walls in plan: the middle line of each, its thickness, how high it reaches, and its layers held against its body."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from typing import Any

from precheck.immutable import fixed
from precheck.importers.ifc.layers import Layered, layers_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import Shape
from precheck.importers.plane import P2
from precheck.importers.stretches import WallLine

SAME = 0.005  # meters by which the layers of a wall may differ from its body
THICKEST = 1.0  # meters; beyond, a body is no plain wall


@fixed
class WallBody(WallLine):
    """A straight wall with its body, and its layers from left to right."""

    element: Any
    bottom: float
    top: float
    layers: tuple[tuple[str, float], ...]
    told: str
    doubt: str = ""


def wall_body(plan: Plan, element: Any) -> WallBody | str:
    """Return `element` as a wall in plan, or why it is none."""
    shape = plan.model.shape(element)
    if shape is None:
        return "it has no body that can be built"
    ends = _axis(plan, element, shape)
    if isinstance(ends, str):
        return ends
    start, end = ends
    long = hypot(end[0] - start[0], end[1] - start[1])
    if long < 2 * SAME:
        return "its axis has no length"
    left = (-(end[1] - start[1]) / long, (end[0] - start[0]) / long)
    aside = [(x - start[0]) * left[0] + (y - start[1]) * left[1] for x, y, _ in shape.corners]
    low, high = min(aside), max(aside)
    if not 0 < high - low <= THICKEST:
        return "its body is no straight wall of one thickness"
    layers, told, doubt = _layers(plan, element, low, high)
    middle = (low + high) / 2
    moved = [(x + left[0] * middle, y + left[1] * middle) for x, y in (start, end)]
    line = (moved[0], moved[1], high - low)
    return WallBody(*line, element, shape.bottom, shape.top, layers, told, doubt)


def _axis(plan: Plan, element: Any, shape: Shape) -> tuple[P2, P2] | str:
    """Return both ends of the axis in the world: as represented, else along the longer side of the body."""
    for found in element.Representation.Representations:
        if found.RepresentationIdentifier == "Axis" and found.Items:
            points = _points(found.Items[0])
            if points is None or not _straight(points):
                return "its axis is curved or bent"
            meter = plan.model.meter
            ends = [shape.world(p[0] * meter, p[1] * meter, 0.0) for p in (points[0], points[-1])]
            return (ends[0][0], ends[0][1]), (ends[1][0], ends[1][1])
    low, high = shape.own_low, shape.own_high
    if high[0] - low[0] >= high[1] - low[1]:
        y = (low[1] + high[1]) / 2
        ends = [shape.world(low[0], y, 0.0), shape.world(high[0], y, 0.0)]
    else:
        x = (low[0] + high[0]) / 2
        ends = [shape.world(x, low[1], 0.0), shape.world(x, high[1], 0.0)]
    return (ends[0][0], ends[0][1]), (ends[1][0], ends[1][1])


def _points(curve: Any) -> list[P2] | None:
    """Return the corners of an axis that is made of straight pieces; None for any other."""
    if curve.is_a("IfcPolyline"):
        return [(float(p.Coordinates[0]), float(p.Coordinates[1])) for p in curve.Points]
    if curve.is_a("IfcIndexedPolyCurve"):
        straight = all(piece.is_a("IfcLineIndex") for piece in curve.Segments or ())
        return [(float(p[0]), float(p[1])) for p in curve.Points.CoordList] if straight else None
    return None


def _straight(points: list[P2]) -> bool:
    (ax, ay), (bx, by) = points[0], points[-1]
    long = hypot(bx - ax, by - ay)
    turns = [abs((bx - ax) * (y - ay) - (x - ax) * (by - ay)) for x, y in points[1:-1]]
    runs = sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(points))
    return bool(long) and runs <= long * 1.0001 and all(turn <= 0.002 * long * long for turn in turns)


def _layers(plan: Plan, element: Any, low: float, high: float) -> tuple[tuple[tuple[str, float], ...], str, str]:
    """Return the layers from left to right, where they are told, and what keeps them from being shown."""
    layered = layers_of(plan.model, element)
    if layered is None:
        return (), "", "no layers are given"
    as_thick = abs(layered.total - (high - low)) <= SAME
    if layered.axis == "AXIS2":
        kept = _within(layered, low, high)
        if abs(sum(thick for _, thick in kept) - (high - low)) <= SAME:
            less = len(layered.layers) - len(kept)
            if less:
                name = f"#{element.id()}"
                plan.model.draft.doubt(
                    "the body of a wall leaves out some of its layers; those it holds are taken", name
                )
            return kept, layered.told, ""
    elif not layered.axis and not layered.is_symmetric and as_thick:
        return (), "", "which side its first layer lies on is not said; layers not shown"
    if as_thick and layered.is_symmetric:
        return layered.layers, layered.told, ""
    told = f"{plan.length(layered.total)} of layers, a body of {plan.length(high - low)}"
    return (), "", f"its layers do not lie where its body does, and are not shown ({told})"


def _within(layered: Layered, low: float, high: float) -> tuple[tuple[str, float], ...]:
    """Return the layers that lie in a body between two distances to the left of its axis, from left to right."""
    kept, face = [], layered.offset
    for name, thick in layered.layers:
        far = face + layered.sense * thick
        if min(face, far) >= low - SAME and max(face, far) <= high + SAME:
            kept.append((name, thick))
        face = far
    return tuple(kept[::-1] if layered.sense > 0 else kept)


__all__ = ["WallBody", "wall_body"]
