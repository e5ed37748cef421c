"""What the rules for bending members are about: a member with its house, its design, and what would make it pass."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import floor
from typing import Any

from precheck_plugins.framing.carried import DesignLimits, Setting, inches
from precheck_plugins.framing.design import OUTSIDE, STRENGTH, Design, design_of, name_of, values_of
from precheck_plugins.framing.lumber import LumberError
from precheck_plugins.framing.members import DemandCapacity
from precheck_plugins.framing.nds import WIDEST_REPETITIVE_IN, OutsideMethodError
from precheck_plugins.framing.sections import Section, dressed_section
from precheck_plugins.framing.sizing import LAYOUTS_IN, MOST_PLIES
from precheck_plugins.framing.steps import Step

from precheck import (
    Check,
    Fact,
    House,
    Limit,
    Look,
    MakerData,
    Member,
    Outcome,
    Ratio,
    fact,
    is_missing,
    look_at,
    not_shown,
)

SIZES_BY_THICKNESS = {
    2: ("2x4", "2x6", "2x8", "2x10", "2x12"),
    3: ("3x6", "3x8", "3x10", "3x12"),
    4: ("4x4", "4x6", "4x8", "4x10", "4x12"),
    6: ("6x6", "6x8", "6x10", "6x12"),
}
BENDING = frozenset(("floor joist", "ceiling joist", "rafter", "deck joist", "beam", "header", "ridge beam",
                     "hip or valley", "trimmer"))  # fmt: skip
DEFLECTION = ("live deflection", "total deflection")
PERMILLE = 1000
TABLE_ROUNDING_IN = 0.5


@fact
class BendingMember(Fact):
    """A joist, rafter, beam or header, in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[BendingMember]:
        """Yield every member that bends."""
        for member in house.subjects(Member):
            if member.role in BENDING:
                yield cls(member, member, house)

    @property
    def phase(self) -> Any:
        """A member that stands but gets load from what is new or altered counts as altered."""
        stands = self.member.phase
        return "altered" if stands == "existing" and self._is_loaded_anew else stands

    @property
    def _is_loaded_anew(self) -> bool:
        parts = self.house.project.by_id
        spaces = (parts[load.space] for load in self.member.carries if not is_missing(load.space))
        resting = (m for m in self.house.project.members for b in m.bears_on if b.on == self.member.id)
        return any(part.phase in ("new", "altered") for part in (*spaces, *resting))

    @property
    def has_maker_span(self) -> bool:
        """Whether it is an I-joist or the like, whose span stands in its maker's document."""
        maker = self.member.maker
        return isinstance(maker, MakerData) and maker.product == "I-joist"

    @property
    def is_read_in_table(self) -> bool:
        """Whether it is a header that is drawn with its row of the header tables, and no loads."""
        member = self.member
        return member.role == "header" and not is_missing(member.table_case) and not member.carries

    def designed(self, limits: DesignLimits, check: Callable[[Design], Check]) -> Check:
        """Return the `check` of the member's design; what it lacks, or why it is an engineer's."""
        try:
            design = design_of(self.member, Setting(self.house.project, limits))
            return not_shown(design) if is_missing(design) else check(design)
        except OUTSIDE as error:
            return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}")


def cited(check: Check, bound: Limit[Any]) -> Check:
    """Return `check`, whose parts that are no comparison with a limit cite `bound` instead of all that is read."""
    for leaf in check.leaves():
        if leaf.bound is None:
            leaf.bound = bound
    return check


def within_rounding(design: Design, check: Check, passes: Callable[[Design], bool]) -> Check:
    """Return `check`, or a warning where the member fails by no more than the half inch that span tables round up."""
    if check.outcome is not Outcome.FAIL or not design.is_of_a_table or not passes(design.shorter(TABLE_ROUNDING_IN)):
        return check
    why = "it passes on a span half an inch shorter: span tables are rounded to the nearest inch, and print this one"
    return look_at(Look.CLOSE, why)


def used(compared: DemandCapacity) -> Ratio:
    """Return demand over capacity as a share, to one tenth of a percent, and never rounded across the limit."""
    thousandths = compared.ratio * PERMILLE
    rounded = floor(thousandths + 0.5)
    if (rounded <= PERMILLE) != compared.passes:
        rounded = PERMILLE if compared.passes else PERMILLE + 1
    return Ratio.parse(f"{rounded / 10:.1f} %")


def how(found: tuple[Any, DemandCapacity]) -> str:
    """Say which comparison governs."""
    return name_of(*found)


def work(design: Design, *what: str) -> tuple[Step, ...]:
    """Return the calculation of the case that governs."""
    found = design.worst(*what)
    return design.steps(found[0]) if found else ()


def remedy(design: Design, limits: DesignLimits) -> str:
    """Name the nearest members that pass: a larger size, a closer spacing, more plies; or say that none does."""
    ways = [way for way in (_larger(design, limits), _closer(design), _more_plies(design)) if way]
    if ways:
        return " or ".join(ways)
    return "no larger size, closer spacing or number of plies up to 4 of this lumber passes: have it designed"


def _larger(design: Design, limits: DesignLimits) -> str:
    drawn = design.drawn
    if is_missing(drawn.size) or not is_missing(drawn.maker) or drawn.sisters:
        return ""
    sizes = SIZES_BY_THICKNESS.get(design.bent.section.nominal_thickness, ())
    apart = f" at {drawn.spacing}" if drawn.is_repeated and not is_missing(drawn.spacing) else ""
    for size in sizes:
        section = dressed_section(size).built_up(drawn.plies)
        if section.area_in2 > design.bent.section.area_in2 and _passes(design, section, limits):
            return f"{section.label} {drawn.species} {drawn.grade}{apart}"
    return ""


def _passes(design: Design, section: Section, limits: DesignLimits) -> bool:
    try:
        values = values_of(design.drawn, section, limits)
        return not is_missing(values) and design.tried(section, values).passes()
    except (LumberError, OutsideMethodError):
        return False


def _closer(design: Design) -> str:
    drawn = design.drawn
    if not drawn.is_repeated or is_missing(drawn.spacing) or design.loading.points:
        return ""
    apart = inches(drawn.spacing)
    usual = (layout for layout in LAYOUTS_IN if layout < min(apart, WIDEST_REPETITIVE_IN + 1))
    found = next((layout for layout in usual if design.loaded(layout / apart).passes()), None)
    return "" if found is None else f"the drawn {drawn.label_of_size} at {found:g} in"


def _more_plies(design: Design) -> str:
    drawn, section = design.drawn, design.bent.section
    if design.sisters or drawn.is_repeated:
        return ""
    for plies in range(drawn.plies + 1, MOST_PLIES + 1):
        wider = section.built_up(plies)
        if design.tried(wider, design.bent.values).passes():
            return f"{plies} plies of {drawn.size if not is_missing(drawn.size) else section.label}"
    return ""


__all__ = [
    "BENDING",
    "DEFLECTION",
    "STRENGTH",
    "BendingMember",
    "cited",
    "how",
    "remedy",
    "used",
    "within_rounding",
    "work",
]
