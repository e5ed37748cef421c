"""Files of other kinds that people hand in, each with what to do instead."""

from __future__ import annotations

from pathlib import Path

from precheck.files.source import Place, Problem, Unusable

INSTEAD = {
    ".dwg": "a DWG drawing is not read; save it as DXF in the program that drew it",
    ".pdf": "a PDF is not read; take the drawing that it was printed from, as DXF or IFC, or describe the job in a project file",
    ".ifcxml": "a model written as XML is not read; export it as .ifc or .ifczip",
    **dict.fromkeys(
        (".png", ".jpg", ".jpeg", ".tif", ".tiff"),
        "a picture is not read; take the drawing as DXF or IFC, or describe the job in a project file",
    ),
}


def refuse_foreign(file: str | Path) -> None:
    """Raise `Unusable` where the name of `file` says that it is of a kind that is not read."""
    if instead := INSTEAD.get(Path(file).suffix.lower()):
        raise Unusable([Problem(Place(str(file), 1, 1), instead)])


__all__ = ["refuse_foreign"]
