"""A member as drawn in the terms of the engineering: its section, lumber and use, its deflection limit, its bearings."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.drawn.deflection_limits import strictest_of
from precheck_plugins.framing.drawn.exposure import exposure_of
from precheck_plugins.framing.drawn.made import made_values
from precheck_plugins.framing.drawn.resting import resting_on
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, inches
from precheck_plugins.framing.drawn.sizes import section_of
from precheck_plugins.framing.members.capacity import SHORTEST_BEARING_IN, Seat, Serviceability, SizedMember
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.factors import WIDEST_REPETITIVE_IN
from precheck_plugins.framing.timber.lumber import CURRENT, DesignValues, is_same, published_values
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section

from precheck import Length, MakerData, Member, Missing, Sister, given, is_missing

BEFORE_2013 = "before 2013"
SHARING_PLIES = 3
SLENDER = 2  # times its width, from which lumber is held sideways


def bent_member(member: Member, setting: Setting) -> SizedMember | Missing:
    """Return section, values, use and limits of a member as the engineering takes them."""
    section, use = section_of(member), conditions_of(member, setting)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    found = given(section, values, use)
    if is_missing(found):
        return found
    section, values, use = found
    if use.unbraced_in and isinstance(member.maker, MakerData) and is_missing(member.maker.modulus_for_stability):
        return member.maker.modulus_for_stability
    return SizedMember(section, values, use, _serviceability(member, setting), _seats(member))


def values_of(member: Member | Sister, section: CrossSection, limits: DesignLimits) -> DesignValues | Missing:
    """Return the design values: from the maker's document, else as published. Raises LumberError."""
    maker = getattr(member, "maker", None)
    if isinstance(maker, MakerData) and isinstance(member, Member):
        return made_values(member, maker)
    graded = given(member.species, member.grade)
    if is_missing(graded):
        return graded
    older = getattr(member, "graded", None) == BEFORE_2013 and is_same("Southern pine", graded[0])
    supplement = BEFORE_2013 if older else limits.lumber.value or CURRENT
    return published_values(*graded, section, supplement)


def conditions_of(member: Member, setting: Setting) -> Conditions | Missing:
    """Return how the lumber is used: repeated, wet, incised, and how far its edges are free."""
    free, exposure = unbraced_in(member, setting), exposure_of(member, setting)
    if is_missing(free) or is_missing(exposure):
        return free if is_missing(free) else exposure  # type: ignore[return-value]  # one of them is the absence
    return Conditions(
        repetitive=_shares_load(member), wet=exposure.wet, incised=exposure.incised, unbraced_in=free,
        unbraced_below_in=_free_below_in(member), length_in=_longest_span_in(member),
    )  # fmt: skip


def _shares_load(member: Member) -> bool:
    """Whether three or more share the load: in a row no farther apart than the standard says, or in contact. NDS 4.3.9."""
    apart = member.spacing
    close = member.is_repeated and not is_missing(apart) and inches(apart) <= WIDEST_REPETITIVE_IN
    return close or member.plies >= SHARING_PLIES


def _longest_span_in(member: Member) -> float:
    spans = member.spans or (() if is_missing(member.span) else (member.span,))
    return max(map(inches, spans), default=0.0)


def _free_below_in(member: Member) -> float:
    """The free length of the lower edge where a beam hogs: its overhang, or a whole span where it runs on.

    Rows of joists and rafters are blocked and bridged by rules of their own.
    """
    if member.is_repeated:
        return 0.0
    past = [inches(own) for own in (member.overhang, member.first_overhang) if not is_missing(own)]
    return max([*past, _longest_span_in(member) if member.spans else 0.0], default=0.0)


def unbraced_in(member: Member, setting: Setting) -> float | Missing:
    """Return the free length of the compression edge, in: as drawn, none under sheathing, else between joists."""
    if not is_missing(member.unbraced):
        return inches(member.unbraced)
    section = section_of(member)
    if is_missing(section) or member.is_repeated or stays_upright(section):
        return 0.0 if not is_missing(section) else section
    rows = [other.spacing for other, _, bearing in resting_on(member, setting)
            if other.is_repeated and is_missing(bearing.at) and is_missing(bearing.to)]  # fmt: skip
    known = [inches(spacing) for spacing in rows if isinstance(spacing, Length)]
    return max(known) if known else member.unbraced


def stays_upright(section: CrossSection) -> bool:
    """Return whether a member is no deeper than wide, or of lumber less than twice as deep by its nominal size.

    NDS 3.3.3.1 and 4.4.1.2(a), from memory; a member at the limit of the latter is not counted.
    """
    slight = 0 < section.nominal_depth < SLENDER * section.nominal_thickness * section.plies
    return slight or section.depth_in <= section.breadth_in


def _serviceability(member: Member, setting: Setting) -> Serviceability:
    limit, veneer = strictest_of(member, setting), setting.limits.veneer
    total = veneer.value if any(load.masonry_veneer is True for load in member.carries) else None
    return Serviceability(live_ratio=limit.value, total_ratio=total, source=f"{limit.name}, {limit.citation}")


def _seats(member: Member) -> tuple[Seat, ...]:
    """The seat of each end: its length, and whether it is well within the member, past which an overhang or a span goes on."""
    last = len(member.spans) if member.spans else 1
    return tuple(_seat(member, end, index, last) for index, end in enumerate(member.bears_on))


def _seat(member: Member, end: Any, index: int, last: int) -> Seat:
    long = SHORTEST_BEARING_IN if is_missing(end.length) else inches(end.length)
    past = member.first_overhang if index == 0 else member.overhang if index == last else None
    if past is None:
        return Seat(long, _longest_span_in(member) / 2)
    return Seat(long, max(inches(past) - long, 0.0) if not is_missing(past) else 0.0)


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
    if is_missing(found):
        return found
    return SizedMember(section, *found, _serviceability(member, setting), _seats(member))
