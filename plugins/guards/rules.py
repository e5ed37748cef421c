"""Guards: where they are needed, how high and how tight, and protection from falling out of windows."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from precheck_plugins.guards.sides import OpenSide, drawn_fall

from precheck import (
    Check,
    Guard,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Outcome,
    Window,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    exceeds,
    is_missing,
    less_than,
    met,
    reads,
    required,
    rule,
    when_given,
)

DROP = "guards.where.drop"

SIXTEENTH = Length.parse("1/16 in")


class WhereLimits(Limits):
    drop: Limit[Length]
    measured_out: Limit[Length]
    guard: Limit[bool]


@rule("guards.where", stage="framing")
def where(side: OpenSide, limit: WhereLimits) -> Check:
    """An open side high above what lies below it has a guard.

    The drop is the greatest one within a distance out from the edge. An insect screen is no guard.
    """
    if side.has_guard:
        return required(True, limit.guard)
    lacking = required(False, limit.guard).or_fix("draw a guard along this side")
    high = decide(side.is_high(limit.drop.value), lacking, _low(side, limit))
    told = f"the drop is {side.drop} ({side.drop_derived})" if not is_missing(side.drop) else ""
    return decide(side.open, high, does_not_apply("no side of it is open")).because(told)


def _low(side: OpenSide, limit: WhereLimits) -> Check:
    """A drop that needs no guard counts only if it was measured far enough out, where the ground may be lower."""
    far = at_least(side.measured_out, limit.measured_out, "how far out the drop was measured")
    low = does_not_apply(f"it drops no more than {limit.drop.value}")
    if side.on_stair or side.measured_out is side.drop or is_missing(side.drop) or limit.drop.value is None:
        return low
    met_far = far.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY)
    return (
        low
        if met_far
        else far.or_fix(f"give the maximum drop within {limit.measured_out.value} of the edge", decide="what is there")
    )


class HeightLimits(Limits):
    level: Limit[Length]
    stair: Limit[Length]
    drop: Limit[Length] = reads(DROP)


@rule("guards.height", stage="final")
def height(side: OpenSide, limit: HeightLimits) -> Check:
    """A required guard is high enough: above a level floor or ramp, or, lower, above the nosings of a stair."""
    least = limit.stair if side.on_stair else limit.level
    return of_required(
        side,
        limit.drop,
        lambda: at_least(side.of_guard("height"), least).or_fix(
            lambda: f"raise the guard to {least.value}", lambda: [NewValue(side.guard, "height", least.value)]
        ),
    )


class HandrailTopLimits(Limits):
    maximum: Limit[Length]
    lowest: Limit[Length] = reads("handrails.height.minimum")


@rule("guards.as-handrail", stage="final")
def as_handrail(side: OpenSide, limit: HandrailTopLimits) -> Check:
    """The top of a stair guard that serves as the handrail lies where a hand finds it."""
    if not side.has_guard or not side.on_stair:
        return does_not_apply("no guard along a stair")
    top = side.of_guard("height")
    within = all_of(at_least(top, limit.lowest), at_most(top, limit.maximum).or_fix("add a handrail of its own below"))
    if side.of_guard("serves_as_handrail") is not True:
        return does_not_apply("not said to serve as the handrail")
    return within


class OpeningLimits(Limits):
    level: Limit[Length]
    stair: Limit[Length]
    drop: Limit[Length] = reads(DROP)


@rule("guards.openings", stage="final")
def openings(side: OpenSide, limit: OpeningLimits) -> Check:
    """The openings of a required guard stop a sphere; along a stair one a little larger."""
    if side.is_solid:
        return does_not_apply("a wall has no openings")
    stopped = limit.stair if side.on_stair else limit.level
    check = less_than(side.of_guard("opening"), stopped) if side.has_guard else does_not_apply("")
    return of_required(
        side,
        limit.drop,
        lambda: check.or_fix(
            f"close the openings until {stopped.value} does not pass",
            lambda: [NewValue(side.guard, "opening", stopped.value - SIXTEENTH)] if side.has_guard else [],
        ),
    )


class TriangleLimits(Limits):
    sphere: Limit[Length]
    drop: Limit[Length] = reads(DROP)


@rule("guards.triangle", stage="final")
def triangle(side: OpenSide, limit: TriangleLimits) -> Check:
    """The triangle between riser, tread and bottom rail of a stair guard stops a larger sphere."""
    if not side.on_stair or side.is_solid:
        return does_not_apply("no guard with openings along the treads of a stair")
    return of_required(side, limit.drop, lambda: less_than(side.of_guard("triangle_opening"), limit.sphere))


def of_required(side: OpenSide, drop: Limit[Length], check: Callable[[], Check]) -> Check:
    """Return the `check` of a guard that is drawn and due; along a low side none is."""
    if not side.has_guard:
        return does_not_apply("no guard is drawn, which the rule for where guards are due judges")
    due = side.is_high(drop.value)
    told = f"the drop is {side.drop} ({side.drop_derived})" if due is True else ""
    return decide(due, check(), does_not_apply("the drop needs no guard")).because(told)


@rule("guards.drop-agrees", stage="intake", existing="must comply")
def drop_agrees(guard: Guard, house: House) -> Check:
    """The drop given with a guard agrees with that of the floor or stair it stands on, as stated or as drawn.

    A floor that falls off by more on one side than on another has a guard, or a wall, for each of them.
    """
    fall, how = drawn_fall(house.project.by_id[guard.along], house)
    others = [g.drop for g in house.subjects(Guard) if g.along == guard.along and not g.is_removed]
    if not is_missing(fall) and not is_missing(guard.drop) and fall in others:
        return met(f"a guard along {guard.along} has the drop of {fall} {how}")
    check = agrees(guard.drop, fall, "the drop", derived=how)
    if check.outcome is not Outcome.FAIL:
        return check
    told = f"correct the drop, or draw what guards the fall of {fall} along {guard.along} too"
    return check.or_fix(told, decide="which sheet is right")


class SillLimits(Limits):
    minimum: Limit[Length]
    drop: Limit[Length]
    gap: Limit[Length]


@rule("guards.window-sill", stage="framing")
def window_sill(window: Window, limit: SillLimits, house: House) -> Check:
    """The opening of a window high above the ground starts high enough above the floor that a child does not fall out.

    A window that opens only a little, or has a fall prevention or opening control device, may start lower.
    """
    if not window.can_open:
        return does_not_apply("it does not open")
    if limit.drop.value is None:
        return does_not_apply("no height above the ground calls for it here")
    sill = house.sill_height(window)
    high = exceeds(window.sill_above_grade, limit.drop)
    raised = at_least(sill, limit.minimum).or_fix(
        lambda: _protect(sill, limit),
        lambda: [NewValue(window, *to) for to in house.sill_set(window, limit.minimum.value)],
    )
    kept = _kept_in(window, raised, limit)
    if is_missing(high) and is_missing(sill):
        return kept  # the sill alone settles it for most windows
    low = does_not_apply(f"it opens no more than {limit.drop.value} above what lies below")
    return decide(high, kept, low).because(_how_high(window) if high is True else "")


def _kept_in(window: Window, sill: Check, limit: SillLimits) -> Check:
    if not is_missing(window.fall_device) and window.fall_device != "none":
        return met(f"it has a device for {window.fall_device}, which a rule of its own judges")
    return sill if is_missing(window.opening_gap) else any_of(sill, less_than(window.opening_gap, limit.gap))


def _how_high(window: Window) -> str:
    return f"it opens {window.sill_above_grade} above what lies below"


def _protect(sill: Any, limit: SillLimits) -> str:
    return f"raise the sill by {limit.minimum.value - sill}, or fit a fall prevention or opening control device"


class DeviceLimits(Limits):
    to_standard: Limit[bool]
    releases: Limit[bool]


@rule("guards.window-device", stage="final")
def window_device(window: Window, limit: DeviceLimits, house: House) -> Check:
    """A device that keeps people from falling out meets its standard, and still lets an escape opening open fully."""
    if is_missing(window.fall_device) or window.fall_device == "none":
        return does_not_apply("no such device is drawn")
    listed = required(window.fall_device_to_standard, limit.to_standard)
    released = required(window.fall_device_releases, limit.releases)
    room = house.space(window.space)
    sleeping = when_given(lambda use: use == "bedroom", window.absent("space") if room is None else room.use)
    free = does_not_apply("escape opening: not stated" if is_missing(window.escape) else "not an escape opening")
    return all_of(listed, decide(True if window.escape is True else sleeping, released, free))
