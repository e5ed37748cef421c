"""Old footings, plates and walls beside new work: they are judged anew where they have to carry or hold something new."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Driveway, Fact, Footing, House, RetainingWall, Works, fact, is_missing


@fact
class LoadedFooting(Fact):
    """A footing; `anew` where it gets load from what is new or altered: a post, or a story that is built on the house."""

    footing: Footing
    anew: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[LoadedFooting]:
        """Yield every footing."""
        taller = Works.of(house).add_a_story
        for footing in house.subjects(Footing):
            under_walls = footing.form != "isolated" and taller
            yield cls(footing, footing, under_walls or house.is_loaded_anew(footing))

    @property
    def phase(self) -> Any:
        """``altered`` where one that stands gets new load."""
        return self.footing.phase_where(self.anew)

    @property
    def designed_by(self) -> Any:
        """Who designed the footing."""
        return self.footing.designed_by


@fact
class HeldEarth(Fact):
    """A retaining wall with the wall below it, and the drives that are its other load."""

    wall: RetainingWall
    lower: RetainingWall | None
    drives: tuple[Driveway, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[HeldEarth]:
        """Yield every retaining wall."""
        for wall in house.subjects(RetainingWall):
            lower = None if is_missing(wall.below) else house.project.by_id.get(wall.below)
            drives = tuple(d for d in house.subjects(Driveway) if not d.is_removed)
            beside = drives if wall.other_load == "driveway" or not is_missing(wall.load_at) else ()
            yield cls(wall, wall, lower if isinstance(lower, RetainingWall) else None, beside)
