"""Files of other kinds that people hand in, told by their ending or by how they begin, each with what to do instead."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from precheck.files.source import Place, Problem, Unusable

BEGINS = 128  # bytes by which a kind is told
_PLAN = "take the drawing as DXF or IFC, or describe the job in a project file"
_MODEL = "export the house as IFC, or its plan as DXF, from the program that made it"


class ForeignKind(NamedTuple):
    """A kind of file as a sentence calls it, and what to do instead, or where it only bears the wrong name."""

    name: str
    instead: str
    misnamed: str = ""

    @property
    def under_another_name(self) -> str:
        """What to do with a file of this kind whose name says another."""
        return self.misnamed or self.instead


KINDS = {
    "DWG": ForeignKind("a DWG drawing", "save it as DXF in the program that drew it"),
    "PDF": ForeignKind(
        "a PDF",
        "`precheck import` makes a project file of a plan that was plotted to it; or take the drawing as DXF or IFC",
        "give it a name that ends in .pdf, and `precheck import` makes a project file of a plan that was plotted to it",
    ),
    "IFC": ForeignKind("an IFC model", "give it a name that ends in .ifc"),
    "DXF": ForeignKind("a DXF drawing", "give it a name that ends in .dxf"),
    "ifcXML": ForeignKind("a model written as XML", "export it as .ifc or .ifczip"),
    "model": ForeignKind("a model in its own program's form", _MODEL),
    "mesh": ForeignKind("a model of surfaces", _MODEL),
    "picture": ForeignKind("a picture", _PLAN),
    "document": ForeignKind("a document of an office program", _PLAN),
    "zip": ForeignKind("a zip file", "unpack it and name the file in it; a zipped IFC model ends in .ifczip"),
    "packed": ForeignKind("a packed file", "unpack it and name the file in it"),
}
ENDINGS = {
    ".dwg": "DWG", ".dwt": "DWG", ".dwf": "DWG", ".dgn": "DWG", ".pdf": "PDF", ".ifcxml": "ifcXML",
    **dict.fromkeys((".rvt", ".rfa", ".rte", ".skp", ".pln", ".vwx", ".fcstd", ".3dm", ".max", ".blend"), "model"),
    **dict.fromkeys((".obj", ".stl", ".fbx", ".dae", ".3ds", ".gltf", ".glb"), "mesh"),
    **dict.fromkeys((".png", ".jpg", ".jpeg", ".tif", ".tiff", ".bmp", ".gif", ".heic", ".svg", ".webp"), "picture"),
    **dict.fromkeys((".doc", ".docx", ".xls", ".xlsx", ".odt", ".ods", ".rtf"), "document"),
    ".zip": "zip", **dict.fromkeys((".gz", ".7z", ".rar", ".tar", ".tgz"), "packed"),
}  # fmt: skip
_SIGNS = (
    (rb"AC10\d\d", "DWG"), (rb"\s*%PDF-", "PDF"), (rb"PK\x03\x04|PK\x05\x06", "zip"), (rb"\x1f\x8b|7z\xbc\xaf|Rar!", "packed"),
    (rb"\x89PNG|\xff\xd8\xff|II\*\x00|MM\x00\*|GIF8|BM.{4}\x00\x00\x00\x00", "picture"),
    (rb"\xd0\xcf\x11\xe0|\xff\xfe\xff.S\x00k\x00e\x00t\x00c\x00h", "model"), (rb"\xef?\xbb?\xbf?\s*ISO-10303-21", "IFC"),
    (rb"AutoCAD Binary DXF|(?:\s*999[ \t]*\r?\n[^\n]*\n)*\s*0[ \t]*\r?\n\s*SECTION", "DXF"),
    (rb"\s*<\?xml.*ifcXML", "ifcXML"), (rb"\s*<\?xml.*<svg|\s*<svg", "picture"),
)  # fmt: skip
OWN = {".ifc": "IFC", ".dxf": "DXF", ".ifczip": "zip", ".pdf": "PDF"}  # what files begin as whose ending says so


def kind_of(start: bytes) -> str:
    """Return the kind of file that begins with `start`, one of `KINDS`; empty where it is none that is known."""
    begins = start[:BEGINS]
    return next((kind for sign, kind in _SIGNS if re.match(sign, begins, re.DOTALL)), "")


def refuse_foreign(file: str | Path) -> None:
    """Raise `Unusable` where the name of `file`, or else how it begins, says that it is of a kind that is not read.

    So it is where `-` stands for standard input.
    """
    path = Path(file)
    if str(file) == "-" and not path.exists():
        raise _not_read("-", "standard input has no name by which its kind is known; save it to a file and name that")
    if kind := ENDINGS.get(path.suffix.lower()):
        raise _not_read(str(file), f"{KINDS[kind].name} is not read as it is; {KINDS[kind].instead}")
    if kind := kind_of(_start(path)):
        raise _not_read(str(file), f"this is {KINDS[kind].name} under another name; {KINDS[kind].under_another_name}")


def refuse_other(file: str, suffix: str, start: bytes) -> None:
    """Raise `Unusable` where a file that ends in `suffix` begins as one of another kind than that says."""
    kind, own = kind_of(start), OWN.get(suffix.lower(), "")
    if kind and own and kind != own:
        what = f"this is {KINDS[kind].name} under the name of {KINDS[own].name}"
        raise _not_read(file, f"{what}; {KINDS[kind].under_another_name}")


def _start(path: Path) -> bytes:
    try:
        if not path.is_file():  # nor a pipe, which would be waited for
            return b""
        with path.open("rb") as opened:
            return opened.read(BEGINS)
    except OSError:
        return b""  # said by who reads it


def _not_read(file: str, what: str) -> Unusable:
    return Unusable([Problem(Place(file, 1, 1), what)])


__all__ = ["ENDINGS", "KINDS", "kind_of", "refuse_foreign", "refuse_other"]
