"""What closes an opening that is taken out: the wall that fills it, or a new door or window in its place."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import Missing, is_missing
from precheck.project import OUTSIDE, Door, Opening, Part, Space, Wall
from precheck.survey.house import House
from precheck.survey.openings import Stretch, from_point, line_of, stretch_of, uncovered

BUILT = ("new", "altered")


def infill_of(opening: Opening, house: House) -> Part | Missing:
    """Return what closes `opening`: a wall or opening that the work builds in its place; what is missing where none does.

    A wall is in its place where it says so, where it is drawn there, or where it is one between the same sides, a new one first,
    whose place is not drawn, and there are as many of these as openings that are closed.
    """
    placed = house.once(_placed, opening)
    if placed is not None:
        return placed
    unplaced = [wall for wall in house.project.walls if wall.phase in BUILT and _is_loose(wall, opening, house)]
    loose = _nearest([wall for wall in unplaced if wall.phase == "new"] or unplaced, opening)
    closed = [one for one in _closed(house) if sides_of(one, house) == sides_of(opening, house)]
    waiting = [one for one in closed if house.once(_placed, one) is None]
    if loose and len(loose) >= len(waiting):
        return loose[min(waiting.index(opening), len(loose) - 1)] if opening in waiting else loose[0]
    return opening.absent("wall that fills it")


def _nearest(walls: list[Wall], opening: Opening) -> list[Wall]:
    """Return those of `walls` that lie nearest to the middle of `opening`; all where one of them is not placed."""
    lines = [line_of(wall) for wall in walls]
    placed = [line for line in lines if line is not None]
    if is_missing(opening.middle) or len(placed) < len(walls) or not walls:
        return walls
    middle = (opening.middle[0].n, opening.middle[1].n)
    away = [from_point(middle, line) for line in placed]
    return [wall for wall, distance in zip(walls, away, strict=True) if distance == min(away)]


def sides_of(part: Opening | Wall, house: House) -> frozenset[str]:
    """Return what lies on both sides, a room by what it is now where another was taken out for it."""
    sides = part.between if isinstance(part, Door | Wall) else (getattr(part, "space", ""), OUTSIDE)
    return frozenset(_now(side, house) for side in sides)


def _now(side: str, house: House) -> str:
    space = house.space(side)
    if space is None or not space.is_removed:
        return side
    after = [s.id for s in house.spaces if s.was == space.use]
    return after[0] if len(after) == 1 else side


def _closed(house: House) -> Iterator[Opening]:
    both: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    yield from (one for one in both if one.is_removed)


def _placed(opening: Opening, house: House) -> Part | None:
    return next(_in_place(opening, house), None)


def _in_place(opening: Opening, house: House) -> Iterator[Part]:
    yield from (wall for wall in house.project.walls if wall.opening_filled == opening.id and wall.phase in BUILT)
    stretch = stretch_of(opening, house)
    if isinstance(stretch, Stretch):
        yield from (part for part in _drawn(house) if _covers(part, stretch, opening, house))


def _drawn(house: House) -> Iterator[Wall | Opening]:
    parts: tuple[Wall | Opening, ...] = (*house.project.walls, *house.project.doors, *house.project.windows)
    yield from (part for part in parts if part.phase in BUILT)


def _covers(part: Wall | Opening, stretch: Stretch, opening: Opening, house: House) -> bool:
    if isinstance(part, Wall):
        elsewhere = not is_missing(part.opening_filled) and part.opening_filled != opening.id
        line = None if elsewhere or not _same_story(part, opening, house) else line_of(part)
    else:
        own = stretch_of(part, house)
        line = own if isinstance(own, Stretch) else None
    if line is None or not sides_of(part, house) & sides_of(opening, house):
        return False
    return uncovered(stretch, [line]).n == 0


def _same_story(wall: Wall, opening: Opening, house: House) -> bool:
    rooms = [s for side in sides_of(opening, house) if isinstance(s := house.space(side), Space)]
    return is_missing(wall.story) or all(is_missing(room.story) or room.story == wall.story for room in rooms)


def _is_loose(wall: Wall, opening: Opening, house: House) -> bool:
    """Return whether `wall` may stand in the place of `opening`, which the plan does not tell."""
    told = line_of(wall) is not None and isinstance(stretch_of(opening, house), Stretch)
    return is_missing(wall.opening_filled) and not told and sides_of(wall, house) == sides_of(opening, house)
