"""Guards beside no stair: railings that are called so, or that stand as high as one at the edge of a drop."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Value
from precheck.importers.ifc.decks import DROP, Decks
from precheck.importers.ifc.facts import begun, leave_out, phase, predefined, wanted_id, words_of
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape
from precheck.importers.ifc.stairs import parts_of
from precheck.importers.plane import P2

GUARDS = ("guard", "balustrade")
NEAR = 0.6  # meters beside a guard within which the space that it belongs to is looked for
LEVEL = 0.05  # meters of difference in height along a guard that stands on a level floor
HIGHEST = 2.0  # meters; beyond, what stands on a floor is no guard
SAMPLES = 20  # points of a railing at which it is looked down
AS_HIGH = (0.7, 1.4)  # meters above the floor between which the top of a guard lies, be it high enough or not


def read_guards(plan: Plan, decks: Decks) -> set[int]:
    """Read the guards of the model into its draft; return the entities taken."""
    of_stairs = {part.id() for stair in plan.model.all("IfcStair") for part in parts_of(stair)}
    rails = [rail for rail in plan.model.all("IfcRailing") if rail.id() not in of_stairs]
    return {rail.id() for rail in rails if _guard(plan, decks, rail)}


def _guard(plan: Plan, decks: Decks, rail: Any) -> bool:
    """Add a railing that is no part of a stair, where it is called a guard, with its height above the floor."""
    model, kind = plan.model, type_of(rail)
    words = words_of(rail, kind)
    shape = plan.model.shape(rail)
    rooms = _along(plan, shape) if shape else []
    said = predefined(rail, kind) in ("GUARDRAIL", "BALUSTRADE") or any(word in words for word in GUARDS)
    drop = _drop(decks, shape, rooms[0]) if not said and shape and rooms else None
    if not said and drop is None:
        leave_out(model, rail, "a railing left out: whether it is a guard is not said")
        return False
    if shape is None or not rooms:
        leave_out(model, rail, "a guard left out: which space it stands along is not clear")
        return False
    room = rooms[0]
    part = model.draft.free_id(wanted_id(model, rail, "G"), f"G-{rail.id()}")
    entry = begun(rail, part) | {"along": Value(room.id, "the space that it stands in")} | phase(model, rail, part)
    if drop is not None:
        told = f"{part} (at the edge of a drop of {plan.length(drop)})"
        model.draft.doubt("is not said to be a guard, and taken for one by its height and place", told)
    high = shape.top - room.shape.bottom if room.shape else 0.0
    if not 0 < high < HIGHEST or not _is_level(shape):
        model.draft.doubt("does not stand level on the floor of its space; height not shown", part)
    else:
        entry["level"] = Value("yes", "its top is level")
        entry["height"] = Value(plan.length(high), "top of its body above the floor")
    model.draft.add("guards", entry)
    return True


def _along(plan: Plan, shape: Shape) -> list[ReadSpace]:
    """Return the rooms that a railing stands in or beside, the one whose floor it stands nearest to first."""
    xs, ys, zs = zip(*shape.corners, strict=True)
    middle, z = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2), (min(zs) + max(zs)) / 2
    reach = [(dx, dy) for dx in (0.0, -NEAR, NEAR) for dy in (0.0, -NEAR, NEAR)]
    found = {room.id: room for dx, dy in reach if (room := plan.room_at(middle[0] + dx, middle[1] + dy, z))}
    floors = [room for room in found.values() if room.shape is not None]
    return sorted(floors, key=lambda room: abs(shape.bottom - room.shape.bottom) if room.shape else 0.0)


def _is_level(shape: Shape) -> bool:
    """Return whether a railing is as high at both ends: its highest points lie at both ends of its longer side."""
    axis = max((0, 1), key=lambda i: max(p[i] for p in shape.corners) - min(p[i] for p in shape.corners))
    low, high = min(p[axis] for p in shape.corners), max(p[axis] for p in shape.corners)
    ends = [[p[2] for p in shape.corners if abs(p[axis] - end) < NEAR / 2] for end in (low, high)]
    return abs(max(ends[0]) - max(ends[1])) < LEVEL


def _drop(decks: Decks, shape: Shape, room: ReadSpace) -> float | None:
    """Return how deep it goes down beside a railing that is as high as a guard; None where nothing shows a drop."""
    floor = room.shape.bottom if room.shape else 0.0
    if not AS_HIGH[0] <= shape.top - floor <= AS_HIGH[1] or not _is_level(shape):
        return None
    tops = sorted({(round(x, 1), round(y, 1)) for x, y, z in shape.corners if z > shape.top - LEVEL})
    deep = [_deepest(decks, point, floor) for point in tops[:: max(1, len(tops) // SAMPLES)]]
    edges = [one for one in deep if one >= DROP]
    return max(edges) if len(edges) > len(deep) / 2 else None


def _deepest(decks: Decks, point: P2, floor: float) -> float:
    """Return how deep it goes down around a point of a railing."""
    around = [(point[0] + NEAR * dx, point[1] + NEAR * dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
    levels = [decks.level_at(at, floor + LEVEL) for at in around]
    return max((floor - level for level in levels if level is not None), default=0.0)


__all__ = ["read_guards"]
