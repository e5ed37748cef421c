"""What the rules for escape openings are about: rooms that need one, and the opening that serves each of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from precheck import (
    OUTSIDE,
    Area,
    Door,
    Fact,
    House,
    Length,
    Missing,
    Opening,
    Space,
    Window,
    is_missing,
)


@dataclass(frozen=True)
class EscapeRoom(Fact):
    """A room that needs an escape opening, why, and the openings that could serve it."""

    room: Space
    why: str
    basement: bool
    candidates: tuple[Opening, ...]
    area: Area | Missing
    sprinklered: bool | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[EscapeRoom]:
        """Yield every sleeping room, habitable attic and basement room in which people stay or sleep."""
        dwelling = house.project.dwelling
        sprinklered = dwelling if is_missing(dwelling) else dwelling.sprinklered
        for room in house.spaces:
            below = house.storey_level(room) == "basement"
            if why := why_needed(room, below):
                openings = tuple(o for o in house.openings_of(room) if could_serve(o))
                yield cls(room, room, why, below, openings, house.area(room), sprinklered)


@dataclass(frozen=True)
class EscapeOpening(Fact):
    """The opening through which people are to leave one room: as marked, else the one with the largest clear area."""

    room: Space
    opening: Opening
    sill: Length | Missing
    chosen: str
    room_phase: Any

    @classmethod
    def found_in(cls, house: House) -> Iterator[EscapeOpening]:
        """Yield the escape opening of every room that needs one and has an opening that could serve."""
        for need in house.subjects(EscapeRoom):
            marked = [o for o in need.candidates if o.escape is True]
            for opening in marked or _largest(need.candidates):
                chosen = "marked as the escape opening" if marked else _why_this(need)
                yield cls(opening, need.room, opening, sill_of(opening, house), chosen, need.room.phase)

    @property
    def phase(self) -> Any:
        """The phase of the room: an existing window in a room that becomes a sleeping room must serve it."""
        return self.room_phase

    @property
    def width(self) -> Length | Missing:
        """Net clear width. The unit size says nothing of it, so it is never used."""
        box = self.opening.net_clear_opening
        return self._clear("net clear opening") if is_missing(box) else box.width

    @property
    def height(self) -> Length | Missing:
        """Net clear height."""
        box = self.opening.net_clear_opening
        return self._clear("net clear opening") if is_missing(box) else box.height

    @property
    def area(self) -> Area | Missing:
        """Net clear area: as stated, else width times height."""
        stated = self.opening.net_clear_area
        if not is_missing(stated):
            return stated
        box = self.opening.net_clear_opening
        return self._clear("net clear opening") if is_missing(box) else box.area

    @property
    def sill_from_grade(self) -> Length | Missing:
        """Distance of the sill from the ground beside it, above or below."""
        if not isinstance(self.opening, Window):
            return Length(0)
        above = self.opening.sill_above_grade
        return above if is_missing(above) else abs(above)

    @property
    def sill_below_grade(self) -> bool | Missing:
        """Whether the sill lies below the ground beside it; a drawn well says so."""
        if not isinstance(self.opening, Window):
            return False
        above = self.opening.sill_above_grade
        if not is_missing(above):
            return above.n < 0
        return above if is_missing(self.opening.well) else True

    def _clear(self, key: str) -> Missing:
        unit = self.opening.unit_size
        known = "" if is_missing(unit) else f" (only the unit size, {unit}, is given)"
        return self.opening.absent(f"{key}{known}")


def why_needed(room: Space, below: bool) -> str | None:
    """Return why `room` needs an escape opening, or None where it does not."""
    if room.is_sleeping:
        return "it is a sleeping room"
    if room.habitable_attic is True:
        return "it is a habitable attic"
    if below and (room.is_habitable or room.mechanical_only is False):
        return "it is in a basement"
    return None


def could_serve(opening: Opening) -> bool:
    """Return whether people could leave through `opening`: it opens, and not into another room."""
    if isinstance(opening, Window):
        return opening.can_open
    return isinstance(opening, Door) and OUTSIDE in opening.between


def sill_of(opening: Opening, house: House) -> Length | Missing:
    """Return the height of the bottom of the clear opening above the finished floor; a door's is its threshold."""
    if isinstance(opening, Window):
        return house.sill_height(opening)
    height = getattr(opening, "threshold_height", Length(0))
    return Length(0) if is_missing(height) else height


def _largest(candidates: tuple[Opening, ...]) -> list[Opening]:
    known = [o for o in candidates if isinstance(o.clear_area, Area)]
    best = max(known, key=lambda o: o.clear_area.n) if known else next(iter(candidates), None)
    return [] if best is None else [best]


def _why_this(need: EscapeRoom) -> str:
    if len(need.candidates) == 1:
        return f"the only opening of {need.room.id} that could serve"
    return f"the largest clear opening of the {len(need.candidates)} of {need.room.id}; none is marked `escape: yes`"
