"""Parts of the thermal envelope, and whether the work makes them part of a new or newly conditioned space."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import reduce
from operator import add
from typing import Any, ClassVar, NamedTuple, Self

from precheck import (
    Appliance,
    Assembly,
    Check,
    Door,
    Fact,
    Hatch,
    Heating,
    House,
    Insulation,
    InsulationLayer,
    Length,
    Light,
    Limit,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Ratio,
    Skylight,
    SlabEdge,
    Space,
    Window,
    decimal,
    fact,
    is_missing,
    when_given,
    zone_row,
)

UNCONDITIONED = frozenset(("garage", "carport", "attic", "crawl space", "porch", "deck"))
EITHER = frozenset(("storage", "utility", "workshop", "sunroom"))  # heated in one house and not in the next
IN_THE_ROOM = frozenset(("mini-split", "heat pump"))  # equipment that heats the room in which it stands
INCH = Length.parse("1 in")
_OPTION = re.compile(r"R-(?P<r>[\d.]+) (?P<kind>cavity|continuous)")

ZONE = "criteria.climate-zone"


@fact
class EnvelopePart(Fact):
    """An assembly with the space that it encloses."""

    assembly: Assembly
    newly_conditioned: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[EnvelopePart]:
        """Yield every assembly."""
        for assembly in house.subjects(Assembly):
            yield cls(assembly, assembly, is_newly_conditioned(_space(assembly.space, house)))

    @property
    def phase(self) -> Any:
        """Its own phase; around a newly conditioned space it must comply as a new one."""
        return "altered" if self.newly_conditioned and not self.assembly.is_removed else self.assembly.phase

    @property
    def cavity(self) -> Insulation | Missing:
        """R-value of what fills the cavities: as stated, else the layers added up."""
        return self._added_up(self.assembly.cavity_r, continuous=False)

    @property
    def continuous(self) -> Insulation | Missing:
        """R-value of continuous insulation: as stated, else the layers added up."""
        return self._added_up(self.assembly.continuous_r, continuous=True)

    @property
    def total(self) -> Insulation | Missing:
        """R-value of all insulation together; continuous insulation that is not mentioned counts as none."""
        if self.assembly.layers and is_missing(self.assembly.cavity_r):
            return reduce(add, (r_value(layer) for layer in self.assembly.layers))
        return self.cavity if is_missing(self.continuous) else self.cavity + self.continuous

    def _added_up(self, stated: Insulation | Missing, continuous: bool) -> Insulation | Missing:
        if not self.assembly.layers:
            return stated
        unknown = [layer.continuous for layer in self.assembly.layers if is_missing(layer.continuous)]
        values = [r_value(layer) for layer in self.assembly.layers if layer.continuous is continuous]
        found = unknown[0] if unknown else reduce(add, values, Insulation(0))
        return stricter(stated, found)


@fact
class GlazedOpening(Fact):
    """A window or door between conditioned space and the outside; `is_envelope` is missing where a use is not given."""

    opening: Opening
    newly_conditioned: bool
    is_envelope: bool | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[GlazedOpening]:
        """Yield every window and every door that parts conditioned space from the outside or from unconditioned space.

        One between two spaces that are both conditioned is none; one of a space whose use is not given may be.
        """
        for opening in (*house.subjects(Window), *house.subjects(Door)):
            sides = _sides(opening, house)
            parts = is_between(*sides)
            if is_missing(parts) or parts:
                newly = any(is_newly_conditioned(side) for side in sides)
                yield cls(opening, opening, newly, parts)

    @property
    def phase(self) -> Any:
        """Its own phase; around a newly conditioned space it must comply as a new one."""
        return "altered" if self.newly_conditioned and not self.opening.is_removed else self.opening.phase

    @property
    def is_opaque_door(self) -> bool | Missing:
        """Whether it is a door without glass: as said, else by what it is made of and how it opens."""
        door = self.opening
        if not isinstance(door, Door) or door.construction == "glass" or door.operation == "sliding":
            return False
        stated = when_given(lambda glazed: not glazed, door.glazed)
        return stated if is_missing(door.construction) else stated is not False


@fact
class ConditionedSlab(Fact):
    """A slab edge with the space on the slab."""

    edge: SlabEdge
    newly_conditioned: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[ConditionedSlab]:
        """Yield every slab edge."""
        for edge in house.subjects(SlabEdge):
            yield cls(edge, edge, is_newly_conditioned(_space(edge.space, house)))

    @property
    def phase(self) -> Any:
        """Its own phase; under a newly conditioned space it must comply as a new one."""
        return "altered" if self.newly_conditioned and not self.edge.is_removed else self.edge.phase


@fact
class OfNewlyWarmSpace(Fact):
    """A part of the ceiling or wall of a space, with whether the work conditions that space for the first time."""

    kind: ClassVar[type[Hatch | Light | Skylight]]
    part: Hatch | Light | Skylight
    newly_conditioned: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[Self]:
        """Yield every part of the kind."""
        for part in house.subjects(cls.kind):
            yield cls(part, part, is_newly_conditioned(_space(part.space, house)))

    @property
    def phase(self) -> Any:
        """Its own phase; around a newly conditioned space it must comply as a new one."""
        return "altered" if self.newly_conditioned and not self.part.is_removed else self.part.phase


@fact
class WarmHatch(OfNewlyWarmSpace):
    """A hatch with the space that it opens from."""

    kind = Hatch


@fact
class WarmLight(OfNewlyWarmSpace):
    """A light with its space."""

    kind = Light


@fact
class WarmSkylight(OfNewlyWarmSpace):
    """A skylight with the room below."""

    kind = Skylight


class Option(NamedTuple):
    """One way to insulate, such as ``R-13 cavity + R-5 continuous``."""

    cavity: Insulation
    continuous: Insulation


def options(row: tuple[str, ...]) -> list[Option]:
    """Return the ways that a row of a table allows."""
    found = [{m["kind"]: Insulation(Fraction(m["r"]), f"R-{m['r']}") for m in _OPTION.finditer(text)} for text in row]
    none = Insulation(0)
    return [Option(parts.get("cavity", none), parts.get("continuous", none)) for parts in found]


def r_value(layer: InsulationLayer) -> Insulation | Missing:
    """Return the R-value of `layer`: as stated, or its thickness times its R-value per inch; the less where both are given."""
    if is_missing(layer.thickness) and is_missing(layer.r_per_inch):
        return layer.r_value
    found = when_given(
        lambda per_inch, thick: Insulation(per_inch.n * (thick / INCH)), layer.r_per_inch, layer.thickness
    )
    return stricter(layer.r_value, found)


def stricter(stated: Insulation | Missing, worked_out: Insulation | Missing) -> Insulation | Missing:
    """Return the lesser of two R-values of the same thing, or the one that is given."""
    if is_missing(stated) or is_missing(worked_out):
        return worked_out if is_missing(stated) else stated
    return min(stated, worked_out)


def as_limited(record: Any, found: Mapping[str, Check]) -> list[NewValue]:
    """Return the fields of `record` whose checks fail, each as its limit."""
    wrong = {field: check.bound for field, check in found.items() if check.outcome is Outcome.FAIL}
    return [NewValue(record, field, bound.value) for field, bound in wrong.items() if bound is not None]


def in_zone(table: Limit[Any], zone: Any) -> Limit[Any]:
    """Return `table` with the value of its row for `zone`; missing where the zone is."""
    if table.value is None or isinstance(zone, Missing):
        return replace(table, value=None if table.value is None else zone)
    row = zone_row(str(zone), table.value)
    why = f"no limit in climate zone {zone}" if row is None else None
    return replace(table, value=row, why_void=why)


def plain(limit: Limit[Any]) -> Limit[Any]:
    """Return `limit` with its share written as a plain number, as labels and test reports print it."""
    value = limit.value
    return replace(limit, value=Ratio(value.n, decimal(value.n))) if isinstance(value, Ratio) else limit


def is_between(one: Space | None, other: Space | None) -> bool | Missing:
    """Return whether what stands between two spaces, of which None is the outside, parts warm from cold."""
    warm = [False if side is None else conditioned(side) for side in (one, other)]
    return when_given(lambda a, b: a is not b, *warm)


def conditioned(space: Space) -> bool | Missing:
    """Return whether `space` is heated or cooled; the absence of its use where that leaves it open."""
    unsaid = is_missing(space.conditioned) and is_missing(space.use) and space.habitable_attic is not True
    return space.use if unsaid and is_missing(space.use) else is_conditioned(space)


def is_newly_conditioned(space: Space | None) -> bool:
    """Return whether the work turns an unconditioned `space` into one that is conditioned."""
    if space is None or space.was_conditioned is True or not is_conditioned(space):
        return False
    return space.was in UNCONDITIONED or (space.was in EITHER and space.was_conditioned is False)


def is_heated_anew(space: Space) -> bool:
    """Return whether a room that a work makes is heated for the first time, unless the project says that it was before."""
    return is_conditioned(space) and space.was_conditioned is not True


def heaters_of(space: Space, house: House) -> list[Heating | Appliance]:
    """Return what heats `space` when the work is done: heating that serves it, or a mini-split in it."""
    serving = [h for h in house.subjects(Heating) if space.id in h.serves and not h.is_removed]
    standing = [a for a in house.subjects(Appliance) if a.space == space.id and a.what in IN_THE_ROOM]
    return [*serving, *(a for a in standing if not a.is_removed)]


def is_conditioned(space: Space) -> bool:
    """Return whether `space` is heated or cooled: as stated, else unless its use says otherwise."""
    if not is_missing(space.conditioned):
        return space.conditioned
    return space.habitable_attic is True or (not is_missing(space.use) and space.use not in UNCONDITIONED)


def _space(name: Any, house: House) -> Space | None:
    return None if is_missing(name) else house.space(name)


def _sides(opening: Opening, house: House) -> tuple[Space | None, Space | None]:
    """Return what lies on both sides of `opening`, None for the outside; the same for what is no door of a person."""
    if isinstance(opening, Window):
        return house.space(opening.space), None
    if not isinstance(opening, Door) or opening.operation in ("vehicle", "hatch"):
        return None, None
    return house.sides(opening)
