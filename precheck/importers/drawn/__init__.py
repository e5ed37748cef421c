"""Drawn plans: rooms, doors and windows recognized from lines, arcs and texts, whatever the file they are drawn in.

A reader of a form fills a `DrawnSheet` (`sheet.py`); everything after that knows nothing of the form. What does the work
needs shapely, for general plane geometry, and is imported when a plan is read.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from precheck.importers.draft import Draft, Value
from precheck.importers.drawing import unit_said
from precheck.importers.mapping import Mapping
from precheck.importers.writing import scalar

if TYPE_CHECKING:
    from precheck.importers.drawn.sheet import DrawnSheet

Tick = Callable[[int, int], None]


def read_drawn(document: Any, path: Path, name: str, mapping: Mapping, tick: Tick) -> Draft:
    """Read an opened DXF drawing as a plan is drawn; the draft has no parts where none was recognized."""
    draft = Draft(name, "DXF", path.stem)
    if find_spec("shapely") is None:
        draft.doubt("recognizing rooms from lines needs the package shapely; pip install 'precheck[dxf]'")
        return draft
    from precheck.importers.drawn.dxf_sheet import dxf_sheet

    return taken_over(draft, path, dxf_sheet(document, unit_said(document, path)), mapping, tick)


def taken_over(draft: Draft, path: Path, sheet: DrawnSheet, mapping: Mapping, tick: Tick) -> Draft:
    """Fill `draft` with what is recognized on `sheet`, which was read from the file at `path`."""
    from precheck.importers.drawn.recognize import recognize
    from precheck.importers.drawn.taken import PlanTaking

    plan = recognize(sheet, mapping, tick)
    if plan.unit.unit:
        draft.form = f"{draft.form} in {plan.unit.unit}"
    draft.head = {"file": Value(scalar(path.name)), "form": Value(scalar(draft.form))}
    PlanTaking(draft, sheet, plan, mapping).take()
    return draft


__all__ = ["read_drawn", "taken_over"]
