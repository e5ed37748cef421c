"""Which dwelling unit a space belongs to: as a mapping file says, or by a zone that is named as one. Names alone only hint."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.plan import Plan
from precheck.importers.writing import scalar

_DWELLING = re.compile(r"\b(unit|apartment|apt|flat|dwelling|townhouse)\b", re.IGNORECASE)
_LETTER = re.compile(r"([A-Z])-?\d+[A-Z]?")
FEWEST = 2  # spaces under one letter, before names look like those of a unit


def read_units(plan: Plan) -> None:
    """Add the units of the spaces of `plan` to the draft; tell what their names hint at."""
    entries = plan.model.draft.parts.get("spaces", [])
    found = [_unit(plan, room.element, entry, room.id) for room, entry in zip(plan.rooms, entries, strict=True)]
    if not any(found):
        _hint(plan)


def _unit(plan: Plan, element: Any, entry: Entry, part: str) -> bool:
    name, zones = plain(element.Name or ""), list(_zones(element))
    said = plan.model.mapping.unit(name, plain(element.LongName or ""), *(zone for _, zone in zones))
    if said:
        entry["unit"] = Value(scalar(said), "the mapping file")
        return True
    named = [(zone, text) for zone, text in zones if _DWELLING.search(text)]
    if len(named) != 1:
        if named:
            plan.model.draft.doubt("in several zones that are named as dwelling units; none is taken", part)
        return False
    zone, text = named[0]
    entry["unit"] = Value(scalar(text), f"#{zone.id()} IfcZone", str(zone.id()))
    plan.model.draft.doubt(f"taken to be in the dwelling unit `{text}`, as a zone of that name holds it", part)
    return True


def _zones(element: Any) -> Iterator[tuple[Any, str]]:
    for relation in getattr(element, "HasAssignments", ()) or ():
        group = getattr(relation, "RelatingGroup", None)
        if group is not None and group.is_a("IfcZone"):
            yield group, plain(getattr(group, "LongName", None) or group.Name or "")


def _hint(plan: Plan) -> None:
    matches = [_LETTER.fullmatch(plain(room.element.Name or "")) for room in plan.rooms]
    letters = Counter(match[1] for match in matches if match)
    if len(letters) > 1 and all(matches) and min(letters.values()) >= FEWEST:
        units = ", ".join(f'"{letter}*": {letter}' for letter in sorted(letters))
        plan.model.draft.doubt(
            f"names of spaces begin with {' and '.join(sorted(letters))}, as of dwelling units, which is not taken;"
            f" if they are, a mapping file says so: `units: {{{units}}}`"
        )


__all__ = ["read_units"]
