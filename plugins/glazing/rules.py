"""Safety glazing: in doors, beside them, in large low panes, at wet areas, at stairs and in guards; and its mark."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck_plugins.glazing.by_stairs import GlassByStair
from precheck_plugins.glazing.near import GlassByDoor, GlassByWater
from precheck_plugins.glazing.panes import (
    DoorGlass,
    Glass,
    WindowGlass,
    both,
    is_glazed,
    listed,
    over,
    panes_of,
    safe_where,
    under,
    within,
)

from precheck import (
    Area,
    Check,
    Door,
    Guard,
    Length,
    Limit,
    Look,
    Missing,
    Opening,
    Outcome,
    RailBefore,
    WetArea,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    every,
    is_missing,
    look_at,
    reads,
    required,
    rule,
)

CLOSE_ENOUGH = Length.parse("1 in")  # a plan is drawn to about that


class DoorLimits(NamedTuple):
    safety_glazing: Limit[bool]
    kinds: Limit[tuple[str, ...]]
    sphere: Limit[Length]


@rule("glazing.door", stage="framing")
def door(glass: DoorGlass, limit: DoorLimits) -> Check:
    """Glass in a door that swings, slides or folds is safety glazing, so every full-view door has it.

    Panes too small for a sphere to pass are excused, and so is decorative glass.
    """
    leaf = glass.opening
    assert isinstance(leaf, Door)
    meant = True if is_missing(leaf.operation) else listed(leaf.operation, limit.kinds)
    if meant is False:
        return does_not_apply(f"glass in a {leaf.operation} door is not meant")
    if glass.pane and under(glass.narrowest, limit.sphere) is True:
        return does_not_apply(
            f"a sphere of {limit.sphere.value} does not pass the pane, which is {glass.narrowest} one way"
        )
    why = "a full-view glass door" if leaf.construction == "glass" else "glass in a door"
    return safe_where(both(is_glazed(leaf), meant), glass, limit.safety_glazing, "no glass is drawn in it", lambda: why)


class BesideDoorLimits(NamedTuple):
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
    return check.or_fix(lambda: _farther(glass, limit))


def _in_reach(glass: GlassByDoor, limit: BesideDoorLimits) -> bool | Missing:
    beside = within(glass.distance, limit.distance)
    at_hinges = both(within(glass.distance, limit.hinge_distance), glass.hinge_side, glass.swings_in)
    if is_missing(glass.wall):
        return False if beside is False and at_hinges is False else both(beside, glass.wall)
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
    return f"use safety glazing, or move the glass more than {reach - glass.distance} farther from the door"


@rule("glazing.door-distance-agrees", stage="intake", existing="must comply")
def door_distance_agrees(glass: GlassByDoor) -> Check:
    """The distance stated between glass and door agrees with the plan."""
    stated: Any = glass.opening.absent("distance") if glass.distance is glass.drawn else glass.distance
    return agrees(stated, glass.drawn, f"the distance to {glass.door.label}", CLOSE_ENOUGH, "measured in the plan")


class LargePaneLimits(NamedTuple):
    safety_glazing: Limit[bool]
    area: Limit[Area]
    bottom: Limit[Length]
    top: Limit[Length]
    walking_surface: Limit[Length]
    rail_lowest: Limit[Length]
    rail_highest: Limit[Length]
    rail_depth: Limit[Length]


@rule("glazing.large-pane", stage="framing")
def large_pane(glass: WindowGlass, limit: LargePaneLimits) -> Check:
    """A large pane that reaches low and high beside a walking surface is safety glazing; all four must hold.

    A sturdy rail across it excuses it.
    """
    size = over(glass.largest_area, limit.area)
    large = over(glass.area, limit.area) if size is True else size
    hazard = both(
        under(glass.bottom, limit.bottom), over(glass.top, limit.top), large, _beside_walk(glass, limit.walking_surface)
    )
    clear = "not large, low and high enough beside a walking surface"
    safe = safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_large(glass))
    return _or_rail(safe, glass, limit).or_fix(
        lambda: (
            f"use safety glazing, raise the glass to {limit.bottom.value}, or divide it up to {limit.area.value} a pane"
        )
    )


def _beside_walk(glass: Glass, limit: Limit[Length]) -> bool | Missing:
    """The floor of the room is a walking surface, unless the window says how far the nearest one is."""
    stated = getattr(glass.opening, "walking_surface_within", glass.opening.absent("walking surface within"))
    return True if is_missing(stated) else within(stated, limit)


def _how_large(glass: Glass) -> str:
    return f"the pane is {glass.area}, from {glass.bottom} to {glass.top} above the floor"


def _or_rail(safe: Check, glass: Glass, limit: Any) -> Check:
    rail = glass.opening.rail_before
    if is_missing(rail) or safe.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY):
        return safe
    return any_of(safe, _rail(rail, limit))


def _rail(rail: RailBefore, limit: Any) -> Check:
    return all_of(
        at_least(rail.height, limit.rail_lowest),
        at_most(rail.height, limit.rail_highest),
        at_least(rail.depth, limit.rail_depth),
        required(rail.takes_load, limit.safety_glazing, "rail that takes its load without touching the glass"),
    )


class WetAreaLimits(NamedTuple):
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
        return safe.or_fix(lambda: _drier(glass, limit))
    told = f"it stands beside the {glass.wet_area.what} and does not face it; many officials ask for safety glazing"
    return decide(glass.faces, safe.or_fix(lambda: _drier(glass, limit)), look_at(Look.OFFICIAL, told))


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
    stated: Any = glass.opening.absent("distance") if glass.distance is glass.drawn else glass.distance
    return agrees(stated, glass.drawn, f"the distance to {glass.wet_area.label}", CLOSE_ENOUGH, "measured in the plan")


class EnclosureLimits(NamedTuple):
    safety_glazing: Limit[bool]


@rule("glazing.enclosure", stage="final")
def enclosure(wet: WetArea, limit: EnclosureLimits) -> Check:
    """Glass doors and panels around a tub, shower, sauna or steam room are safety glazing."""
    safe = required(wet.enclosure_safety_glazing, limit.safety_glazing, "safety glazing of the enclosure")
    if wet.enclosure_safety_glazing is True:
        return safe
    return decide(wet.glass_enclosure, safe, does_not_apply("no glass encloses it"))


class StairLimits(NamedTuple):
    safety_glazing: Limit[bool]
    distance: Limit[Length]
    bottom: Limit[Length]
    rail_lowest: Limit[Length] = reads("glazing.large-pane.rail-lowest")
    rail_highest: Limit[Length] = reads("glazing.large-pane.rail-highest")
    rail_depth: Limit[Length] = reads("glazing.large-pane.rail-depth")


@rule("glazing.beside-stair", stage="framing")
def beside_stair(glass: GlassByStair, limit: StairLimits) -> Check:
    """Low glass close beside a flight of stairs, a landing between flights or a ramp is safety glazing."""
    if glass.where in ("bottom landing", "top landing"):
        return does_not_apply("not beside a flight, a landing between flights or a ramp")
    hazard = both(under(glass.distance, limit.distance), _is_low(glass, limit.bottom))
    clear = f"not low and close to {glass.stair.label}"
    safe = safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_near(glass))
    return _or_rail(safe, glass, limit).or_fix("use safety glazing, or put a sturdy rail across it")


def _is_low(glass: GlassByStair, limit: Limit[Length]) -> bool | Missing:
    """What is known of a floor decides where the treads can only make it more so."""
    by_floor = under(glass.bottom, limit)
    if is_missing(glass.above) and ((glass.no_higher and by_floor is True) or (glass.no_lower and by_floor is False)):
        return by_floor
    return under(glass.above, limit)


def _how_near(glass: GlassByStair) -> str:
    above = f"{glass.bottom} above the floor" if is_missing(glass.above_surface) else f"{glass.above_surface} above it"
    return f"its edge is {glass.distance} from the walking surface of {glass.stair.label} and its bottom {above}"


class BottomLimits(NamedTuple):
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
    return safe_where(hazard, glass, limit.safety_glazing, clear, lambda: _how_near(glass)).or_fix("use safety glazing")


class GuardLimits(NamedTuple):
    safety_glazing: Limit[bool]


@rule("glazing.guard", stage="final")
def guard(guard: Guard, limit: GuardLimits) -> Check:
    """Glass in guards and railings is safety glazing, whatever its size and height."""
    if is_missing(guard.glass) or guard.glass == "none":
        return does_not_apply("no glass is drawn in it")
    return required(guard.safety_glazing, limit.safety_glazing, "safety glazing").because(
        f"glass as {guard.glass} of a guard"
    )


class PanelLimits(NamedTuple):
    top_rail: Limit[bool]
    panels: Limit[int]
    laminated_without: Limit[str]


@rule("glazing.guard-panels", stage="final")
def guard_panels(guard: Guard, limit: PanelLimits) -> Check:
    """Glass panels that carry a guard have a top rail on enough of them that it stays up if one breaks.

    Laminated panels may do without the rail.
    """
    if guard.glass != "structural panels":
        return does_not_apply("no glass panels carry it")
    if guard.laminated is True and limit.laminated_without.value is not None:
        return does_not_apply("laminated panels need no rail on top")
    return all_of(
        required(guard.top_rail, limit.top_rail, "top rail"), at_least(guard.panels_under_rail, limit.panels)
    ).or_fix("add a top rail that rests on enough panels, or use laminated panels")


class MarkLimits(NamedTuple):
    mark: Limit[bool]


@rule("glazing.marking", stage="final")
def marking(opening: Opening, limit: MarkLimits) -> Check:
    """Each pane of safety glazing carries a permanent mark of its maker, which the inspector looks for."""
    panes = [Glass(about, opening, pane, Missing()) for about, pane in panes_of(opening)]
    return every((_marked(p, limit.mark) for p in panes if p.is_safe is True), "no safety glazing is drawn in it")


def _marked(glass: Glass, mark: Limit[bool]) -> Check:
    if is_missing(glass.is_marked) and mark.value is not None:
        return look_at(Look.OFFICIAL, "order it with the maker's permanent mark, which the inspector looks for")
    return required(glass.is_marked, mark, "permanent mark")
