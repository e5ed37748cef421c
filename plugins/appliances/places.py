"""What the rules for appliances are about: an appliance and the place where it stands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Appliance, Fact, House, Missing, Space, fact, is_missing, when_given

GAS = frozenset(("natural gas", "propane"))
BARRED = frozenset(("bedroom", "bathroom", "toilet room", "closet"))
NOT_LIVED_IN = frozenset(("storage", "utility", "laundry", "workshop", "closet"))
OUTDOOR = frozenset(("carport", "porch", "deck"))


@fact
class PlacedAppliance(Fact):
    """An appliance where it stands, with the spaces into which that place opens."""

    appliance: Appliance
    space: Space
    opens_to: tuple[Space, ...]
    opens_outside: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[PlacedAppliance]:
        """Yield every appliance that is there when the work is done."""
        for appliance in house.subjects(Appliance):
            space = house.space(appliance.space)
            if space is not None and not appliance.is_removed:
                leads_to, outside = openings(house, space)
                yield cls(appliance, appliance, space, leads_to, outside)

    @property
    def phase(self) -> Any:
        """An appliance that stays is as new where the space around it becomes something else.

        So it is where the space into which its place opens becomes a garage, or the bedroom or bathroom off which it is.
        """
        if self.appliance.phase != "existing":
            return self.appliance.phase
        beyond = [s for s in self.opens_to if s is self.opens_only_into or (s.use == "garage" and self.in_garage_air)]
        if any(s.phase == "new" or (s.changes_use and not s.is_existing) for s in beyond):
            return "new"
        return self.space.phase if self.space.phase in ("new", "altered") else "existing"

    @property
    def burns_gas(self) -> bool | Missing:
        """Whether it burns gas."""
        return when_given(lambda fuel: fuel in GAS, self.appliance.fuel)

    @property
    def in_garage_air(self) -> bool:
        """Whether it stands in a garage, or in a room that is not lived in and opens to one and to no living space."""
        return self.space.use == "garage" or self._counts_as_garage

    @property
    def _counts_as_garage(self) -> bool:
        lived_in = any(s.use not in NOT_LIVED_IN and s.use != "garage" and s.use not in OUTDOOR for s in self.opens_to)
        beside_garage = any(s.use == "garage" for s in self.opens_to)
        return self.space.use in NOT_LIVED_IN and beside_garage and not lived_in

    @property
    def why(self) -> str:
        """Why the air of a garage reaches it."""
        if self.space.use == "garage":
            return f"{self.space.id} is a garage"
        return f"{self.space.id} opens to a garage and is not living space, so that it counts as one"

    @property
    def opens_only_into(self) -> Space | None:
        """The bedroom or bathroom that is the only way into its place, where it stands in a place of its own."""
        stated = self.appliance.reached_only_from
        only = [s for s in self.opens_to if is_missing(stated) or s.id == stated]
        closed_off = len(only) == 1 and (not is_missing(stated) or (len(self.opens_to) == 1 and not self.opens_outside))
        own = self.space.use in NOT_LIVED_IN
        return only[0] if own and closed_off and only[0].use in BARRED - {"closet"} else None

    @property
    def barred(self) -> str:
        """Why fuel may not burn where it stands; nothing where it may."""
        if self.space.use in BARRED:
            return f"it stands in a {self.space.use}"
        if self.opens_only_into is not None:
            return f"{self.space.id} opens only into {self.opens_only_into.id}, a {self.opens_only_into.use}"
        return f"{self.space.id} is a storage room" if self.only_maybe else ""

    @property
    def only_maybe(self) -> bool:
        """Whether it depends on use: a storage room with an appliance may or may not be a storage closet."""
        return self.space.use == "storage" and self.opens_only_into is None

    @property
    def in_attic(self) -> bool:
        """Whether it stands in an attic that nobody lives in."""
        return self.space.use == "attic" and self.space.habitable_attic is not True

    @property
    def under_floor(self) -> bool:
        """Whether it stands in a crawl space."""
        return self.space.use == "crawl space"

    def passage(self, field: str) -> Any:
        """Return `field` of the passage to it, or its absence."""
        way = self.appliance.passage
        return (
            self.appliance.absent(f"{field.replace('_', ' ')} of the passage")
            if is_missing(way)
            else getattr(way, field)
        )


def openings(house: House, space: Space) -> tuple[tuple[Space, ...], bool]:
    """Return the spaces into which doors lead from `space`, and whether one leads outside."""
    doors = [d for d in house.project.doors if space.id in d.between and not d.is_removed]
    others = [house.space(side) for door in doors for side in door.between if side != space.id]
    found = [other for other in others if other is not None]
    return tuple(s for s in found if not s.is_removed), any(o is None or o.use in OUTDOOR for o in others)
