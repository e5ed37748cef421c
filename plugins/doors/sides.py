"""What the rules for doors are about: each side of each exterior door, and each door between house and vehicles."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    OUTSIDE,
    Door,
    DwellingUnit,
    Fact,
    Floor,
    House,
    Landing,
    Length,
    Missing,
    Part,
    Space,
    Stair,
    WayOut,
    fact,
    first_given,
    is_exit,
    is_missing,
    reached,
    way_out,
)

MINOR_ROOMS = frozenset(("bathroom", "toilet room", "laundry", "hall"))
OUTDOOR = frozenset(("carport", "porch", "deck"))
NOT_WALKED_THROUGH = frozenset(("vehicle", "hatch"))


@fact
class DoorSide(Fact):
    """The floor or landing on one side of an exterior door. `outdoors` is the side away from the house.

    `inside` are the room within and the floors on both sides: an old step is judged anew where one of them is changed.
    """

    door: Door
    outdoors: bool
    side: str
    landing: Landing | None
    space: Space | None
    floor_inside: Length | Missing
    floor_here: Length | Missing
    is_required: bool | Missing
    inside: tuple[Part, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[DoorSide]:
        """Yield both sides of every door that a person walks through between the house and the outside."""
        marked = [door for door in house.subjects(Door) if is_egress(door, house)]
        for door in house.subjects(Door):
            inner = inside_of(door, house)
            if inner is None or not is_walked_through(door):
                continue
            stated = door.required_egress
            is_required = False if is_missing(stated) and _another(door, marked, house) else stated
            outer = next(side for side in door.between if side != inner.id)
            for side, outdoors in ((inner.id, False), (outer, True)):
                drawn = next((landing for landing in door.landings if landing.side == side), None)
                levels = (house.finished_floor(inner), _floor(house, side))
                parts = (inner, *floors_of(inner, _there(outer, house), house=house))
                yield cls(door, door, outdoors, side, drawn, _there(side, house), *levels, is_required, parts)

    @property
    def label(self) -> str:
        """The door and which side of it."""
        return f"{self.door.label}, {'outside' if self.outdoors else 'inside'}"

    @property
    def is_undrawn(self) -> bool:
        """Whether nothing is drawn outside: no landing and no floor, so that the landing itself is to be shown first."""
        return self.outdoors and self.landing is None and self.space is None

    @property
    def threshold_top(self) -> Length | Missing:
        """Level of the top of the threshold."""
        return self.floor_inside + self.door.threshold_height

    @property
    def drop(self) -> Length | Missing:
        """Top of the threshold down to this landing or floor: as stated, else from the levels."""
        if self.landing is not None and not is_missing(self.landing.drop):
            return self.landing.drop
        if not self.outdoors and self.landing is None:
            return self.door.threshold_height
        by_levels = self.drop_by_levels
        return self._wanted("drop") if is_missing(self.floor_inside - self.level) else by_levels

    @property
    def drop_by_levels(self) -> Length | Missing:
        """The drop that the levels come to."""
        return self.threshold_top - self.level

    @property
    def level(self) -> Length | Missing:
        """Level of this floor or landing."""
        return self.floor_here if self.landing is None else first_given(self.landing.level, self.floor_here)

    @property
    def derived(self) -> str:
        """How the drop was come by."""
        if (self.landing is not None and not is_missing(self.landing.drop)) or not self.outdoors:
            return "as stated"
        way = "above" if self.is_step_up else "below"
        return f"threshold at {self.threshold_top}, landing {abs(self.drop_by_levels)} {way}"

    @property
    def is_step_up(self) -> bool:
        """Whether this side lies above the top of the threshold."""
        return not is_missing(self.drop) and self.drop.n < 0

    @property
    def swings_over(self) -> bool | Missing:
        """Whether the door swings over this side; one that does not swing never does."""
        if not is_missing(self.door.operation) and self.door.operation != "side-hinged":
            return False
        into = self.door.swings_into
        return into if is_missing(into) else into == self.side

    def of_landing(self, field: str) -> Any:
        """Return `field` of the landing, or its absence."""
        return getattr(self.landing, field) if self.landing is not None else self._wanted(field.replace("_", " "))

    def _wanted(self, key: str) -> Missing:
        where = "outside" if self.outdoors else "inside"
        return self.door.absent(f"{key} of the landing {where}")


@fact
class VehicleDoor(Fact):
    """A door between a room of the house and a garage or carport, with the two floors and the step between them."""

    door: Door
    room: Space
    vehicles: Space
    step: Length | Missing
    floors: tuple[Floor, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[VehicleDoor]:
        """Yield every door that a person walks through between the house and a garage or carport."""
        for door in house.subjects(Door):
            pair = [space for space in house.sides(door) if space is not None and not space.is_removed]
            vehicles = [space for space in pair if space.is_vehicle]
            if len(pair) == 2 and len(vehicles) == 1 and is_walked_through(door):
                room = next(space for space in pair if space is not vehicles[0])
                step = house.finished_floor(room) - house.finished_floor(vehicles[0])
                yield cls(door, door, room, vehicles[0], step, floors_of(*pair, house=house))


@fact
class RoomWay(Fact):
    """The way out of a room; `garage` is one that is in the way where there is no other."""

    room: Space
    house: House
    way: WayOut | Missing | None
    rooms: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomWay]:
        """Yield every habitable room, and each bath, laundry or hall that the work makes."""
        for room in house.spaces:
            made = room.phase == "new" or (room.phase == "altered" and room.changes_use)
            if room.is_habitable or (made and room.use in MINOR_ROOMS):
                yield cls(room, room, house, way_out(room, house), reached(room, house))

    @property
    def is_entered(self) -> bool:
        """Whether a door or stair of the room is drawn."""
        doors, stairs = self.house.project.doors, self.house.project.stairs
        return any(self.room.id in between for between in (*(d.between for d in doors), *(s.between for s in stairs)))

    @property
    def loses_a_way(self) -> bool:
        """Whether the work takes away a door or stair of the rooms that are reached, other than one into the garage."""
        ids, garage = {space.id for space in self.rooms}, self.garage
        ways: tuple[Door | Stair, ...] = (*self.house.project.doors, *self.house.project.stairs)
        gone = (way.between for way in ways if way.is_removed)
        return any(not ids.isdisjoint(ends) and (garage is None or garage.id not in ends) for ends in gone)

    @property
    def ends_elsewhere(self) -> bool:
        """Whether the way ends at another door than one that is marked as required, in a dwelling that has such a door."""
        if not isinstance(self.way, WayOut) or self.way.by_required_door or self.room.detached is True:
            return False
        marked = [d for d in self.house.project.doors if d.required_egress is True and not d.is_removed]
        return bool(marked) and all(not space.is_existing for space in self.rooms) and is_missing(self.room.unit)

    @property
    def trail(self) -> WayOut | None:
        """The way out as it is drawn: past a garage where there is no other."""
        found = self.way if isinstance(self.way, WayOut) else way_out(self.room, self.house, through_garage=True)
        return found if isinstance(found, WayOut) else None

    @property
    def garage(self) -> Space | None:
        """The garage that one comes to from the rooms that are reached."""
        beyond = reached(self.room, self.house, through_garage=True)
        return next((space for space in beyond if space.use == "garage"), None)

    @property
    def phase(self) -> Any:
        """``new`` where a door or stair on the way, or the use of a garage in it, is changed; a way lost is new as well."""
        ids = {space.id for space in self.rooms}
        doors = (door for door in self.house.project.doors if not ids.isdisjoint(door.between))
        stairs = (stair for stair in self.house.project.stairs if not ids.isdisjoint(stair.between))
        touched = any(way.phase != "existing" for way in (*doors, *stairs))
        return "new" if self.room.phase == "existing" and touched else self.room.phase


@fact
class EgressDoor(Fact):
    """A door and the rooms that it joins. `lost` are the required egress doors that the work takes away.

    An old door is judged anew where a room beside it gets another use, or where it has to serve in place of one of those.
    """

    door: Door
    rooms: tuple[Space, ...]
    lost: tuple[Door, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[EgressDoor]:
        """Yield every door."""
        gone = tuple(d for d in house.project.doors if d.is_removed and d.required_egress is True)
        for door in house.subjects(Door):
            yield cls(door, door, tuple(s for s in house.sides(door) if s is not None), gone)

    @property
    def phase(self) -> Any:
        """``new`` where an old door has to serve in place of one that goes."""
        return "new" if self.door.is_existing and self.lost else super().phase


def floors_of(*spaces: Space | None, house: House) -> tuple[Floor, ...]:
    """Return the floors of `spaces`, of those that name one."""
    found = (house.floor(space) for space in spaces if space is not None)
    return tuple(floor for floor in found if floor is not None)


def is_egress(door: Door, house: House) -> bool:
    """Return whether `door` is a required egress door: said to be, and one by which people leave the house.

    A door between two rooms is none, whatever is said of it, and neither is one out of a garage.
    """
    return door.required_egress is True and not door.is_removed and is_exit(door, house)


def inside_of(door: Door, house: House) -> Space | None:
    """Return the room or garage that an exterior `door` leads out of; None for a door within the house."""
    spaces = house.sides(door)
    outer = [s for s, side in zip(spaces, door.between, strict=True) if side == OUTSIDE or (s and s.use in OUTDOOR)]
    rooms = [s for s in spaces if s is not None and s.use not in OUTDOOR and not s.is_removed]
    return rooms[0] if outer and len(rooms) == 1 else None


def is_walked_through(door: Door) -> bool:
    """Return whether people walk through `door`; one whose operation is not given is taken to be such a door."""
    return is_missing(door.operation) or door.operation not in NOT_WALKED_THROUGH


def _another(door: Door, marked: list[Door], house: House) -> bool:
    """Return whether in each unit that `door` may lead out of a door is `marked` already, so that this one is another."""
    units = [unit for unit in house.subjects(DwellingUnit) if unit.is_left_by(door) is not False]
    return all(any(unit.is_left_by(one) is not False for one in marked) for unit in units)


def _there(side: str, house: House) -> Space | None:
    """Return the space on a side that is there when the work is done: a deck that goes serves no door."""
    space = house.space(side)
    return None if space is None or space.is_removed else space


def _floor(house: House, side: str) -> Length | Missing:
    space = _there(side, house)
    return Missing() if space is None else house.finished_floor(space)
