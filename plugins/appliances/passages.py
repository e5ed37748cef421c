"""How appliances are reached: in rooms, in attics and in crawl spaces."""

from __future__ import annotations

from typing import Any

from precheck_plugins.appliances.places import PlacedAppliance

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    all_of,
    any_of,
    at_least,
    at_most,
    does_not_apply,
    first_given,
    if_stated,
    is_missing,
    met,
    required,
    rule,
)

SERVICED = frozenset(("furnace", "boiler", "air handler"))  # whose service space plans show


class AccessLimits(Limits):
    given: Limit[bool]
    removal: Limit[bool]
    service_width: Limit[Length]
    service_depth: Limit[Length]


@rule("appliances.access", stage="rough-in")
def access(at: PlacedAppliance, limit: AccessLimits) -> Check:
    """An appliance has access for service and replacement, with a level working space in front of its controls."""
    if at.in_attic or at.under_floor:
        return does_not_apply("the rules for attics and crawl spaces judge it")
    appliance = at.appliance
    width, depth = pair(appliance.service_space)
    asked = appliance.what in SERVICED or not is_missing(appliance.service_space)
    level = all_of(at_least(width, limit.service_width), at_least(depth, limit.service_depth))
    return all_of(
        if_stated(appliance.accessible, required, limit.given),
        if_stated(appliance.removable, required, limit.removal),
        level if asked else does_not_apply("service space: not stated"),
    )


def pair(sides: Any) -> tuple[Any, Any]:
    """Return the two sides of a service space or opening, or its absence twice."""
    return (sides, sides) if is_missing(sides) else (sides[0], sides[1])


class PassageLimits(Limits):
    height: Limit[Length]
    width: Limit[Length]
    maximum: Limit[Length]
    long_if_height: Limit[Length]
    maximum_if_high: Limit[Length]
    floor_width: Limit[Length]
    opening_width: Limit[Length]
    opening_length: Limit[Length]
    removal: Limit[bool]
    service_width: Limit[Length]
    service_depth: Limit[Length]


@rule("appliances.attic-passage", stage="framing")
def attic_passage(at: PlacedAppliance, limit: PassageLimits) -> Check:
    """An appliance in an attic has an access opening, a floored passageway and a level service space."""
    if not at.in_attic:
        return does_not_apply("not in an attic")
    return all_of(_opening(at, limit), _service(at, limit), _way(at, limit, floored=True))


class UnderFloorLimits(Limits):
    height: Limit[Length]
    width: Limit[Length]
    maximum: Limit[Length]
    long_if_height: Limit[Length]
    maximum_if_high: Limit[Length]
    opening_width: Limit[Length]
    opening_length: Limit[Length]
    removal: Limit[bool]
    service_width: Limit[Length]
    service_depth: Limit[Length]


@rule("appliances.under-floor-passage", stage="framing")
def under_floor_passage(at: PlacedAppliance, limit: UnderFloorLimits) -> Check:
    """An appliance in a crawl space has an access opening, a passageway and a level service space."""
    if not at.under_floor:
        return does_not_apply("not in a crawl space")
    return all_of(_opening(at, limit), _service(at, limit), _way(at, limit, floored=False))


def _opening(at: PlacedAppliance, limit: PassageLimits | UnderFloorLimits) -> Check:
    sides = pair(at.passage("opening"))
    short, long_ = sides if is_missing(sides[0]) else sorted(sides)
    return all_of(
        at_least(short, limit.opening_width),
        at_least(long_, limit.opening_length),
        required(at.appliance.removable, limit.removal),
    )


def _service(at: PlacedAppliance, limit: PassageLimits | UnderFloorLimits) -> Check:
    width, depth = pair(first_given(at.appliance.service_space, at.passage("service_space")))
    return all_of(at_least(width, limit.service_width), at_least(depth, limit.service_depth))


def _way(at: PlacedAppliance, limit: PassageLimits | UnderFloorLimits, floored: bool) -> Check:
    if at.passage("served_from_opening") is True:
        return met("it can be served and taken out from the opening itself")
    short = at_most(at.passage("length"), limit.maximum)
    high = all_of(
        at_least(at.passage("height"), limit.long_if_height), at_most(at.passage("length"), limit.maximum_if_high)
    )
    sides = [at_least(at.passage("height"), limit.height), at_least(at.passage("width"), limit.width)]
    if floored and isinstance(limit, PassageLimits):
        sides.append(at_least(at.passage("floor_width"), limit.floor_width))
    return all_of(*sides, any_of(short, high))


class LightLimits(Limits):
    light: Limit[bool]
    receptacle: Limit[bool]


@rule("appliances.light", stage="final")
def light(at: PlacedAppliance, limit: LightLimits) -> Check:
    """An appliance in an attic or crawl space has a light switched at the opening, and a receptacle near it."""
    if not at.in_attic and not at.under_floor:
        return does_not_apply("neither in an attic nor in a crawl space")
    return all_of(required(at.passage("lighted"), limit.light), required(at.passage("receptacle"), limit.receptacle))
