"""Which way a door swings, and where its hinges are: from how it operates and the axes of its placement.

By the standard a leaf opens toward the positive y of its placement, and left and right are those of someone who looks
that way. Nothing else in a model bears it out, which is told.
"""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import Shape
from precheck.importers.plane import P2

ONE_LEAF = {"SINGLESWINGLEFT": -1, "SINGLESWINGRIGHT": 1}
TWO_LEAVES = ("DOUBLEDOORSINGLESWING",)
SQUARE = 0.99  # cosine of the angle between the wall's normal and the door's own y, from which they are one


def swing(plan: Plan, element: Any, shape: Shape | None, middle: P2, square: P2, front: str, part: str) -> Entry:
    """Return the side that a door swings into, and the point of its hinges; `front` is what lies toward its own y."""
    said, owner = _operation(element)
    if shape is None or not said:
        return {}
    along, ahead = shape.axes[0:2], shape.axes[4:6]
    if ahead[0] * square[0] + ahead[1] * square[1] < SQUARE or not front:
        plan.model.draft.doubt("its placement does not say which way it swings", part)
        return {}
    told = f"#{owner.id()} OperationType, and the axes of its placement"
    plan.model.draft.doubt(
        "swing and hinges follow the axes of the door's placement; nothing else bears them out", part
    )
    entry: Entry = {"swings into": Value(front, told, str(element.id()))}
    width = float(element.OverallWidth or 0.0) * plan.model.meter
    if said in ONE_LEAF and width:
        aside = ONE_LEAF[said] * width / 2
        entry["hinges"] = Value(plan.point(middle[0] + along[0] * aside, middle[1] + along[1] * aside), told)
    return entry


def _operation(element: Any) -> tuple[str, Any]:
    """Return how a door that swings one way operates, and the entity that says so."""
    for owner in (element, type_of(element)):
        said = str(getattr(owner, "OperationType", None) or "").replace("_", "")
        if said in ONE_LEAF or said in TWO_LEAVES:
            return said, owner
    return "", element


__all__ = ["swing"]
