"""Rooms with their receptacles, lights and circuits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from precheck import Circuit, Fact, House, Light, Missing, Receptacle, Space, fact

PURPOSES = {"kitchen": "small appliance", "laundry": "laundry", "bathroom": "bathroom", "garage": "garage"}
"""The purpose of the circuits that a room takes for itself, by its use."""
UNLIVED = frozenset(("garage", "carport", "storage", "workshop"))


def may_lack_power(space: Space) -> bool:
    """Return whether `space` may stand without power: a detached garage, shed or workshop."""
    return space.detached is True and space.use in UNLIVED


@fact
class RoomOutlets(Fact):
    """A space with the receptacles and lights in it and the circuits that serve it."""

    space: Space
    outlets: tuple[Receptacle, ...]
    lights: tuple[Light, ...]
    circuits: tuple[Circuit, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomOutlets]:
        """Yield every space that is there when the work is done, save detached buildings to which no power is drawn."""
        for space in house.subjects(Space):
            outlets = tuple(r for r in house.subjects(Receptacle) if r.space == space.id and not r.is_removed)
            lights = tuple(x for x in house.subjects(Light) if x.space == space.id and not x.is_removed)
            circuits = tuple(c for c in house.subjects(Circuit) if space.id in c.serves and not c.is_removed)
            if outlets or lights or circuits or not may_lack_power(space):
                yield cls(space, space, outlets, lights, circuits)

    @property
    def phase(self) -> Any:
        """The phase of the space; one that is given a new use must comply as a new one.

        One that is altered and keeps its use stands as it is where the work brings no outlet, light or circuit there; an
        attic in which things will be stored does not.
        """
        kept = self.space.keeps_its_use and self.space.attic_storage is not True
        if kept and not any(part.phase != "existing" for part in self._wired):
            return "existing"
        return "altered" if self.space.changes_use else self.space.phase

    @property
    def _wired(self) -> tuple[Receptacle | Light | Circuit, ...]:
        return *self.outlets, *self.lights, *self.circuits

    @property
    def without_circuit(self) -> Missing:
        """The absence of a circuit that serves the space, by its purpose where the space takes one of its own."""
        own = PURPOSES.get(self.space.use) if isinstance(self.space.use, str) else None
        return self.space.absent(f"{own} circuit" if own else "circuit")

    def count(self, outlets: Sequence[Receptacle]) -> int | Missing:
        """Return how many `outlets` there are; an absence where none is drawn, because drawings may leave them out."""
        return len(outlets) if outlets else self.space.absent("receptacle")


@fact
class Rewired(Fact):
    """A room with new receptacles or lights, whose circuits the work brings or extends."""

    room: RoomOutlets
    outlets: tuple[Receptacle | Light, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[Rewired]:
        """Yield every room in which a receptacle or light is new."""
        for room in house.subjects(RoomOutlets):
            new = tuple(part for part in (*room.outlets, *room.lights) if part.phase in ("new", "altered"))
            if new:
                yield cls(room.space, room, new)

    @property
    def phase(self) -> Any:
        """``new``, whatever the phase of the room: its outlets are."""
        return "new"
