"""Rooms with their receptacles, lights and circuits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from precheck import Circuit, Fact, House, Light, Missing, Receptacle, Space, fact


@fact
class RoomOutlets(Fact):
    """A space with the receptacles and lights in it and the circuits that serve it."""

    space: Space
    outlets: tuple[Receptacle, ...]
    lights: tuple[Light, ...]
    circuits: tuple[Circuit, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomOutlets]:
        """Yield every space that is there when the work is done."""
        for space in house.subjects(Space):
            outlets = tuple(r for r in house.subjects(Receptacle) if r.space == space.id and not r.is_removed)
            lights = tuple(x for x in house.subjects(Light) if x.space == space.id and not x.is_removed)
            circuits = tuple(c for c in house.subjects(Circuit) if space.id in c.serves and not c.is_removed)
            yield cls(space, space, outlets, lights, circuits)

    @property
    def phase(self) -> Any:
        """The phase of the space; one that is given a new use must comply as a new one."""
        return "altered" if self.space.changes_use else self.space.phase

    def count(self, outlets: Sequence[Receptacle]) -> int | Missing:
        """Return how many `outlets` there are; an absence where none is drawn, because drawings may leave them out."""
        return len(outlets) if outlets else self.space.absent("receptacle")
