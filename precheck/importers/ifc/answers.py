"""Values that a person put into the model for this check: properties of the set `Precheck`, named as in the project file.

A name is the key of the value, such as ``glazed area``, or the way to one below it: ``ceiling.height``, ``flights.1.tread``.
What the model shows by itself stays.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.importers.draft import Draft, Entry, Value, plain
from precheck.importers.ifc.model import Model, Property
from precheck.importers.writing import scalar

SET = "Precheck"


def named(path: Iterable[str | int]) -> str:
    """Return the name of the property that holds what stands at `path` of a part; items are counted from 1."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def read_answers(model: Model) -> None:
    """Put the values that the model holds for this check into the parts of its draft that are drawn from it."""
    draft = model.draft
    for entries in draft.parts.values():
        for entry in entries:
            given = entry["id"]
            if isinstance(given, Value) and given.entity.isdigit():
                for found in model.properties(model.ifc.by_id(int(given.entity))):
                    if found.set_name == SET:
                        _answer(draft, entry, found, given.text)


def _answer(draft: Draft, entry: Entry, found: Property, part: str) -> None:
    *way, last = found.name.strip().split(".")
    holder = _holder(entry, way)
    if holder is None or last in ("id", "drawn from"):
        draft.doubt(f"{found.told} names no value of a part; not taken", part)
    elif last in holder:
        draft.doubt(f"{found.told} is given, and the model shows {last} by itself, which is taken", part)
    else:
        value = found.value
        said = ("yes" if value else "no") if isinstance(value, bool) else plain(value)
        holder[last] = Value(said if said.startswith("[") else scalar(said), found.told, str(found.entity))


def _holder(entry: Entry, way: list[str]) -> Entry | None:
    """Return the record of a part in which a value stands, made where it is not there yet; None where there is no such."""
    here: Any = entry
    for step in way:
        if isinstance(here, list):
            here = here[int(step) - 1] if step.isdigit() and 0 < int(step) <= len(here) else None
        elif isinstance(here, dict):
            here = here.setdefault(step, {}) if not step.isdigit() else None
        if here is None or isinstance(here, Value):
            return None
    return here if isinstance(here, dict) else None


__all__ = ["SET", "named", "read_answers"]
