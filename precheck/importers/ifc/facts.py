"""What is read of elements of every kind: the id that a part gets, what it is drawn from, phase, fire rating, heat."""

from __future__ import annotations

import re
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.model import Model
from precheck.importers.measures import transmittance
from precheck.importers.writing import scalar

_MINUTES = re.compile(r"(?:EI|E|REI|FD|T)?[ -]?(\d{2,3})(?: ?(?:min|minutes))?", re.IGNORECASE)
_NO_TAG = re.compile(r"[0-9A-Fa-f]{8}-[0-9A-Fa-f-]{20,}|[0-]*")  # what programs put there by themselves
_U_MEASURE = "IfcThermalTransmittanceMeasure"
HIGHEST_U = 10.0  # W/m2K; a single pane in a metal frame has about 7
_HOURS = re.compile(r"(\d(?:\.\d+)?) ?(?:hr|h|hour|hours)", re.IGNORECASE)


def guid(element: Any, part: str = "") -> Value:
    """Return the `drawn from` of a part: what the entity is, the id that it keeps between exports, and which part of it."""
    told = f"{element.is_a()} {plain(element.GlobalId)} {part}".strip()
    return Value(scalar(told), f"#{element.id()}", str(element.id()))


def wanted_id(model: Model, element: Any, letters: str) -> str:
    """Return the id that `element` asks for: its mark, else its tag or name, with `letters` before a bare number."""
    number = called(model, element)
    return f"{letters}{number}" if number[:1].isdigit() else number


def called(model: Model, element: Any) -> str:
    """Return what people call `element`: its mark, else its tag, or its name where the tag is only a program's."""
    mark = model.first(element, "id", f"#{element.id()}")
    tag = plain(element.Tag or "")
    named = (element.Name,) if _NO_TAG.fullmatch(tag) else (tag, element.Name)
    return plain(mark.value) if mark else plain(next(filter(None, named), element.id()))


def leave_out(model: Model, element: Any, why: str) -> None:
    """Tell that no part is made of `element`, by what people call it."""
    model.draft.doubt(why, called(model, element))
    model.told.add(element.id())


def begun(element: Any, part: str) -> Entry:
    """Return the entry of a part with its id and what it is drawn from."""
    return {"id": Value(part, plain(element.Name or ""), str(element.id())), "drawn from": guid(element)}


def phase(model: Model, element: Any, part: str) -> Entry:
    """Return the phase of `element`, where a property says one that is known."""
    for found in model.given(element, "phase", part):
        if word := model.mapping.phase(str(found.value)):
            return {"phase": Value(word, f"{found.told} {plain(found.value)}", str(found.entity))}
        model.draft.doubt(f"the phase `{plain(found.value)}` is not known; a mapping file can say what it means", part)
        return {}
    if not model.mapping.phase_otherwise:
        model.draft.unsaid["phase"][part] += 1
    return phase_otherwise(model)


def phase_otherwise(model: Model) -> Entry:
    """Return the phase that a mapping file says of all parts that give none of their own."""
    said = model.mapping.phase_otherwise
    return {"phase": Value(said, "the mapping file, for parts that give none")} if said else {}


def fire_rating(model: Model, element: Any, part: str) -> Entry:
    """Return the fire rating of `element`, where a property gives a time."""
    for found in model.given(element, "fire rating", part):
        said = plain(found.value)
        minutes, hours = _MINUTES.fullmatch(said), _HOURS.fullmatch(said)
        if minutes or hours:
            text = f"{minutes[1]} min" if minutes else f"{hours[1]} hr" if hours else ""
            return {"fire rating": Value(text, f"{found.told} {said}", str(found.entity))}
        model.draft.doubt(f"the fire rating `{said}` is not understood; not taken", part)
    return {}


def thermal(model: Model, element: Any, part: str) -> Entry:
    """Return the U-factor and solar heat gain of a window, door or skylight, where properties give what they can be."""
    entry: Entry = {}
    for found in model.given(element, "u factor", part):
        if found.measure != _U_MEASURE:
            model.draft.doubt(
                f"{found.name} is not given as {_U_MEASURE}, so that its unit is not known; not taken", part
            )
        elif found.si is None or not 0 < found.si <= HIGHEST_U:
            model.draft.doubt(f"{found.name} is {plain(found.value)}, which no window or door has; not taken", part)
        else:
            entry.setdefault("u factor", Value(transmittance(found.si), found.told, str(found.entity)))
    for found in model.given(element, "shgc", part):
        if found.si is None or not 0 < found.si < 1:
            model.draft.doubt(f"{found.name} is {plain(found.value)}, which no glass has; not taken", part)
        else:
            model.draft.doubt("solar heat gain is that of the glass; that of the unit is less, by the frame", part)
            entry.setdefault("shgc", Value(f"{found.si:.3g}", found.told, str(found.entity)))
    return entry


def words_of(element: Any, kind: Any = None) -> str:
    """Return what `element` and its type are called, in small letters."""
    said = (element.Name, getattr(element, "ObjectType", None), getattr(kind, "Name", None))
    return plain(" ".join(str(word) for word in said if word)).lower()


def predefined(element: Any, kind: Any = None) -> str:
    """Return the predefined type of `element` or of its type; empty where it says none."""
    said = (str(getattr(one, "PredefinedType", None) or "") for one in (element, kind) if one is not None)
    return next((word for word in said if word not in ("", "NOTDEFINED", "USERDEFINED")), "")


__all__ = [
    "begun",
    "called",
    "fire_rating",
    "guid",
    "leave_out",
    "phase",
    "phase_otherwise",
    "predefined",
    "thermal",
    "wanted_id",
    "words_of",
]
