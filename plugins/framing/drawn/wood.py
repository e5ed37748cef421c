"""A member as drawn in the terms of the engineering: its section, lumber and use, its deflection limit, its bearing."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.drawn.load_path import resting_on
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, inches
from precheck_plugins.framing.members.capacity import SHORTEST_BEARING_IN, Serviceability, SizedMember
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.factors import WIDEST_REPETITIVE_IN
from precheck_plugins.framing.timber.lumber import CURRENT, DesignValues, is_same, maker_values, published_values
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section, made_section

from precheck import (
    Length,
    Limit,
    MakerData,
    Member,
    Missing,
    Pressure,
    Sister,
    given,
    is_missing,
    missing_of,
    when_given,
)

BEFORE_2013 = "before 2013"


def bent_member(member: Member, setting: Setting) -> SizedMember | Missing:
    """Return section, values, use and limits of a member as the engineering takes them."""
    section, use = section_of(member), conditions_of(member, setting)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    found = given(section, values, use)
    return found if is_missing(found) else SizedMember(*found, _serviceability(member, setting), _bearing_in(member))


def section_of(member: Member) -> CrossSection | Missing:
    """Return the section: by the maker's true size, else by the nominal size. Raises SizeError."""
    maker = member.maker
    if isinstance(maker, MakerData):
        return when_given(
            lambda wide, deep: made_section(inches(wide), inches(deep), member.plies), maker.breadth, maker.depth
        )
    if is_missing(member.size):
        return member.size
    single = dressed_section(member.size)
    return single if member.plies == 1 else single.built_up(member.plies)


def values_of(member: Member | Sister, section: CrossSection, limits: DesignLimits) -> DesignValues | Missing:
    """Return the design values: from the maker's document, else as published. Raises LumberError."""
    maker = getattr(member, "maker", None)
    if isinstance(maker, MakerData):
        return _made(maker)
    graded = given(member.species, member.grade)
    if is_missing(graded):
        return graded
    older = getattr(member, "graded", None) == BEFORE_2013 and is_same("Southern pine", graded[0])
    supplement = BEFORE_2013 if older else limits.lumber.value or CURRENT
    return published_values(*graded, section, supplement)


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


def sisters_of(member: Member, setting: Setting) -> list[Any]:
    """Return each member fixed along `member` as the engineering takes it, or what is missing for it."""
    return [_sister(member, sister, setting) for sister in member.sisters]


def _sister(member: Member, sister: Sister, setting: Setting) -> SizedMember | Missing:
    drawn = given(sister.full_length, sister.size)
    if is_missing(drawn):
        return drawn
    full_length, size = drawn
    if not full_length:
        raise OutsideMethodError("a sister that stops short of the bearings hands its load back through its fasteners")
    section = dressed_section(size)
    section = section if sister.plies == 1 else section.built_up(sister.plies)
    found = given(values_of(sister, section, setting.limits), conditions_of(member, setting))
    return (
        found
        if is_missing(found)
        else SizedMember(section, *found, _serviceability(member, setting), _bearing_in(member))
    )
