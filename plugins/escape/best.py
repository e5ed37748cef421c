"""Which of several openings serves best as the egress opening of a room."""

from __future__ import annotations

from typing import Any

from precheck import Area, House, Length, Missing, Opening, Space, Window, is_missing, outlook_of

USUAL_SILL, USUAL_SIDES = Length.parse("44 in"), (Length.parse("20 in"), Length.parse("24 in"))
USUAL_AREA = Area.parse("5.7 sq ft")
"""What most places ask. They only tell which opening of several to judge; the rules judge it by the limits in effect."""


def best_of(candidates: tuple[Opening, ...], room: Space, house: House) -> Opening | None:
    """Return the opening that serves best: one that serves is enough, whatever others are.

    It leads out, misses the fewest of what is usually asked, meets the most of it, and has the largest clear area.
    """

    def rank(opening: Opening) -> tuple[Any, ...]:
        led = opening.opens_to not in ("garage", "carport")
        out = led and not any(is_enclosed(space) for space in outlook_of(opening, room, house))
        answers = _answers(opening, house)
        area = opening.clear_area.n if isinstance(opening.clear_area, Area) else 0
        return out, -answers.count(False), answers.count(True), area

    return max(candidates, key=rank, default=None)


def _answers(opening: Opening, house: House) -> list[bool | None]:
    """Return for sill, width, height and area whether they are what is usually asked; None for what is not given."""
    box, sill, area = opening.net_clear_opening, sill_of(opening, house), opening.clear_area
    sides = (
        (None, None) if is_missing(box) else tuple(side >= least for side, least in zip(box, USUAL_SIDES, strict=True))
    )
    low = None if is_missing(sill) else sill <= USUAL_SILL
    return [low, *sides, area >= USUAL_AREA if isinstance(area, Area) else None]


def sill_of(opening: Opening, house: House) -> Length | Missing:
    """Return the height of the bottom of the clear opening above the finished floor of its own room."""
    return house.sill_height(opening) if isinstance(opening, Window) else opening.absent("sill height")


def is_enclosed(space: Space) -> bool:
    """Return whether `space` is a room or a garage, into which nobody escapes; a carport is no yard either."""
    return space.use not in ("porch", "deck")
