"""Openings framed through the joists of a floor, from what is cut out of its slab."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Value
from precheck.importers.ifc.facts import begun, phase, wanted_id
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import area_of, level_faces

SMALLEST = 0.25  # square meters of an opening that cuts joists; less is a hole for a pipe or a duct


def add_framed_openings(plan: Plan, slab: Any) -> None:
    """Add the openings cut out of a slab with joists; which way these run is not modeled, so that no header span is shown."""
    model = plan.model
    for relation in slab.HasOpenings or ():
        opening = relation.RelatedOpeningElement
        if not _is_wide(plan, opening):
            continue
        part = model.draft.free_id(wanted_id(model, opening, "O"))
        through = Value("floor", f"cut out of #{slab.id()}, which has joists")
        model.draft.add("framed openings", begun(opening, part) | phase(model, opening, part) | {"through": through})
        model.draft.doubt("which way the joists run that it cuts is not modeled: its header span is not shown", part)


def _is_wide(plan: Plan, opening: Any) -> bool:
    shape = plan.model.shape(opening)
    faces = level_faces(shape, 1) if shape else {}
    return max((area_of(one) for one in faces.values()), default=0.0) >= SMALLEST


__all__ = ["add_framed_openings"]
