"""What works take of ceilings: the heights of the rooms that are made."""

from __future__ import annotations

from precheck_plugins.ceilings.rooms import is_regulated

from precheck import Check, House, Missing, Space, Work, does_not_apply, is_missing, line, missing_of, shown, to_show


@line("ceilings.height-shown")
def height_shown(work: Work, house: House) -> Check:
    """The plans show the ceiling height of each new room.

    Under a slope that is a section through the room, or how much floor has which height.
    """
    if not work.parts:
        return to_show("ceiling height of the new rooms", work)
    rooms = [space for space in work.parts_of(Space) if is_regulated(space)]
    if not rooms:
        return does_not_apply("the code sets no ceiling height for these rooms")
    absent = missing_of(*(found for room in rooms if (found := _not_drawn(room, house)) is not None))
    return shown(*rooms) if absent is None else to_show("ceiling height", work, absent)


def _not_drawn(room: Space, house: House) -> Missing | None:
    ceiling = room.ceiling
    if is_missing(ceiling) or not room.has_slope:
        tall = house.ceiling_height(room)
        return tall if is_missing(tall) else None
    drawn = len(ceiling.profile) > 1 or not is_missing(ceiling.area_at_full_height)
    return None if drawn else room.absent("ceiling profile (heights across the room)")
