"""What works take of egress windows: one in each new bedroom, and in the basement that becomes rooms."""

from __future__ import annotations

from precheck_plugins.escape.openings import EscapeOpening, EscapeRoom

from precheck import Check, House, Space, Work, does_not_apply, line, shown, to_show


@line("escape.opening")
def opening(work: Work, house: House) -> Check:
    """The egress window or door of the new bedroom or basement is on the plans."""
    rooms = work.parts_of(Space)
    if not rooms:
        return to_show("egress window or door", work)
    if work.kind != "new bedroom" and any(room.is_sleeping for room in rooms):
        return does_not_apply("each bedroom of it is a work of its own")
    needs = [need for need in house.subjects(EscapeRoom) if any(space in rooms for space in (need.room, *need.spaces))]
    due = [need for need in needs if not need.is_altered_basement]
    if not due:
        return does_not_apply("an existing basement is finished, and no bedroom is made in it")
    lacking = [need for need in due if not need.candidates]
    if lacking:
        return to_show("", work, *(need.room.absent("egress window or door") for need in lacking))
    serving = {way.room.id: way.opening for way in house.subjects(EscapeOpening)}
    return shown(*dict.fromkeys(serving.get(need.room.id, need.candidates[0]) for need in due))
