"""Areas that are stated of what is drawn as well: the house's floor, the floor that is ventilated, what covers the lot.

The rooms drawn may be part of the house alone, and roofs reach past walls, so what is drawn is the minimum of each.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from precheck import (
    Area,
    CoveredArea,
    DwellingUnit,
    Fact,
    House,
    Project,
    Space,
    WholeHouseVentilation,
    fact,
    is_missing,
)

SAME_AREA = Fraction(98, 100)
Stated = Project | WholeHouseVentilation | CoveredArea
OF_ONE_USE = ("garage", "carport", "porch")


@fact
class StatedArea(Fact):
    """An area that the file states: `least` is what is drawn of it, `rooms` how many rooms those are."""

    stated: Area
    least: Area
    what: str
    rooms: int

    @classmethod
    def found_in(cls, house: House) -> Iterator[StatedArea]:
        """Yield the areas stated of which something is drawn."""
        yield from _of_floors(house)
        yield from _of_lot(house)


def _of_floors(house: House) -> Iterator[StatedArea]:
    """Yield the floor area of the house, and that which its ventilation is worked out for; basements may not be counted."""
    rooms = [room for room in house.floor_area_rooms if house.story_level(room) != "basement"]
    stated = house.project.dwelling.floor_area
    if not is_missing(stated):
        yield from _stated(house.project, stated, rooms, "floor area of the house", house)
    for fan in house.subjects(WholeHouseVentilation):
        if not is_missing(fan.floor_area) and not fan.is_removed and len(house.subjects(DwellingUnit)) <= 1:
            yield from _stated(fan, fan.floor_area, rooms, "floor area that is ventilated", house)


def _of_lot(house: House) -> Iterator[StatedArea]:
    """Yield what covers the lot: the garages, carports or porches of it, and all roofs where the house is among them."""
    covered = [one for one in house.subjects(CoveredArea) if one.is_roofed and not one.is_removed]
    on_ground = [space for space in house.spaces if space.use != "deck" and _is_on_ground(space, house)]
    for use in OF_ONE_USE:
        same = [one for one in covered if one.what == use]
        yield from _covering(same, [s for s in on_ground if s.use == use], f"covered area of {use}s", house)
    if any(one.what == "house" for one in covered):
        yield from _covering(covered, on_ground, "area of all roofs", house)


def _covering(areas: list[CoveredArea], rooms: list[Space], what: str, house: House) -> Iterator[StatedArea]:
    given = [one.area for one in areas if not is_missing(one.area)]
    if areas and len(given) == len(areas):
        yield from _stated(areas[0], sum(given, Area(0)), rooms, what, house)


def _stated(about: Stated, stated: Area, rooms: list[Space], what: str, house: House) -> Iterator[StatedArea]:
    drawn = [area for room in rooms if not is_missing(area := house.area(room))]
    if drawn:
        yield StatedArea(about, stated, sum(drawn, Area(0)), what, len(drawn))


def _is_on_ground(space: Space, house: House) -> bool:
    """Return whether a space is on the ground story, or on the one plan that there is."""
    if not house.project.stories:
        return house.outline(space) is not None
    return house.story_level(space) == "ground"
