"""Whether the unit of length that a model declares can be so: rooms, doors and windows have sizes that people use."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import median
from typing import Any

from precheck.importers.files import refused
from precheck.importers.ifc.model import Model
from precheck.importers.plane import P2, plan_area

ROOM = (0.5, 1500.0)  # square meters between which the middle one of all rooms lies, from a closet to a hall
OPENING = (0.2, 8.0)  # meters between which the middle one of all doors and windows is wide


def refuse_senseless(model: Model, outlines: Iterable[list[P2]], name: str) -> None:
    """Raise `Unusable` where sizes say that lengths are not in the unit that the file declares."""
    areas = [plan_area(outline) for outline in outlines if outline]
    wide = [_width(element, model) for kind in ("IfcDoor", "IfcWindow") for element in model.all(kind)]
    for what, sizes, (low, high), unit in (
        ("room", areas, ROOM, "m2"), ("door or window", [one for one in wide if one > 0], OPENING, "m wide"),
    ):  # fmt: skip
        if sizes and not low <= median(sizes) <= high:
            told = f"its usual {what} is {_rounded(median(sizes))} {unit}, so its lengths are not in the unit that it declares"
            raise refused(name, f"{told}; export the model again with the unit set right")


def _rounded(size: float) -> str:
    """Return a size that may be very small or very large with three figures, and never as a power of ten."""
    return f"{float(f'{size:.3g}'):,.10f}".rstrip("0").rstrip(".")


def _width(element: Any, model: Model) -> float:
    return float(element.OverallWidth or 0.0) * model.meter


__all__ = ["refuse_senseless"]
