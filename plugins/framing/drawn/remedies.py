"""What would make a bending member pass: the nearest larger size, closer spacing or number of plies."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, NamedTuple

from precheck_plugins.framing.drawn.design import Design
from precheck_plugins.framing.drawn.setting import DesignLimits, inches
from precheck_plugins.framing.drawn.wood import SHARING_PLIES, stays_upright, values_of
from precheck_plugins.framing.timber.factors import WIDEST_REPETITIVE_IN
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import LAYOUTS_IN, MOST_PLIES, CrossSection, dressed_section

from precheck import Length, NewValue, is_missing

SIZES_BY_THICKNESS = {
    2: ("2x4", "2x6", "2x8", "2x10", "2x12"),
    3: ("3x6", "3x8", "3x10", "3x12"),
    4: ("4x4", "4x6", "4x8", "4x10", "4x12"),
    6: ("6x6", "6x8", "6x10", "6x12"),
}


class Remedy(NamedTuple):
    """A member that passes in place of the one drawn, in words, and which of its fields becomes what."""

    text: str
    field: str
    value: Any


def remedy(design: Design, limits: DesignLimits) -> str:
    """Name the nearest members that pass: a larger size, a closer spacing, more plies; or say that none does."""
    ways = _ways(design, limits)
    if ways:
        return " or ".join(way.text for way in ways)
    return "no larger size, closer spacing or number of plies up to 4 of this lumber passes: have it designed"


def changes(design: Design, limits: DesignLimits) -> list[NewValue]:
    """Return the first of these ways as a value; a true size that is measured has to be measured anew.

    The jack studs of a header that is drawn with its row of the tables go by its size as well, and have to be looked up.
    """
    drawn = design.drawn
    if not is_missing(drawn.table_case) and not is_missing(drawn.jack_studs):
        return []
    ways = [way for way in _ways(design, limits) if way.field != "size" or is_missing(drawn.measured)]
    return [NewValue(drawn, way.field, way.value) for way in ways[:1]]


def _ways(design: Design, limits: DesignLimits) -> list[Remedy]:
    return [way for way in (_larger(design, limits), _closer(design), _more_plies(design)) if way is not None]


def _larger(design: Design, limits: DesignLimits) -> Remedy | None:
    drawn = design.drawn
    if is_missing(drawn.size) or not is_missing(drawn.maker) or drawn.sisters:
        return None
    sizes = SIZES_BY_THICKNESS.get(design.bent.section.nominal_thickness, ())
    apart = f" at {drawn.spacing}" if drawn.is_repeated and not is_missing(drawn.spacing) else ""
    for size in sizes:
        section = dressed_section(size).built_up(drawn.plies)
        if not (stays_upright(section) or _is_held(design)):
            continue  # it would be asked how a member so deep is held sideways
        if section.area_in2 > design.bent.section.area_in2 and _passes(design, section, limits):
            return Remedy(f"{section.label} {drawn.species} {drawn.grade}{apart}", "size", size)
    return None


def _is_held(design: Design) -> bool:
    """Return whether the drawings tell how a deep member is held sideways."""
    drawn = design.drawn
    return drawn.is_repeated or not is_missing(drawn.unbraced) or design.bent.use.unbraced_in > 0


def _passes(design: Design, section: CrossSection, limits: DesignLimits) -> bool:
    try:
        values = values_of(design.drawn, section, limits)
        return not is_missing(values) and design.tried(section, values).passes()
    except OutsideMethodError:
        return False


def _closer(design: Design) -> Remedy | None:
    drawn = design.drawn
    if not drawn.is_repeated or is_missing(drawn.spacing) or any(p.is_point for p in design.loading.pieces):
        return None
    apart = inches(drawn.spacing)
    usual = (layout for layout in LAYOUTS_IN if layout < min(apart, WIDEST_REPETITIVE_IN + 1))
    found = next((layout for layout in usual if design.loaded(layout / apart).passes()), None)
    return (
        None
        if found is None
        else Remedy(f"the drawn {drawn.label_of_size} at {found:g} in", "spacing", Length.parse(f"{found:g} in"))
    )


def _more_plies(design: Design) -> Remedy | None:
    drawn, section = design.drawn, design.bent.section
    if design.sisters or drawn.is_repeated:
        return None
    for plies in range(drawn.plies + 1, MOST_PLIES + 1):
        wider, use = section.built_up(plies), replace(design.bent.use, repetitive=plies >= SHARING_PLIES)
        if design.used_otherwise(use).tried(wider, design.bent.values).passes():
            label = section.label if is_missing(drawn.size) else drawn.size
            return Remedy(f"{plies} plies of {label}", "plies", plies)
    return None
