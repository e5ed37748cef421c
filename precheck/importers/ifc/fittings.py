"""What hangs on walls and ceilings: receptacles and lights, in the space that holds them; and guards beside no stair."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import begun, phase, predefined, wanted_id, words_of
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape
from precheck.importers.ifc.stairs import parts_of

TERMINALS = ("IfcOutlet", "IfcLightFixture", "IfcFlowTerminal")  # IFC2X3 has only the last, told apart by its type
POWER = ("power outlet", "receptacle", "socket", "duplex outlet")
NO_POWER = ("data", "tv", "telephone", "phone", "audio", "communication")
FORMS = (("recessed", "recessed"), ("downlight", "recessed"), ("pendant", "pendant"), ("track", "track"),
         ("fluorescent", "fluorescent"), ("ceiling fan", "fan"))  # fmt: skip
GUARDS = ("guard", "balustrade")
NEAR = 0.6  # meters beside a guard or fitting within which the space that it belongs to is looked for
LEVEL = 0.05  # meters of difference in height along a guard that stands on a level floor
HIGHEST = 2.0  # meters; beyond, what stands on a floor is no guard


def read_fittings(plan: Plan) -> set[int]:
    """Read receptacles, lights and guards into the draft; return the entities taken."""
    taken: set[int] = set()
    done: set[int] = set()
    for kind in TERMINALS:
        for element in plan.model.all(kind):
            what = _what(element)
            if what and element.id() not in done and _fitting(plan, element, what):
                taken.add(element.id())
            done.add(element.id())
    of_stairs = {part.id() for stair in plan.model.all("IfcStair") for part in parts_of(stair)}
    for rail in plan.model.all("IfcRailing"):
        if rail.id() not in of_stairs and _guard(plan, rail):
            taken.add(rail.id())
    return taken


def _what(element: Any) -> str:
    """Return the list that a terminal belongs to; empty for one that is neither outlet nor light."""
    kind = type_of(element)
    classes = {one.is_a().removesuffix("Type") for one in (element, kind) if one is not None}
    if "IfcLightFixture" in classes:
        return "lights"
    if "IfcOutlet" not in classes:
        return ""
    said, words = predefined(element, kind), words_of(element, kind)
    named = any(word in words for word in POWER) and not any(word in words for word in NO_POWER)
    return "receptacles" if said == "POWEROUTLET" or (not said and named) else ""


def _fitting(plan: Plan, element: Any, what: str) -> bool:
    model, shape = plan.model, plan.model.shape(element)
    room = _room(plan, element, shape)
    letters = "R" if what == "receptacles" else "LT"
    part = model.draft.free_id(wanted_id(model, element, letters), f"{letters}-{element.id()}")
    if room is None:
        model.draft.doubt(f"left out of the {what}: no space holds it", part)
        return False
    entry = begun(element, part) | {"space": Value(room.id, "the space that holds it")} | phase(model, element, part)
    if what == "receptacles":
        entry |= _on_plan(plan, shape, room, part)
    elif form := next((form for word, form in FORMS if word in words_of(element, type_of(element))), ""):
        entry["form"] = Value(form, "its name")
    model.draft.add(what, entry)
    return True


def _on_plan(plan: Plan, shape: Shape | None, room: ReadSpace, part: str) -> Entry:
    if shape is None or room.shape is None:
        plan.model.draft.doubt("has no body: its place in the room is not shown", part)
        return {}
    x, y, z = ((min(c) + max(c)) / 2 for c in zip(*shape.corners, strict=True))
    entry: Entry = {"at": Value(plan.point(x, y), "middle of its body in plan")}
    if z >= room.shape.bottom:
        entry["height"] = Value(plan.length(z - room.shape.bottom), "middle of its body above the floor")
    return entry


def _room(plan: Plan, element: Any, shape: Shape | None) -> ReadSpace | None:
    for relation in getattr(element, "ContainedInStructure", ()) or ():
        room = plan.by_entity.get(relation.RelatingStructure.id())
        if room is not None:
            return room
    if shape is None:
        return None
    x, y, z = ((min(c) + max(c)) / 2 for c in zip(*shape.corners, strict=True))
    return plan.room_at(x, y, z) or _only_beside(plan, x, y, z)


def _only_beside(plan: Plan, x: float, y: float, z: float) -> ReadSpace | None:
    """Return the one room within reach of a point in a wall; None where there are several."""
    steps = [(NEAR * dx, NEAR * dy) for dx in (-0.5, 0, 0.5) for dy in (-0.5, 0, 0.5)]
    found = {room.id: room for dx, dy in steps if (room := plan.room_at(x + dx, y + dy, z))}
    return next(iter(found.values())) if len(found) == 1 else None


def _guard(plan: Plan, rail: Any) -> bool:
    """Add a railing that is no part of a stair, where it is called a guard, with its height above the floor."""
    model, kind = plan.model, type_of(rail)
    name, words = plain(rail.Tag or rail.Name or f"#{rail.id()}"), words_of(rail, kind)
    if predefined(rail, kind) not in ("GUARDRAIL", "BALUSTRADE") and not any(word in words for word in GUARDS):
        model.draft.doubt("a railing left out: whether it is a guard is not said", name)
        return False
    shape = plan.model.shape(rail)
    rooms = _along(plan, shape) if shape else []
    if shape is None or not rooms:
        model.draft.doubt("a guard left out: which space it stands along is not clear", name)
        return False
    room = rooms[0]
    part = model.draft.free_id(wanted_id(model, rail, "G"), f"G-{rail.id()}")
    entry = begun(rail, part) | {"along": Value(room.id, "the space that it stands in")} | phase(model, rail, part)
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


__all__ = ["read_fittings"]
