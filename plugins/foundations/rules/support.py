"""What a new wall to the outside stands on. The edge of a slab is no footing."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Check,
    Fact,
    Footing,
    House,
    Limit,
    Limits,
    Space,
    Wall,
    faces_out,
    fact,
    is_missing,
    met,
    not_shown,
    one_of,
    rule,
)


def is_infill(wall: Wall, house: House) -> bool:
    """Return whether an altered wall closes an opening that a vehicle door leaves."""
    doors = (d for d in house.project.doors if d.operation == "vehicle" and d.is_removed and faces_out(d, house))
    return wall.phase == "altered" and any(set(d.between) == set(wall.between) for d in doors)


def is_new_outside(wall: Wall, house: House) -> bool:
    """Return whether a wall to the outside is new, or new in part because it closes an old opening."""
    stays = wall.is_existing or wall.is_removed or wall.phase == "altered"
    return faces_out(wall, house) and not _is_upstairs(wall, house) and (not stays or is_infill(wall, house))


def _is_upstairs(wall: Wall, house: House) -> bool:
    """Return whether a wall is on a story that has another below it, and so stands on that."""
    story = None if is_missing(wall.story) else house.project.by_id.get(wall.story)
    return getattr(story, "level", None) in ("upper", "attic")


@fact
class NewOutsideWall(Fact):
    """A new wall to the outside, or the walls that a closed-in carport must get and that are not drawn."""

    wall: Wall | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[NewOutsideWall]:
        """Yield new outside walls, and rooms that were a carport and have no outside wall drawn."""
        walls = house.project.walls
        yield from (cls(wall, wall) for wall in walls if is_new_outside(wall, house))
        for space in house.spaces:
            drawn = any(space.id in wall.between and faces_out(wall, house) for wall in walls)
            if _was_open(space) and not drawn:
                yield cls(space, None)


def _was_open(space: Space) -> bool:
    return space.was == "carport" and not is_missing(space.use) and space.use not in ("carport", "porch", "deck")


class SupportLimits(Limits):
    forms: Limit[tuple[str, ...]]


@rule("foundations.outside-wall", stage="foundation")
def outside_wall(new: NewOutsideWall, limit: SupportLimits, house: House) -> Check:
    """A new wall to the outside stands on a continuous footing, a foundation wall or a slab turned down to one.

    The edge of an old garage or carport slab is no footing. What lies under it is looked up or dug out before a wall
    goes on it.
    """
    if new.wall is None:
        return not_shown(new.about.absent("walls to the outside, with what they stand on"))
    below = None if is_missing(new.wall.footing) else house.project.by_id.get(new.wall.footing)
    if below is None:
        return not_shown(new.wall.absent("footing"))
    if not isinstance(below, Footing):
        return met(f"it stands on {below.label}")
    return one_of(below.form, limit.forms, f"{new.wall.label} stands on {below.label}").or_fix(
        "dig a test pit at the slab edge; where there is no footing, cut the slab back and cast one below frost depth"
    )
