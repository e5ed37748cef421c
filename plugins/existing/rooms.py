"""Rooms by what they are, whatever they are called: rooms that change use, and rooms that read as bedrooms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Area,
    Check,
    Door,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Opening,
    Space,
    Window,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    fact,
    is_missing,
    met,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
)

MET = ("pass", "warn", "does not apply")
MIGHT_BE_SLEPT_IN = frozenset(("office", "storage", "workshop", "family room", "utility"))
INSIDE = frozenset(("bathroom", "toilet room", "laundry", "hall", "closet", "sunroom"))
"""Rooms that are lived with, beside the habitable ones; each may have been a garage, a porch or an attic."""


@fact
class UnnamedBedroom(Fact):
    """A room with another name in which somebody might sleep, and what of it reads as a bedroom."""

    room: Space
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[UnnamedBedroom]:
        """Yield every office, storage room, workshop, utility and family room."""
        yield from (cls(room, room, house) for room in house.spaces if room.use in MIGHT_BE_SLEPT_IN)

    @property
    def openings(self) -> tuple[Opening, ...]:
        """Doors and windows of the room."""
        return self.house.openings_of(self.room)

    @property
    def has_closet(self) -> bool:
        """Whether it has a closet, as stated or as a door to one says."""
        return self.room.closet is True or any(s.use == "closet" for s in self.across)

    @property
    def across(self) -> list[Space]:
        """Spaces across its doors."""
        sides = (s for o in self.openings if isinstance(o, Door) for s in self.house.sides(o))
        return [s for s in sides if s is not None and s is not self.room]

    @property
    def has_door(self) -> bool:
        """Whether a door shuts it off from the rest of the house, with no open side."""
        inner = [o for o in self.openings if isinstance(o, Door) and not o.is_exterior]
        return bool(inner) and not self.room.open_to and all(d.operation != "cased opening" for d in inner)

    @property
    def has_bathroom(self) -> bool:
        """Whether a bathroom is entered from it."""
        return any(s.use == "bathroom" for s in self.across)


class SleepingLimits(Limits):
    signs: Limit[tuple[str, ...]]
    maximum_signs: Limit[int]
    escape_area: Limit[Area] = reads("escape.area.at-grade")
    escape_width: Limit[Length] = reads("escape.width.minimum")
    escape_height: Limit[Length] = reads("escape.height.minimum")
    room_area: Limit[Area] = reads("rooms.area.minimum")


NO_CLOSET_STATED = does_not_apply("closet: not stated")


@rule("existing.reads-as-bedroom", stage="plan")
def reads_as_bedroom(space: UnnamedBedroom, limit: SleepingLimits) -> Check:
    """A room with a closet, a door, an egress-size window and a bathroom reads as a bedroom by any name.

    The use on the plan decides under the model code; many departments go by the signs. Which signs, and how many, is
    theirs to set.
    """
    signs = limit.signs.value if isinstance(limit.signs.value, tuple) else ()
    found = [sign for sign in signs if _shows(space, sign, limit) is True]
    unsure = missing_of(*(_shows(space, sign, limit) for sign in signs))
    telling = ", ".join(found) or "none"
    if len(found) == limit.maximum_signs.value and unsure is not None:
        return at_most(unsure, limit.maximum_signs)
    held = at_most(len(found), limit.maximum_signs, telling).or_fix(
        f"call {space.room.id} a bedroom, with an egress window and smoke alarms, or leave out what makes it one"
    )
    return held if space.has_closet or not is_missing(space.room.closet) else all_of(held, NO_CLOSET_STATED)


def _shows(space: UnnamedBedroom, sign: str, limit: SleepingLimits) -> bool | Missing:
    if sign == "size":
        area = space.house.area(space.room)
        return area if is_missing(area) else at_least(area, limit.room_area).outcome.word in MET
    if sign == "escape-sized window":
        return any(_could_climb(o, limit) for o in space.openings)
    known = {"closet": space.has_closet, "door": space.has_door, "bathroom beside": space.has_bathroom}
    return known.get(sign, False)


def _could_climb(opening: Opening, limit: SleepingLimits) -> bool:
    """Return whether a window (or a door to the outside) is as large as a grade-floor escape opening."""
    if isinstance(opening, Door):
        return opening.is_exterior and opening.operation != "vehicle"
    box, area = opening.net_clear_opening, opening.clear_area
    if not isinstance(opening, Window) or not opening.can_open or is_missing(area):
        return False
    limits: list[tuple[Any, Limit[Any]]] = [(area, limit.escape_area)]
    limits += [] if is_missing(box) else [(box.width, limit.escape_width), (box.height, limit.escape_height)]
    return all(at_least(given, least).outcome.word in MET for given, least in limits)


@rule("existing.changed-use", stage="intake", existing="must comply")
def changed_use(space: Space) -> Check:
    """A room whose use changes is part of the work, and is held to what its new use needs.

    Of a room that is altered the plans say what it was, if only that it was the same: the existing floor plan shows it.
    """
    if space.phase == "altered" and is_missing(space.was) and (space.is_habitable or space.use in INSIDE):
        return not_shown(space.absent("was (its use before the work)"))
    if is_missing(space.was) or is_missing(space.use) or space.was == space.use:
        return does_not_apply("no change of use is given")
    if space.phase == "existing":
        return broken(
            f"it was a {space.was} and becomes a {space.use}, so that it is not an existing {space.use}"
        ).or_fix("mark it `phase: altered`, so that what the new use needs is checked")
    if space.addition is True:
        told = f"it was a {space.was} and is said to be an addition, which stands where nothing stood"
        return broken(told).or_fix("take out `addition`, or what it was")
    unsaid = [does_not_apply("addition: not stated")] if is_missing(space.addition) else []
    return all_of(met(f"it was a {space.was}, and is checked as {space.use}"), *unsaid)


@fact
class FinishedLater(Fact):
    """A room that stands and was finished after the house was built, as an attic that is lived in was."""

    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[FinishedLater]:
        """Yield each such room."""
        for space in house.spaces:
            if space.phase == "existing" and (space.finished_since_built is True or space.habitable_attic is True):
                yield cls(space, space)


class EarlierPermitLimits(Limits):
    permit: Limit[bool]


@rule("existing.built-with-permit", stage="intake", existing="must comply")
def built_with_permit(space: FinishedLater, limit: EarlierPermitLimits) -> Check:
    """Finished space that is called existing was built with a permit, or goes under the new one."""
    check = required(space.room.built_with_permit, limit.permit)
    return check.or_fix("find the permit, or mark the room `phase: altered` and apply for it with this work")
