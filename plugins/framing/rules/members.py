"""Bending members: strength, deflection and bearing, with the calculation behind each."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.drawn.design import STRENGTH, Design
from precheck_plugins.framing.drawn.remedies import remedy
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting
from precheck_plugins.framing.drawn.wood import deflection_limit
from precheck_plugins.framing.rules.findings import governing_name, share_used, within_rounding, work

from precheck import (
    Bearing,
    Check,
    Length,
    MakerData,
    Member,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    every,
    is_missing,
    met,
    not_shown,
    rule,
)

DEFLECTION = ("live deflection", "total deflection")
SIXTEENTHS = 16
MASONRY = ("masonry", "concrete")


@rule("framing.strength")
def strength(bending: BendingMember, limit: DesignLimits) -> Check:
    """A joist, rafter, beam or header is strong enough in bending and shear for what it carries.

    Allowable stress design of sawn lumber and of made products by their maker's values, under every combination of the
    loads, with load duration, size, repetition, moisture and bracing. Members side by side share the load by their
    stiffness. What the method does not cover goes to an engineer.
    """
    if bending.has_maker_span:
        return _maker_span(bending.member).citing(limit.made)
    if bending.is_read_in_table:
        return does_not_apply("its span is held against the header table")
    return bending.designed(limit, lambda design: _strong(design, limit)).citing(limit.used)


def _strong(design: Design, limit: DesignLimits) -> Check:
    found = design.worst(*STRENGTH)
    assert found is not None  # bending and shear are compared in every case
    check = at_most(share_used(found[1]), limit.used, lambda: governing_name(found)).or_fix(
        lambda: remedy(design, limit)
    )
    return within_rounding(design, check, lambda d: _ratio(d, *STRENGTH) <= 1).with_work(
        lambda: work(design, *STRENGTH)
    )


def _ratio(design: Design, *what: str) -> float:
    found = design.worst(*what)
    return found[1].ratio if found else 0.0


def _maker_span(member: Member) -> Check:
    maker = member.maker
    if not isinstance(maker, MakerData):
        return not_shown(maker)
    for value in (maker.document, maker.longest_span, member.span):
        if is_missing(value):
            return not_shown(value)
    said = f"{maker.document} spans it at most {maker.longest_span}; drawn {member.span}"
    return met(said) if member.span <= maker.longest_span else broken(said)


@rule("framing.deflection")
def deflection(bending: BendingMember, limit: DesignLimits) -> Check:
    """A joist, rafter or beam is stiff enough: it bends under live load no more than its use allows.

    The limit is a share of the clear span, or of twice an overhang: by floors, ceilings by their finish, rafters without
    a ceiling, and all other members. Under tile and stone the tile trade asks for more.
    """
    if bending.has_maker_span or bending.is_read_in_table:
        return does_not_apply("its span stands in a table that holds its deflection too")
    return bending.designed(limit, lambda design: _stiff(bending, design, limit)).citing(limit.other)


def _stiff(bending: BendingMember, design: Design, limit: DesignLimits) -> Check:
    bound = deflection_limit(bending.member, Setting(bending.house.project, limit))
    found = design.worst(*DEFLECTION)
    if found is None:
        return does_not_apply("no deflection limit is set for it")
    over = int(bound.value / found[1].ratio + 1e-6) if found[1].ratio else 10 * bound.value
    finish = {"tile": limit.tile, "stone": limit.stone}.get(str(design.drawn.finish))
    checks = [
        at_least(over, each, lambda: f"length over deflection, {governing_name(found)}")
        for each in (bound, finish)
        if each
    ]
    check = all_of(*checks).or_fix(lambda: remedy(design, limit))
    rounded = within_rounding(design, check, lambda d: _ratio(d, *DEFLECTION) <= 1)
    return rounded.with_work(lambda: work(design, *DEFLECTION))


@rule("framing.bearing")
def bearing(bending: BendingMember, limit: DesignLimits) -> Check:
    """Each end bears on enough length: the least that the code asks, and what its reaction needs across the grain.

    An end in a hanger bears in the hanger, whose maker says what it holds.
    """
    ends = bending.member.bears_on
    if not ends:
        return not_shown(bending.member.absent("bears on")).citing(limit.bearing_wood)
    least = every((_least(end, limit) for end in ends if end.hanger is not True), "its ends hang in hangers")
    if bending.has_maker_span or bending.is_read_in_table or all(end.hanger is True for end in ends):
        return least
    return all_of(
        least, bending.designed(limit, lambda design: _for_load(design, ends, limit)).citing(limit.bearing_load)
    )


def _least(end: Bearing, limit: DesignLimits) -> Check:
    if end.onto == "ridge":
        return does_not_apply("it leans on a ridge")
    if is_missing(end.material):
        return not_shown(end.material).citing(limit.bearing_wood)
    return at_least(end.length, limit.bearing_masonry if end.material in MASONRY else limit.bearing_wood)


def _for_load(design: Design, ends: tuple[Bearing, ...], limit: DesignLimits) -> Check:
    needed = Length.parse("1 in") * Fraction(-int(-design.bearing_in * SIXTEENTHS // 1), SIXTEENTHS)
    bound = replace(limit.bearing_load, value=needed)
    checks = (at_least(end.length, bound) for end in ends if end.hanger is not True and end.onto != "ridge")
    found = every(checks, "its ends hang in hangers")
    return found.with_work(lambda: work(design, "bearing"))
