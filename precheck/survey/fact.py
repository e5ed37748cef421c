"""The base of facts that a topic derives from the survey and writes rules about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from precheck.project import Part
from precheck.project.section import Entry
from precheck.record import Record
from precheck.source import Place


@dataclass(frozen=True)
class Fact:
    """Something derived that rules are about. `about` is the record that it is shown at and named after.

    A topic subclasses it and adds ``found_in(house)``, a class method that yields its facts of one house.
    """

    about: Record | Entry

    @property
    def label(self) -> str:
        """What messages call it."""
        return self.about.label

    @property
    def place(self) -> Place:
        """Where its record stands in the project file."""
        return self.about.place

    @property
    def phase(self) -> Any:
        """The phase of the part that it belongs to."""
        return phase_of(self.about)


def part_of(subject: Any) -> Part | None:
    """Return the part that a subject is, is about, or lies within; None for the project itself."""
    record = getattr(subject, "about", subject)
    while record is not None and not isinstance(record, Part):
        record = getattr(record, "owner", None)
    return record


def phase_of(subject: Any) -> Any:
    """Return the phase of the part that `subject` belongs to, or None for the project itself; a fact may give its own."""
    if isinstance(subject, Fact):
        return subject.phase
    part = part_of(subject)
    return part.phase if part is not None else None
