"""What the place asks of a foundation: frost, weathering, earthquake; and what the house is."""

from __future__ import annotations

from typing import Any

from precheck import House, Limit, Missing, first_given, when_given

ABOVE_GROUND = ("ground", "upper")


def criterion(limit: Limit[Any], house: House, name: str) -> Any:
    """Return a design criterion: as the jurisdiction sets it, else as the drawings state it; None where it is void."""
    return first_given(limit.value, getattr(house.project.design_criteria, name))


def is_shaken(category: Limit[Any], among: Limit[tuple[str, ...]], house: House) -> bool | Missing:
    """Return whether the seismic design category of the place is `among` those that ask for more."""
    found = criterion(category, house, "seismic_design_category")
    return when_given(lambda own, names: str(own) in (names or ()), found, among.value)


def storeys_of(house: House) -> int | Missing:
    """Return how many storeys stand above ground."""
    storeys = house.project.storeys
    if not storeys:
        return house.project.absent("storeys")
    return when_given(lambda *levels: sum(level in ABOVE_GROUND for level in levels), *(s.level for s in storeys))
