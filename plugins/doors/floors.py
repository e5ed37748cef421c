"""Floors of garages and carports: where they fall to."""

from __future__ import annotations

from precheck import (
    Check,
    Limit,
    Limits,
    NewValue,
    Slope,
    Space,
    all_of,
    at_least,
    does_not_apply,
    is_missing,
    one_of,
    rule,
)


class FallLimits(Limits):
    toward: Limit[tuple[str, ...]]
    minimum: Limit[Slope]


@rule("doors.vehicle-floor-fall", stage="foundation")
def vehicle_floor_fall(space: Space, limit: FallLimits) -> Check:
    """The floor of a garage or carport falls to a drain or to the vehicle opening, and never toward the house."""
    if not space.is_vehicle:
        return does_not_apply("not a garage or carport")
    fall = space.floor_fall
    if is_missing(fall):
        return one_of(fall, limit.toward)
    return all_of(
        one_of(fall.toward, limit.toward).or_fix(
            "let the slab fall to the vehicle opening or a drain", lambda: [NewValue(fall, "toward", "vehicle opening")]
        ),
        at_least(fall.slope, limit.minimum),
    )
