"""The design of a member as drawn: section, lumber and use, checked under every combination of its loads.

`design_of` gives the checks, what is missing for them, or raises OutsideMethodError for what an engineer decides.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from precheck_plugins.framing.adjusted import Conditions
from precheck_plugins.framing.carried import DesignLimits, Setting, inches
from precheck_plugins.framing.load_cases import Case, cases_of, combinations, name_of
from precheck_plugins.framing.lumber import CURRENT, DesignValues, LumberError, is_same, maker_values, published_values
from precheck_plugins.framing.members import SHORTEST_BEARING_IN, DemandCapacity, Serviceability
from precheck_plugins.framing.members import Member as Bent
from precheck_plugins.framing.nds import WIDEST_REPETITIVE_IN, OutsideMethodError
from precheck_plugins.framing.path import Loading, loading_of, resting_on
from precheck_plugins.framing.sections import Section, SizeError, dressed_section, made_section
from precheck_plugins.framing.statics import BeamError
from precheck_plugins.framing.steps import Step

from precheck import Length, Limit, MakerData, Member, Missing, Pressure, Sister, is_missing, missing_of

BEFORE_2013 = "before 2013"
STRENGTH = ("bending", "shear")
BENDING_SUPPORTS = 2
OUTSIDE = (OutsideMethodError, BeamError, LumberError, SizeError)
"""What the engineering raises for a member that it does not cover; each message says why."""


@dataclass(frozen=True)
class Design:
    """A member with its loads and the checks under every combination."""

    drawn: Member
    bent: Bent
    sisters: tuple[Bent, ...]
    sound: tuple[bool, ...]
    loading: Loading
    cases: tuple[Case, ...]

    def worst(self, *what: str) -> tuple[Case, DemandCapacity] | None:
        """The case and comparison with the greatest demand over capacity among those whose name starts so."""
        found = [(case, c) for case in self.cases for c in case.comparisons if c.what.startswith(what)]
        return max(found, key=lambda pair: pair[1].ratio, default=None)

    @property
    def bearing_in(self) -> float:
        """The bearing length that the greatest reaction needs, in."""
        return max(case.bearing_needed_in for case in self.cases)

    def passes(self) -> bool:
        """Whether strength and deflection pass under every combination."""
        compared = (c for case in self.cases for c in case.comparisons if not c.what.startswith("bearing"))
        return all(c.passes for c in compared)

    def steps(self, case: Case) -> tuple[Step, ...]:
        """The calculation of one case in order: loads, section, values, comparisons."""
        return (*self.loading.steps(), *case.written())

    def tried(self, section: Section, values: DesignValues) -> Design:
        """The same loads on another section."""
        bent = replace(self.bent, section=section, values=values)
        return replace(self, bent=bent, cases=cases_of(bent, self.sisters, self.sound, self.loading))

    @property
    def is_of_a_table(self) -> bool:
        """Whether it is what span tables are made of: a repeated member on a simple span under even load."""
        return self.drawn.is_repeated and not self.sisters and not self.loading.points and not self.loading.overhang_in

    def shorter(self, by_in: float) -> Design:
        """The same member on a span that is a little shorter."""
        loading = replace(self.loading, span_in=self.loading.span_in - by_in)
        return replace(self, loading=loading, cases=cases_of(self.bent, self.sisters, self.sound, loading))

    def loaded(self, share: float) -> Design:
        """The same member under a share of its loads."""
        pieces = tuple(piece._replace(amount=piece.amount * share) for piece in self.loading.pieces)
        loading = replace(self.loading, pieces=pieces)
        return replace(self, loading=loading, cases=cases_of(self.bent, self.sisters, self.sound, loading))


def design_of(member: Member, setting: Setting) -> Design | Missing:
    """Return the design of a member as drawn, or what is missing for it. Raises what `OUTSIDE` lists."""
    loading, bent = loading_of(member, setting), bent_member(member, setting)
    beside, sound = _sisters(member, setting), _sound(member)
    absent = missing_of(loading, bent, *beside, *sound)
    if absent is not None or is_missing(loading) or is_missing(bent):
        return absent if absent is not None else loading  # type: ignore[return-value]  # one of them is the absence
    if loading.span_in <= 0 or not any(piece.amount for piece in loading.pieces):
        return member.absent("carries")
    cases = cases_of(bent, tuple(beside), tuple(sound), loading)
    return Design(member, bent, tuple(beside), tuple(sound), loading, cases)


def bent_member(member: Member, setting: Setting) -> Bent | Missing:
    """Return section, values, use and limits of a member as the engineering takes them."""
    section, use = section_of(member), conditions_of(member, setting)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    absent = missing_of(section, values, use)
    if absent is not None:
        return absent
    return Bent(section, values, use, _serviceability(member, setting), _bearing_in(member))  # type: ignore[arg-type]


def section_of(member: Member) -> Section | Missing:
    """Return the section: by the maker's true size, else by the nominal size. Raises SizeError."""
    maker = member.maker
    if isinstance(maker, MakerData):
        absent = missing_of(maker.breadth, maker.depth)
        return absent if absent is not None else made_section(inches(maker.breadth), inches(maker.depth), member.plies)  # type: ignore[arg-type]
    if is_missing(member.size):
        return member.size
    single = dressed_section(member.size)
    return single if member.plies == 1 else single.built_up(member.plies)


def values_of(member: Member | Sister, section: Section, limits: DesignLimits) -> DesignValues | Missing:
    """Return the design values: from the maker's document, else as published. Raises LumberError."""
    maker = getattr(member, "maker", None)
    if isinstance(maker, MakerData):
        return _made(maker)
    absent = missing_of(member.species, member.grade)
    if absent is not None:
        return absent
    older = getattr(member, "graded", None) == BEFORE_2013 and is_same("Southern pine", str(member.species))
    supplement = BEFORE_2013 if older else limits.lumber.value or CURRENT
    return published_values(str(member.species), str(member.grade), section, supplement)


def _made(maker: MakerData) -> DesignValues | Missing:
    if maker.product in ("I-joist", "steel"):
        raise OutsideMethodError(
            f"{maker.product}: its strength is not that of a rectangle of wood; the maker's tables decide"
        )
    wanted = {"Fb": maker.bending, "Fv": maker.shear, "Fc_perp": maker.bearing, "E": maker.modulus}
    absent = missing_of(maker.document, *wanted.values())
    if absent is not None:
        return absent
    if not is_missing(maker.modulus_for_stability):
        wanted["Emin"] = maker.modulus_for_stability
    numbers = {symbol: float(value.n) / 144 for symbol, value in wanted.items() if isinstance(value, Pressure)}
    return maker_values(maker.product, maker.grade, str(maker.document), numbers)


def conditions_of(member: Member, setting: Setting) -> Conditions | Missing:
    """Return how the lumber is used: repeated, wet, incised, and how far its compression edge is free."""
    free = unbraced_in(member, setting)
    if is_missing(free):
        return free
    apart = member.spacing
    close = member.is_repeated and not is_missing(apart) and inches(apart) <= WIDEST_REPETITIVE_IN
    return Conditions(repetitive=close, wet=member.wet, incised=member.incised, unbraced_in=free)


def unbraced_in(member: Member, setting: Setting) -> float | Missing:
    """Return the free length of the compression edge, in: as drawn, none under sheathing, else between joists."""
    if not is_missing(member.unbraced):
        return inches(member.unbraced)
    section = section_of(member)
    if is_missing(section) or member.is_repeated or section.depth_in <= section.breadth_in:
        return 0.0 if not is_missing(section) else section
    rows = [other.spacing for other, _, _ in resting_on(member, setting) if other.is_repeated]
    known = [inches(spacing) for spacing in rows if isinstance(spacing, Length)]
    return max(known) if known else member.unbraced


def deflection_limit(member: Member, setting: Setting) -> Limit[int]:
    """Return the deflection limit of a member: by its ceiling, its role, and whether it bears a floor."""
    role, ceiling, limits = member.role, member.ceiling, setting.limits
    if ceiling == "plaster":
        return limits.plaster
    if role in ("floor joist", "deck joist"):
        return limits.floor
    if role == "ceiling joist" or (role == "rafter" and ceiling == "gypsum"):
        return limits.ceiling
    if role == "rafter":
        return limits.rafter
    return limits.floor if _bears_floor(member, setting) else limits.other


def _serviceability(member: Member, setting: Setting) -> Serviceability:
    limit = deflection_limit(member, setting)
    return Serviceability(live_ratio=limit.value, source=f"{limit.name}, {limit.citation}")


def _bearing_in(member: Member) -> float:
    lengths = [inches(end.length) for end in member.bears_on if not is_missing(end.length)]
    return min(lengths, default=SHORTEST_BEARING_IN)


def _bears_floor(member: Member, setting: Setting) -> bool:
    uses = [setting.use(load) for load in member.carries]
    rows = (other.role for other, _, _ in resting_on(member, setting))
    return any(not is_missing(use) and use != "roof" for use in uses) or "floor joist" in rows or "deck joist" in rows


def _sisters(member: Member, setting: Setting) -> list[Any]:
    return [_sister(member, sister, setting) for sister in member.sisters]


def _sister(member: Member, sister: Sister, setting: Setting) -> Bent | Missing:
    absent = missing_of(sister.full_length, sister.size)
    if absent is not None:
        return absent
    if sister.full_length is False:
        raise OutsideMethodError("a sister that stops short of the bearings hands its load back through its fasteners")
    section = dressed_section(str(sister.size))
    section = section if sister.plies == 1 else section.built_up(sister.plies)
    values, use = values_of(sister, section, setting.limits), conditions_of(member, setting)
    absent = missing_of(values, use)
    if absent is not None:
        return absent
    return Bent(section, values, use, _serviceability(member, setting), _bearing_in(member))  # type: ignore[arg-type]


def _sound(member: Member) -> list[Any]:
    if not member.sisters:
        return []
    return [True if member.phase == "new" else member.sound, *(True for _ in member.sisters)]


__all__ = [
    "BENDING_SUPPORTS",
    "OUTSIDE",
    "STRENGTH",
    "Case",
    "Design",
    "combinations",
    "deflection_limit",
    "design_of",
    "name_of",
]
