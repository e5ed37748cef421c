"""The house with what the work takes away put back, by which one sees what the work makes worse of what stands."""

from __future__ import annotations

from precheck.files.source import Unusable
from precheck.project import Part
from precheck.project.standing import with_standing
from precheck.survey.house import House


def taken_away(house: House) -> tuple[Part, ...]:
    """Return the parts that the work takes away."""
    return house.once(_taken_away)


def put_back(house: House, ids: frozenset[str]) -> House | None:
    """Return the house with the removed parts of `ids` still standing; None where that is no house, or not read from a file."""
    return house.once(_put_back, ids)


def _taken_away(house: House) -> tuple[Part, ...]:
    return tuple(part for part in house.project.parts if part.is_removed)


def _put_back(ids: frozenset[str], house: House) -> House | None:
    if house.project.block is None:
        return None
    try:
        return House(with_standing(house.project, ids))
    except Unusable:  # such as a wall that fills the opening which it puts back
        return None
