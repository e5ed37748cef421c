"""Floors whose finished level is given, and what it is built up of as well."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Fact, Floor, House, fact, is_missing


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
