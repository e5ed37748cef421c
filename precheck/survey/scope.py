"""The scope of the work: what the project changes, what kind of work it is, what it makes due in the whole house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import Any, NamedTuple

from precheck.files.missing import Missing, is_missing, missing_of
from precheck.project import OUTSIDE, Appliance, Door, Part, Space, Stair
from precheck.survey.fact import Fact, fact
from precheck.survey.house import House

CHANGED = frozenset(("new", "altered", "removed"))
OUTDOOR_USES = frozenset(("porch", "deck", "carport"))
NO_WORK = frozenset(
    ("sheet", "story", "alarm", "drawing note", "schedule row", "lot line", "setback", "easement", "covered area",
     "parking stall", "address sign", "penetration", "wet area", "small work", "grade", "air tightness", "driveway", "yard wall",
     "yard equipment", "excavation")
)  # fmt: skip
"""Kinds of part that say something of the house, or of another part, and are no work by themselves."""
KINDS_OF_WORK = {
    "exterior surfaces": ("window", "cladding", "flashing", "veneer", "roof", "board", "guard", "deck ledger",
                          "retaining wall"),
    "plumbing": ("fixture", "pipe"),
    "mechanical": ("duct", "duct run", "exhaust", "intake", "heating", "whole-house ventilation", "dryer duct",
                   "combustion air"),
    "electrical": ("receptacle", "circuit", "light", "panel", "service", "cable", "permanent lighting"),
}  # fmt: skip
NO_ROOM = frozenset(
    ("garage", "carport", "porch", "deck", "attic", "crawl space", "storage", "utility", "workshop")
)  # fmt: skip
"""Uses that make no dwelling where nothing else is built."""
ALTERATION, BEDROOM = "alteration", "added bedroom"
CARRIES = frozenset(("member", "footing", "floor", "slab", "roof frame", "truss", "foundation wall", "braced wall line",
                     "framed opening", "wood", "termite protection", "ramp", "support"))  # fmt: skip
"""Kinds of part that belong to what is built of them, a deck or a room, where they name no room themselves."""


class ChangedPart(NamedTuple):
    """One part that the project changes (or may: its phase is not given), and the kind of work that it is.

    `where` is what is missing before it is known that the part lies in the dwelling unit in question.
    """

    part: Part
    work: str
    where: Missing | None = None

    @property
    def is_given(self) -> bool:
        """Whether the project says that it changes the part, and where that is."""
        return self.where is None and self.is_change

    @property
    def is_change(self) -> bool:
        """Whether the project says that it changes the part."""
        return self.work == BEDROOM or self.part.phase in CHANGED

    @property
    def why(self) -> str:
        """What makes it due, in words."""
        part = self.part
        if self.where is not None:
            return f"the unit of {part.label} is not given"
        if isinstance(part, Space) and part.is_sleeping and self.is_given:
            return (
                f"{part.label} becomes a bedroom" if part.changes_use else f"{part.label} is {part.phase} and a bedroom"
            )
        return f"{part.label} is {part.phase}" if self.is_given else f"the phase of {part.label} is not given"


@fact
class Scope(Fact):
    """All that one project changes. There is one of it in a house, about the project itself.

    `within` names the dwelling unit that its changes are of, where they are not those of the whole house.
    """

    house: House
    changes: tuple[ChangedPart, ...]
    within: str = ""

    @classmethod
    def found_in(cls, house: House) -> Iterator[Scope]:
        """Yield the scope of the project."""
        parts = (p for p in house.project.parts if p.kind not in NO_WORK)
        yield cls(house.project, house, tuple(c for part in parts if (c := _change(part, house))))

    @property
    def phase(self) -> Any:
        """None: the project itself is neither new nor existing."""
        return None

    @cached_property
    def new_house(self) -> bool | Missing:
        """Whether the whole house is new: as stated or listed among the works, or told by something that stands today."""
        dwelling, listed = self.house.project.dwelling, self.house.project.work
        stated = dwelling if is_missing(dwelling) else dwelling.new_house
        if not is_missing(stated):
            return stated
        if listed:
            return "new house" in listed
        spaces = self.house.project.spaces
        if spaces and all(space.use in NO_ROOM for space in spaces):
            return False  # a deck, a garage or a floored attic is no house
        parts = (p for p in self.house.project.parts if p.kind not in NO_WORK)
        stands = any(p.phase in ("existing", "altered", "removed") for p in parts)
        built = not is_missing(dwelling) and not is_missing(dwelling.year_built)
        return False if stands or built else Missing(*self.house.project.absent("new house of dwelling").needs)

    def causes(self, exempt: Iterable[str]) -> list[ChangedPart]:
        """Return the changes that are no work of an `exempt` kind, added bedrooms first."""
        kinds = frozenset(exempt)
        return [c for c in self._in_turn if c.work not in kinds]

    @cached_property
    def _in_turn(self) -> list[ChangedPart]:
        return sorted(self.changes, key=lambda c: (not c.is_given, not _is_sleeping(c.part)))

    def makes_due(self, exempt: Iterable[str]) -> bool | Missing:
        """Return whether the work brings what new dwellings have into the whole house: work that is not `exempt`."""
        if self.new_house is True:
            return True
        causes = self.causes(exempt)
        if any(c.is_given for c in causes):
            return True
        unknown = missing_of(*(w for c in causes[:3] for w in (c.where, None if c.is_change else c.part.phase)))
        return False if unknown is None else unknown

    def why_due(self, exempt: Iterable[str]) -> str:
        """Return what makes it due, for the finding."""
        if self.new_house is True:
            return "the house is new"
        return next((c.why for c in self.causes(exempt)), "")

    def why_not_due(self) -> str:
        """Return why nothing is due in the whole house."""
        kinds = sorted({c.work for c in self.changes})
        if kinds:
            return f"the work is only {' and '.join(kinds)} work"
        return f"nothing of {self.within or 'the house'} is changed"


def _is_sleeping(part: Part) -> bool:
    return isinstance(part, Space) and part.is_sleeping


def _change(part: Part, house: House) -> ChangedPart | None:
    becomes = isinstance(part, Space) and part.is_sleeping and part.changes_use
    if part.phase == "existing":
        return ChangedPart(part, BEDROOM) if becomes else None
    return ChangedPart(part, _kind_of_work(part, house))


def _kind_of_work(part: Part, house: House) -> str:
    """Return what kind of work it is to add, alter or remove `part`; what stands outdoors is work on the exterior."""
    if isinstance(part, Appliance):
        return "mechanical with fuel" if part.burns_fuel is True else "mechanical"
    kind = next((work for work, kinds in KINDS_OF_WORK.items() if part.kind in kinds), ALTERATION)
    return "exterior surfaces" if kind == ALTERATION and _stands_outdoors(part, house) else kind


def _stands_outdoors(part: Part, house: House) -> bool:
    """Whether `part` is a deck, porch, carport or detached building, stands in one, or carries one and nothing else."""
    if isinstance(part, Space):
        return _is_apart(part)
    if isinstance(part, Door | Stair) and OUTSIDE in part.between:
        return True  # an outside door, or a stair that leads up to one
    between = getattr(part, "between", ())
    sides = tuple(map(str, between)) if isinstance(between, tuple) else ()
    spaces = [space for side in (*sides, _space_of(part)) if (space := house.space(side)) is not None]
    if spaces:
        return all(_is_apart(space) for space in spaces)
    return part.kind in CARRIES and house.once(_only_outdoors)


def _space_of(part: Part) -> str:
    named = getattr(part, "space", "")
    return named if isinstance(named, str) else ""


def _only_outdoors(house: House) -> bool:
    """Whether all rooms and places that the work changes lie outdoors, and some do."""
    changed = [space for space in house.project.spaces if space.phase in CHANGED or space.changes_use]
    walls = (wall for wall in house.project.walls if wall.phase in CHANGED)
    inner = any(not _stands_outdoors(wall, house) for wall in walls)
    return bool(changed) and all(_is_apart(space) for space in changed) and not inner


def _is_apart(space: Space) -> bool:
    """Whether `space` is no part of the inside of the house."""
    return space.use in OUTDOOR_USES or space.detached is True
