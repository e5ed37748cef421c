"""Drawings to scale, made from the project: one module a drawing, each with `drawings(source)`."""

from __future__ import annotations

from precheck.reports.drawings import attic, door, framing, member, plan, stair, window
from precheck.reports.drawings.drawing import Drawing, Source
from precheck.reports.drawings.style import STYLE

__all__ = ["STYLE", "Drawing", "Source", "all_drawings"]

_MODULES = (plan, framing, stair, door, window, member, attic)


def all_drawings(source: Source) -> list[Drawing]:
    """Return every drawing that the project has, or could have with what the drawing says to add."""
    return [drawing for module in _MODULES for drawing in module.drawings(source)]
