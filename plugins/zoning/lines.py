"""What works on the lot take: distances to the lot lines, and parking where a place for vehicles becomes a room."""

from __future__ import annotations

from precheck_plugins.zoning.lot_lines import FacingLine

from precheck import (
    Check,
    House,
    LotLine,
    Missing,
    ParkingStall,
    Space,
    Work,
    is_missing,
    line,
    missing_of,
    shown,
    to_show,
)

PARKING = "parking stalls before and after"
GONE = "parking stall that the garage or carport held (one that is removed)"


@line("zoning.use-and-parking", stage="intake")
def use_and_parking(work: Work, house: House) -> Check:
    """When a garage or carport becomes a room, the site plan shows where cars stood before and where they will.

    The stall that it held is one that goes; without it, nobody can tell how many are to be made up for.
    """
    stalls = [stall for stall in house.subjects(ParkingStall) if not is_missing(stall.phase)]
    gone = [stall for stall in stalls if stall.is_removed]
    if stalls and not gone:
        return to_show("", work, house.project.absent(GONE))
    return shown(*stalls) if len(stalls) > len(gone) else to_show("", work, house.project.absent(PARKING))


@line("zoning.setbacks-shown", stage="intake")
def setbacks_shown(work: Work, house: House) -> Check:
    """The site plan gives the distance of new or newly enclosed space to each lot line that it faces.

    A room of the work that others stand around faces none, and counts as shown where one of the work does.
    """
    spaces = [space for space in work.parts_of(Space) if house.story_level(space) not in ("upper", "attic")]
    if not spaces:
        return to_show("distances to the lot lines", work)
    told = [(space, _distance(space, house)) for space in spaces]
    absent = missing_of(*(value for _, value in told if is_missing(value)))
    if absent is not None:
        return to_show("", work, absent)
    facing = [space for space, value in told if value]
    return shown(*facing) if facing else to_show("", work, spaces[0].absent("distances to the lot lines"))


def _distance(space: Space, house: House) -> bool | Missing:
    """Return whether the distances of `space` to the lines that it faces are given; False where it is drawn to face none."""
    faced = [side for side in house.subjects(FacingLine) if side.space is space]
    if faced:
        absent = missing_of(*(side.distance for side in faced))
        return True if absent is None else absent
    lines = [line for line in house.subjects(LotLine) if not line.is_removed]
    drawn = bool(lines) and house.outline(space) is not None
    return False if drawn else space.absent("distances to the lot lines")
