"""Braced wall lines of what is built, as the line of a work asks for them."""

from __future__ import annotations

from precheck import Check, House, Space, Wall, Work, does_not_apply, faces_out, line, missing_of, shown, to_show


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
    held = {wall for one in lines for wall in one.walls}
    absent = missing_of(*(wall.absent("braced wall line") for wall in framed if wall.id not in held))
    if absent is not None:
        return to_show("", work, absent)
    return shown(*(one for one in lines if any(wall.id in one.walls for wall in framed)))


def _is_new_outside(wall: Wall, house: House) -> bool:
    return wall.phase in ("new", "altered") and faces_out(wall, house)
