"""What gives its height twice: floors by their build-up and level, sills by their height and level."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Fact, Floor, House, Length, Window, fact, is_missing


@fact
class FloorGivenTwice(Fact):
    """A floor whose finished level is stated, and whose base has a level too."""

    floor: Floor

    @classmethod
    def found_in(cls, house: House) -> Iterator[FloorGivenTwice]:
        """Yield the floors that give both."""
        for floor in house.subjects(Floor):
            if not is_missing(floor.finished_level) and not is_missing(floor.base_level) and not floor.is_removed:
                yield cls(floor, floor)


@fact
class SillGivenTwice(Fact):
    """A window whose sill height is stated, and whose sill and floor have levels too: `by_levels` is their difference."""

    window: Window
    by_levels: Length

    @classmethod
    def found_in(cls, house: House) -> Iterator[SillGivenTwice]:
        """Yield the windows that give both."""
        for window in house.subjects(Window):
            room = house.space(window.space)
            if room is None or is_missing(window.sill_height) or window.is_removed:
                continue
            by_levels = window.sill_level - house.finished_floor(room)
            if not is_missing(by_levels):
                yield cls(window, window, by_levels)
