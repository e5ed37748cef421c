"""Pipes: safe from nails, drains that are large and steep enough, a water service deep enough; what a bath holds."""

from __future__ import annotations

from precheck import (
    Check,
    Fixture,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Pipe,
    Slope,
    Space,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    every,
    is_missing,
    reads,
    required,
    rule,
    when_given,
)


class PipeLimits(Limits):
    stud_edge: Limit[Length]
    plates: Limit[bool]
    slope: Limit[Slope]
    slope_when_large: Limit[Slope]
    large_from: Limit[Length]
    drain: Limit[Length]
    service_depth: Limit[Length]
    below_frost: Limit[Length]
    frost: Limit[Length] = reads("criteria.frost-depth")


@rule("plumbing.pipes", stage="rough-in")
def pipes(pipe: Pipe, limit: PipeLimits, house: House) -> Check:
    """Pipes in framing have shield plates, drains have their size and slope, and the water service is below frost."""
    checks: list[Check] = []
    if pipe.concealed_in_framing is True:
        soft = when_given(lambda material: material in ("copper", "plastic"), pipe.material)
        checks.append(decide(soft, _safe_from_nails(pipe, limit), does_not_apply("nails do not go through it")))
    if pipe.what == "drain":
        large = when_given(lambda size: size >= limit.large_from.value, pipe.size)
        checks.append(
            at_least(pipe.size, limit.drain).or_fix(
                lambda: f"use a {limit.drain.value} drain or larger",
                lambda: [NewValue(pipe, "size", limit.drain.value)],
            )
        )
        checks.append(decide(large, _sloped(pipe, limit.slope_when_large), _sloped(pipe, limit.slope)))
    if pipe.what == "water service":
        frost = house.criterion(limit.frost.value, "frost_depth")
        below = when_given(lambda own, frozen: own - frozen, pipe.depth, frost)
        checks += [
            at_least(pipe.depth, limit.service_depth),
            at_least(below, limit.below_frost, "below the frost line"),
        ]
    if checks and is_missing(pipe.concealed_in_framing):
        checks.append(does_not_apply("concealed in framing: not stated"))
    return every(checks, "nothing is asked of this pipe")


def _sloped(pipe: Pipe, least: Limit[Slope]) -> Check:
    return at_least(pipe.slope, least).or_fix(
        lambda: f"slope the drain {least.value}", lambda: [NewValue(pipe, "slope", least.value)]
    )


def _safe_from_nails(pipe: Pipe, limit: PipeLimits) -> Check:
    far = at_least(pipe.from_stud_edge, limit.stud_edge)
    plates = required(pipe.shield_plates, limit.plates).or_fix(
        "cover it with steel plates", lambda: [NewValue(pipe, "shield_plates", "yes")]
    )
    return far if far.is_met else plates


class EssentialLimits(Limits):
    toilet: Limit[int]
    lavatory: Limit[int]
    bathing: Limit[int]


@rule("plumbing.bathroom-fixtures", stage="plan")
def bathroom_fixtures(space: Space, limit: EssentialLimits, house: House) -> Check:
    """A new bathroom shows its toilet, its lavatory and its tub or shower; a room without a tub or shower is a toilet room.

    The code asks them of the dwelling. Plans list what a new bath holds, so that one that lacks a fixture is asked for it.
    """
    if space.use != "bathroom" or space.is_existing:
        return does_not_apply("not a new or altered bathroom")
    own = [f.what for f in house.subjects(Fixture) if f.space == space.id and not f.is_removed]
    bathing = sum(what in ("shower", "tub", "tub with shower") for what in own)
    return all_of(
        at_least(own.count("toilet") or space.absent("toilet"), limit.toilet),
        at_least(own.count("lavatory") or space.absent("lavatory"), limit.lavatory),
        at_least(bathing or space.absent("tub or shower"), limit.bathing),
    )


class ToiletLimits(Limits):
    drain: Limit[Length]


@rule("plumbing.toilet-drain", stage="rough-in")
def toilet_drain(fixture: Fixture, limit: ToiletLimits, house: House) -> Check:
    """A toilet has a drain of its minimum size."""
    if fixture.what != "toilet":
        return does_not_apply("not a toilet")
    drains = [p for p in house.subjects(Pipe) if p.what == "drain" and fixture.space in p.serves and not p.is_removed]
    if not drains:
        return does_not_apply("no drain is drawn that serves its room")
    return any_of(*(at_least(drain.size, limit.drain) for drain in drains)).or_fix(
        lambda: f"run a {limit.drain.value} drain to the toilet",
        lambda: [NewValue(drains[0], "size", limit.drain.value)],
    )
