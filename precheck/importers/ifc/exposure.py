"""Whether an element stands to the outside: as a property says, a space boundary, or the wall that it stands in, in this order."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.importers.ifc.model import Model


class SaidOutside(NamedTuple):
    """Whether an element stands to the outside, None where nothing says so, and what does."""

    external: bool | None
    told: str


def exposure_of(model: Model, element: Any, part: str) -> SaidOutside:
    """Return what the file says of `element` itself, else of the wall that it fills an opening of."""
    own = _own(model, element, part)
    if own.external is not None:
        return own
    for filled in getattr(element, "FillsVoids", ()) or ():
        for voided in filled.RelatingOpeningElement.VoidsElements or ():
            wall = _own(model, voided.RelatingBuildingElement, part)
            if wall.external is not None:
                return SaidOutside(wall.external, f"in a wall with {wall.told}" if wall.external else wall.told)
    for relation in getattr(element, "Decomposes", ()) or ():
        if relation.RelatingObject.is_a("IfcCurtainWall"):
            return _own(model, relation.RelatingObject, part)
    return own


def _own(model: Model, element: Any, part: str) -> SaidOutside:
    said = model.first(element, "external", part)
    if said is not None and isinstance(said.value, bool):
        return SaidOutside(said.value, f"{said.name} {'TRUE' if said.value else 'FALSE'}")
    bounds = [bound.InternalOrExternalBoundary for bound in getattr(element, "ProvidesBoundaries", ()) or ()]
    if any(str(one).startswith("EXTERNAL") for one in bounds):
        return SaidOutside(True, "an external space boundary")
    return SaidOutside(None, "")


__all__ = ["SaidOutside", "exposure_of"]
