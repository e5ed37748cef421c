"""Old fans and ducts beside new work: what stood there is judged anew where what it serves, or blows into, is new."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Appliance, DryerDuct, Exhaust, Fact, House, Missing, Space, WholeHouseVentilation, fact, missing_of


@fact
class ExhaustOf(Fact):
    """An exhaust fan or hood, its space, and the attics and crawl spaces that become rooms, where it ends in one."""

    exhaust: Exhaust
    space: Space | None
    into: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[ExhaustOf]:
        """Yield every exhaust."""
        for exhaust in house.subjects(Exhaust):
            into = tuple(space for space in house.spaces if space.was == exhaust.discharges_to)
            yield cls(exhaust, exhaust, house.space(exhaust.space), into)


@fact
class HoodOf(Fact):
    """An exhaust fan or hood, its space, and the appliances that draw their air from the rooms, as it does, or may."""

    exhaust: Exhaust
    space: Space | None
    burning: tuple[Appliance, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[HoodOf]:
        """Yield every exhaust."""
        there = [a for a in house.subjects(Appliance) if not a.is_removed and a.burns_fuel is not False]
        burning = tuple(a for a in there if a.natural_draft is not False and a.direct_vent is not True)
        for exhaust in house.subjects(Exhaust):
            yield cls(exhaust, exhaust, house.space(exhaust.space), burning)

    @property
    def draws_room_air(self) -> bool | Missing:
        """Whether one of the appliances draws its air from the rooms, as far as they are drawn."""
        sure = any(a.burns_fuel is True and a.natural_draft is True for a in self.burning)
        unsaid = missing_of(*(value for a in self.burning for value in (a.burns_fuel, a.natural_draft)))
        return sure or (False if unsaid is None else unsaid)


@fact
class DryerAt(Fact):
    """A dryer duct, its space, the clothes dryers there, and what becomes rooms of the place where it ends."""

    duct: DryerDuct
    space: Space | None
    dryers: tuple[Appliance, ...]
    into: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[DryerAt]:
        """Yield every dryer duct."""
        dryers = [a for a in house.subjects(Appliance) if a.what == "clothes dryer" and not a.is_removed]
        for duct in house.subjects(DryerDuct):
            into = tuple(space for space in house.spaces if space.was == duct.discharges_to)
            yield cls(duct, duct, house.space(duct.space), tuple(a for a in dryers if a.space == duct.space), into)


@fact
class HouseFan(Fact):
    """Ventilation of the whole house and the bedrooms that it has to serve."""

    fan: WholeHouseVentilation
    bedrooms: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[HouseFan]:
        """Yield every system."""
        bedrooms = tuple(space for space in house.spaces if space.is_sleeping)
        for fan in house.subjects(WholeHouseVentilation):
            yield cls(fan, fan, bedrooms)
