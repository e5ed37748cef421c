"""Curtain walls: each panel of glass as a fixed window of the room behind it. Doors and windows in them are read as such."""

from __future__ import annotations

from math import hypot
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.exposure import SaidOutside, exposure_of
from precheck.importers.ifc.facts import called, guid, phase, words_of
from precheck.importers.ifc.layers import material_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import P3, Shape
from precheck.importers.ifc.sides import OUTSIDE, OpeningPosition, sides_of
from precheck.importers.measures import area, box

GLASS = ("glass", "glaz", "glas", "verre", "vidrio", "vetro")
BODY_HIGH = 1.2  # meters above its bottom at which the room behind a panel is looked for
SAME = 0.001  # meters below the floor within which a panel stands on it
UPRIGHT = 0.05  # of the length of a panel's normal that may point up


def read_curtain_walls(plan: Plan) -> set[int]:
    """Read the panels of glass of all curtain walls into the draft; return the entities taken."""
    taken: set[int] = set()
    for wall in plan.model.all("IfcCurtainWall"):
        exposure, name = exposure_of(plan.model, wall, f"#{wall.id()}"), called(plan.model, wall)
        panels = [p for relation in wall.IsDecomposedBy or () for p in relation.RelatedObjects if p.is_a("IfcPlate")]
        made = [panel for panel in panels if _panel(plan, wall, panel, exposure, name)]
        if made:
            taken |= {part.id() for relation in wall.IsDecomposedBy for part in relation.RelatedObjects} | {wall.id()}
    return taken


def _panel(plan: Plan, wall: Any, panel: Any, exposure: SaidOutside, name: str) -> bool:
    model, shape = plan.model, plan.model.shape(panel)
    material = str(material_of(panel) or "").lower()
    if shape is None or not any(word in f"{material} {words_of(panel)}" for word in GLASS):
        model.draft.doubt("a panel of a curtain wall left out: it has no body, or is not said to be glass", name)
        return False
    part = f"{'CW' if name[:1].isdigit() else ''}{name}"
    normal = _normal(shape)
    if normal is None:
        model.draft.doubt("a panel of a curtain wall left out: it does not stand upright", part)
        return False
    placed = _placed(shape, normal)
    found = sides_of(plan, placed, [], exposure, part)
    inner = [side for side in found.sides if side != OUTSIDE]
    if len(inner) != 1:
        why = f"it stands between {' and '.join(inner)}" if inner else found.why_not
        model.draft.doubt(f"a panel of a curtain wall left out: {why}", part)
        return False
    part = model.draft.free_id(part)
    told = f"a panel of #{wall.id()} {plain(wall.Name or '')}"
    entry: Entry = {"id": Value(part, told, str(panel.id())), "drawn from": guid(panel)}
    entry["space"] = Value(inner[0], found.told)
    entry |= phase(model, wall, part) | {"operation": Value("fixed", "a panel of a curtain wall")}
    model.draft.add("windows", entry | _sized(plan, shape, placed, normal, inner[0]))
    return True


def _sized(plan: Plan, shape: Shape, placed: OpeningPosition, normal: P3, room: str) -> Entry:
    along = (-normal[1], normal[0])
    runs = [x * along[0] + y * along[1] for x, y, _ in shape.corners]
    wide, high, imperial = max(runs) - min(runs), shape.top - shape.bottom, plan.model.imperial
    floor = plan.floor_of(next(one for one in plan.rooms if one.id == room)) or 0.0
    entry: Entry = {
        "unit size": Value(box(wide, high, imperial), "its body"),
        "glazed area": Value(area(_face(shape, normal), imperial), "one face of its body"),
        "middle": Value(plan.point(*placed.middle), "middle of its body in plan"),
    }
    if shape.bottom >= floor - SAME:
        entry["sill height"] = Value(plan.length(max(shape.bottom - floor, 0.0)), "bottom of its body above the floor")
    return entry


def _normal(shape: Shape) -> P3 | None:
    """Return the direction square to a panel in plan: that of its largest faces; None where it does not stand upright."""
    largest = max((_cross(shape, one) for one in shape.triangles), key=lambda n: n[0] ** 2 + n[1] ** 2 + n[2] ** 2)
    size = hypot(*largest)
    if not size or abs(largest[2]) > UPRIGHT * size:
        return None
    return largest[0] / size, largest[1] / size, 0.0


def _face(shape: Shape, normal: P3) -> float:
    """Return the area of one face of a panel."""
    crosses = (_cross(shape, one) for one in shape.triangles)
    return sum(abs(x * normal[0] + y * normal[1]) / 2 for x, y, _ in crosses) / 2


def _cross(shape: Shape, triangle: tuple[int, int, int]) -> P3:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (shape.corners[i] for i in triangle)
    ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
    return uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx


def _placed(shape: Shape, normal: P3) -> OpeningPosition:
    xs, ys, _ = zip(*shape.corners, strict=True)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    aside = [x * normal[0] + y * normal[1] for x, y, _ in shape.corners]
    at = shape.bottom + min(BODY_HIGH, (shape.top - shape.bottom) / 2)
    return OpeningPosition(middle, at, (normal[0], normal[1]), max(aside) - min(aside))


__all__ = ["read_curtain_walls"]
