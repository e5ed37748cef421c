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
    known = _known(opening, house)
    if not is_missing(known):
        return known
    outside = faces_out(opening, house) if isinstance(opening, Door) else True
    return True if outside else known


def is_beside_bearing(opening: Opening, house: House) -> bool:
    """Return whether `opening` is, or may be, in a wall that is known to bear."""
    wall = wall_of(opening, house)
    return any(bears(one, house) is True for one in (_beside(opening, house) if wall is None else [wall]))


def _known(opening: Opening, house: House) -> bool | Missing:
    """Return whether the wall of `opening` bears; where it is one of several, what all of them are."""
    wall = wall_of(opening, house)
    if wall is not None:
        return bears(wall, house)
    all_of_them = {bears(one, house) for one in _beside(opening, house)}
    return False if all_of_them == {False} else opening.absent("wall (with what it carries)")


def _beside(opening: Opening, house: House) -> list[Wall]:
    """Return the walls between the two rooms that `opening` joins."""
    sides = set(opening.between) if isinstance(opening, Door) else set()
    return [wall for wall in house.project.walls if set(wall.between) == sides and not wall.is_removed]
