"""Changes of a project file that belong together, with what the undo button calls them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from precheck.files.edit import GONE, Change
from precheck.files.record import fields_of
from precheck.project import Part, Project
from precheck.questions.answer import flow

Steps = tuple[str | int, ...]


class Changes(NamedTuple):
    """Changes that are made in one write, and what was done by them."""

    changes: Sequence[Change]
    what: str


def path_of(project: Project, part: Part) -> Steps:
    """Return where `part` stands in the file: its section, and its place in it. Raises ValueError."""
    for name, field in fields_of(type(project)).items():
        found = getattr(project, name)
        if isinstance(found, tuple) and part in found:
            return field.key, found.index(part)
    raise ValueError(f"{part.label} is in no list of the file")


def new_part(values: Mapping[str, str]) -> str:
    """Return a part as one line of a list; a value that is empty is left out."""
    return "{" + ", ".join(f"{key}: {flow(value)}" for key, value in values.items() if value) + "}"


def plain_id(project: Project, name: str) -> str:
    """Return a new id made of the letters and digits of a name: ``bedroom-2``."""
    plain = "-".join("".join(c if c.isalnum() and c.isascii() else " " for c in name.lower()).split()) or "room"
    taken = project.by_id
    if plain not in taken:
        return plain
    return next(one for n in range(2, len(taken) + 3) if (one := f"{plain}-{n}") not in taken)


def added(project: Project, section: str, values: Mapping[str, str]) -> Change:
    """Return the change that adds a part at the end of its section."""
    count = len(getattr(project, section.replace(" ", "_")))
    return Change((section, count), new_part(values))


__all__ = ["GONE", "Change", "Changes", "Steps", "added", "new_part", "path_of", "plain_id"]
