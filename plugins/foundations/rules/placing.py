"""Before concrete is placed: laps of bars, what holds them up, forms at steps, clean trenches, and the join to old footings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from precheck_plugins.foundations.outside import is_all_detached

from precheck import (
    Bars,
    Check,
    Footing,
    FoundationWall,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Settled,
    all_of,
    ask_unless_set,
    at_least,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)


class LapLimits(Limits):
    laps: Settled[Mapping[str, Any]]


@rule("foundations.bar-laps", stage="foundation")
def bar_laps(bars: Bars, limit: LapLimits) -> Check:
    """Spliced rebar laps far enough for its size and grade."""
    if bars.spliced is False:
        return does_not_apply("each bar runs in one piece")
    absent = missing_of(bars.number, bars.lap)
    if absent is not None:
        return not_shown(absent)
    if is_missing(bars.steel):
        laps = [_lap(bars, steel, limit) for steel in limit.laps.value]
        known = max((lap for lap in laps if lap is not None), default=None)
        sure = None not in laps and known is not None and bars.lap >= known
        return at_least(bars.lap, replace(limit.laps, value=known)) if sure else not_shown(bars.steel)
    lap = _lap(bars, bars.steel, limit)
    if lap is None:
        return look_at(Look.ENGINEER, f"the table of laps holds no No. {bars.number} bar")
    return at_least(bars.lap, replace(limit.laps, value=lap), f"No. {bars.number}, {bars.steel}").or_fix(
        f"lap {lap}", lambda: [NewValue(bars, "lap", lap)]
    )


def _lap(bars: Bars, steel: str, limit: LapLimits) -> Length | None:
    lap: Length | None = limit.laps.value.get(steel, {}).get(f"No. {bars.number}")
    return lap


class HeldLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("foundations.bar-supports", stage="foundation")
def bar_supports(bars: Bars, limit: HeldLimits) -> Check:
    """Rebar is held in place before concrete is placed."""
    if isinstance(bars.owner, FoundationWall) and "masonry" in str(bars.owner.built_of):
        return does_not_apply("they stand in the cells of masonry")
    return one_of(bars.held, limit.ways).or_fix(
        "chairs or blocks under the bars, or bars tied to stakes or forms",
        lambda: [NewValue(bars, "held", limit.ways.value[0])],
    )


class TrenchLimits(Limits):
    cleaned: Limit[bool]


@rule("foundations.trench", stage="foundation")
def trench(footing: Footing, limit: TrenchLimits) -> Check:
    """Good practice: the plans call for a clean, dry trench, free of mud, roots and loose soil."""
    if footing.phase == "existing":
        return does_not_apply("it stands")
    return if_stated(footing.trench_cleaned, required, limit.cleaned)


class StepLimits(Limits):
    bulkhead: Limit[Length]


@rule("foundations.footing-steps", stage="foundation")
def footing_steps(footing: Footing, limit: StepLimits) -> Check:
    """The bulkhead of a stepped footing stands back from the step as far as the place requires."""
    if is_missing(footing.stepped) or not footing.stepped:
        return does_not_apply("no step is drawn in it")
    if (ask := ask_unless_set(limit.bulkhead)) is not None:
        return ask
    return at_least(footing.bulkhead_from_step, limit.bulkhead, "from the step to the form")


class JoinLimits(Limits):
    same_depth: Limit[bool]
    into: Limit[tuple[str, ...]]
    dowels: Limit[int]
    number: Limit[int]
    reach: Limit[Length]
    document: Limit[bool]


@rule("foundations.meets-old", stage="foundation")
def meets_old(footing: Footing, limit: JoinLimits, house: House) -> Check:
    """A new footing that meets an old one goes as deep, and is doweled to it as the place requires.

    Dowels are set into concrete with an adhesive that has a document, and into nothing weaker.
    """
    alone = footing.form == "isolated" or footing.accessory.freestanding is True or is_all_detached(house)
    if footing.phase == "existing" or house.project.dwelling.new_house is True or alone:
        return does_not_apply("no old footing is next to it, or it stands")
    told = _join(footing, limit)
    return decide(footing.meets_old, told, does_not_apply("it meets no old footing"))


def _join(footing: Footing, limit: JoinLimits) -> Check:
    if (ask := ask_unless_set(limit.same_depth, limit.into, limit.dowels, limit.number, limit.reach)) is not None:
        return ask
    own = footing.join
    named = when_given(bool, own.document)
    return all_of(
        required(own.same_depth, limit.same_depth),
        one_of(own.old_is, limit.into, "what the dowels are set into").or_fix(
            "a joint that is designed, without dowels"
        ),
        at_least(own.dowels, limit.dowels, "dowels"),
        at_least(own.dowel_number, limit.number, "bar number of the dowels"),
        at_least(own.into, limit.reach, "reach into the old footing"),
        required(named, limit.document),
    )
