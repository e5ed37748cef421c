"""What the rules for access are about: attics, crawl spaces, and the ways into them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Area,
    Attic,
    Carried,
    Fact,
    Hatch,
    House,
    Length,
    Missing,
    Space,
    Stair,
    Window,
    Works,
    fact,
    is_missing,
)

FIXED = "fixed stair"
STANDING = Length.parse("6 ft")  # a ceiling at which most people stand upright; a sign of a room, not a limit
NEW_ROOFS = ("new house", "addition", "upper addition")  # the works of access.new-attic
PULLED = frozenset(("ladder", "pull-down stair"))


@fact
class AtticAccess(Fact):
    """An attic that nobody lives in, with the hatches and stairs that lead to it."""

    space: Space
    hatches: tuple[Hatch, ...]
    stairs: tuple[Stair, ...]
    area: Area | Missing
    load_is_drawn: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[AtticAccess]:
        """Yield every attic that is there when the work is done."""
        for space in house.spaces:
            if space.use == "attic":
                drawn = any(load.space == space.id for load in house.subjects(Carried))
                yield cls(space, space, hatches_to(house, space), stairs_to(house, space), house.area(space), drawn)

    @property
    def reached_by(self) -> str | Missing:
        """How one gets up: fixed stair, pull-down stair or ladder, or hatch; an absence where none is drawn."""
        fixed = [stair for stair in self.stairs if stair.form != "pull-down"]
        ways = [hatch.reached_by for hatch in self.hatches]
        if fixed:
            return FIXED
        if self.stairs or any(way in PULLED for way in ways):
            return "pull-down stair or ladder"
        unknown = next((way for way in ways if is_missing(way)), None)
        return unknown if unknown is not None else "hatch" if ways else self.space.absent("way up (a hatch or stair)")


@fact
class VentedAlone(Fact):
    """A new attic of which the vents are drawn and the space is not, with the hatches in ceilings that may lead to it."""

    attic: Attic
    hatches: tuple[Hatch, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[VentedAlone]:
        """Yield every new attic without a space; an addition is asked for the way into its attic by what it takes."""
        if any(space.use == "attic" for space in house.spaces) or Works.of(house).of_kinds(*NEW_ROOFS):
            return
        ways = tuple(opening.hatch for opening in house.subjects(AccessOpening) if opening.reaches is None)
        yield from (cls(attic, attic, ways) for attic in house.subjects(Attic) if attic.phase == "new")


@fact
class CrawlSpace(Fact):
    """A crawl space, with the openings that lead to it."""

    space: Space
    hatches: tuple[Hatch, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[CrawlSpace]:
        """Yield every crawl space that is there when the work is done."""
        for space in house.spaces:
            if space.use == "crawl space":
                yield cls(space, space, hatches_to(house, space))


@fact
class AccessOpening(Fact):
    """One hatch with the attic or crawl space that it reaches; None for an attic that is not drawn as a space."""

    hatch: Hatch
    reaches: Space | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[AccessOpening]:
        """Yield every hatch whose attic or crawl space is named, and those in a ceiling, which reach an attic."""
        for hatch in house.subjects(Hatch):
            reached = None if is_missing(hatch.to) else house.space(hatch.to)
            upward = is_missing(hatch.to) and hatch.through == "ceiling"
            if (reached is not None or upward) and not hatch.is_removed:
                yield cls(hatch, hatch, reached)

    @property
    def use(self) -> Any:
        """What it reaches."""
        return "attic" if self.reaches is None else self.reaches.use

    def side(self, name: str, of: str = "rough_opening") -> Any:
        """Return ``width`` or ``height`` of the opening or areaway as drawn."""
        return getattr(getattr(self.hatch, of), name)


def hatches_to(house: House, space: Space) -> tuple[Hatch, ...]:
    """Return the hatches that lead to `space` when the work is done."""
    return tuple(h for h in house.subjects(Hatch) if h.to == space.id and not h.is_removed)


def stairs_to(house: House, space: Space) -> tuple[Stair, ...]:
    """Return the stairs that lead to `space` when the work is done."""
    return tuple(s for s in house.subjects(Stair) if space.id in s.between and not s.is_removed)


def signs_of_living(house: House, attic: AtticAccess) -> list[str]:
    """Return what about an attic reads as a room to live in."""
    space = attic.space
    windows = [o for o in house.openings_of(space) if isinstance(o, Window) and not o.is_existing]
    finished = not is_missing(space.ceiling) and bool(space.ceiling.layers)
    floor = house.floor(space)
    floored = floor is not None and len(floor.layers) > 1
    signs = [(bool(windows), f"window {windows[0].id}" if windows else ""), (finished, "a finished ceiling"),
             (floored, "a finished floor"), (_tall(space), "a ceiling high enough to stand")]  # fmt: skip
    return [sign for there, sign in signs if there]


def _tall(space: Space) -> bool:
    height = space.absent("") if is_missing(space.ceiling) else space.ceiling.height
    return not is_missing(height) and height >= STANDING
