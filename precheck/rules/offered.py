"""What a plugin may offer: rules, rulesets, sections and fields of the file, formats of the report, readers of design files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from precheck.immutable import fixed
from precheck.project.added_field import AddedField
from precheck.project.section import Section
from precheck.rules.rule import Rule

__all__ = ["Importer", "ReportFormat"]

FORMATS = ("text", "json", "sarif", "junit", "github", "markdown", "html", "pdf")
"""The formats of the report that are our own."""
DESIGN_FORMATS = ("bcf", "bcf3", "ids", "dxf", "overlay")
"""The formats in which findings go back into the program that a design file comes from."""
DESIGN_FILES = (".ifc", ".ifczip", ".dxf")
"""How the names of design files end that we read ourselves."""
PLOTTED_FILES = (".pdf",)
"""How those end that are imported, and checked only as the project file that comes of them."""


@fixed
class ReportFormat:
    """A format for ``precheck check --report``.

    `render` takes a list of projects, each as plain data with the keys of the JSON report, and returns the report as text,
    or as bytes where it is none. A file that cannot be used is in the list too, with the verdict ``unusable``.
    """

    name: str
    render: Callable[[list[dict[str, Any]]], str | bytes]


@fixed
class Importer:
    """A reader of design files whose names end in `suffix`, such as ``.csv``, for ``precheck check`` and ``precheck import``.

    `read` takes the path and the name of the file in messages, and returns a `Draft`. It is a function at the top level of
    its module, for it runs in a process of its own, where what it prints goes nowhere.
    """

    suffix: str
    read: Callable[[Path, str], Any]


@fixed
class Offer:
    """What one loaded plugin offers."""

    plugin: str
    distribution: str
    rules: tuple[Rule, ...] = ()
    rulesets: tuple[Path, ...] = ()
    sections: tuple[Section, ...] = ()
    fields: tuple[AddedField, ...] = ()
    reports: tuple[ReportFormat, ...] = ()
    importers: tuple[Importer, ...] = ()
