"""A section, chapter or topic of the code, as a place names it that deletes all of it."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from precheck.rulesets.limit import Limit

_NAMED = re.compile(r"(section|chapter|topic) +(\S+)|(chapters) +([0-9]{1,3} to [0-9]{1,3})", re.IGNORECASE)
_SECTION = re.compile(r"(?:Table |Figure )?([A-Z]*)(\d+(?:\.\d+)*)")


class PartOfCode(NamedTuple):
    """A part of the code, of the kind ``section``, ``chapter``, ``chapters`` or ``topic``, by its number or name."""

    kind: str
    name: str

    def __str__(self) -> str:
        return f"{self.kind} {self.name}"

    def holds(self, limit: Limit[Any]) -> bool:
        """Return whether `limit` stands in it with all that it cites; the rest of what it cites goes on to ask it."""
        if self.kind == "topic":
            return limit.name.partition(".")[0] == self.name
        cited = self._cited(limit)
        return bool(cited) and all(self._is_above(found) for found in cited)

    def cites(self, limit: Limit[Any]) -> bool:
        """Return whether `limit` cites it, or what stands in it, among whatever else."""
        return any(self._is_above(found) for found in self._cited(limit))

    def _cited(self, limit: Limit[Any]) -> list[re.Match[str]]:
        return [found for one in limit.section.split(", ") if (found := _SECTION.match(one))]

    def _is_above(self, cited: re.Match[str]) -> bool:
        chapter = cited[2].partition(".")[0][:-2]  # R302 stands in chapter 3, N1102 in 11
        if self.kind == "chapter":
            return chapter == self.name
        if self.kind == "chapters":
            first, last = map(int, self.name.split(" to "))
            return chapter.isdecimal() and first <= int(chapter) <= last
        section = cited[1] + cited[2]
        return section == self.name or section.startswith(f"{self.name}.")


def part_of_code(named: str) -> PartOfCode | None:
    """Return the part of the code that ``section R302.13``, ``chapter 11``, ``chapters 11 to 31`` or ``topic energy`` names.

    None where it names none of these.
    """
    found = _NAMED.fullmatch(" ".join(named.split()))
    return PartOfCode((found[1] or found[3]).lower(), found[2] or found[4]) if found else None
