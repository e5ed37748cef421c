"""Whether a wall bears: as the file states, or because members land on it; else the fact to ask for."""

from __future__ import annotations

from precheck import Door, House, Missing, Opening, Wall, carried_load, faces_out, is_missing, wall_of, when_given


def bears(wall: Wall, house: House) -> bool | Missing:
    """Return whether `wall` bears. What lands on it decides, also where it is said to carry nothing."""
    if any(end.on == wall.id for member in house.project.members if not member.is_removed for end in member.bears_on):
        return True
    return when_given(lambda carries: carries != "nothing", carried_load(wall))


def wall_bears(opening: Opening, house: House) -> bool | Missing:
    """Return whether the wall of `opening` bears. An outside wall of which nothing is said may, and counts as one."""
    wall = wall_of(opening, house)
    known = opening.absent("wall (with what it carries)") if wall is None else bears(wall, house)
    if not is_missing(known):
        return known
    outside = faces_out(opening, house) if isinstance(opening, Door) else True
    return True if outside else known
