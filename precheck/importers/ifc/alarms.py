"""Smoke and carbon monoxide alarms, by their predefined types, in the space that holds them."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import guid, phase
from precheck.importers.ifc.plan import Plan

DETECTS = {"SMOKESENSOR": "smoke", "COSENSOR": "carbon monoxide"}
KINDS = ("IfcSensor", "IfcAlarm", "IfcUnitaryControlElement")
WORDS = (("carbon monoxide", "carbon monoxide"), ("smoke", "smoke"))


def read_alarms(plan: Plan) -> set[int]:
    """Read the alarms of the model into its draft; return the entities taken."""
    taken: set[int] = set()
    for kind in KINDS:
        for element in plan.model.all(kind):
            detects = _detects(element)
            if detects and _alarm(plan, element, detects):
                taken.add(element.id())
    return taken


def _detects(element: Any) -> list[str]:
    by_type = DETECTS.get(str(getattr(element, "PredefinedType", "") or ""))
    name = plain(f"{element.Name or ''} {element.ObjectType or ''}").lower()
    named = [found for word, found in WORDS if word in name]
    return [by_type] if by_type else named


def _alarm(plan: Plan, element: Any, detects: list[str]) -> bool:
    part = plan.model.draft.free_id(f"AL-{plain(element.Tag or element.id())}")
    space = _space(plan, element)
    if space is None:
        told = f"left out: alarm {part} ({plain(element.Name)}): it is in no space of the model"
        plan.model.draft.left_out.append(told)
        return False
    entry: Entry = {"id": Value(part, plain(element.Name or ""), str(element.id())), "drawn from": guid(element)}
    entry["space"] = Value(space, "the space that holds it")
    entry["detects"] = Value(f"[{', '.join(detects)}]", f"#{element.id()} its predefined type or name")
    plan.model.draft.add("alarms", entry | phase(plan.model, element, part))
    return True


def _space(plan: Plan, element: Any) -> str | None:
    for relation in getattr(element, "ContainedInStructure", ()) or ():
        room = plan.by_entity.get(relation.RelatingStructure.id())
        if room is not None:
            return room.id
    shape = plan.model.shape(element)
    if shape is None:
        return None
    x, y, _ = (sum(p[i] for p in shape.corners) / len(shape.corners) for i in range(3))
    room = plan.room_at(x, y, shape.bottom - 0.1)
    return room.id if room else None


__all__ = ["read_alarms"]
