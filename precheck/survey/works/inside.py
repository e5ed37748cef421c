"""Whether a new room is parted off from rooms that stood there, or is built where there was none."""

from __future__ import annotations

from precheck.files.missing import Missing, is_missing
from precheck.project import Space
from precheck.survey import geometry
from precheck.survey.house import House
from precheck.survey.outlines import outline_before

MOSTLY = 0.5  # of a new room's floor: what lies within old rooms by more is parted off from them


def stands_within_old_rooms(space: Space, house: House) -> bool | Missing:
    """Return whether most of a new `space` lies where rooms stood; missing where the plan cannot tell.

    A room that is altered is drawn as it will be, so that only its outline `before` shows what was parted off from it.
    """
    if not is_missing(space.addition):
        return not space.addition
    olds = [s for s in house.project.spaces if s is not space and s.phase in ("removed", "altered") and _on(s, space)]
    unsure = [old for old in olds if house.outline(space) is None or is_missing(old.before)]
    if house.outline(space) is not None and sum(_covered(space, outline_before(old), house) for old in olds) > MOSTLY:
        return True
    return space.absent("was") if unsure else False


def old_under(space: Space, house: House) -> str | Missing | None:
    """Return the use of the space on which most of a new one is drawn, as it was before; None where there is none.

    That is one that goes, or one that is altered and says what it was before.
    """
    gone = (
        s for s in house.project.spaces if (s.is_removed or _is_smaller_now(s)) and s is not space and _on(s, space)
    )
    under = next((old for old in gone if _covered(space, outline_before(old), house) > MOSTLY), None)
    if under is None:
        return None
    return under.use if is_missing(under.was) else under.was


def _is_smaller_now(space: Space) -> bool:
    return space.phase == "altered" and not is_missing(space.before)


def is_built_over(old: Space, house: House) -> bool:
    """Return whether most of a space that goes lies, as drawn, under spaces that there will be."""
    others = (s for s in house.spaces if s.phase in ("new", "altered") and _on(s, old))
    return sum(_covered(old, house.outline(other), house) for other in others) > MOSTLY


def _covered(space: Space, by: geometry.Outline | None, house: House) -> float:
    """Return the share of `space` as drawn that lies within the outline `by`; zero where one of them is not drawn."""
    own = house.outline(space)
    return 0.0 if own is None or by is None else float(geometry.overlap(own, by).n / geometry.area(own).n)


def _on(old: Space, space: Space) -> bool:
    return is_missing(old.story) or is_missing(space.story) or old.story == space.story
