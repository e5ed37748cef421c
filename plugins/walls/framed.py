"""Walls whose framing is drawn, and new walls to the outside or to a porch, deck or carport whose framing should be; sizes of studs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Fact, House, Length, Wall, faces_out, fact, is_missing

INCH = Length.parse("1 in")
WIDE_FROM = 7  # nominal inches from which lumber is dressed by 3/4 in instead of 1/2 in


@fact
class FramedWall(Fact):
    """A framed wall; `framing` is an absence where a new wall to the outside does not show any."""

    wall: Wall

    @classmethod
    def found_in(cls, house: House) -> Iterator[FramedWall]:
        """Yield walls with framing, and new walls to the outside or to a porch, deck or carport that no layers show to be of masonry."""
        for wall in house.project.walls:
            due = faces_out(wall, house) and wall.phase == "new" and wall.is_framed is not False
            if due or not is_missing(wall.framing):
                yield cls(wall, wall)

    @property
    def framing(self) -> Any:
        """The framing as drawn, or its absence."""
        return self.wall.framing


def wide(nominal: str) -> int:
    """Return the nominal width of a size such as ``2x4``: 4."""
    return int(nominal.partition("x")[2])


def thick(nominal: str) -> int:
    """Return the nominal thickness of a size such as ``2x4``: 2."""
    return int(nominal.partition("x")[0])


def dressed(nominal: str) -> Length:
    """Return the true width of a nominal size: 3 1/2 in of a 2x4."""
    quarters = 4 * wide(nominal) - (3 if wide(nominal) >= WIDE_FROM else 2)
    return INCH * quarters / 4
