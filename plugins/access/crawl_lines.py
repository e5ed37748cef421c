"""What works take of the spaces below: vents, ground cover and a way in where new floors of joists stand on the ground."""

from __future__ import annotations

from precheck import (
    Check,
    House,
    Space,
    Work,
    does_not_apply,
    floor_of,
    is_alone,
    is_missing,
    line,
    not_shown,
    on_ground,
    rooms_of,
    shown,
    to_show,
)

BUILT = ("addition", "new house")


@line("crawl-spaces.vents-and-access", stage="foundation")
def vents_and_access(work: Work, house: House) -> Check:
    """The crawl space under a new floor of joists is drawn, for its vents, ground cover and way in to be judged."""
    rooms = on_ground(rooms_of(work), house)
    floors = [floor_of(room, house) for room in rooms]
    framed = [room for room, floor in zip(rooms, floors, strict=True) if floor == "joists"]
    if not work.parts:
        return to_show("floor (slab or joists)", work)
    if not framed:
        unknown = [floor for floor in floors if is_missing(floor)]
        return not_shown(*unknown) if unknown else does_not_apply("no floor of joists is on the ground")
    lacking = [room for room in framed if not _below(room, work, house)]
    if lacking:
        return not_shown(
            *(room.absent("crawl space under it (a space with its way in, vents and ground cover)") for room in lacking)
        )
    return shown(*{low.id: low for room in framed for low in _below(room, work, house)}.values())


def _below(room: Space, work: Work, house: House) -> list[Space]:
    """Return the spaces under `room`: a new crawl space, or a basement; a crawl space placed nowhere where it is the only one."""
    under = [low for low in house.spaces if room in house.above(low)]
    found = [low for low in under if low.use != "crawl space" or not low.is_existing]
    if found or under:
        return found
    loose = [low for low in house.spaces if low.use == "crawl space" and not low.is_existing and _is_loose(low, house)]
    return loose if len(loose) == 1 and is_alone(work, house, BUILT) else []


def _is_loose(low: Space, house: House) -> bool:
    return house.outline(low) is None and not house.above(low)
