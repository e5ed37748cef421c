"""Footings, and the walls that stand on them: straight down in plan, with nothing but a wall between."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.importers.draft import Value
from precheck.importers.ifc.facts import begun, leave_out, phase, predefined, wanted_id
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import Shape, level_faces, outlines
from precheck.importers.ifc.wall_bodies import WallBody
from precheck.importers.ifc.walls import Walls
from precheck.importers.plane import P2, inside

FORMS = {"STRIP_FOOTING": "continuous", "PAD_FOOTING": "isolated"}
MEETS = 0.05  # meters between what stands on each other
ALONG = (0.3, 0.5, 0.7)  # of a wall's length, at which it is looked at: at its ends it meets others


class Below(NamedTuple):
    """A footing as read: its id, its body, and its outlines in plan."""

    id: str
    shape: Shape
    outlines: list[list[P2]]


def read_footings(plan: Plan, walls: Walls) -> set[int]:
    """Read the footings of the model into its draft, name them in the walls on them; return the entities taken."""
    found: list[Below] = []
    taken: set[int] = set()
    for element in plan.model.all("IfcFooting"):
        below = _footing(plan, element)
        if below is not None:
            found.append(below)
            taken.add(element.id())
    for entry, body, stretch in walls.parts:
        points = [body.at(stretch.start + share * (stretch.end - stretch.start)) for share in ALONG]
        on = [one for one in found if all(_stands_on(body, point, one, walls) for point in points)]
        if len(on) == 1:
            entry["footing"] = Value(on[0].id, "the footing under it in plan")
    return taken


def _footing(plan: Plan, element: Any) -> Below | None:
    model, shape = plan.model, plan.model.shape(element)
    form = FORMS.get(predefined(element, type_of(element)))
    if shape is None or form is None:
        why = "it has no body that can be built" if form else "whether it runs on or stands alone is not said"
        leave_out(model, element, f"a footing left out: {why}")
        return None
    part = model.draft.free_id(wanted_id(model, element, "F"))
    entry = begun(element, part) | {"form": Value(form, f"#{element.id()} its predefined type")}
    entry |= phase(model, element, part)
    sides = sorted(b - a for a, b in zip(shape.own_low[:2], shape.own_high[:2], strict=True))
    entry["width"] = Value(plan.length(sides[0]), "across its body")
    if form == "isolated":
        entry["length"] = Value(plan.length(sides[1]), "the longer side of its body")
    entry["thickness"] = Value(plan.length(shape.top - shape.bottom), "height of its body")
    model.draft.add("footings", entry)
    tops = level_faces(shape, 1)
    return Below(part, shape, outlines(tops[max(tops)]) if tops else [])


def _stands_on(body: WallBody, point: P2, footing: Below, walls: Walls) -> bool:
    """Return whether a wall stands over a footing at a point of the plan, directly or on a wall between."""
    if not any(inside(point, outline) for outline in footing.outlines):
        return False
    if abs(body.bottom - footing.shape.top) <= MEETS:
        return True
    return any(
        other.bottom <= footing.shape.top + MEETS and abs(other.top - body.bottom) <= MEETS and _holds(other, point)
        for other in walls.bodies
    )


def _holds(wall: WallBody, point: P2) -> bool:
    along, aside = wall.seen(point)
    return abs(aside) <= wall.thick / 2 and -MEETS <= along <= wall.long + MEETS


__all__ = ["read_footings"]
