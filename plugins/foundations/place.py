"""What the house on a foundation is."""

from __future__ import annotations

from precheck import House, Missing, when_given

ABOVE_GROUND = ("ground", "upper")


def storeys_of(house: House) -> int | Missing:
    """Return how many storeys stand above ground."""
    storeys = house.project.storeys
    if not storeys:
        return house.project.absent("storeys")
    return when_given(lambda *levels: sum(level in ABOVE_GROUND for level in levels), *(s.level for s in storeys))
