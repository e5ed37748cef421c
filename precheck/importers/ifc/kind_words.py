"""The kinds of elements of a model as people call them, where no part of a project is made of them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

WORDS = {
    "Beam": "beams", "BuildingElementPart": "parts of elements", "BuildingElementProxy": "objects of no kind",
    "Column": "columns", "Covering": "coverings", "CurtainWall": "curtain walls", "DiscreteAccessory": "connectors",
    "ElementAssembly": "assemblies", "FlowTerminal": "fixtures", "Footing": "footings", "FurnishingElement": "furniture",
    "Furniture": "furniture", "Member": "members", "Plate": "panels", "Railing": "railings", "Roof": "roofs",
    "SanitaryTerminal": "plumbing fixtures", "Slab": "slabs", "VirtualElement": "boundaries between rooms",
    "Wall": "walls", "WallElementedCase": "walls", "WallStandardCase": "walls",
}  # fmt: skip


def in_words(kinds: Iterable[str]) -> Counter[str]:
    """Return how many elements there are of each kind, as people call it; a kind without a word of ours in its own words."""
    return Counter(_word(kind.removeprefix("Ifc")) for kind in kinds)


def _word(kind: str) -> str:
    return WORDS.get(kind) or re.sub(r"(?<!^)(?=[A-Z])", " ", kind).lower()


__all__ = ["in_words"]
