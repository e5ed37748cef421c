"""What a new wall to the outside stands on. The edge of a slab is no footing."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Check,
    Door,
    Fact,
    Footing,
    House,
    Limit,
    Limits,
    Look,
    Wall,
    Works,
    all_of,
    does_not_apply,
    faces_out,
    fact,
    infill_of,
    is_furring,
    is_missing,
    look_at,
    met,
    not_shown,
    on_ground,
    one_of,
    outside_walls,
    reads,
    rule,
)

OPEN = ("carport", "porch", "deck")


def closes_overhead_door(wall: Wall, house: House) -> bool:
    """Return whether a wall closes the opening of a removed overhead door."""
    doors = (d for d in house.project.doors if house.was_overhead(d) and faces_out(d, house))
    return any(wall in walls_closing(door, house) for door in doors)


def walls_closing(door: Door, house: House) -> list[Wall]:
    """Return the wall that closes the opening `door` leaves; none where a door or window does, or nothing is drawn."""
    found = infill_of(door, house)
    return [found] if isinstance(found, Wall) else []


def is_new_outside(wall: Wall, house: House) -> bool:
    """Return whether a wall to the outside is new, or new in part because it closes an old opening."""
    if not faces_out(wall, house) or _is_upstairs(wall, house) or wall.is_existing or wall.is_removed:
        return False
    return closes_overhead_door(wall, house) or (wall.phase != "altered" and not is_furring(wall, house))


def _is_upstairs(wall: Wall, house: House) -> bool:
    """Return whether a wall is on a story that has another below it, and so stands on that."""
    story = None if is_missing(wall.story) else house.project.by_id.get(wall.story)
    rooms = tuple(space for side in wall.between if (space := house.space(side)) is not None)
    return getattr(story, "level", None) in ("upper", "attic") or not on_ground(rooms, house)


@fact
class NewOutsideWall(Fact):
    """A new wall to the outside, and what it stands on."""

    wall: Wall

    @classmethod
    def found_in(cls, house: House) -> Iterator[NewOutsideWall]:
        """Yield new outside walls."""
        yield from (cls(wall, wall) for wall in house.project.walls if is_new_outside(wall, house))


class SupportLimits(Limits):
    forms: Limit[tuple[str, ...]]
    asked_of: Limit[tuple[str, ...]] = reads("foundations.under-new-walls.works")


@rule("foundations.outside-wall", stage="foundation")
def outside_wall(new: NewOutsideWall, limit: SupportLimits, house: House) -> Check:
    """A new outside wall stands on a continuous footing, a foundation wall or a turned-down slab.

    The edge of an old garage or carport slab is no footing. What lies under it is looked up or dug out before a wall
    goes on it. That a footing is drawn is a line of what the work takes; this rule asks where no such work is there.
    """
    wall = new.wall
    below = None if is_missing(wall.footing) else house.project.by_id.get(wall.footing)
    if below is None:
        told = "what is under it is asked for with its work"
        return does_not_apply(told) if _is_asked(wall, limit, house) else not_shown(wall.absent("footing"))
    if not isinstance(below, Footing):
        return met(f"it stands on {below.label}")
    formed = one_of(below.form, limit.forms, f"{wall.label} stands on {below.label}").or_fix(
        "dig a test pit at the slab edge; where there is no footing, cut the slab back and cast one below frost depth"
    )
    if not below.is_existing or wall.phase == "altered" or not is_missing(below.designed_by):
        return formed
    return all_of(formed, look_at(Look.ENGINEER, f"whether the old {below.label} carries the new {wall.label}"))


def _is_asked(wall: Wall, limit: SupportLimits, house: House) -> bool:
    kinds = limit.asked_of.value
    works = () if kinds is None or is_missing(kinds) else Works.of(house).of_kinds(*kinds)
    return closes_overhead_door(wall, house) or any(wall in outside_walls(work, house) for work in works)
