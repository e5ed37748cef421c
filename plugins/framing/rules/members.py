"""Bending members: strength, deflection and bearing, with the calculation behind each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.drawn.deflection_limits import deflection_limits
from precheck_plugins.framing.drawn.design import STRENGTH, Design
from precheck_plugins.framing.drawn.exposure import exposure_of
from precheck_plugins.framing.drawn.remedies import changes, remedy
from precheck_plugins.framing.drawn.setting import DesignLimits, setting_in
from precheck_plugins.framing.rules.findings import TABLE_ROUNDING_IN, governing_name, share_used, within_rounding, work
from precheck_plugins.framing.rules.i_joists import held_to_table
from precheck_plugins.framing.tables.headers import SHARING

from precheck import (
    Bearing,
    Check,
    House,
    Length,
    Look,
    Member,
    Missing,
    Outcome,
    Wall,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    every,
    is_missing,
    look_at,
    not_shown,
    rule,
    when_given,
)

LIVE_DEFLECTION = "live deflection"
TOTAL_DEFLECTION = "total deflection"
SIXTEENTHS = 16
MASONRY = ("masonry", "concrete")
HELD = (Outcome.PASS, Outcome.WARN)


@rule("framing.strength")
def strength(bending: BendingMember, limit: DesignLimits) -> Check:
    """A joist, rafter, beam or header is strong enough in bending and shear for what it carries and weighs itself.

    Allowable stress design of sawn lumber and of made products by their maker's values, under every combination of the
    loads and with live load on all spans, on every other one and on both sides of each support; with load duration, size,
    repetition, moisture and bracing. Members side by side share the load by their stiffness. An I-joist is held to what its
    maker's table is for. What the method does not cover goes to an engineer.
    """
    if bending.has_maker_span:
        return held_to_table(bending, limit).citing(limit.made)
    if bending.is_read_in_table:
        return does_not_apply("its span is held against the header table")
    return bending.designed(
        limit, lambda design: _by_exposure(bending, design, limit, partial(_strong, bending, limit=limit))
    ).citing(limit.used)


def _by_exposure(
    bending: BendingMember, design: Design, limit: DesignLimits, check: Callable[[Design], Check]
) -> Check:
    """Return a check of a member whose exposure the drawings may not tell: as wet, else as dry; asked where it decides."""
    wet, exposure = check(design), exposure_of(bending.member, setting_in(bending.house, limit))
    if wet.outcome is not Outcome.FAIL or is_missing(exposure) or exposure.asked is None:
        return wet
    dry = check(design.used_otherwise(replace(design.bent.use, wet=False, incised=False)))
    return dry if dry.outcome is Outcome.FAIL else not_shown(exposure.asked)


def _strong(bending: BendingMember, design: Design, limit: DesignLimits) -> Check:
    check = _held(design, limit)
    if (
        check.outcome not in HELD
        and design.loading.hung is None
        and _held(design.loaded_on_top(), limit).outcome in HELD
    ):
        return not_shown(bending.member.loaded_on)  # type: ignore[arg-type]  # or it were known
    if check.outcome not in HELD and (tolerated := _by_header_tables(design)):
        return tolerated.with_work(lambda: work(design, *STRENGTH))
    exposure = exposure_of(bending.member, setting_in(bending.house, limit))
    told = "" if is_missing(exposure) else exposure.presumed
    return check.because(told) if told else check


def _held(design: Design, limit: DesignLimits) -> Check:
    found = design.worst(*STRENGTH)
    assert found is not None  # bending and shear are compared in every case
    check = at_most(share_used(found[1]), limit.used, lambda: governing_name(found)).or_fix(
        lambda: remedy(design, limit), lambda: changes(design, limit), decide="how it is designed"
    )
    return within_rounding(design, check, lambda d: _ratio(d, *STRENGTH) <= 1).with_work(
        lambda: work(design, *STRENGTH)
    )


def _by_header_tables(design: Design) -> Check | None:
    """Return a warning where a header fails by no more than what the code's own header tables leave out or count more.

    They leave its own weight out, round its span to the nearest inch, and count two plies as sharing load.
    """
    if design.drawn.role != "header" or is_missing(design.drawn.size):
        return None
    sharing, counted = SHARING.get(design.drawn.plies), design.weightless()
    counted = counted.shorter(TABLE_ROUNDING_IN) if design.loading.is_even else counted
    found = counted.worst("bending")
    if found is None or found[1].ratio > (sharing or 1.0) or _ratio(counted, "shear") > 1:
        return None
    if sharing is None:
        why = "it holds without its own weight on a span half an inch shorter: the header tables count so, and print this one"
        return look_at(Look.CLOSE, why)
    told = f"the header tables of the code count two plies as sharing load, times {sharing:g}, which the wood standard does not"
    return look_at(Look.ENGINEER, f"{governing_name(found)}, {found[1].ratio:.0%}; {told}: by them it holds")


def _ratio(design: Design, *what: str) -> float:
    found = design.worst(*what)
    return found[1].ratio if found else 0.0


@rule("framing.deflection")
def deflection(bending: BendingMember, limit: DesignLimits) -> Check:
    """A joist, rafter or beam is stiff enough: it bends under live load no more than what it carries allows.

    The limit is a share of the clear span, or of twice an overhang: by floors, ceilings by their finish, rafters of steep
    roofs without a ceiling, and all other members. Masonry veneer asks for more, of all loads. Under tile and stone the
    tile trade asks for more.
    """
    if bending.has_maker_span or bending.is_read_in_table:
        return does_not_apply("its span stands in a table that holds its deflection too")
    return bending.designed(
        limit, lambda design: _by_exposure(bending, design, limit, partial(_stiff, bending, limit=limit))
    ).citing(limit.other)


def _stiff(bending: BendingMember, design: Design, limit: DesignLimits) -> Check:
    found = design.worst(LIVE_DEFLECTION)
    if found is None:
        return does_not_apply("no deflection limit is set for it")
    bounds, need = deflection_limits(bending.member, setting_in(bending.house, limit))
    strictest, loosest = bounds[0].value, bounds[-1].value
    over = _length_over(strictest, found[1].ratio)
    tried = [at_least(over, bound, lambda: f"length over deflection, {governing_name(found)}") for bound in bounds]
    if need is not None and len({check.outcome for check in tried}) > 1:
        return not_shown(need)
    finish = {"tile": limit.tile, "stone": limit.stone}.get(str(design.drawn.finish))
    plain = does_not_apply("floor finish: not stated" if is_missing(design.drawn.finish) else "no brittle floor finish")
    checks = [tried[-1], at_least(over, finish) if finish else plain, *_under_veneer(design, limit)]
    check = all_of(*checks).or_fix(
        lambda: remedy(design, limit), lambda: changes(design, limit), decide="how it is designed"
    )
    fits = loosest / strictest
    rounded = within_rounding(design, check, lambda d: _ratio(d, LIVE_DEFLECTION) * fits <= 1)
    return rounded.with_work(lambda: work(design, LIVE_DEFLECTION))


def _length_over(n: int, ratio: float) -> int:
    return int(n / ratio + 1e-6) if ratio else 10 * n


def _under_veneer(design: Design, limit: DesignLimits) -> list[Check]:
    found = design.worst(TOTAL_DEFLECTION)
    if found is None or not limit.veneer.value:
        return []
    over = _length_over(limit.veneer.value, found[1].ratio)
    return [at_least(over, limit.veneer, lambda: f"length over deflection, {governing_name(found)}")]


@rule("framing.bearing")
def bearing(bending: BendingMember, limit: DesignLimits) -> Check:
    """Each end has enough bearing length: the minimum of the code, and what its own reaction needs across the grain.

    A short bearing away from the end of a member takes a little more. An end in a hanger bears in the hanger, whose maker
    says what it holds.
    """
    ends = bending.member.bears_on
    if not ends:
        return not_shown(bending.member.absent("bears on")).citing(limit.bearing_wood)
    least = every((_least(bending, end, limit) for end in ends if end.hanger is not True), "its ends hang in hangers")
    if bending.has_maker_span or bending.is_read_in_table or all(end.hanger is True for end in ends):
        return least
    return all_of(
        least,
        bending.designed(
            limit, lambda design: _by_exposure(bending, design, limit, partial(_for_load, ends=ends, limit=limit))
        ).citing(limit.bearing_load),
    )


def _least(bending: BendingMember, end: Bearing, limit: DesignLimits) -> Check:
    lengths = _long(end, _on_masonry(end, bending.house), limit)
    if end.onto != "ridge":
        return lengths
    steep = limit.leans_from.value
    leans = does_not_apply("it leans on a ridge")
    if steep is None:
        return leans
    return decide(when_given(lambda own: own >= steep, bending.member.slope), leans, lengths)


def _on_masonry(end: Bearing, house: House) -> bool | Missing:
    """Return whether `end` bears on masonry or concrete, and not on wood or metal: as stated, or as what carries it is."""
    if not is_missing(end.material):
        return end.material in MASONRY
    bearer = None if is_missing(end.on) else house.project.by_id.get(end.on)
    if isinstance(bearer, Member) or end.onto == "existing framing":
        return False
    framed = bearer.is_framed if isinstance(bearer, Wall) else end.material
    return framed if is_missing(framed) else not framed


def _long(end: Bearing, masonry: bool | Missing, limit: DesignLimits) -> Check:
    if is_missing(masonry):
        enough = at_least(end.length, limit.bearing_masonry)
        return enough if enough.outcome is not Outcome.FAIL else not_shown(masonry).citing(limit.bearing_wood)
    return at_least(end.length, limit.bearing_masonry if masonry else limit.bearing_wood)


def _for_load(design: Design, ends: tuple[Bearing, ...], limit: DesignLimits) -> Check:
    checks = (
        at_least(end.length, replace(limit.bearing_load, value=_needed(design, index)))
        for index, end in enumerate(ends)
        if end.hanger is not True and end.onto != "ridge"
    )
    found = every(checks, "its ends hang in hangers")
    return found.with_work(lambda: work(design, "bearing"))


def _needed(design: Design, support: int) -> Length:
    sixteenths = -int(-design.bearing_in(support) * SIXTEENTHS // 1)
    return Length.parse("1 in") * Fraction(sixteenths, SIXTEENTHS)
