"""What the rules for separation are about: each boundary between a place for vehicles and the house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from precheck import (
    Check,
    Door,
    Fact,
    House,
    Layer,
    Length,
    Limit,
    Missing,
    Space,
    Wall,
    decide,
    does_not_apply,
    is_missing,
    thickness_of,
)

OUTDOOR = frozenset(("porch", "deck"))
GYPSUM = ("gypsum", "drywall", "gwb")


@dataclass(frozen=True)
class CommonWall(Fact):
    """The wall between a garage or carport and one room beside it. `wall` is None where no sheet draws it."""

    vehicles: Space
    room: Space
    wall: Wall | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[CommonWall]:
        """Yield every wall between vehicles and the house; stated, or derived where the outlines meet."""
        for vehicles, room in pairs(house, house.beside):
            walls = house.walls_between(vehicles, room)
            for wall in walls or (None,):
                yield cls(wall or vehicles, vehicles, room, wall)

    @property
    def label(self) -> str:
        """The wall, or the two rooms whose wall no sheet draws."""
        return self.wall.label if self.wall is not None else f"wall between {self.vehicles.id} and {self.room.id}"

    @property
    def phase(self) -> Any:
        """A boundary that the work makes is new, whatever stood there before."""
        changed = (self.wall, self.vehicles, self.room)
        return next((p.phase for p in changed if p is not None and p.phase in ("new", "altered")), self.about.phase)  # type: ignore[attr-defined]

    @property
    def gypsum(self) -> Length | Missing:
        """Thickness of gypsum board on the side of the vehicles."""
        if self.wall is None:
            return self.vehicles.absent(f"wall to {self.room.id}")
        face = next((face for face in self.wall.faces if face.side == self.vehicles.id), None)
        return (
            board(face.layers)
            if face and face.layers
            else self.wall.absent(f"finish on the side of {self.vehicles.id}")
        )


@dataclass(frozen=True)
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


@dataclass(frozen=True)
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


def pairs(house: House, neighbours: Any) -> Iterator[tuple[Space, Space]]:
    """Yield each place for vehicles with each enclosed room of the house that `neighbours` names."""
    for vehicles in house.spaces:
        if vehicles.is_vehicle and vehicles.detached is not True:
            rooms: Iterable[Space] = neighbours(vehicles)
            yield from ((vehicles, room) for room in rooms if not room.is_vehicle and room.use not in OUTDOOR)


def counts_as_garage(space: Space, open_sides: Limit[int]) -> bool | Missing:
    """Return whether `space` is a garage: called so, or a carport with fewer open sides than a carport needs."""
    if space.use != "carport":
        return space.use == "garage"
    if is_missing(space.open_sides) or open_sides.value is None:
        return space.open_sides if is_missing(space.open_sides) else False
    return bool(space.open_sides < open_sides.value)


def if_garage(space: Space, open_sides: Limit[int], check: Check) -> Check:
    """Return `check` where `space` counts as a garage; it does not apply to an open carport."""
    return decide(
        counts_as_garage(space, open_sides), check, does_not_apply("a carport open on enough sides needs none")
    )


def board(layers: tuple[Layer, ...]) -> Length | Missing:
    """Return the thickness of gypsum board among `layers`; nothing where they hold none."""
    return thickness_of(tuple(layer for layer in layers if is_gypsum(layer)))


def is_gypsum(layer: Layer) -> bool:
    """Return whether a layer is gypsum board by any of its trade names."""
    return any(name in layer.material.lower() for name in GYPSUM)
