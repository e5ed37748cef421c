"""The stair that comes up through an opening in a floor."""

from __future__ import annotations

from typing import Any

import shapely

from precheck.importers.ifc.plan import Plan

SHARE = 0.3  # of an opening that the plan of a stair fills which comes up through it
BELOW = 0.5  # meters under a floor, from which a stair comes up to it
AT_FLOOR = 0.6  # meters from the floor within which its last tread lies


def stair_through(plan: Plan, face: Any, level: float) -> str:
    """Return the id of the stair, among those read, that comes up through `face` to a level; empty where none does."""
    for entry in plan.model.draft.parts.get("stairs", []):
        kind, known = entry["drawn from"].text.strip('"').split()[:2]
        box = _box(plan, plan.model.ifc.by_guid(known), level) if kind.startswith("IfcStair") else None
        if box is not None and box.intersection(face).area >= SHARE * face.area:
            return str(entry["id"].text)
    return ""


def _box(plan: Plan, stair: Any, level: float) -> Any:
    """Return the sides in plan of the treads of a stair that comes up to a level; None of another one."""
    parts = [part for relation in stair.IsDecomposedBy or () for part in relation.RelatedObjects]
    flights = [part for part in parts if part.is_a("IfcStairFlight")] or [stair]
    points = [p for one in flights if (shape := plan.model.shape(one)) for p in shape.corners]
    if not points:
        return None
    xs, ys, zs = zip(*points, strict=True)
    comes_up = min(zs) < level - BELOW and abs(max(zs) - level) <= AT_FLOOR
    return shapely.box(min(xs), min(ys), max(xs), max(ys)) if comes_up else None


__all__ = ["stair_through"]
