"""An opened DXF drawing: its unit, its layers by the mapping, and the rooms drawn in it."""

from __future__ import annotations

from fnmatch import fnmatchcase
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

from precheck.files.foreign import kind_of
from precheck.importers.draft import Draft, plain
from precheck.importers.files import refused, whole
from precheck.importers.mapping import Mapping
from precheck.importers.plane import P2

UNITS = {1: ("inches", 0.0254), 2: ("feet", 0.3048), 4: ("millimeters", 0.001), 5: ("centimeters", 0.01),
         6: ("meters", 1.0)}  # fmt: skip
_HEADER = 1024 * 1024  # bytes within which the header ends
BY_NAME = dict(UNITS.values())


class RoomOutline(NamedTuple):
    """A closed line of the drawing, in meters."""

    id: str
    outline: list[P2]


class OpenedDrawing:
    """An opened drawing with the mapping that reads it and the draft that it fills."""

    def __init__(self, document: Any, path: Path, name: str, mapping: Mapping) -> None:
        self.mapping, self.draft = mapping, Draft(name, "DXF", path.stem)
        self.space: Any = document.modelspace()
        told, self.meter = _unit(document, path, mapping, name)
        self.imperial = told in ("inches", "feet")
        self.draft.form = f"DXF in {told}"
        self.rooms: list[RoomOutline] = []
        self.taken: set[str] = set()

    def on(self, layers: tuple[str, ...], *kinds: str) -> list[Any]:
        """Return the entities of some kinds that are on `layers`."""
        return [e for e in self.space if e.dxftype() in kinds and is_on(e, layers)]

    def at(self, vector: Any) -> P2:
        """Return a point of the drawing in meters."""
        return float(vector[0]) * self.meter, float(vector[1]) * self.meter


def is_on(entity: Any, layers: tuple[str, ...]) -> bool:
    """Return whether an entity is on one of `layers`."""
    return any(fnmatchcase(entity.dxf.layer.upper(), layer.upper()) for layer in layers)


def opened(path: Path, name: str) -> Any:
    """Return the document of the DXF drawing at `path`. Raises `Unusable`."""
    ezdxf: Any = import_module("ezdxf")
    start, end = whole(path, name)
    if b"EOF" not in end[-64:]:
        if kind_of(start) != "DXF":
            raise refused(name, "this is no DXF drawing, whatever its name says; save it as DXF and name that file")
        raise refused(name, "the file is cut off: its last line, EOF, is not there; save or copy it again")
    try:
        return ezdxf.readfile(str(path))
    except Exception as error:  # whatever the reader makes of a broken file
        raise refused(name, f"not readable as DXF ({plain(error)[:80]}); save the drawing again") from None


def unit_said(document: Any, path: Path) -> str:
    """Return the unit that the header of a drawing says, by name; nothing where it says none that is known."""
    return UNITS.get(_insunits(document, path), ("", 0.0))[0]


def _insunits(document: Any, path: Path) -> int:
    with path.open("rb") as file:  # where there is no header, the reader supplies one with a unit of its own
        given = b"$INSUNITS" in file.read(_HEADER)
    return int(document.header.get("$INSUNITS", 0)) if given else 0


def _unit(document: Any, path: Path, mapping: Mapping, name: str) -> tuple[str, float]:
    if mapping.drawing_unit:
        return mapping.drawing_unit, BY_NAME[mapping.drawing_unit]
    number = _insunits(document, path)
    if number not in UNITS:
        what = f"the drawing does not say its unit ($INSUNITS is {number})"
        raise refused(name, f"{what}; set it, or write `drawing unit: inches` in a mapping file")
    return UNITS[number]


__all__ = ["OpenedDrawing", "RoomOutline", "is_on", "opened", "unit_said"]
