"""Design files as projects: read into a draft whose every value says where it came from, with every doubt told.

The reader of a form is imported when a file of that form is read.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path

from precheck.importers.apart import read_apart
from precheck.importers.draft import Draft
from precheck.importers.files import refused
from precheck.importers.mapping import Mapping, read_mapping
from precheck.importers.settle import settled
from precheck.importers.writing import in_place, project_text
from precheck.project import Project, project_from
from precheck.project.section import Section


def read_design(
    path: Path,
    name: str | None = None,
    mapping: Mapping | None = None,
    tick: Callable[[int, int], None] = lambda done, total: None,
) -> Draft:
    """Read the design file at `path`, called `name` in messages, in a process of its own. Raises `Unusable`."""
    told = name or str(path)
    package = "ezdxf" if path.suffix.lower() == ".dxf" else "ifcopenshell"
    if find_spec(package) is None:
        extra = path.suffix.lower().lstrip(".")
        raise refused(told, f"reading it needs the package {package}; pip install 'precheck[{extra}]'")
    return read_apart(read_here, path, told, mapping or Mapping(), tick)


def read_here(path: Path, name: str, mapping: Mapping, tick: Callable[[int, int], None]) -> Draft:
    """Read the design file at `path` in this process. Raises `Unusable`."""
    if path.suffix.lower() == ".dxf":
        from precheck.importers.dxf import read_dxf as read
    else:
        from precheck.importers.ifc import read_ifc as read

    return settled(read(path, name, mapping, tick))


def project_of(draft: Draft, path: Path, sections: tuple[Section, ...] = ()) -> Project:
    """Return the project that `draft` comes to, its parts at the lines of the design file at `path`."""
    if path.suffix.lower() == ".dxf":
        from precheck.importers.dxf import lines_at
    else:
        from precheck.importers.ifc import lines_at

    return project_from(in_place(draft, lines_at(path)), sections)


__all__ = ["Draft", "Mapping", "project_of", "project_text", "read_design", "read_here", "read_mapping"]
