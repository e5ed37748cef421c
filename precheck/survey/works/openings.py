"""Works in walls: walls taken out, openings made, widened and closed, windows replaced."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Door, Opening, Space, Window
from precheck.survey.house import House
from precheck.survey.scope import CHANGED
from precheck.survey.works.found import Found
from precheck.survey.works.inside import is_built_over, stands_within_old_rooms
from precheck.survey.works.rooms import addition_of

Pair = frozenset[str]


def found_in_walls(house: House) -> Iterator[Found]:
    """Yield the works of `house` in its walls."""
    gone = {space.id for space in house.project.spaces if _goes(space, house)}
    for wall in house.project.walls:
        if wall.is_removed and not (gone.intersection(wall.between) and {*gone, OUTSIDE}.issuperset(wall.between)):
            yield Found("wall removed", wall, (wall,))
    openings: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    for opening in openings:
        if (kind := _kind_of(opening, house)) is not None:
            yield Found(kind, opening, (opening,))


def _kind_of(opening: Opening, house: House) -> str | None:
    if isinstance(opening, Door) and opening.operation == "hatch":
        return None
    if opening.is_removed:
        return _closed(opening, house)
    if isinstance(opening, Window) and opening.phase in CHANGED and is_replaced(opening, house):
        return "window replaced"
    if opening.phase == "altered":
        return "opening widened"
    return "opening made" if opening.phase == "new" and not _in_new_wall(opening, house) else None


def _closed(opening: Opening, house: House) -> str | None:
    """Return which work it is that an opening goes; none where it goes with its room, or with an inside wall."""
    inside = isinstance(opening, Door) and OUTSIDE not in opening.between
    if any(side.is_removed if inside else _goes(side, house) for side in _rooms_of(opening, house)):
        return None
    walls = (wall for wall in house.project.walls if wall.is_removed)
    if inside and any(set(wall.between) == set(getattr(opening, "between", ())) for wall in walls):
        return None
    is_overhead = isinstance(opening, Door) and house.was_overhead(opening)
    return "overhead door closed" if is_overhead else "opening closed"


def _goes(space: Space, house: House) -> bool:
    """Return whether a space is taken down, and does not become another one as drawn."""
    return space.is_removed and not is_built_over(space, house)


def is_replaced(window: Window, house: House) -> bool:
    """Return whether a window takes another's place, as it says or as the only work on windows that the file lists."""
    listed = house.project.work
    only = "window replaced" in listed and not {"opening made", "opening widened"} & set(listed)
    return window.replacement is True or (only and is_missing(window.replacement))


def _in_new_wall(opening: Opening, house: House) -> bool:
    """Whether the wall around an opening is new too, so that the opening belongs to the work that builds that wall."""
    new_walls: set[Pair] = {frozenset(wall.between) for wall in house.project.walls if wall.phase == "new"}
    if isinstance(opening, Door) and frozenset(opening.between) in new_walls:
        return True
    rooms = _rooms_of(opening, house)
    if len(rooms) == 2 and _are_parted(rooms[0], rooms[1], house):
        return True
    return bool(rooms) and all(room.phase == "new" and is_missing(room.was) for room in rooms)


def _are_parted(one: Space, other: Space, house: House) -> bool:
    """Whether the wall between two rooms is new because they are made of one."""
    return _were_one(one, other) or _parted(one, other, house) or _parted(other, one, house)


def _were_one(one: Space, other: Space) -> bool:
    """Whether two rooms are made of one that stood there, as a bedroom and its bath of a garage."""
    before = [room.use if is_missing(room.was) else room.was for room in (one, other)]
    return before[0] == before[1] and any(not is_missing(room.was) for room in (one, other))


def _parted(new: Space, old: Space, house: House) -> bool:
    """Whether a new room is, or may be, parted off from an old one that the work alters; what it was is asked first."""
    if new.phase != "new" or old.phase not in ("altered", "removed") or not is_missing(new.was):
        return False
    return stands_within_old_rooms(new, house) is True or addition_of(new, house) == "new room"


def _rooms_of(opening: Opening, house: House) -> list[Space]:
    sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""),)
    return [part for side in sides if isinstance(part := house.project.by_id.get(side), Space)]
