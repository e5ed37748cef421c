"""Whether a new room is parted off from rooms that stood there, or is built where there was none."""

from __future__ import annotations

from precheck.files.missing import Missing, is_missing
from precheck.project import Space
from precheck.survey import geometry
from precheck.survey.house import House

MOSTLY = 0.5  # of a new room's floor: what lies within old rooms by more is parted off from them


def stands_within_old_rooms(space: Space, house: House) -> bool | Missing:
    """Return whether most of a new `space` lies where rooms stood; missing where the plan cannot tell.

    A room that is altered is drawn as it will be, so that it does not show what was parted off from it.
    """
    if not is_missing(space.addition):
        return not space.addition
    own = house.outline(space)
    olds = [s for s in house.project.spaces if s is not space and s.phase in ("removed", "altered") and _on(s, space)]
    if own is None:
        return space.absent("was") if olds else False
    drawn = [outline for old in olds if (outline := house.outline(old)) is not None]
    covered = sum((geometry.overlap(own, outline).n for outline in drawn), 0)
    if covered > MOSTLY * geometry.area(own).n:
        return True
    return space.absent("was") if olds else False


def _on(old: Space, space: Space) -> bool:
    return is_missing(old.story) or is_missing(space.story) or old.story == space.story
