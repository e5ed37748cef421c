"""Rooms whose gas appliances draw their air from the room: what they burn, and how much air the rooms hold."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import reduce
from operator import add
from typing import Any

from precheck import (
    AirOpening,
    Appliance,
    Area,
    CombustionAir,
    Fact,
    HeatRate,
    House,
    Length,
    Limit,
    Missing,
    Ratio,
    Space,
    Volume,
    fact,
    is_missing,
    missing_of,
    when_given,
)

FOOT = Length.parse("1 ft")
SQUARE_INCH = Area.parse("1 sq in")
GAS = frozenset(("natural gas", "propane"))
MAY_BURN = frozenset(("water heater", "furnace", "boiler", "room heater"))


@fact
class CombustionRoom(Fact):
    """A room with gas appliances that are not direct-vent; `air` is what the drawings say of its air, if anything.

    `known` is the input of those appliances that give one.
    """

    space: Space
    air: CombustionAir | None
    input: HeatRate | Missing
    known: HeatRate | Missing
    volume: Volume | Missing
    from_outdoors: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[CombustionRoom]:
        """Yield every room with combustion air, or with a gas appliance that draws on it, which the work touches.

        The work touches the room where it changes the room, its appliances or their air, or a room beside it.
        """
        drawn: dict[str, CombustionAir] = {
            air.space: air for air in house.subjects(CombustionAir) if not air.is_removed
        }
        burning: dict[str, Appliance] = {a.space: a for a in reversed(_drawing_on_room(house))}
        for space in house.spaces:
            air = drawn.get(space.id)
            if (air is not None or space.id in burning) and _is_touched(space, air, house):
                about = air if air is not None else burning[space.id]
                outdoors = any(a.space == space.id and a.combustion_air == "outdoor" for a in _drawing_on_room(house))
                inputs = _input(space, air, house), _known_input(space, air, house)
                yield cls(about, space, air, *inputs, _volume(space, air, house), outdoors)

    def joined_through_garage(self, house: House) -> tuple[Space, ...]:
        """Return the joined rooms that lie across the separation of a garage: openings for air may not cross it."""
        names = self.air.joined if self.air is not None else ()
        joined = [space for name in names if (space := house.space(name)) is not None]
        return tuple(one for one in joined if (one.use == "garage") is not (self.space.use == "garage"))

    @property
    def openings(self) -> tuple[AirOpening, ...]:
        """The openings for air, as drawn."""
        return self.air.openings if self.air is not None else ()

    @property
    def source(self) -> Any:
        """Where the air comes from: as stated, else outdoors where an opening or appliance says so, else the room."""
        if self.air is not None and not is_missing(self.air.source):
            return self.air.source
        outdoors = self.from_outdoors or any(opening.to == "outdoors" for opening in self.openings)
        return "outdoors" if outdoors else "indoors"


def free_area(opening: AirOpening, metal: Limit[Ratio], wood: Limit[Ratio]) -> Area | Missing:
    """Return the free area of `opening`: as its manufacturer states, else the share of its face that its cover leaves open.

    No more is open than its face, whatever is stated.
    """
    if not is_missing(opening.free_area) and not is_missing(opening.area):
        return min(opening.free_area, opening.area)
    if not is_missing(opening.free_area) or is_missing(opening.cover):
        return opening.free_area
    shares = {"metal louver": metal.value, "wood louver": wood.value}
    share = shares[opening.cover].n if opening.cover in shares else 1
    return when_given(lambda face: Area(face.n * share), opening.area)


def _drawing_on_room(house: House) -> list[Appliance]:
    appliances = house.subjects(Appliance)
    return [a for a in appliances if a.fuel in GAS and a.direct_vent is not True and not a.is_removed]


def _may_draw(appliance: Appliance) -> bool:
    """Return whether `appliance` does not say what it burns, and may burn gas with air of the room."""
    unsaid = is_missing(appliance.fuel) and appliance.what in MAY_BURN
    return unsaid and appliance.direct_vent is not True and not appliance.is_removed


def _is_touched(space: Space, air: CombustionAir | None, house: House) -> bool:
    own = [space, *(a for a in _drawing_on_room(house) if a.space == space.id), *([air] if air is not None else [])]
    beside = house.beside(space)
    own += [c for c in house.subjects(CombustionAir) if c.is_removed and c.space == space.id]
    return any(not part.is_existing for part in own) or any(not s.is_existing or s.changes_use for s in beside)


def _input(space: Space, air: CombustionAir | None, house: House) -> HeatRate | Missing:
    """Return the input of all appliances that draw on the rooms: as stated, or their sum where that comes to more."""
    rooms = {space.id, *(air.joined if air is not None else ())}
    inputs = [a.input for a in _drawing_on_room(house) if a.space in rooms]
    known = [one for one in inputs if not is_missing(one)]
    unsaid = missing_of(*(a.fuel for a in house.subjects(Appliance) if a.space in rooms and _may_draw(a)))
    if unsaid is not None:
        return unsaid
    if air is not None and not is_missing(air.input):
        return max([air.input, *([reduce(add, known)] if known else [])])
    return reduce(add, inputs) if inputs else (air or space).absent("input")


def _known_input(space: Space, air: CombustionAir | None, house: House) -> HeatRate | Missing:
    rooms = {space.id, *(air.joined if air is not None else ())}
    inputs = [a.input for a in _drawing_on_room(house) if a.space in rooms]
    known = [one for one in inputs if not is_missing(one)]
    return reduce(add, known) if known else (air or space).absent("input")


def _volume(space: Space, air: CombustionAir | None, house: House) -> Volume | Missing:
    """Return the volume of the rooms: as stated, or as drawn where that comes to less."""
    rooms = [space, *(s for name in (air.joined if air is not None else ()) if (s := house.space(name)) is not None)]
    drawn: Volume | Missing = reduce(add, (_volume_of(room, house) for room in rooms))
    if air is None or is_missing(air.volume):
        return drawn
    return air.volume if is_missing(drawn) else min(air.volume, drawn)


def _volume_of(room: Space, house: House) -> Volume | Missing:
    return when_given(
        lambda area, height: Volume(Fraction(area.n * height.n) / FOOT.n**3),
        house.area(room),
        house.ceiling_height(room),
    )
