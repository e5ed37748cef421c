"""Drawings to scale, made from the project: one module a drawing, each with `drawings(source)`."""

from __future__ import annotations

from precheck.reports.drawings import attic, door, framing, member, plan, stair, window
from precheck.reports.drawings.drawing import Drawing, Source
from precheck.reports.drawings.style import STYLE

__all__ = ["STYLE", "Drawing", "Source", "all_drawings", "leading"]

_MODULES = (plan, framing, stair, door, window, member, attic)


def all_drawings(source: Source) -> list[Drawing]:
    """Return every drawing that the project has, or could have with what the drawing says to add."""
    return [drawing for module in _MODULES for drawing in module.drawings(source)]


def leading(drawings: list[Drawing]) -> tuple[list[Drawing], list[Drawing]]:
    """Return the plan that shows the most, with which a report begins (none where none can be made), and the others."""
    made = [drawing for drawing in drawings if drawing.body]
    plans = [drawing for drawing in made if drawing.title.startswith(plan.TITLE)]
    lead = sorted(plans, key=lambda drawing: -len(drawing.shows))[:1]
    return lead, [drawing for drawing in made if drawing not in lead]
