"""The layers that an element is built of, in the order in which the file lists them, and which way that order runs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from precheck.importers.draft import plain
from precheck.importers.ifc.model import Model, type_of
from precheck.importers.measures import length


class Layered(NamedTuple):
    """Layers with their thicknesses in meters. Where a usage gives it: their axis, direction and first face."""

    layers: tuple[tuple[str, float], ...]
    told: str
    entity: str
    axis: str = ""
    sense: int = 0
    offset: float = 0.0

    @property
    def total(self) -> float:
        """The thickness of all layers."""
        return sum(thick for _, thick in self.layers)

    @property
    def is_symmetric(self) -> bool:
        """Whether they read the same from both sides, so that their direction does not matter."""
        return self.layers == self.layers[::-1]


def layers_of(model: Model, element: Any) -> Layered | None:
    """Return the layers of `element`, or those of its type; None where no layers are given."""
    for owner in (element, type_of(element)):
        for relation in getattr(owner, "HasAssociations", ()) or ():
            if relation.is_a("IfcRelAssociatesMaterial") and (found := _layers(model, relation.RelatingMaterial)):
                return found
    return None


def material_of(element: Any) -> str:
    """Return the name of the one material of `element`; empty where it has none or several."""
    for owner in (element, type_of(element)):
        for relation in getattr(owner, "HasAssociations", ()) or ():
            given = relation.RelatingMaterial if relation.is_a("IfcRelAssociatesMaterial") else None
            if given is not None and given.is_a("IfcMaterial"):
                return plain(given.Name or "")
    return ""


def layer_texts(model: Model, layers: Iterable[tuple[str, float]], part: str) -> list[str]:
    """Return `layers` as a project file writes them, such as ``16 mm gypsum``; a material that is not known is told."""
    found = []
    for name, thick in layers:
        word, known = model.mapping.material(name)
        if not known:
            model.draft.unsaid["materials"][name] += 1
            model.draft.doubt(
                f"the material `{name}` is under its own name; a mapping file can say what it is called", part
            )
        found.append(f"{length(thick, model.imperial)} {word}")
    return found


def words_for(model: Model, layered: Layered) -> list[str]:
    """Return what the materials of `layered` are called in a project, in their order."""
    return [model.mapping.material(name)[0] for name, _ in layered.layers]


def _layers(model: Model, given: Any) -> Layered | None:
    if given is None:
        return None
    if given.is_a("IfcMaterialLayerSetUsage"):
        found = _layers(model, given.ForLayerSet)
        sense = 1 if given.DirectionSense == "POSITIVE" else -1
        offset = float(given.OffsetFromReferenceLine or 0.0) * model.meter
        return found and found._replace(
            told=f"#{given.id()} layers", axis=str(given.LayerSetDirection), sense=sense, offset=offset
        )
    if given.is_a("IfcMaterialLayerSet"):
        layers = tuple(
            (plain(one.Material.Name if one.Material else "layer"), float(one.LayerThickness or 0.0) * model.meter)
            for one in given.MaterialLayers or ()
        )
        return Layered(layers, f"#{given.id()} layers", str(given.id())) if layers else None
    return None


__all__ = ["Layered", "layer_texts", "layers_of", "material_of", "words_for"]
