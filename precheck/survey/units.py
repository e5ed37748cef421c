"""The dwelling units of a house: which spaces each has, and what the work changes in it.

A house whose spaces name no unit, or one alone, is one dwelling. Where they name more, a space that says no unit may be
of any of them; one that says `shared` is of none and used by all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import Any

from precheck.files.missing import Missing, is_missing, missing_of
from precheck.project import Door, Part, Space
from precheck.survey.fact import Fact, fact
from precheck.survey.house import House
from precheck.survey.scope import ChangedPart, Scope
from precheck.survey.sides import is_outdoors

SHARED = "shared"


@fact
class DwellingUnit(Fact):
    """One dwelling: a unit that spaces name, or the whole house (without a name) where they name no more than one."""

    house: House
    name: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[DwellingUnit]:
        """Yield the units in the order in which the spaces first name them, or the one dwelling."""
        said = dict.fromkeys(str(s.unit) for s in house.spaces if not is_missing(s.unit) and s.unit != SHARED)
        for name in said if len(said) > 1 else ("",):
            yield cls(house.project, house, name)

    @property
    def label(self) -> str:
        """The unit, or the project where it is the only one."""
        if not self.name:
            return self.about.label
        return self.name if self.name.lower().startswith("unit") else f"unit {self.name}"

    @property
    def phase(self) -> Any:
        """None: a dwelling is held to what its work makes due, whatever of it stands today."""
        return None

    @property
    def called(self) -> str:
        """What a sentence calls it: the unit, or the house."""
        return self.label if self.name else "the house"

    def lacks(self, what: str, hint: str = "") -> Missing:
        """Return the absence of `what` in this dwelling; the unit and a `hint` stand in parentheses, as notes of a need do."""
        notes = ", ".join(filter(None, (f"in {self.label}" if self.name else "", hint)))
        return self.house.project.absent(f"{what} ({notes})" if notes else what)

    def among(self, spaces: Iterable[Space]) -> tuple[Space, ...]:
        """Return those of `spaces` that are its own; all where it is the only one."""
        return tuple(space for space in spaces if not self.name or space.unit == self.name)

    def has(self, space: Space) -> bool | Missing:
        """Return whether `space` is of this unit, or shared by all; an absence where it does not say."""
        if not self.name:
            return True
        return space.unit if is_missing(space.unit) else space.unit in (self.name, SHARED)

    def holds(self, part: Part) -> bool | Missing:
        """Return whether `part` is in this unit or in what the units share; true of what is in no space, as the roof is."""
        found = [self.has(space) for space in _spaces_of(part, self.house)]
        unsaid = missing_of(*found)
        return unsaid if unsaid is not None and True not in found else True in found or not found

    def is_left_by(self, door: Door) -> bool | Missing:
        """Return whether `door` leads out of this unit, or out of what the units share, and not through another unit."""
        spaces = [space for space in self.house.sides(door) if space is not None]
        found = [self.has(s) for s in spaces if not is_outdoors(s.id, self.house)] or [*map(self.has, spaces)]
        unsaid = missing_of(*found)
        return False if False in found else True if unsaid is None else unsaid

    @cached_property
    def scope(self) -> Scope:
        """What the work changes in this unit: what lies in its spaces, and what belongs to no space, as the roof does."""
        whole: Scope = self.house.subjects(Scope)[0]
        if not self.name:
            return whole
        changes = (c for change in whole.changes if (c := self._here(change)))
        return Scope(whole.about, self.house, tuple(changes), self.label)

    def _here(self, change: ChangedPart) -> ChangedPart | None:
        here = self.holds(change.part)
        if is_missing(here):
            return change._replace(where=here)
        return change if here else None


def units_of(space: Space | None, house: House) -> tuple[DwellingUnit, ...]:
    """Return the dwelling units that `space` is of or, where it does not say, may be of; all for what is of no space."""
    units: tuple[DwellingUnit, ...] = house.subjects(DwellingUnit)
    return units if space is None else tuple(unit for unit in units if unit.has(space) is not False)


def _spaces_of(part: Part, house: House) -> list[Space]:
    """Return the spaces that `part` is, is in, or stands between; of a room and a porch, the room."""
    if isinstance(part, Space):
        return [part]
    between = getattr(part, "between", ())
    named = (getattr(part, "space", None), *(between if isinstance(between, tuple) else ()))
    spaces = [space for one in named if isinstance(one, str) and (space := house.space(one)) is not None]
    return [space for space in spaces if not is_outdoors(space.id, house)] or spaces
