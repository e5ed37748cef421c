"""What a rule is tried on: a subject with what has to be known of it before, or the error that asking for that came to."""

from __future__ import annotations

from typing import Any, NamedTuple, Protocol

from precheck.files.record import Record
from precheck.survey.fact import Exemption, phase_of


class Subject(Protocol):
    """What a rule may be about: a record of the project, or a fact that `found_in` works out from the survey."""

    @property
    def label(self) -> str:
        """What messages call it."""


class Candidate(NamedTuple):
    """A subject with its phase, its place and what may free it, or with the error that asking for these came to."""

    subject: Any
    phase: Any
    place: Any = None
    error: BaseException | None = None
    exemption: Exemption | None = None


def candidate_of(subject: Any) -> Candidate:
    """Return `subject` with its phase and place."""
    try:
        _ = subject.label  # a fact that cannot say what it is about is an error of its rules
        freed = None if isinstance(subject, Record) else getattr(subject, "exemption", None)
        exemption = freed if isinstance(freed, Exemption) else None
        return Candidate(subject, phase_of(subject), subject.place, None, exemption)
    except (Exception, SystemExit) as error:
        return Candidate(subject, None, None, error)
