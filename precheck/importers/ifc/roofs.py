"""Roofs: the slopes of what faces up, and the covering where one layer says it; claddings by their material."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import begun, guid, phase, predefined, wanted_id
from precheck.importers.ifc.layers import layers_of, material_of, words_for
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import Shape, planes_up
from precheck.importers.ifc.stairs import parts_of
from precheck.importers.materials import CLADDINGS, COVERINGS

LEAST = 0.1  # of the whole roof, from which a plane counts
ALIKE = 0.1  # inches of rise in 12 by which slopes may differ and count as one
FLAT = 0.02  # inches of rise in 12, below which a plane is level


def read_roofs(plan: Plan) -> set[int]:
    """Read the roofs and claddings of the model into its draft; return the entities taken."""
    taken: set[int] = set()
    parts = {part.id() for roof in plan.model.all("IfcRoof") for part in parts_of(roof)}
    alone = [s for s in plan.model.all("IfcSlab") if predefined(s, type_of(s)) == "ROOF" and s.id() not in parts]
    for element in [*plan.model.all("IfcRoof"), *alone]:
        taken |= _roof(plan, element)
    for cover in plan.model.all("IfcCovering"):
        kind = predefined(cover, type_of(cover))
        if kind == "CLADDING" and _cladding(plan, cover):
            taken.add(cover.id())
        elif kind in ("INSULATION", "ROOFING", "MEMBRANE"):
            plan.model.draft.doubt(
                f"{kind.lower()} is left out: the model does not say of which part", f"#{cover.id()}"
            )
    return taken


def _roof(plan: Plan, element: Any) -> set[int]:
    model, pieces = plan.model, [element, *(p for p in parts_of(element) if p.is_a("IfcSlab"))]
    shapes = [shape for piece in pieces if (shape := plan.model.shape(piece)) is not None]
    name = wanted_id(model, element, "RF")
    slopes = _slopes(shapes)
    if not slopes:
        model.draft.doubt("a roof without a body that shows its slope; left out", name)
        return set()
    for number, slope in enumerate(slopes, 1):
        part = model.draft.free_id(f"{name}-{number}" if len(slopes) > 1 else name)
        pitch = f"{slope:.2f}".rstrip("0").rstrip(".")
        entry = begun(element, part) | {"drawn from": guid(element, f"{pitch} in 12" if len(slopes) > 1 else "")}
        entry |= phase(model, element, part) | _covering(plan, pieces, part)
        if slope < FLAT:
            told = "a roof is modeled level, where a fall made by taper would not be in its body; slope not shown"
            model.draft.doubt(told, part)
        else:
            entry["slope"] = Value(f"{pitch}:12", "what faces up of its body")
        model.draft.add("roofs", entry)
    return {piece.id() for piece in pieces}


def _slopes(shapes: list[Shape]) -> list[float]:
    """Return the slopes of the planes that face up, in inches of rise in 12, the largest first."""
    areas: dict[float, float] = {}
    for shape in shapes:
        for rise, area in planes_up(shape):
            near = next((known for known in areas if abs(known - rise * 12) < ALIKE), rise * 12)
            areas[near] = areas.get(near, 0.0) + area
    whole = sum(areas.values())
    return [slope for slope, area in sorted(areas.items(), key=lambda one: -one[1]) if area >= LEAST * whole]


def _covering(plan: Plan, pieces: list[Any], part: str) -> Entry:
    for piece in pieces:
        layered, one = layers_of(plan.model, piece), material_of(piece)
        words = words_for(plan.model, layered) if layered else [plan.model.mapping.material(one)[0]] if one else []
        known = {COVERINGS[word] for word in words if word in COVERINGS}
        if len(known) == 1:
            return {"covering": Value(known.pop(), layered.told if layered else f"#{piece.id()} material {plain(one)}")}
    plan.model.draft.doubt("what covers the roof is not clear from its layers", part)
    return {}


def _cladding(plan: Plan, cover: Any) -> bool:
    model = plan.model
    layered, one = layers_of(model, cover), material_of(cover)
    words = words_for(model, layered) if layered else [model.mapping.material(one)[0]] if one else []
    known = {CLADDINGS[word] for word in words if word in CLADDINGS}
    if len(known) != 1:
        model.draft.doubt("a cladding is left out: its material says no kind that is known", f"#{cover.id()}")
        return False
    part = model.draft.free_id(wanted_id(model, cover, "CL"))
    entry = begun(cover, part) | phase(model, cover, part)
    entry["what"] = Value(known.pop(), layered.told if layered else f"#{cover.id()} material {plain(one)}")
    model.draft.add("claddings", entry)
    return True


__all__ = ["read_roofs"]
