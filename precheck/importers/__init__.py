"""Design files as projects: read into a draft whose every value says where it came from, with every doubt told.

The reader of a form is imported when a file of that form is read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from precheck.importers.apart import read_apart
from precheck.importers.draft import Draft
from precheck.importers.files import refused
from precheck.importers.mapping import Mapping, read_mapping
from precheck.importers.settle import settled
from precheck.importers.writing import in_place, project_text
from precheck.project import AddedField, Project, Section, project_from
from precheck.rules.offered import Importer

NEEDED = {".ifc": (("ifcopenshell",), "ifc"), ".dxf": (("ezdxf",), "dxf"), ".pdf": (("pypdfium2", "shapely"), "pdf")}
"""The packages that read files of an ending, and the extra that brings them."""


def read_design(
    path: Path,
    name: str | None = None,
    mapping: Mapping | None = None,
    tick: Callable[[int, int], None] = lambda done, total: None,
    added: Iterable[Importer] = (),
) -> Draft:
    """Read the design file at `path`, called `name` in messages, in a process of its own. Raises `Unusable`.

    `added` are the readers that plugins offer for files of other endings.
    """
    told = name or str(path)
    if offered := next((one for one in added if path.suffix.lower() == one.suffix.lower()), None):
        return read_apart(partial(_read_added, offered.read), path, told, mapping or Mapping(), tick)
    packages, extra = NEEDED.get(path.suffix.lower(), NEEDED[".ifc"])
    for package in packages:
        if find_spec(package) is None:
            raise refused(told, f"reading it needs the package {package}; pip install 'precheck[{extra}]'")
    return read_apart(read_here, path, told, mapping or Mapping(), tick)


def read_here(path: Path, name: str, mapping: Mapping, tick: Callable[[int, int], None]) -> Draft:
    """Read the design file at `path` in this process. Raises `Unusable`."""
    if path.suffix.lower() == ".dxf":
        from precheck.importers.dxf import read_dxf as read
    elif path.suffix.lower() == ".pdf":
        from precheck.importers.pdf import read_pdf as read
    else:
        from precheck.importers.ifc import read_ifc as read

    return settled(read(path, name, mapping, tick))


def _read_added(read: Callable[[Path, str], Any], path: Path, name: str, _: Mapping, __: Any) -> Draft:
    """Read a design file as a plugin does. Raises `Unusable`."""
    draft = read(path, name)
    if not isinstance(draft, Draft):
        raise TypeError(f"the plugin's reader returned {type(draft).__name__}, which is no Draft")
    project_text(draft)  # so that a draft which cannot be written down is refused here
    return draft


def project_of(draft: Draft, path: Path, added: tuple[Section | AddedField, ...] = ()) -> Project:
    """Return the project that `draft` comes to, its parts at the lines of the design file at `path`."""
    return project_from(in_place(draft, draft.lines or _lines_at(path)), added)


def _lines_at(path: Path) -> dict[str, int]:
    if path.suffix.lower() == ".dxf":
        from precheck.importers.dxf import lines_at
    elif path.suffix.lower() in (".ifc", ".ifczip"):
        from precheck.importers.ifc import lines_at
    else:
        return {}
    return lines_at(path)


__all__ = ["Draft", "Mapping", "project_of", "project_text", "read_design", "read_here", "read_mapping"]
