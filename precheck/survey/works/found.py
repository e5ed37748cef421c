"""A work as it is found, before it is a fact that rules are about."""

from __future__ import annotations

from typing import NamedTuple

from precheck.project import Part, Space
from precheck.project.work import ROOM_FROM


class Found(NamedTuple):
    """A work that the project holds: its kind, the part it is shown at (None: the project), and the parts that make it."""

    kind: str
    about: Part | None
    parts: tuple[Part, ...]


ADDED = frozenset(("addition", "upper addition"))
_NARROWER = {
    "addition": frozenset(("upper addition",)),
    "new room": ADDED | frozenset(ROOM_FROM.values()),
    "storage to room": frozenset(("basement to room",)),
    "opening made": frozenset(("opening widened",)),
    "demolition": frozenset(("wall removed", "opening closed", "overhead door closed")),
}
"""What a person may mean who lists a work by its general name."""


def means(listed: str, found: Found) -> bool:
    """Return whether a work that is listed is the one that was found, by its own name or a more general one."""
    if listed == found.kind or found.kind in _NARROWER.get(listed, ()):
        return True
    apart = listed == "garage" and found.kind == "detached building"
    return apart and isinstance(found.about, Space) and found.about.is_vehicle
