"""Old wiring beside new work: what stood there is judged anew where the room around it, or a tub near it, is new."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Circuit,
    Door,
    Fact,
    Fixture,
    House,
    Light,
    Panel,
    Receptacle,
    Service,
    Space,
    WetArea,
    fact,
    is_missing,
    is_outdoors,
)


@fact
class OutletAt(Fact):
    """A receptacle, its space, and the sinks, tubs and showers there, where its distance to one of them is given."""

    outlet: Receptacle
    space: Space | None
    wet: tuple[Fixture | WetArea, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[OutletAt]:
        """Yield every receptacle."""
        for outlet in house.subjects(Receptacle):
            near = not is_missing(outlet.to_sink) or not is_missing(outlet.to_tub_or_shower)
            yield cls(outlet, outlet, *_place(outlet.space, near, house))


@fact
class LightAt(Fact):
    """A light, its space, and the tubs and showers there, where its distance to one of them is given."""

    light: Light
    space: Space | None
    wet: tuple[Fixture | WetArea, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[LightAt]:
        """Yield every light."""
        for light in house.subjects(Light):
            near = not is_missing(light.from_tub) or not is_missing(light.above_tub)
            yield cls(light, light, *_place(light.space, near, house))


@fact
class DoorOut(Fact):
    """A door and the rooms within that it leads out of; a deck that is built before it makes nothing new of it."""

    door: Door
    rooms: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[DoorOut]:
        """Yield every door."""
        for door in house.subjects(Door):
            rooms = (space for space in house.sides(door) if space is not None and not is_outdoors(space.id, house))
            yield cls(door, door, tuple(rooms))


@fact
class PanelAt(Fact):
    """A panel and its space."""

    panel: Panel
    space: Space | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[PanelAt]:
        """Yield every panel."""
        for panel in house.subjects(Panel):
            yield cls(panel, panel, _space(panel.space, house))


@fact
class CircuitOf(Fact):
    """A circuit and the spaces that it serves."""

    circuit: Circuit
    served: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[CircuitOf]:
        """Yield every circuit."""
        for circuit in house.subjects(Circuit):
            served = (_space(space, house) for space in circuit.serves)
            yield cls(circuit, circuit, tuple(space for space in served if space is not None))


@fact
class LoadedService(Fact):
    """A service, and the circuits that are new where its load is given, so that an old service carries new load."""

    service: Service
    added: tuple[Circuit, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[LoadedService]:
        """Yield every service."""
        new = tuple(circuit for circuit in house.subjects(Circuit) if circuit.phase == "new")
        for service in house.subjects(Service):
            yield cls(service, service, () if is_missing(service.calculated_load) else new)


def _place(space: Any, near: bool, house: House) -> tuple[Space | None, tuple[Fixture | WetArea, ...]]:
    fixtures = [one for one in house.project.fixtures if one.space == space and not one.is_removed]
    wet = [one for one in house.project.wet_areas if one.space == space and not one.is_removed]
    return _space(space, house), (*fixtures, *wet) if near else ()


def _space(space: Any, house: House) -> Space | None:
    return None if is_missing(space) else house.space(str(space))
