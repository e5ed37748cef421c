"""What the rules for separation are about: each boundary between a place for vehicles and the house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, ClassVar

from precheck import (
    Check,
    Door,
    Duct,
    Fact,
    Hatch,
    House,
    Layer,
    Limit,
    Missing,
    Part,
    Penetration,
    Space,
    Support,
    Wall,
    Window,
    decide,
    does_not_apply,
    fact,
    is_missing,
    outlook_of,
    when_given,
)

OUTDOOR = frozenset(("porch", "deck"))


@fact
class CommonWall(Fact):
    """The wall between a garage or carport and one room beside it. `wall` is None where no sheet draws it.

    `opened` tells whether a wall between both is taken out, or a door in one that is not drawn, whose place is to be closed.
    """

    vehicles: Space
    room: Space
    wall: Wall | None
    opened: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[CommonWall]:
        """Yield every wall between vehicles and the house; stated, or derived where the outlines meet."""
        for vehicles, room in pairs(house, house.beside):
            walls = house.walls_between(vehicles, room)
            gone: tuple[Wall | Door, ...] = (*house.project.walls, *(() if walls else house.project.doors))
            opened = any(set(part.between) == {vehicles.id, room.id} and part.is_removed for part in gone)
            for wall in walls or (None,):
                yield cls(wall or vehicles, vehicles, room, wall, opened)

    @property
    def label(self) -> str:
        """The wall, or the two rooms whose wall no sheet draws."""
        return self.wall.label if self.wall is not None else f"wall between {self.vehicles.id} and {self.room.id}"

    @property
    def phase(self) -> Any:
        """A boundary that the work makes or opens is new, whatever stood there before."""
        return "new" if self.opened else phase_among(self.wall, self.vehicles, self.room)

    @property
    def layers(self) -> tuple[Layer, ...] | Missing:
        """The layers of the wall on the side of the vehicles."""
        if self.wall is None:
            return self.vehicles.absent(f"wall to {self.room.id}")
        return self.wall.finish_on(self.vehicles.id)

    @property
    def is_bare_masonry(self) -> bool:
        """Whether it is drawn as masonry or concrete without a finish on the side of the vehicles."""
        return self.wall is not None and self.wall.is_framed is False and self.wall.finish_on(self.vehicles.id) == ()


@fact
class RoomAbove(Fact):
    """A room over a garage or carport."""

    vehicles: Space
    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomAbove]:
        """Yield every room that lies over a place for vehicles."""
        for vehicles, room in pairs(house, house.above):
            yield cls(vehicles, vehicles, room)

    @property
    def label(self) -> str:
        """The two spaces."""
        return f"{self.vehicles.label} under {self.room.id}"

    @property
    def phase(self) -> Any:
        """A boundary that the work makes is new, whatever stood there before."""
        return phase_among(self.vehicles, self.room)


@fact
class GarageCeiling(Fact):
    """The ceiling of a garage or carport, under an attic or under rooms."""

    vehicles: Space
    boundary: Any

    @classmethod
    def found_in(cls, house: House) -> Iterator[GarageCeiling]:
        """Yield the ceiling of every place for vehicles."""
        for vehicles in house.spaces:
            if vehicles.is_vehicle:
                yield cls(vehicles, vehicles, made_phase(vehicles, house))

    @property
    def phase(self) -> Any:
        """New where the work makes a room or wall on the boundary, whatever stood over both before."""
        return self.boundary


@fact
class GarageDoor(Fact):
    """A door or other opening between a place for vehicles and the house."""

    door: Door
    vehicles: Space
    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[GarageDoor]:
        """Yield every door between vehicles and the house."""
        for door in house.subjects(Door):
            pair = [space for space in house.sides(door) if space is not None and not space.is_removed]
            vehicles = [space for space in pair if space.is_vehicle]
            if len(pair) == 2 and len(vehicles) == 1:
                room = next(space for space in pair if not space.is_vehicle)
                if room.use not in OUTDOOR:
                    yield cls(door, door, vehicles[0], room)

    @property
    def phase(self) -> Any:
        """A door that the work puts between a garage and a room is as good as new."""
        return phase_among(self.door, self.vehicles, self.room)


@fact
class GarageWindow(Fact):
    """A window of the house that opens into a garage or carport. `vehicles` are those that it may open into."""

    window: Window
    vehicles: Space
    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[GarageWindow]:
        """Yield every window that is said to open into a garage or carport beside its room, or drawn in their wall."""
        for window in house.subjects(Window):
            room = house.space(window.space)
            if room is not None and not room.is_vehicle and not window.is_removed:
                of_kind = [
                    s for s in house.spaces if s.is_vehicle and s.use == window.opens_to and s.detached is not True
                ]
                said = of_kind if len(of_kind) == 1 else [s for s in of_kind if s in house.beside(room)]
                seen = [s for s in outlook_of(window, room, house) if s.is_vehicle]
                yield from (cls(window, window, vehicles, room) for vehicles in dict.fromkeys((*said, *seen)))

    @property
    def phase(self) -> Any:
        """A window that the work leaves in the wall of a garage is as good as new."""
        return phase_among(self.window, self.vehicles, self.room)


@fact
class InGarage(Fact):
    """A part of the separation that belongs to one garage or carport."""

    part: Any
    vehicles: Space
    boundary: Any
    kind: ClassVar[type[Part]] = Part

    @classmethod
    def found_in(cls, house: House) -> Iterator[InGarage]:
        """Yield every part of this kind that is in an attached garage or carport."""
        for part in house.subjects(cls.kind):
            sides = (part.space, getattr(part, "to", part.space))
            spaces = [space for side in sides if not is_missing(side) and (space := house.space(str(side)))]
            space = next((s for s in spaces if s.is_vehicle and not s.is_removed), None)
            if space is not None and not part.is_removed:
                yield cls(part, part, space, made_phase(space, house, part))

    @property
    def phase(self) -> Any:
        """What stood in a carport that is enclosed has to do for a garage."""
        return phase_among(self.part, self.vehicles)


class OfBoundary(InGarage):
    """A part of the separation that is judged anew where the boundary is new: an old gap does not break a new separation."""

    @property
    def phase(self) -> Any:
        """The phase of the boundary, as under a room that the work makes over the garage."""
        return self.boundary


class GarageSupport(OfBoundary):
    """A wall, beam or post that holds up a garage ceiling which separates."""

    kind = Support


class GarageDuct(InGarage):
    """A duct in a garage."""

    kind = Duct


class GaragePenetration(OfBoundary):
    """A pipe or cable through the separation."""

    kind = Penetration


class GarageHatch(OfBoundary):
    """A hatch or pull-down stair in a garage ceiling."""

    kind = Hatch


def phase_among(*parts: Part | None) -> Any:
    """Return `existing` where all `parts` are, else the first other phase."""
    return next((part.phase for part in parts if part is not None and part.phase != "existing"), "existing")


def made_phase(vehicles: Space, house: House, *parts: Part) -> Any:
    """Return the phase of a boundary of `vehicles`: new where the work builds or changes a room or a wall on it.

    Half a garage that becomes a bedroom makes a new boundary of what stood over both, drawn or not.
    """
    near = (*house.beside(vehicles), *house.above(vehicles), *_made_of_it(vehicles, house))
    rooms = [room for room in near if room.use not in OUTDOOR]
    made = [room for room in rooms if room.phase == "new" or (room.changes_use and not room.is_existing)]
    walls = [wall for room in rooms for wall in house.walls_between(vehicles, room) if wall.phase == "new"]
    return phase_among(vehicles, *parts, *made, *walls)


def _made_of_it(vehicles: Space, house: House) -> Iterator[Space]:
    """Yield the rooms that were such a place before, of which `vehicles` may be what stays; not those drawn elsewhere."""
    for room in house.spaces:
        is_drawn = house.shared_wall(vehicles, room) is not None
        if room.was == vehicles.use and vehicles.detached is not True and not is_drawn:
            yield room


def pairs(house: House, neighbors: Any) -> Iterator[tuple[Space, Space]]:
    """Yield each place for vehicles with each enclosed room of the house that `neighbors` names.

    A garage that is said to stand detached has no room of the house beside or over it; where one is lived in, it has.
    """
    for vehicles in house.spaces:
        if vehicles.is_vehicle:
            rooms: Iterable[Space] = neighbors(vehicles)
            inside = (room for room in rooms if not room.is_vehicle and room.use not in OUTDOOR)
            yield from ((vehicles, room) for room in inside if vehicles.detached is not True or room.is_habitable)


def counts_as_garage(space: Space, open_sides: Limit[int]) -> bool | Missing:
    """Return whether `space` is a garage: called so, or a carport with fewer open sides than a carport needs."""
    if space.use != "carport":
        return space.use == "garage"
    if open_sides.value is None:
        return False
    return when_given(lambda sides, least: bool(sides < least), space.open_sides, open_sides.value)


def if_garage(space: Space, open_sides: Limit[int], check: Check) -> Check:
    """Return `check` where `space` counts as a garage; it does not apply to an open carport."""
    return decide(
        counts_as_garage(space, open_sides), check, does_not_apply("a carport open on enough sides needs none")
    )
