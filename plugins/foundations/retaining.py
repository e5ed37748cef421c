"""Retaining walls: design, permit and drain; what places ask of loads beside them, rows, seals and standard details."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.foundations.earth import held_or_designed
from precheck_plugins.foundations.loaded import HeldEarth

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Ratio,
    RetainingWall,
    Settled,
    all_of,
    ask_unless_set,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    unsettled,
    when_given,
)

LONE = "no wall below it is named"


class RetainLimits(Limits):
    unbalanced: Settled[Length]
    with_other_load: Settled[Length]
    safety: Limit[Ratio]


@rule("retaining.design", stage="foundation")
def design(held: HeldEarth, limit: RetainLimits) -> Check:
    """A retaining wall that holds much earth, or less with a surcharge, is engineered."""
    wall = held.wall
    factors = (wall.against_sliding, wall.against_overturning)
    stated = [if_stated(own, at_least, limit.safety) for own in factors]
    if not is_missing(wall.designed_by):
        return all_of(met(f"designed by {wall.designed_by}"), *stated)
    plain = decide(
        wall.held_at_top,
        met("it is held at its top"),
        held_or_designed(wall.fill_held, limit.unbalanced, "its top is free"),
    )
    loaded = held_or_designed(wall.height, limit.with_other_load, f"{wall.other_load} beside it")
    carries = when_given(lambda load: load != "none", wall.other_load)
    return all_of(decide(carries, all_of(plain, loaded), plain), *stated)


class PermitLimits(Limits):
    height: Settled[Length]
    permit: Limit[bool]


@rule("retaining.permit", stage="intake")
def permit(wall: RetainingWall, limit: PermitLimits) -> Check:
    """A tall retaining wall, or one of any height with a surcharge, has a permit.

    The height is from the bottom of the footing to the top.
    """
    if limit.height.value is None:
        return does_not_apply(limit.height.why_void or "no height is set")
    free = when_given(
        lambda height, load: height <= limit.height.value and load == "none", wall.height, wall.other_load
    )
    return decide(free, does_not_apply("low, and it holds earth alone"), required(wall.permit, limit.permit))


class DrainLimits(Limits):
    drained: Limit[bool]


@rule("retaining.drain", stage="foundation")
def drain(wall: RetainingWall, limit: DrainLimits) -> Check:
    """A retaining wall has drainage: gravel with a drain pipe or weep holes, behind filter fabric."""
    return required(wall.drained, limit.drained)


class LoadLimits(Limits):
    heights: Limit[Ratio]


@rule("retaining.load-distance", stage="plan")
def load_distance(held: HeldEarth, limit: LoadLimits) -> Check:
    """A driveway, building or slope too near a retaining wall counts as a surcharge.

    How near is a share of the height of the wall, which the place sets.
    """
    wall = held.wall
    if not is_missing(wall.other_load) and wall.other_load != "none":
        return does_not_apply("it is drawn as a wall that carries more than earth, and judged so")
    if (ask := ask_unless_set(limit.heights)) is not None:
        return ask
    needed = when_given(lambda height: height * limit.heights.value.n, wall.height)
    if is_missing(needed):
        return not_shown(needed)
    how = f"{limit.heights.value} of its height of {wall.height}"
    return at_least(wall.load_at, replace(limit.heights, value=needed), how).or_fix(
        "move the load away, or call the wall loaded: it then needs its permit and design"
    )


class TierLimits(Limits):
    heights: Limit[Ratio]
    permit: Limit[Length] = reads("retaining.permit.height")


@rule("retaining.tiers", stage="plan")
def tiers(held: HeldEarth, limit: TierLimits) -> Check:
    """Retaining walls in tiers too close together count as one wall of their combined height.

    If that is taller than a wall without a permit may be, both have a permit and an engineer's design.
    """
    wall, lower = held.wall, held.lower
    if lower is None:
        return does_not_apply(LONE)
    if (ask := ask_unless_set(limit.heights)) is not None:
        return ask
    if (open_limit := unsettled(limit.permit)) is not None:
        return open_limit
    absent = missing_of(wall.set_back, wall.height, lower.height)
    if absent is not None:
        return not_shown(absent)
    apart = lower.height * limit.heights.value.n
    if wall.set_back >= apart:
        return met(f"set back {wall.set_back}, {limit.heights.value} of the {lower.height} below it or more")
    total = wall.height + lower.height
    if total <= limit.permit.value:
        return met(f"the two are {total} together, and need no permit")
    told = f"set back {wall.set_back} and not {apart}, they count as one wall of {total}"
    return _as_one(wall, lower, told).or_fix(
        lambda: f"set the upper wall back {apart - wall.set_back} more, or have both designed as one wall of {total}"
    )


def _as_one(wall: RetainingWall, lower: RetainingWall, told: str) -> Check:
    """Return the check that two walls counted as one have their permit and their designer."""
    absent = missing_of(wall.permit, lower.permit, wall.designed_by, lower.designed_by)
    if wall.permit is False or lower.permit is False:
        return broken(f"{told}, and one of them has no permit")
    return not_shown(absent) if absent is not None else met(f"{told}, designed by {wall.designed_by}")


class StructureLimits(Limits):
    over: Limit[Length]
    shown: Limit[bool]


@rule("retaining.structure", stage="plan")
def structure(wall: RetainingWall, limit: StructureLimits) -> Check:
    """A retaining wall taller than the place sets keeps the setbacks of a structure."""
    if (ask := ask_unless_set(limit.over)) is not None:
        return ask
    tall = when_given(lambda height: height > limit.over.value, wall.height)
    shown = required(wall.shown_as_structure, limit.shown)
    return decide(tall, shown, does_not_apply(f"no taller than {limit.over.value}"))


class SealLimits(Limits):
    certificate_over: Limit[Length]
    engineer_over: Limit[Length]
    report: Limit[bool]
    certifier: Limit[tuple[str, ...]]


@rule("retaining.certificate", stage="intake")
def certificate(wall: RetainingWall, limit: SealLimits) -> Check:
    """Over the heights that the place sets, the owner or an engineer certifies a retaining wall, and the engineer reports at the end."""
    if (ask := ask_unless_set(limit.certificate_over, limit.engineer_over, limit.report)) is not None:
        return ask
    if is_missing(wall.height):
        return not_shown(wall.height)
    if (open_limit := unsettled(limit.certificate_over, limit.engineer_over)) is not None:
        return open_limit
    if wall.height <= limit.certificate_over.value:
        return does_not_apply(f"no taller than {limit.certificate_over.value}")
    if wall.height <= limit.engineer_over.value:
        return (
            met(f"certified by the {wall.certified_by}")
            if not is_missing(wall.certified_by)
            else not_shown(wall.certified_by)
        )
    engineer = one_of(wall.certified_by, limit.certifier)
    return all_of(
        engineer.or_fix("an engineer's certificate and design").because(f"taller than {limit.engineer_over.value}"),
        required(wall.engineer_reports, limit.report),
    )


class DetailLimits(Limits):
    exposed_height: Limit[Length]
    no_load: Limit[bool]
    no_problem_soil: Limit[bool]


@rule("retaining.standard-detail", stage="plan")
def standard_detail(wall: RetainingWall, limit: DetailLimits) -> Check:
    """An office's standard detail serves for walls that are low enough, without surcharge, on good soil."""
    if is_missing(wall.standard_detail):
        return does_not_apply("it follows no standard detail")
    if (ask := ask_unless_set(limit.exposed_height, limit.no_load, limit.no_problem_soil)) is not None:
        return ask
    bare = when_given(lambda load: load == "none", wall.other_load)
    good = when_given(lambda problem: not problem, wall.problem_soil)
    return all_of(
        at_most(wall.shows, limit.exposed_height), required(bare, limit.no_load), required(good, limit.no_problem_soil)
    ).or_fix("a design for this wall")
