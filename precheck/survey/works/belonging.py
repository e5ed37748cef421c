"""What belongs to a work: its rooms on the ground, what their floors are, its walls to the open, parts said to be of it."""

from __future__ import annotations

from itertools import chain
from math import hypot

from precheck.files.missing import Missing, is_missing
from precheck.project import Door, Part, Space, Wall, Window
from precheck.project.space import OUTDOOR, UNFINISHED
from precheck.survey.house import House
from precheck.survey.openings import Stretch, edges, line_of
from precheck.survey.sides import is_outdoors
from precheck.survey.works.work import Work, Works
from precheck.units import Length

UPSTAIRS = ("upper", "attic")
CORNERS = Length.parse("4 ft")  # of outside wall: what corners and thicknesses of walls can make of a sum, and no wall


def rooms_of(work: Work) -> tuple[Space, ...]:
    """Return the spaces of `work` that are closed in: no attic or crawl space, and nothing in the open."""
    return tuple(s for s in work.parts_of(Space) if s.use not in OUTDOOR and s.use not in UNFINISHED)


def on_ground(spaces: tuple[Space, ...], house: House) -> tuple[Space, ...]:
    """Return those of `spaces` that are not known to stand on a story below them; a basement carries no such story."""
    return tuple(space for space in spaces if not _is_upstairs(space, house))


def _is_upstairs(space: Space, house: House) -> bool:
    if not is_missing(level := house.story_level(space)):
        return level in UPSTAIRS
    below = (low for low in house.spaces if low.use not in UNFINISHED and house.story_level(low) != "basement")
    return any(space in house.above(low) for low in below)


def floor_of(space: Space, house: House) -> str | Missing:
    """Return whether the floor of `space` is a ``slab`` or ``joists``: as its floor says, or by a slab drawn under it."""
    floor = house.floor(space)
    if floor is not None:
        return floor.base
    drawn = any(slab.space == space.id for slab in house.project.slabs if not slab.is_removed)
    return "slab" if drawn else space.absent("floor")


def outside_walls(work: Work, house: House) -> tuple[Wall, ...]:
    """Return the walls between a space of `work` on the ground and the open that are there when the work is done."""
    own = {space.id for space in on_ground(work.parts_of(Space), house)}
    return tuple(w for w in house.project.walls if not w.is_removed and _parts_from_open(w, own, house))


def _parts_from_open(wall: Wall, own: set[str], house: House) -> bool:
    story = None if is_missing(wall.story) else house.project.by_id.get(wall.story)
    if getattr(story, "level", None) in UPSTAIRS:
        return False
    one, other = wall.between
    return (one in own and is_outdoors(other, house)) or (other in own and is_outdoors(one, house))


def undrawn_walls(work: Work, house: House) -> Length | None:
    """Return how much outside wall of `work` is not drawn, by its outlines; None where that is none, or the plan cannot tell.

    It can tell where every space has an outline and every outside wall of the work has its ends.
    """
    spaces = on_ground(rooms_of(work), house)
    outlines = [outline for space in spaces if (outline := house.outline(space)) is not None]
    walls = outside_walls(work, house)
    lines = [line for wall in walls if (line := line_of(wall)) is not None]
    if not walls or len(lines) < len(walls) or any(house.outline(space) is None for space in house.spaces):
        return None
    around = sum(_length(edge) for outline in outlines for edge in edges(outline))
    inside = sum(float(_beside(space, other, house).n) for space in spaces for other in house.spaces)
    lacks = Length(round(around - inside - sum(map(_length, lines))))
    return lacks if lacks > CORNERS else None


def _beside(space: Space, other: Space, house: House) -> Length:
    if other is space or other.use in OUTDOOR:
        return Length(0)
    return house.shared_wall(space, other) or Length(0)


def _length(line: Stretch) -> float:
    (ax, ay), (bx, by) = line
    return hypot(float(ax - bx), float(ay - by))


def stated_of(part: Part, work: Work, house: House, kinds: tuple[str, ...]) -> bool | Missing:
    """Return whether `part` (with its field `spaces`) is of `work`: as it says, or because no other work of `kinds` is there."""
    spaces = getattr(part, "spaces", ())
    if spaces:
        return not _ids(work).isdisjoint(spaces)
    return True if is_alone(work, house, kinds) else part.absent("spaces")


def _ids(work: Work) -> set[str]:
    sides = chain.from_iterable(door.between for door in work.parts_of(Door))
    return {space.id for space in work.parts_of(Space)} | set(sides) | {w.space for w in work.parts_of(Window)}


def is_alone(work: Work, house: House, kinds: tuple[str, ...]) -> bool:
    """Return whether no other work of `kinds` is there; all that is attached to a new house is one with it."""
    others = [other for other in Works.of(house).of_kinds(*kinds) if other is not work]
    if any(one.kind == "new house" for one in (work, *others)):
        return not any(_is_detached(one) for one in (work, *others))
    return not others


def _is_detached(work: Work) -> bool:
    return any(space.detached is True for space in work.parts_of(Space))
