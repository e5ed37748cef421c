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
    olds = [s for s in house.project.spaces if s is not space and s.phase in ("removed", "altered") and _on(s, space)]
    if house.outline(space) is None:
        return space.absent("was") if olds else False
    if sum(_covered(space, old, house) for old in olds) > MOSTLY:
        return True
    return space.absent("was") if olds else False


def old_under(space: Space, house: House) -> str | Missing | None:
    """Return the use of the space that goes and on which most of a new one is drawn; None where there is none."""
    gone = (s for s in house.project.spaces if s.is_removed and _on(s, space))
    under = next((old for old in gone if _covered(space, old, house) > MOSTLY), None)
    return None if under is None else under.use


def is_built_over(old: Space, house: House) -> bool:
    """Return whether most of a space that goes lies, as drawn, under spaces that there will be."""
    others = (s for s in house.spaces if s.phase in ("new", "altered") and _on(s, old))
    return sum(_covered(old, other, house) for other in others) > MOSTLY


def _covered(space: Space, by: Space, house: House) -> float:
    """Return the share of `space` that lies within `by` as drawn; zero where one of them is not."""
    own, other = house.outline(space), house.outline(by)
    if own is None or other is None:
        return 0.0
    return float(geometry.overlap(own, other).n / geometry.area(own).n)


def _on(old: Space, space: Space) -> bool:
    return is_missing(old.story) or is_missing(space.story) or old.story == space.story
