"""Which parts of a room need no insulation, because heated rooms lie beyond them or the ground does."""

from __future__ import annotations

from precheck_plugins.energy.envelope import is_conditioned

from precheck import House, Space, edges

MOSTLY = 0.95  # of the walls or the floor of a room that lie beside heated rooms: the rest is the thickness of walls


def is_within(part: str, room: Space, house: House) -> bool:
    """Return whether the wall, ceiling or floor of `room` is known to part no heated space from an unheated one."""
    if part == "wall":
        return _is_surrounded(room, house)
    if house.story_level(room) == "basement":
        return True
    below = [space for space in house.spaces if room in house.above(space)]
    return _is_covered(room, list(house.above(room)) if part == "ceiling" else below, house)


def _is_covered(room: Space, others: list[Space], house: House) -> bool:
    """Whether heated rooms lie over (or under) the whole of `room`; where they are not drawn, whether all that are named do."""
    heated = [other for other in others if is_conditioned(other)]
    share = house.cover(room, heated)
    if not heated or share is None:
        return bool(heated) and len(heated) == len(others)
    return float(share.n) >= MOSTLY


def _is_surrounded(room: Space, house: House) -> bool:
    outline = house.outline(room)
    if outline is None:
        return False
    walls: list[float] = [abs(float(b[0] - a[0])) + abs(float(b[1] - a[1])) for a, b in edges(outline)]
    others = [other for other in house.spaces if other is not room and is_conditioned(other)]
    facing: list[float] = [float(one.n) for other in others if (one := house.shared_wall(room, other)) is not None]
    return sum(facing) >= MOSTLY * sum(walls)
