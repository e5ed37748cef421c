"""What hangs on walls and ceilings: receptacles and lights, in the space that holds them."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.facts import begun, phase, predefined, wanted_id, words_of
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape

TERMINALS = ("IfcOutlet", "IfcLightFixture", "IfcFlowTerminal")  # IFC2X3 has only the last, told apart by its type
POWER = ("power outlet", "receptacle", "socket", "duplex outlet")
NO_POWER = ("data", "tv", "telephone", "phone", "audio", "communication")
FORMS = (("recessed", "recessed"), ("downlight", "recessed"), ("pendant", "pendant"), ("track", "track"),
         ("fluorescent", "fluorescent"), ("ceiling fan", "fan"))  # fmt: skip
NEAR = 0.6  # meters beside a guard or fitting within which the space that it belongs to is looked for


def read_fittings(plan: Plan) -> set[int]:
    """Read receptacles and lights into the draft; return the entities taken."""
    taken: set[int] = set()
    done: set[int] = set()
    for kind in TERMINALS:
        for element in plan.model.all(kind):
            what = _what(element)
            if what and element.id() not in done and _fitting(plan, element, what):
                taken.add(element.id())
            done.add(element.id())
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


__all__ = ["read_fittings"]
