"""Fireblocking as plans show it: on the walls of a room, or by a note."""

from __future__ import annotations

from precheck import (
    Check,
    House,
    Note,
    Space,
    Work,
    faces_out,
    is_furring,
    is_missing,
    line,
    missing_of,
    shown,
    to_show,
)

NOTED = ("fireblock", "fire block", "fire-block")


@line("fireblocking.shown")
def fireblocking_shown(work: Work, house: House) -> Check:
    """Fireblocking is on the walls of what is built or made over, or a note of the drawings calls for it."""
    if (note := fireblocking_note(house)) is not None:
        return shown(note)
    rooms = {part.id for part in work.parts if isinstance(part, Space)}
    walls = [w for w in house.project.walls if rooms.intersection(w.between) and w.phase in ("new", "altered")]
    blocked = [wall for wall in walls if not is_missing(wall.fire_blocks)]
    if blocked:
        return shown(*blocked)
    outer = [w for w in walls if w.phase == "new" and faces_out(w, house) and w.is_framed is not False]
    absent = missing_of(*(wall.fire_blocks for wall in outer if not is_furring(wall, house)))
    return to_show("", work, absent) if absent is not None else to_show("fireblocking (a note will do)", work)


def fireblocking_note(house: House) -> Note | None:
    """Return the note of the drawings that calls for fireblocking."""
    notes = (note for note in house.project.notes if not note.is_removed)
    return next((note for note in notes if any(word in note.note.lower() for word in NOTED)), None)
