"""Rooms that pass into each other with no wall between, and the opening that they do it through."""

from __future__ import annotations

from itertools import combinations

from precheck.importers.draft import Value
from precheck.importers.ifc.facts import phase
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import touching
from precheck.importers.measures import box
from precheck.importers.writing import scalar

PASSAGE = 0.6  # meters of shared edge, from which rooms pass into each other
STEP = 0.4  # meters between the floors of rooms that do


def open_to(plan: Plan) -> dict[str, list[str]]:
    """Return the rooms that pass into each other with no wall between: outlines that touch along virtual boundaries.

    What they pass through is added to the draft, as the opening without a door that it is.
    """
    virtual = {
        relation.RelatingSpace.id()
        for relation in plan.model.all("IfcRelSpaceBoundary")
        if relation.PhysicalOrVirtualBoundary == "VIRTUAL" and relation.RelatingSpace is not None
    }
    rooms = [room for room in plan.rooms if room.element.id() in virtual and room.outline]
    found: dict[str, list[str]] = {}
    for one, other in combinations(rooms, 2):
        wide = touching(one.outline, other.outline)
        if wide >= PASSAGE and _on_one_level(one, other):
            found.setdefault(one.id, []).append(other.id)
            found.setdefault(other.id, []).append(one.id)
            _passage(plan, one, other, wide)
    return found


def _passage(plan: Plan, one: ReadSpace, other: ReadSpace, wide: float) -> None:
    heights = [room.shape.top - room.shape.bottom for room in (one, other) if room.shape]
    draft, told = plan.model.draft, f"edge shared by #{one.element.id()} and #{other.element.id()}"
    draft.add("doors", {
        "id": Value(draft.free_id(f"O-{one.id}-{other.id}"), told, str(one.element.id())),
        "drawn from": Value(scalar(f"IfcSpace {one.element.GlobalId} to {other.element.GlobalId}"), told),
        "between": Value(f"[{one.id}, {other.id}]", "virtual boundaries of both"),
        "operation": Value("cased opening", "no wall between"),
        "unit size": Value(box(wide, min(heights), plan.model.imperial), "the shared edge x the lower space"),
    } | phase(plan.model, one.element, one.id))  # fmt: skip


def _on_one_level(one: ReadSpace, other: ReadSpace) -> bool:
    return one.shape is not None and other.shape is not None and abs(one.shape.bottom - other.shape.bottom) < STEP


__all__ = ["open_to"]
