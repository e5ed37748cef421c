"""Roofs: what keeps rafters from spreading and the ridge up: ties, heel joints, thrust, the ridge itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck_plugins.framing.drawn.design import Design, design_of
from precheck_plugins.framing.drawn.gable import Gable
from precheck_plugins.framing.drawn.loads import DEAD, LIVE
from precheck_plugins.framing.drawn.setting import DesignLimits, inches, setting_in
from precheck_plugins.framing.members.demands import UniformSpan
from precheck_plugins.framing.members.ties import RafterPair, check_tie
from precheck_plugins.framing.rules.findings import share_used
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Ratio,
    Slope,
    all_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    given,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    rule,
    when_given,
)


class RidgeLimits(Limits):
    beam_below: Limit[Slope]
    beam_without_ties: Limit[Any]


@rule("roof-framing.ridge")
def ridge(gable: Gable, limit: RidgeLimits) -> Check:
    """A ridge under a low slope, or over rafters that no tie holds together, is a beam on posts and not a board."""
    frame = gable.frame
    low = when_given(lambda slope: limit.beam_below.value is not None and slope < limit.beam_below.value, gable.slope)
    untied = when_given(lambda tied: not tied and limit.beam_without_ties.value is not None, gable.has_ties)
    beam = one_of(frame.ridge, limit.beam_without_ties)
    low_beam = beam.because(f"the slope of {gable.slope} is under {limit.beam_below.value}")
    tied = all_of(met("rafters are tied together, so that a ridge board will do"), *_tie_not_named(gable))
    return decide(low, _or_ridge_beam(low_beam, gable), decide(untied, _or_ridge_beam(beam, gable), tied))


def _tie_not_named(gable: Gable) -> list[Check]:
    """Return that no member is named as the tie, one that may go."""
    return [does_not_apply("member that ties the rafters: not stated")] if is_missing(gable.frame.tie.member) else []


def _or_ridge_beam(check: Check, gable: Gable) -> Check:
    width = gable.frame.width
    tributary = "half of each rafter span" if is_missing(width) else f"{width / 2} of roof"
    told = f"a ridge beam that carries {tributary}, on a post and footing at each end"
    return check.or_fix(f"{told}; or ties at the plates from 3:12 up", decide="how it is designed")


class TieLimits(Limits):
    apart: Limit[Length]
    at_each_rafter: Limit[Any]
    minimum: Limit[Length]
    part_of_rise: Limit[Ratio]
    lap: Limit[Length]


@rule("roof-framing.ties")
def ties(gable: Gable, limit: TieLimits) -> Check:
    """What ties rafters together sits in the lower part of the roof, is close enough, stout enough, and lapped."""
    tie = gable.frame.tie
    if gable.frame.ridge == "beam":
        return does_not_apply("a ridge beam carries the rafters, so that they do not push outward")
    if is_missing(tie) or gable.has_ties is False:
        return not_shown(tie) if is_missing(tie) else does_not_apply("it has none; the rule for the ridge says so")
    bound = gable.of_rise(limit.part_of_rise)
    high = _or_ridge_beam(at_most(tie.height_above_plate, bound), gable)
    if tie.what == "ceiling joists":
        return high if gable.tie_runs_through else all_of(high, at_least(tie.lap, limit.lap))
    deep = when_given(lambda size: Length.parse(f"{size.split('x')[1]} in"), tie.size)
    bound = limit.at_each_rafter
    each = does_not_apply("no tie is asked at each rafter")
    if bound.value is not None and not is_missing(gable.spacing):  # whose need the rule for heel joints tells
        each = at_most(tie.spacing, replace(bound, value=gable.spacing))
    return all_of(high, at_most(tie.spacing, limit.apart), each, at_least(deep, limit.minimum, "nominal depth"))


@rule("roof-framing.thrust")
def thrust(gable: Gable, limit: DesignLimits) -> Check:
    """The push of the rafters against each other is worked out, and a tie is there to take it.

    A pair of rafters that lean on each other pushes its feet apart by the load times the square of the width over
    eight times the rise. It is shown for the engineer or the connector's table.
    """
    if gable.frame.ridge == "beam":
        return does_not_apply("a ridge beam carries the rafters, so that they do not push outward")
    try:
        pair = gable.pair(limit)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.tied)
    if is_missing(pair):
        return not_shown(pair).citing(limit.tied)
    said = f"each pair of rafters pushes outward with {pair.thrust_lb:,.0f} lb"
    held = all_of(met(f"{said}, which the ties take"), *_tie_not_named(gable))
    loose = _or_ridge_beam(broken(f"{said}, and nothing ties them"), gable)
    return decide(gable.has_ties, held, loose).citing(limit.tied).with_work(pair.steps)


@rule("roof-framing.tie-strength")
def tie_strength(gable: Gable, limit: DesignLimits) -> Check:
    """Ceiling joists that tie the rafters are strong enough in tension and bending together.

    The pull of the rafters comes on top of what the joists carry as a ceiling. Joints and notches take more away, and
    are not counted.
    """
    tie, part = gable.frame.tie, gable.house.project.by_id
    if gable.frame.ridge == "beam" or is_missing(tie) or is_missing(tie.member) or gable.has_ties is False:
        return does_not_apply("no member is named as the tie, or it goes")
    member = part[tie.member]
    if not isinstance(member, Member):
        return does_not_apply("no member is named as the tie")
    try:
        setting = setting_in(gable.house, limit)
        found = given(gable.pair(limit), design_of(member, setting), gable.spacing, member.spacing)
        return not_shown(found).citing(limit.tied) if is_missing(found) else _pulled(*found, limit)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.tied)


def _pulled(pair: RafterPair, design: Design, rafters: Length, ties: Length, limit: DesignLimits) -> Check:
    pull = pair.thrust_lb * inches(ties) / inches(rafters)
    loading = design.loading
    heaviest = UniformSpan(loading.span_in, loading.total(DEAD), loading.total(LIVE)).demand()
    found = check_tie(design.bent, heaviest, pull)
    said = f"pull of {pull:,.0f} lb with bending"
    check = at_most(share_used(found.governing), limit.used, said).or_fix(
        "larger or closer ceiling joists, or a ridge beam"
    )
    return check.with_work(lambda: (*pair.steps(), *found.steps()))
