"""What works take of attics: vents of the attic or rafter spaces over new rooms."""

from __future__ import annotations

from precheck import (
    Attic,
    Check,
    House,
    Missing,
    Part,
    Space,
    Work,
    does_not_apply,
    is_alone,
    is_missing,
    line,
    not_shown,
    rooms_of,
    shown,
    to_show,
)

ROOFED = ("addition", "upper addition", "new house")


@line("attic-ventilation.vents", stage="framing")
def vents(work: Work, house: House) -> Check:
    """The new attic, or the rafter spaces of a sloped ceiling, is vented or an unvented one."""
    rooms = [room for room in rooms_of(work) if not any(above.use != "attic" for above in house.above(room))]
    if rooms_of(work) and not rooms:
        return does_not_apply("rooms stand over it")
    drawn: list[Part] = [
        s for s in house.spaces if s.use == "attic" and not s.is_existing and _over(s, rooms, work, house)
    ]
    whose = [
        (a, _is_over(a, rooms, work, house)) for a in house.project.attics if not a.is_existing and not a.is_removed
    ]
    drawn += [attic for attic, is_own in whose if is_own is True]
    if drawn:
        return shown(*drawn)
    unknown = [is_own for _, is_own in whose if is_missing(is_own)]
    return not_shown(*unknown) if unknown else to_show("vents of its attic or rafter spaces", work)


def _over(attic: Space, rooms: list[Space], work: Work, house: House) -> bool:
    """Return whether an attic space lies over one of `rooms`; one that is placed nowhere does where no other work has one."""
    if any(attic in house.above(room) for room in rooms):
        return True
    placed = house.outline(attic) is not None or any(attic in house.above(space) for space in house.spaces)
    return not placed and is_alone(work, house, ROOFED)


def _is_over(attic: Attic, rooms: list[Space], work: Work, house: House) -> bool | Missing:
    space = None if is_missing(attic.space) else house.space(attic.space)
    if space is not None:
        return space in rooms or (space.use == "attic" and _over(space, rooms, work, house))
    return True if is_alone(work, house, ROOFED) else attic.absent("space")
