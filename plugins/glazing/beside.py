"""Safety glazing beside doors, stairs and wet areas."""

from __future__ import annotations

from typing import Any

from precheck_plugins.glazing.by_stairs import GlassByStair
from precheck_plugins.glazing.near import GlassByDoor, GlassByWater
from precheck_plugins.glazing.panes import both, listed, or_rail, over, safe_where, under, within

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Outcome,
    agrees,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    reads,
    rule,
)

CLOSE_ENOUGH = Length.parse("1 in")  # a plan is drawn to about that


class BesideDoorLimits(Limits):
    safety_glazing: Limit[bool]
    distance: Limit[Length]
    bottom: Limit[Length]
    hinge_distance: Limit[Length]
    angles: Limit[tuple[str, ...]]
    closet_depth: Limit[Length]


@rule("glazing.beside-door", stage="framing")
def beside_door(glass: GlassByDoor, limit: BesideDoorLimits) -> Check:
    """Glass close to the edge of a closed door and low enough is safety glazing.

    In the same wall either side counts; on a wall at an angle the hinge side of a door that swings in. A wall between
    them, a shallow closet behind the door, and the fixed panel of a patio door excuse it.
    """
    if glass.barrier or glass.at_fixed_panel:
        return does_not_apply("a wall stands between" if glass.barrier else "it stands next to the fixed panel")
    hazard = both(under(glass.bottom, limit.bottom), _in_reach(glass, limit), _not_closet(glass, limit))
    clear = f"not low and close to {glass.door.label}"
    check = safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_close(glass))
    if glass.other_room and hazard is True and check.outcome < Outcome.PASS:
        told = (
            f"a partition stands between them inside, but nothing outside ({_how_close(glass)}); ask whether it counts"
        )
        return look_at(Look.OFFICIAL, told)
    if check.outcome is Outcome.NOT_SHOWN:
        return check.because(f"{glass.door.label} may be close to it")
    return check.or_fix(lambda: _farther(glass, limit), lambda: glass.made_safe)


def _in_reach(glass: GlassByDoor, limit: BesideDoorLimits) -> bool | Missing:
    beside = within(glass.distance, limit.distance)
    at_hinges = both(within(glass.distance, limit.hinge_distance), glass.hinge_side, glass.swings_in)
    if is_missing(glass.wall):
        return both(at_hinges if beside is False else beside, glass.wall)
    if glass.wall == "same":
        return beside
    return False if glass.other_room else both(at_hinges, listed(glass.wall, limit.angles))


def _not_closet(glass: GlassByDoor, limit: BesideDoorLimits) -> bool | Missing:
    if glass.closet is None:
        return True
    shallow = within(glass.closet, limit.closet_depth)
    return shallow if is_missing(shallow) else not shallow


def _how_close(glass: GlassByDoor) -> str:
    how = "measured in the plan" if glass.distance is glass.drawn else "as stated"
    return (
        f"its edge is {glass.distance} from the edge of {glass.door.label} ({how}) "
        f"and its bottom {glass.bottom} above the floor"
    )


def _farther(glass: GlassByDoor, limit: BesideDoorLimits) -> str:
    reach = limit.distance.value if glass.wall == "same" else limit.hinge_distance.value
    if not isinstance(glass.distance, Length) or not isinstance(reach, Length):
        return "use safety glazing"
    away = reach - glass.distance
    if glass.room_beyond is not None and glass.room_beyond <= away:
        return "use safety glazing, for its wall has no room to move it"
    return f"use safety glazing, or move the glass more than {away} farther from the door"


@rule("glazing.door-distance-agrees", stage="intake", existing="must comply")
def door_distance_agrees(glass: GlassByDoor) -> Check:
    """The distance stated between glass and door agrees with the plan."""
    return _as_drawn(glass, f"the distance to {glass.door.label}")


def _as_drawn(glass: GlassByDoor | GlassByWater, what: str) -> Check:
    stated: Any = glass.opening.absent("distance") if glass.distance is glass.drawn else glass.distance
    return agrees(stated, glass.drawn, what, CLOSE_ENOUGH, "measured in the plan")


class WetAreaLimits(Limits):
    safety_glazing: Limit[bool]
    distance: Limit[Length]
    bottom: Limit[Length]
    facing_only: Limit[str]


@rule("glazing.wet-area", stage="framing")
def wet_area(glass: GlassByWater, limit: WetAreaLimits) -> Check:
    """Glass near a tub, shower, pool or the like, and low above where one stands, is safety glazing.

    Earlier editions speak of glass that faces the wet area or lies in its walls, later ones of all that is near.
    """
    hazard = both(glass.is_low(limit.bottom), within(glass.distance, limit.distance))
    clear = f"not low and close to {glass.wet_area.label}"
    safe = safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_wet(glass))
    if hazard is False or glass.is_safe is True or limit.facing_only.value is None:
        return safe.or_fix(lambda: _drier(glass, limit), lambda: glass.made_safe)
    told = f"it stands beside the {glass.wet_area.what} and does not face it; many officials ask for safety glazing"
    return decide(
        glass.faces, safe.or_fix(lambda: _drier(glass, limit), lambda: glass.made_safe), look_at(Look.OFFICIAL, told)
    )


def _how_wet(glass: GlassByWater) -> str:
    stands = f"{glass.above_standing} above where one stands"
    above = f"{glass.bottom} above the floor" if is_missing(glass.above_standing) else stands
    return f"its edge is {glass.distance} from the {glass.wet_area.what} {glass.wet_area.id} and its bottom {above}"


def _drier(glass: GlassByWater, limit: WetAreaLimits) -> str:
    above = glass.bottom if is_missing(glass.above_standing) else glass.above_standing
    if not isinstance(above, Length) or not isinstance(limit.bottom.value, Length):
        return "use safety glazing"
    return f"use safety glazing, or raise the glass by {limit.bottom.value - above}"


@rule("glazing.wet-distance-agrees", stage="intake", existing="must comply")
def wet_distance_agrees(glass: GlassByWater) -> Check:
    """The distance stated between glass and wet area agrees with the plan."""
    return _as_drawn(glass, f"the distance to {glass.wet_area.label}")


class StairLimits(Limits):
    safety_glazing: Limit[bool]
    distance: Limit[Length]
    bottom: Limit[Length]
    rail_height_minimum: Limit[Length] = reads("glazing.large-pane.rail-height-minimum")
    rail_height_maximum: Limit[Length] = reads("glazing.large-pane.rail-height-maximum")
    rail_depth: Limit[Length] = reads("glazing.large-pane.rail-depth")


@rule("glazing.beside-stair", stage="framing")
def beside_stair(glass: GlassByStair, limit: StairLimits) -> Check:
    """Low glass close beside a flight of stairs, a landing between flights or a ramp is safety glazing."""
    if glass.where in ("bottom landing", "top landing"):
        return does_not_apply("not beside a flight, a landing between flights or a ramp")
    hazard = both(under(glass.distance, limit.distance), _is_low(glass, limit.bottom))
    clear = f"not low and close to {glass.stair.label}"
    safe = safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_near(glass))
    return or_rail(safe, glass, limit).or_fix(
        "use safety glazing, or put a sturdy rail across it", lambda: glass.made_safe
    )


def _is_low(glass: GlassByStair, limit: Limit[Length]) -> bool | Missing:
    """What is known of a floor decides where the treads can only make it more so."""
    by_floor = under(glass.bottom, limit)
    if is_missing(glass.above) and ((glass.no_higher and by_floor is True) or (glass.no_lower and by_floor is False)):
        return by_floor
    return under(glass.above, limit)


def _how_near(glass: GlassByStair) -> str:
    above = f"{glass.bottom} above the floor" if is_missing(glass.above_surface) else f"{glass.above_surface} above it"
    return f"its edge is {glass.distance} from the walking surface of {glass.stair.label} and its bottom {above}"


class BottomLimits(Limits):
    safety_glazing: Limit[bool]
    distance: Limit[Length]
    bottom: Limit[Length]
    behind_guard: Limit[Length]


@rule("glazing.stair-bottom", stage="framing")
def stair_bottom(glass: GlassByStair, limit: BottomLimits) -> Check:
    """Glass near the bottom tread of a stair, and low above the landing there, is safety glazing.

    A guard in front of it, far enough away, excuses it.
    """
    if not is_missing(glass.where) and glass.where != "bottom landing":
        return does_not_apply("not at the bottom of the stair")
    if over(glass.behind_guard, limit.behind_guard) is True:
        return does_not_apply(f"a guard stands {glass.behind_guard} in front of it")
    hazard = both(within(glass.distance, limit.distance), under(glass.above_surface, limit.bottom))
    clear = f"not low and close to the foot of {glass.stair.label}"
    return safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_near(glass)).or_fix(
        "use safety glazing", lambda: glass.made_safe
    )
