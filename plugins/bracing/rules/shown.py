"""Braced wall lines of what is built, as the line of a work asks for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precheck import (
    BracedLine,
    Check,
    House,
    Missing,
    Opening,
    Part,
    Space,
    Wall,
    Work,
    does_not_apply,
    faces_out,
    line,
    missing_of,
    shown,
    to_show,
    wall_of,
)

DUE = "braced wall line"


@line("bracing.lines-shown")
def lines_shown(work: Work, house: House) -> Check:
    """The new outside walls of what is built belong to braced wall lines."""
    rooms = {part.id for part in work.parts if isinstance(part, Space)}
    if not rooms:
        return to_show("braced wall lines", work)
    walls = [w for w in house.project.walls if rooms.intersection(w.between) and _is_new_outside(w, house)]
    if not walls:
        return to_show("braced wall lines", work)
    framed = [wall for wall in walls if wall.is_framed is not False]
    if not framed:
        return does_not_apply("its walls are of masonry or concrete")
    lines = [one for one in house.project.braced_lines if not one.is_removed]
    absent = missing_of(*(wall_line(wall, house) for wall in framed))
    if absent is not None:
        return to_show("", work, absent)
    return shown(*(one for one in lines if any(wall.id in one.walls for wall in framed)))


def wall_line(part: Part, house: House) -> BracedLine | Missing:
    """Return the braced wall line that a wall or opening is on; one that is said to stay as it is takes none that is new.

    A wall is on the line of an opening in it, and an opening on that of its wall.
    """
    ids = {part.id, *_ids_with(part, house)}
    lines = [
        one
        for one in house.project.braced_lines
        if not one.is_removed and ids.intersection((*one.walls, *one.openings))
    ]
    changed = next((one for one in lines if one.phase != "existing"), None)
    if changed is not None:
        return changed
    return lines[0].absent(f"phase (altered, for {part.label} is {part.phase})") if lines else part.absent(DUE)


def _ids_with(part: Part, house: House) -> Iterator[str]:
    if isinstance(part, Opening):
        wall = wall_of(part, house)
        yield from () if wall is None else (wall.id,)
        return
    openings: Iterable[Opening] = (*house.project.doors, *house.project.windows)
    yield from (o.id for o in openings if not o.is_removed and wall_of(o, house) is part)


def _is_new_outside(wall: Wall, house: House) -> bool:
    return wall.phase in ("new", "altered") and faces_out(wall, house)
