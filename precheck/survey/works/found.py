"""A work as it is found, before it is a fact that rules are about."""

from __future__ import annotations

from typing import NamedTuple

from precheck.project import Part


class Found(NamedTuple):
    """A work that the project holds: its kind, the part it is shown at (None: the project), and the parts that make it."""

    kind: str
    about: Part | None
    parts: tuple[Part, ...]
