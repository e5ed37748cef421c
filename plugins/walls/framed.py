"""Walls whose framing is judged: those drawn with it, and new outside walls that should be; sizes of studs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Fact,
    House,
    Length,
    Missing,
    Wall,
    Works,
    carried_load,
    faces_out,
    fact,
    is_furring,
    is_missing,
    when_given,
)

STAYS = ("existing", "altered")
INCH = Length.parse("1 in")
WIDE_FROM = 7  # nominal inches from which lumber is dressed by 3/4 in instead of 1/2 in


@fact
class FramedWall(Fact):
    """A framed wall; `framing` is an absence where a new wall to the outside does not show any.

    `is_partition` says whether it stands inside and bears nothing, `anew` whether it carries something new or altered: a
    member on it, or a story that is built on the house.
    """

    wall: Wall
    is_partition: bool | Missing
    anew: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[FramedWall]:
        """Yield walls with framing, and new outside walls that no layers show to be of masonry.

        What lines a wall that stands is left out, and so is a wall that stays, or has an opening cut into it, and of which
        the file says only what it carries.
        """
        taller = Works.of(house).add_a_story
        for wall in house.project.walls:
            due = faces_out(wall, house) and wall.phase == "new" and wall.is_framed is not False
            drawn = not is_missing(wall.framing) and not (wall.phase in STAYS and is_missing(wall.framing.stud))
            if (due or drawn) and not is_furring(wall, house):
                anew = house.is_loaded_anew(wall) or (taller and not is_missing(wall.framing) and _is_under(wall))
                yield cls(wall, wall, _is_partition(wall, house), anew)

    @property
    def framing(self) -> Any:
        """The framing as drawn, or its absence."""
        return self.wall.framing

    @property
    def phase(self) -> Any:
        """``altered`` where one that stands has something new to carry."""
        return self.wall.phase_where(self.anew)


def _is_under(wall: Wall) -> bool:
    """Return whether a wall carries a floor, which a story that is built on the house puts on it."""
    return any(word in str(wall.framing.carries) for word in ("floor", "story", "stories"))


def _is_partition(wall: Wall, house: House) -> bool | Missing:
    if faces_out(wall, house):
        return False
    return when_given(lambda carries: carries == "nothing", carried_load(wall))


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
