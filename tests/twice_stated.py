"""What of a house can be stated and drawn: where a drawing gives a value, which field could state it too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from precheck_plugins.alarms.places import AlarmByBath
from precheck_plugins.doors.sides import DoorSide
from precheck_plugins.glazing.near import GlassByDoor, GlassByWater
from precheck_plugins.guards.sides import drop_of
from precheck_plugins.stairs.layout import drawn_box
from precheck_plugins.zoning.lot_lines import FacingLine

from precheck import (
    Attic,
    Door,
    Floor,
    Guard,
    House,
    Ledger,
    Length,
    Member,
    Ramp,
    Space,
    Stair,
    WetArea,
    Window,
    is_missing,
    when_given,
)
from precheck.files.record import Record
from precheck.survey.flights import equal_riser, floors_apart, risers_of


class Twice(NamedTuple):
    """A field that states nothing, of a record, and the value that the drawing gives for it.

    Where the field is a list, `entry` holds what an entry says besides its `distance`, the value.
    """

    record: Record
    field: str
    drawn: Any
    entry: Mapping[str, str] | None = None

    @property
    def is_unstated(self) -> bool:
        """Whether the file leaves it to the drawing."""
        return self.entry is not None or is_missing(getattr(self.record, self.field))


def drawn_too(house: House) -> Iterator[Twice]:
    """Yield each value of the house that the drawing gives, and that a field of it could state but does not."""
    for twice in (
        *_of_spaces(house),
        *_of_openings(house),
        *_of_glass(house),
        *_of_stairs(house),
        *_of_alarms(house),
        *_of_site_and_roof(house),
    ):
        if not is_missing(twice.drawn) and twice.is_unstated:
            yield twice


def _of_spaces(house: House) -> Iterator[Twice]:
    for space in house.subjects(Space):
        yield Twice(space, "area", house.drawn_area(space))
        box = space.rectangle
        yield Twice(space, "least_width", when_given(min, box.width, box.depth))
        if not is_missing(space.ceiling):
            yield Twice(space.ceiling, "height", house.built_up_ceiling(space))
    for floor in house.subjects(Floor):
        yield Twice(floor, "finished_level", house.built_up_level(floor))
    for guard in house.subjects(Guard):
        yield Twice(guard, "drop", drop_of(house.project.by_id[guard.along], house)[0])


def _of_openings(house: House) -> Iterator[Twice]:
    for opening in (*house.subjects(Door), *house.subjects(Window)):
        yield Twice(opening, "net_clear_area", when_given(lambda box: box.area, opening.net_clear_opening))
    for window in house.subjects(Window):
        yield Twice(window, "sill_height", house.sill_height(window))
    for side in house.subjects(DoorSide):
        if side.landing is not None:
            yield Twice(side.landing, "drop", side.drop_by_levels)


def _of_glass(house: House) -> Iterator[Twice]:
    for by_door in house.subjects(GlassByDoor):
        told = {beside.door: beside for beside in by_door.opening.beside_doors}
        yield _beside(by_door, told.get(by_door.door.id), "beside_doors", {"door": by_door.door.id})
    for by_water in house.subjects(GlassByWater):
        told = {beside.wet_area: beside for beside in by_water.opening.beside_wet_areas}
        if isinstance(by_water.wet_area, WetArea):  # of a fixture no distance can be stated
            yield _beside(
                by_water, told.get(by_water.wet_area.id), "beside_wet_areas", {"wet area": by_water.wet_area.id}
            )


def _beside(glass: GlassByDoor | GlassByWater, told: Any, field: str, entry: Mapping[str, str]) -> Twice:
    return Twice(glass.opening, field, glass.drawn, entry) if told is None else Twice(told, "distance", glass.drawn)


def _of_stairs(house: House) -> Iterator[Twice]:
    for stair in house.subjects(Stair):
        box = drawn_box(stair)
        if box is not None:
            yield Twice(stair, "width", box.width)
            yield from (Twice(flight, "run_available", box.run) for flight in stair.flights)
        yield Twice(stair, "total_rise", floors_apart(stair, house))
        yield Twice(
            stair,
            "headroom",
            when_given(min, *[f.headroom for f in stair.flights], *[f.headroom for f in stair.flights]),
        )
        counts = given_all([risers_of(flight) for flight in stair.flights])
        yield Twice(stair, "risers", when_given(sum, counts))
        for flight in stair.flights:
            yield Twice(flight, "riser", equal_riser(flight, house))
            yield Twice(flight, "rise", when_given(lambda one, n: one * n, flight.riser, risers_of(flight)))
            yield from (Twice(flight, field, getattr(stair, field)) for field in ("width", "headroom"))
    for ramp in house.subjects(Ramp):
        yield Twice(
            ramp, "run", when_given(lambda rise, slope: Length(Fraction(rise.n) / slope.n), ramp.rise, ramp.slope)
        )
        yield Twice(ramp, "slope", when_given(lambda rise, run: rise / run, ramp.rise, ramp.run))


def _of_alarms(house: House) -> Iterator[Twice]:
    for near in house.subjects(AlarmByBath):
        yield Twice(near.alarm, "distance_to_bath_door", near.drawn)


def _of_site_and_roof(house: House) -> Iterator[Twice]:
    for side in house.subjects(FacingLine):
        if side.drawn is not None:
            entry = {"id": "SB-twice", "of": side.space.id, "line": side.line.id}
            new = Twice(house.project, "setbacks", side.drawn, entry)
            yield new if side.stated is None else Twice(side.stated, "distance", side.drawn)
    for ledger in house.subjects(Ledger):
        row = None if is_missing(ledger.joists) else house.project.by_id.get(ledger.joists)
        if isinstance(row, Member):
            yield Twice(ledger, "joist_span", row.span)
    for attic in house.subjects(Attic):
        space = house.space(attic.space) if not is_missing(attic.space) else None
        if space is not None:
            yield Twice(attic, "area", house.area(space))


def given_all(values: list[Any]) -> Any:
    """Return the values, or the absence of those that are not given."""
    return next((value for value in values if is_missing(value)), values)
