"""Braced wall lines with the phase by which their amount is judged: an old one under a new story has more to hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import BracedLine, Fact, House, Works, fact


@fact
class LoadedLine(Fact):
    """A braced wall line; `under_new_story` where a story is built on the house."""

    line: BracedLine
    under_new_story: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[LoadedLine]:
        """Yield every braced wall line."""
        taller = Works.of(house).add_a_story
        for line in house.subjects(BracedLine):
            yield cls(line, line, taller and line.stories_above != 0)

    @property
    def phase(self) -> Any:
        """``altered`` where one that stands gets a story more above it."""
        return self.line.phase_where(self.under_new_story)

    @property
    def designed_by(self) -> Any:
        """Who designed the line."""
        return self.line.designed_by
