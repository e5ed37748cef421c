"""A project as drawn from a design file: parts whose every value knows where it came from, and what is in doubt."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import PurePath
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from precheck.importers.confirming import RecognizedSheet

UNSAID = ("uses", "materials", "phase")
_NOT_THERE = re.compile(
    r"\bleft out\b|\bnot (?:clear|given|known|modeled|said|shown|taken|understood)\b|\bno (?:use|lumber size|body)\b"
)
_TAKEN = re.compile(r"(?<!not )\btaken (?:for|off|to)\b|\b(?:is|are) (?:taken|used)\b")
NAMED = 8  # parts that a doubt names before it only counts them


class Value(NamedTuple):
    """A value as a project file would hold it, what it was read from, and the entity of the design file that gave it."""

    text: str
    source: str = ""
    entity: str = ""


Entry = dict[str, Any]
"""One part: key to `Value`, to an `Entry`, or to a list of entries. Its `entity` is that of its `id`."""


class Understood(NamedTuple):
    """How many things of a kind were taken over, of how many in the file."""

    what: str
    taken: int
    of: int


@dataclass
class Draft:
    """What was read from one design file. `parts` holds the lists of a project by their keys.

    `head` is the `design file` of the project: what it is drawn from, and where the plan lies in that. `lines` says at
    which line (from 1) of the file each entity stands, where a reader of a plugin knows it. `understood` counts what was
    taken over; `warning` says of the whole file what a person must know first. `unsaid` counts, by the key of a mapping file
    that would say it, the names that are not understood, and the parts without a phase.
    """

    file: str
    form: str
    project: str
    parts: dict[str, list[Entry]] = field(default_factory=dict)
    head: Entry = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    understood: list[Understood] = field(default_factory=list)
    warning: str = ""
    unsaid: dict[str, Counter[str]] = field(default_factory=lambda: {key: Counter() for key in UNSAID})
    not_read: Counter[str] = field(default_factory=Counter)
    lines: dict[str, int] = field(default_factory=dict)
    recognized: RecognizedSheet | None = None
    _doubts: dict[str, list[str]] = field(default_factory=dict)
    _ids: set[str] = field(default_factory=lambda: {"outside"})

    def add(self, key: str, entry: Entry) -> Entry:
        """Add a part to the list `key`."""
        self.parts.setdefault(key, []).append(entry)
        return entry

    def doubt(self, what: str, about: str = "") -> None:
        """Note a doubt, said once for all the parts that it is about."""
        named = self._doubts.setdefault(what, [])
        if about and about not in named:
            named.append(about)

    def begin_with(self, other: Draft) -> None:
        """Take over what another way of reading the same file told of it."""
        self.warning, self.recognized, self.left_out = other.warning, other.recognized, [*other.left_out]
        self._doubts = {what: [*about] for what, about in other._doubts.items()}

    @property
    def told(self) -> str:
        """What was understood of the file, of how many, in one line; first what makes the whole of it doubtful."""
        return " ".join(filter(None, (self.warning, self.read)))

    @property
    def read(self) -> str:
        """How many things of each kind were taken over, of how many; empty where nobody counted."""
        listed = ", ".join(f"{one.taken} of {one.of} {one.what}" for one in self.understood if one.of)
        return f"Read from {PurePath(self.file).name}: {listed}." if listed else ""

    @property
    def doubts(self) -> list[str]:
        """Every doubt in a line of its own: first what is not there, then what was taken in one way and may be another."""
        return [*self.missing, *self.to_look_over]

    @property
    def missing(self) -> list[str]:
        """What of the file was not understood or left out, so that it is not in the project."""
        return [line for line in self._every_doubt() if _is_missing(line)]

    @property
    def to_look_over(self) -> list[str]:
        """What was understood and taken, and a person should look at."""
        return [line for line in self._every_doubt() if not _is_missing(line)]

    def _every_doubt(self) -> list[str]:
        return [*self._of_values(), *self.left_out, *self._unread()]

    def _of_values(self) -> Iterator[str]:
        for what, about in self._doubts.items():
            more = f" and {len(about) - NAMED} more" if len(about) > NAMED else ""
            yield f"{', '.join(about[:NAMED])}{more}: {what}" if about else what

    def _unread(self) -> Iterator[str]:
        if self.not_read:
            listed = ", ".join(f"{kind} ({count})" for kind, count in sorted(self.not_read.items()))
            yield f"in the file and not taken over: {listed}"

    def free_id(self, wanted: str, else_: str = "") -> str:
        """Return `wanted` as an id that no other part has; where one has it, `else_`, or `wanted` with a number."""
        base = re.sub(r"[^\w.-]+", "-", plain(wanted).replace(" - ", "-")).strip("-.") or "part"
        if else_ and base in self._ids:
            return self.free_id(else_)
        found, number = base, 1
        while found in self._ids:
            number += 1
            found = f"{base}-{number}"
        self._ids.add(found)
        return found


def _is_missing(doubt: str) -> bool:
    return bool(_NOT_THERE.search(doubt)) and not _TAKEN.search(doubt)


def plain(text: Any) -> str:
    """Return `text` in one line of printable characters, since a design file may hold anything."""
    return " ".join("".join(c if c.isprintable() else " " for c in str(text)).split())[:200]


__all__ = ["Draft", "Value"]
