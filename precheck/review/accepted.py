"""Findings that the building department has accepted on a document: a variance, an approved alternate, a letter.

They stand in a file beside the project. An accepted finding no longer stops the job, and every report still lists it
with its document. A record that has run out, that matches nothing, or that accepts a better value than is now drawn is
told, so that the file stays true::

    accepted:
      - rule: stairs.riser-height
        part: S1                      # the id of the part, what reports call it, or: project
        value: 8 in                   # what was accepted, as the report gave it; a worse one is not; several as a list
        document: Variance V-2026-014
        by: Building official, Tamarack County
        until: 2026-12-31             # optional; without it the record holds until it is removed
        project: house.yaml           # optional; only for this file, where several share the folder
        note: the old stair well cannot be enlarged
"""

from __future__ import annotations

from datetime import date
from pathlib import Path, PureWindowsPath
from typing import Any

from precheck.files import spelling
from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.record import NOT_GIVEN, Maybe, Record, read_record
from precheck.files.source import read_file
from precheck.immutable import fixed

FILE_NAME = "accepted.yaml"
PROJECT = "project"


class Acceptance(Record):
    """One accepted finding: which, on what document, by whom, until when."""

    kind = "accepted finding"
    rule: str
    part: str
    document: str
    by: str
    value: Maybe[str | int | float | tuple[str, ...]] = NOT_GIVEN
    until: Maybe[date] = NOT_GIVEN
    project: Maybe[str] = NOT_GIVEN
    note: str = ""

    @property
    def topic(self) -> str:
        """The topic of the rule."""
        return self.rule.partition(".")[0]

    def is_of(self, file: str) -> bool:
        """Return whether the record counts for project file `file`, on whatever system either name was written."""
        return is_missing(self.project) or PureWindowsPath(self.project).name == PureWindowsPath(file).name

    def has_expired(self, today: date) -> bool:
        """Return whether the last day of the record is past."""
        return not is_missing(self.until) and self.until < today

    @property
    def values(self) -> tuple[str, ...]:
        """The values that were accepted, as they are written."""
        given = () if is_missing(self.value) else self.value
        return given if isinstance(given, tuple) else (str(given),)

    @property
    def text(self) -> str:
        """The document, who accepted it, until when, and the note."""
        until = "" if is_missing(self.until) else f", until {self.until}"
        return f"{self.document}, by {self.by}{until}{f': {self.note}' if self.note else ''}"


class AcceptedFile(Record):
    """The accepted findings of one file."""

    kind = "list of accepted findings"
    accepted: tuple[Acceptance, ...]


@fixed
class RecordNotice:
    """A record of the file that needs a hand: where it stands, and what is wrong with it."""

    record: Acceptance
    what: str
    expired: bool = False

    def __str__(self) -> str:
        return f"{self.record.place}: {self.record.rule} of {self.record.part}: {self.what}"


def read_accepted(path: Path) -> tuple[Acceptance, ...]:
    """Return the records of the file at `path`. Raises `Unusable`."""
    return read_record(AcceptedFile, read_file(path)).accepted


def beside(project_file: Path) -> Path | None:
    """Return the file of accepted findings beside a project file, or None where there is none."""
    path = project_file.parent / FILE_NAME
    return path if path.is_file() else None


def names(record: Acceptance, rule_name: str, part_id: str | None, label: str) -> bool:
    """Return whether `record` names the finding of that rule on that part (None: on the project itself)."""
    about = {label, part_id} if part_id is not None else {label, PROJECT}
    is_named = record.part in about or spelling.today(record.part) in about
    return is_named and spelling.name(record.rule, (rule_name,), spelling.FORMER_RULES) is not None


def several(record: Acceptance, labels: list[str]) -> RecordNotice:
    """Return the word that `record` names a part of which several things are found, so that it accepts none of them."""
    return RecordNotice(record, f"names several findings; write which it accepts as `part:`: {', or '.join(labels)}")


def expired(record: Acceptance) -> RecordNotice:
    """Return the word that `record` has run out."""
    return RecordNotice(record, f"{record.document} expired on {record.until}; renew it, or remove the record", True)


def matches_nothing(record: Acceptance, rules: Any, parts: Any) -> RecordNotice:
    """Return the word that no finding is left that `record` would accept, and what may have been meant."""
    if spelling.name(record.rule, rules, spelling.FORMER_RULES) is None:
        return RecordNotice(record, f"no rule is called `{record.rule}`{nearest(record.rule, rules)}")
    if record.part not in parts and spelling.today(record.part) not in parts:
        return RecordNotice(record, f"no part is called `{record.part}`{nearest(record.part, parts) or _known(parts)}")
    return RecordNotice(record, "this rule finds nothing to accept there; remove the record, or name its project")


def _known(parts: Any) -> str:
    return f"; known: {', '.join(sorted(parts)[:12])}"
