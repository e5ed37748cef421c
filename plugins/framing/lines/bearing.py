"""Whether a wall bears: as the file states, or because members land on it; else the fact to ask for."""

from __future__ import annotations

from precheck import Door, House, Missing, Opening, Wall, faces_out, is_missing, wall_of

CARRIED = "carried load (nothing, or floors and roof)"


def bears(wall: Wall, house: House) -> bool | Missing:
    """Return whether `wall` bears. What lands on it decides, also where it is said to carry nothing."""
    if any(end.on == wall.id for member in house.project.members if not member.is_removed for end in member.bears_on):
        return True
    carries = wall.framing.carries
    return wall.absent(CARRIED) if is_missing(carries) else carries != "nothing"


def wall_bears(opening: Opening, house: House) -> bool | Missing:
    """Return whether the wall of `opening` bears. An outside wall of which nothing is said may, and counts as one."""
    wall = wall_of(opening, house)
    known = opening.absent("wall (with what it carries)") if wall is None else bears(wall, house)
    if not is_missing(known):
        return known
    outside = faces_out(opening, house) if isinstance(opening, Door) else True
    return True if outside else known
