"""How large landings are: along the way through the door, and across it."""

from __future__ import annotations

from precheck_plugins.doors.sides import DoorSide

from precheck import (
    Area,
    Check,
    Door,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Ratio,
    Space,
    all_of,
    at_least,
    depth_from,
    does_not_apply,
    given,
    is_missing,
    not_shown,
    rule,
    stretch_of,
    when_given,
    width_along,
)


class LandingSizeLimits(Limits):
    depth: Limit[Length]
    width: Limit[Ratio]
    balcony: Limit[Area]


@rule("doors.landing-size", stage="framing")
def landing_size(side: DoorSide, limit: LandingSizeLimits, house: House) -> Check:
    """The landing at an exterior door is deep enough along the way through it, and as wide as the door.

    A porch or deck that serves as the landing is measured out from the door and along its wall. A small balcony with one
    door to it, and no other way on, may be shallower. Inside, the floor of a room serves.
    """
    if side.landing is not None and side.landing.none:
        return does_not_apply("no landing of its own is on this side")
    if not side.outdoors:
        return _inside(side, limit, house)
    if side.landing is None and side.space is not None:
        return _floor_as_landing(side, side.space, limit, house)
    if side.landing is None:
        return does_not_apply("no landing is drawn, which the rule for landings asks for")
    width, door = side.of_landing("width"), door_width(side.door)
    across = at_least(when_given(_share, width, door), limit.width, lambda: f"{width} landing / {door} door")
    return all_of(
        at_least(side.of_landing("depth"), limit.depth).or_fix(
            lambda: f"make the landing {limit.depth.value} deep",
            lambda: [NewValue(side.landing, "depth", limit.depth.value)],
        ),
        across.or_fix(
            "make the landing as wide as the door", lambda: [NewValue(side.landing, "width", door_width(side.door))]
        ),
    )


def _inside(side: DoorSide, limit: LandingSizeLimits, house: House) -> Check:
    """Judge the floor inside where its depth is given, or is drawn and short, as in a vestibule."""
    depth = side.landing.depth if side.landing is not None else side.door.absent("depth of the floor inside")
    if is_missing(depth) and side.space is not None:
        depth = _out_from(side.door, side.space, house)[0]
    if is_missing(depth):
        return does_not_apply("the floor inside serves")
    found = at_least(depth, limit.depth, "inside, square to the door")
    stated = side.landing is not None and not is_missing(side.landing.depth)
    return found.or_fix(
        lambda: f"keep {limit.depth.value} of floor clear inside the door",
        lambda: [NewValue(side.landing, "depth", limit.depth.value)] if stated else [],
    )


def _floor_as_landing(side: DoorSide, space: Space, limit: LandingSizeLimits, house: House) -> Check:
    if space.use == "carport":
        return does_not_apply("the floor of the carport serves as the landing")
    if _is_balcony(side, space, limit, house):
        return does_not_apply(f"{space.id} is a balcony of less than {limit.balcony.value} with one door to it")
    depth, width = _out_from(side.door, space, house)
    if not is_missing(depth) and not is_missing(width):
        return _both(side, depth, width, limit)
    sides = given(space.rectangle.width, space.rectangle.depth)
    if is_missing(sides):
        return not_shown(sides)
    smaller, larger = min(sides), max(sides)
    deep, wide = _both(side, larger, smaller, limit), _both(side, smaller, larger, limit)
    if deep.outcome is wide.outcome:
        return wide
    return not_shown(depth if is_missing(depth) else side.door.absent("middle"))


def _both(side: DoorSide, depth: Length, width: Length, limit: LandingSizeLimits) -> Check:
    door = door_width(side.door)
    share = when_given(lambda leaf: _share(width, leaf), door)
    return all_of(
        at_least(depth, limit.depth, f"{side.side}, out from the door").or_fix(
            lambda: f"make {side.side} {limit.depth.value} deep at the door", decide="how the plan changes"
        ),
        at_least(share, limit.width, lambda: f"{width} of {side.side} / {door} door").or_fix(
            lambda: f"make {side.side} as wide as the door", decide="how the plan changes"
        ),
    )


def _out_from(door: Door, space: Space, house: House) -> tuple[Length | Missing, Length | Missing]:
    """Return how far the floor of `space` reaches out from `door`, and how far it runs along its wall."""
    leaf, outline = stretch_of(door, house), house.outline(space)
    if is_missing(leaf) or outline is None:
        unknown = leaf if is_missing(leaf) else space.absent("rectangle")
        return unknown, unknown
    return depth_from(leaf, outline), width_along(leaf, outline)


def _is_balcony(side: DoorSide, space: Space, limit: LandingSizeLimits, house: House) -> bool:
    """Whether `space` is small, off the ground, and left by this one door alone."""
    area = house.area(space)
    if limit.balcony.value is None or is_missing(area) or is_missing(limit.balcony.value) or side.is_required is True:
        return False
    doors = [door for door in house.project.doors if space.id in door.between and not door.is_removed]
    stairs = any(space.id in stair.between for stair in house.project.stairs)
    ways = stairs or any(space.id in ramp.between for ramp in house.project.ramps)
    upstairs = house.story_level(space) in ("upper", "attic")
    return area < limit.balcony.value and len(doors) == 1 and not ways and upstairs


def _share(own: Length, leaf: Length) -> Ratio:
    return Ratio(own / leaf)


def door_width(door: Door) -> Length | Missing:
    """Return the width of a door: of the unit, else its clear width."""
    return door.clear_width if is_missing(door.unit_size) else door.unit_size.width
