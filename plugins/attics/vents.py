"""Net free vent area of an attic, added up from its vents, and how much of it is high and how much low."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from math import ceil
from operator import add
from typing import Any, NamedTuple

from precheck import (
    Area,
    Attic,
    Fact,
    House,
    Length,
    Limit,
    Missing,
    NewValue,
    Ratio,
    Space,
    UnventedAssembly,
    Vent,
    fact,
    first_given,
    in_square_inches,
    is_missing,
    when_given,
)

FOOT = Length.parse("1 ft")
SQUARE_INCH = Area.parse("1 sq in")
LINEAR = frozenset(("ridge", "soffit strip", "over fascia"))
LOW = frozenset(("soffit strip", "soffit panel", "soffit hole", "over fascia"))


@fact
class VentedAttic(Fact):
    """An attic that is not said to be unvented, with the area that its vents serve."""

    attic: Attic
    area: Area | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[VentedAttic]:
        """Yield every attic that the drawings do not make an unvented one."""
        for attic in house.subjects(Attic):
            if attic.vented is not False and is_missing(attic.unvented):
                yield cls(attic, attic, served_area(attic, house))

    @property
    def vents(self) -> tuple[Vent, ...]:
        """Its vents as drawn."""
        return self.attic.vents

    @property
    def total(self) -> Area | Missing:
        """Net free area of all vents."""
        return _sum([free_area(vent) for vent in self.vents], self.attic)

    @property
    def known(self) -> Area:
        """Net free area of those vents that give one."""
        return sum((area for vent in self.vents if not is_missing(area := free_area(vent))), Area(0))

    def sums(self, within: Length, lower: Ratio) -> Sums | Missing:
        """Return the net free area that is high and that is low; `within` and `lower` say what counts as such."""
        where = [sits(vent, self.attic, within, lower) for vent in self.vents]
        areas = [free_area(vent) for vent in self.vents]
        return when_given(_by_height, self.total, *where, *areas)


@fact
class UnventedAttic(Fact):
    """An attic that the drawings make an unvented one."""

    attic: Attic

    @classmethod
    def found_in(cls, house: House) -> Iterator[UnventedAttic]:
        """Yield every attic that is stated to be unvented."""
        for attic in house.subjects(Attic):
            if attic.vented is False or not is_missing(attic.unvented):
                yield cls(attic, attic)

    @property
    def built(self) -> UnventedAssembly | Missing:
        """What stands in for the vents."""
        return self.attic.unvented


class Sums(NamedTuple):
    """Net free area of the high vents, of the low ones, and of all."""

    high: Area
    low: Area
    total: Area


def served_area(attic: Attic, house: House) -> Area | Missing:
    """Return the area that the vents of `attic` serve: as stated or that of its space, whichever is larger."""
    space = None if is_missing(attic.space) else house.space(attic.space)
    stated, drawn = attic.area, house.area(space) if isinstance(space, Space) else attic.area
    return max(stated, drawn) if not is_missing(stated) and not is_missing(drawn) else first_given(stated, drawn)


def free_area(vent: Vent) -> Area | Missing:
    """Return the net free area of `vent`: as stated or length or count times what its maker states, whichever is less."""
    summed = _summed_area(vent)
    if is_missing(vent.free_area) or is_missing(summed):
        return first_given(vent.free_area, summed) if not is_missing(vent.free_area) else summed
    return min(vent.free_area, summed)


def _summed_area(vent: Vent) -> Area | Missing:
    by_length = vent.form in LINEAR if is_missing(vent.free_area_each) else False
    if by_length or not is_missing(vent.free_area_per_foot):
        return when_given(lambda per_foot, length: per_foot * (length / FOOT), vent.free_area_per_foot, vent.length)
    return when_given(lambda each, count: each * count, vent.free_area_each, vent.count)


def sits(vent: Vent, attic: Attic, within: Length, lower: Ratio) -> str | Missing:
    """Return whether `vent` is high, low or in between: by its form, by its height in the attic, else as stated."""
    if vent.form == "ridge" or vent.form in LOW:
        return "high" if vent.form == "ridge" else "low"
    by_height = _by_place(vent, attic, within, lower)
    return first_given(by_height, vent.sits) if not is_missing(vent.sits) else by_height


def _by_place(vent: Vent, attic: Attic, within: Length, lower: Ratio) -> str | Missing:
    below = first_given(vent.below_top, attic.height - vent.above_floor)
    above = first_given(vent.above_floor, attic.height - vent.below_top)
    if not is_missing(below) and below <= within:
        return "high"
    return when_given(lambda up, height: "low" if up / height <= lower.n else "in between", above, attic.height)


def _sum(areas: list[Area | Missing], attic: Attic) -> Area | Missing:
    return reduce(add, areas) if areas else attic.absent("vents")


def _by_height(total: Area, *where_then_areas: str | Area) -> Sums:
    half = len(where_then_areas) // 2
    where, areas = where_then_areas[:half], where_then_areas[half:]
    found = {"high": Area(0), "low": Area(0), "in between": Area(0)}
    for place, vent_area in zip(where, areas, strict=True):
        if isinstance(place, str) and isinstance(vent_area, Area):
            found[place] = found[place] + vent_area
    return Sums(found["high"], found["low"], total)


def larger_vent(attic: VentedAttic, needed: Any) -> list[NewValue]:
    """Return the first vent of which the free area alone is stated, larger by what lacks of what is `needed` in all."""
    stated = [vent for vent in attic.vents if is_missing(vent.free_area_each) and is_missing(vent.free_area_per_foot)]
    for vent in stated:
        if not is_missing(vent.free_area) and isinstance(attic.total, Area) and isinstance(needed, Area):
            larger = vent.free_area + (needed - attic.total)
            return [NewValue(vent, "free_area", Area.parse(f"{ceil(larger.n / SQUARE_INCH.n)} sq in"))]
    return []


def more_vents(attic: VentedAttic, full: Limit[Any], reduced: Limit[Any]) -> str:
    """Say how much vent area lacks, and how much more of the strip vents drawn would make it up."""
    if isinstance(attic.total, Missing) or isinstance(full.value, Missing):
        return "give the area of the attic and each vent's net free area"
    lacks_full, lacks_reduced = full.value - attic.total, reduced.value - attic.total
    if lacks_reduced.n > 0:
        strips = [v for v in attic.vents if v.form in LINEAR and not is_missing(v.free_area_per_foot)]
        run = f", such as {FOOT * (lacks_reduced / strips[0].free_area_per_foot)} of {strips[0].form}" if strips else ""
        return f"add {in_square_inches(lacks_reduced)} of net free area, split high and low{run}"
    return f"move vents until 40 to 50 % is high and the rest low, or add {in_square_inches(lacks_full)}"
