"""The outside walls of what is built, and what closes an opening."""

from __future__ import annotations

from typing import Any

from precheck import (
    Check,
    Door,
    House,
    Length,
    Missing,
    Opening,
    Space,
    Stretch,
    Wall,
    Work,
    does_not_apply,
    edges,
    faces_out,
    infill_of,
    is_missing,
    is_outdoors,
    line,
    line_of,
    missing_of,
    shown,
    to_show,
    uncovered,
)

ENCLOSED = ("carport to room", "porch to room")  # where walls that stand may close a side already
THICKEST = Length.parse("14 in")  # what two drawn lines of one wall may lie apart, and a side may lack at its ends


@line("walls.infill")
def infill(work: Work, house: House) -> Check:
    """A wall, or a new door or window, closes an opening in an outside wall that is taken out."""
    openings = [part for part in work.parts if isinstance(part, Opening)]
    if not openings:
        return to_show("wall that closes the opening", work)
    due = [one for one in openings if not isinstance(one, Door) or faces_out(one, house)]
    found = [infill_of(one, house) for one in due]
    absent = missing_of(*found)
    if absent is not None:
        return to_show("", work, absent)
    by = [one.label for one in found if not is_missing(one)]
    return shown(*by) if by else does_not_apply("the opening is between two rooms")


@line("walls.new-walls")
def new_walls(work: Work, house: House) -> Check:
    """Each outside side of what is built has a wall: drawn along it, or as many walls as the room has such sides."""
    rooms = [part for part in work.parts if isinstance(part, Space)]
    if not rooms:
        return to_show("outside walls", work)
    phases = ("new", "altered", "existing") if work.kind in ENCLOSED else ("new", "altered")
    found = [_walls(room, work, phases, house) for room in rooms]
    absent = missing_of(*found)
    if absent is not None:
        return to_show("", work, absent)
    walls = {wall.id: wall for some in found if not is_missing(some) for wall in some}
    return shown(*walls.values()) if walls else does_not_apply("no side of it faces out")


def _walls(room: Space, work: Work, phases: tuple[str, ...], house: House) -> list[Wall] | Missing:
    """Return the outside walls of a room, or what is missing of them."""
    own = [w for w in house.project.walls if room.id in w.between and w.phase in phases and faces_out(w, house)]
    sides = _outside_sides(room, house)
    if sides is None:
        return own or (room.absent("outside walls") if _stands_outside(room, work) else [])
    open_sides = [side for side in sides if uncovered(side, _lines(own)) > THICKEST]
    unplaced = [wall for wall in own if line_of(wall) is None]
    lacking = len(open_sides) - len(unplaced) - (1 if _is_attached_unseen(room, house) else 0)
    if lacking <= 0:
        return own
    told = "outside walls" if not own else f"walls on {lacking} more of its outside sides"
    return room.absent(told)


def _stands_outside(room: Space, work: Work) -> bool:
    """Return whether a room that is not drawn is the only one of the work, so that some side of it faces out."""
    return sum(isinstance(part, Space) for part in work.parts) == 1


def _lines(walls: list[Wall]) -> list[Stretch]:
    return [found for wall in walls if (found := line_of(wall)) is not None]


def _outside_sides(room: Space, house: House) -> list[Stretch] | None:
    """Return the sides of a drawn room along which no other room lies; None where it is not drawn."""
    outline = house.outline(room)
    if outline is None:
        return None
    lines = _edges_beside(room, house)
    return [side for side in edges(outline) if uncovered(side, lines) > THICKEST]


def _is_attached_unseen(room: Space, house: House) -> bool:
    """Return whether a room is attached to rooms that are not drawn, so that one of its sides is no outside side."""
    outline, lines = house.outline(room), _edges_beside(room, house)
    assert outline is not None
    sides = edges(outline)
    return room.detached is not True and all(uncovered(side, lines) == uncovered(side, []) for side in sides)


def _edges_beside(room: Space, house: House) -> list[Stretch]:
    drawn = (found for other in house.spaces if (found := _indoors(other, room, house)) is not None)
    return [edge for outline in drawn for edge in edges(outline)]


def _indoors(other: Space, room: Space, house: House) -> Any:
    """Return the outline of another room of the same story; None of the open, and of the room itself."""
    apart = other is room or is_outdoors(other.id, house) or other.detached is True
    elsewhere = not is_missing(other.story) and not is_missing(room.story) and other.story != room.story
    return None if apart or elsewhere else house.outline(other)
