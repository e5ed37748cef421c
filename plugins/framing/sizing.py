"""Remedies: the nearest members that pass where the drawn one does not. Inches, lb, plf.

Every remedy tries members of the drawn species and grade and says what it tried.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import floor
from typing import TYPE_CHECKING

from precheck_plugins.framing.lumber import DesignValues, LumberError
from precheck_plugins.framing.members import ROUNDING, Member, MemberCheck, check_member, check_uniform
from precheck_plugins.framing.nds import WIDEST_REPETITIVE_IN, OutsideMethodError
from precheck_plugins.framing.sections import Section, dressed_section

if TYPE_CHECKING:
    from precheck_plugins.framing.demands import Demand, UniformSpan

JOIST_SIZES = ("2x4", "2x6", "2x8", "2x10", "2x12", "2x14")
LAYOUTS_IN = (24.0, 19.2, 16.0, 12.0, 8.0)
MOST_PLIES = 4

ValuesOf = Callable[[Section], DesignValues]


@dataclass(frozen=True, slots=True)
class Remedy:
    """The lightest member that passes, if any, and every member that was tried, lightest first."""

    found: MemberCheck | None
    tried: tuple[MemberCheck, ...]


@dataclass(frozen=True, slots=True)
class Spacing:
    """Greatest spacing (in) at which a member passes, and the greatest usual layout within it, if any."""

    greatest_in: float
    layout_in: float | None
    governs: str


def lightest_member(member: Member, demand: Demand, values_of: ValuesOf, sizes: Sequence[str] = JOIST_SIZES) -> Remedy:
    """The lightest of these sizes that passes, with the plies, use and limits of `member`.

    `values_of` gives the values of a size, for species whose values go by width; sizes it has none for, and
    sizes outside the method, are left out. Source: NDS chapter 3.
    """
    plies = member.section.plies
    sections = [dressed_section(size) if plies == 1 else dressed_section(size).built_up(plies) for size in sizes]
    return _first(member, demand, values_of, sorted(sections, key=lambda section: section.area_in2))


def plies_needed(member: Member, demand: Demand, most: int = MOST_PLIES) -> Remedy:
    """The least number of plies of the drawn size that passes, up to `most`. Source: NDS chapter 3.

    The plies must be fastened together and loaded on top, so that they share the load equally.
    """
    sections = [member.section.built_up(plies) for plies in range(1, most + 1)]
    return _first(member, demand, lambda _: member.values, sections)


def passing_spacing(member: Member, span: UniformSpan, spacing_in: float) -> Spacing:
    """The spacing at which the drawn member passes; `span` holds its loads at the drawn spacing (in).

    Demands are in proportion to spacing and capacities are not, so that one check gives the answer. Above 24
    in a repetitive member loses Cr, so that the answer stops there. Raises LumberError or OutsideMethodError.
    """
    governing = check_uniform(member, span).governing
    greatest = spacing_in / governing.ratio if governing.ratio > 0 else WIDEST_REPETITIVE_IN
    if member.use.repetitive:
        greatest = min(greatest, WIDEST_REPETITIVE_IN)
    within = [layout for layout in LAYOUTS_IN if layout <= greatest * (1 + ROUNDING)]
    return Spacing(greatest, max(within, default=None), governing.what)


def passing_whole_inch(spacing: Spacing) -> int:
    """The greatest whole inch of spacing that passes, for layouts that are not usual; inches."""
    return floor(spacing.greatest_in * (1 + ROUNDING))


def _first(member: Member, demand: Demand, values_of: ValuesOf, sections: Sequence[Section]) -> Remedy:
    tried = []
    for section in sections:
        check = _check(member, demand, values_of, section)
        if check is None:
            continue
        tried.append(check)
        if check.passes:
            return Remedy(check, tuple(tried))
    return Remedy(None, tuple(tried))


def _check(member: Member, demand: Demand, values_of: ValuesOf, section: Section) -> MemberCheck | None:
    try:
        return check_member(replace(member, section=section, values=values_of(section)), demand)
    except (LumberError, OutsideMethodError):
        return None
