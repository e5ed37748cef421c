"""Safety glazing in doors, in large low panes, around wet areas and in guards; and its mark."""

from __future__ import annotations

from precheck_plugins.glazing.panes import (
    DoorGlass,
    Glass,
    WindowGlass,
    both,
    is_glazed,
    listed,
    or_rail,
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
    Limits,
    Missing,
    Opening,
    WetArea,
    all_of,
    at_least,
    decide,
    does_not_apply,
    every,
    if_stated,
    is_missing,
    required,
    rule,
)


class DoorLimits(Limits):
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
    safe = safe_where(both(is_glazed(leaf), meant), glass, limit.safety_glazing, "no glass is drawn in it", lambda: why)
    return safe.or_fix("use safety glazing", lambda: glass.made_safe)


class LargePaneLimits(Limits):
    safety_glazing: Limit[bool]
    area: Limit[Area]
    bottom: Limit[Length]
    top: Limit[Length]
    walking_surface: Limit[Length]
    rail_height_minimum: Limit[Length]
    rail_height_maximum: Limit[Length]
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
    return or_rail(safe, glass, limit).or_fix(
        lambda: (
            f"use safety glazing, raise the glass to {limit.bottom.value}, or divide it up to {limit.area.value} a pane"
        ),
        lambda: glass.made_safe,
    )


def _beside_walk(glass: Glass, limit: Limit[Length]) -> bool | Missing:
    """The floor of the room is a walking surface, unless the window says how far the nearest one is."""
    stated = getattr(glass.opening, "walking_surface_within", glass.opening.absent("walking surface within"))
    return True if is_missing(stated) else within(stated, limit)


def _how_large(glass: Glass) -> str:
    return f"the pane is {glass.area}, from {glass.bottom} to {glass.top} above the floor"


class EnclosureLimits(Limits):
    safety_glazing: Limit[bool]


@rule("glazing.enclosure", stage="final")
def enclosure(wet: WetArea, limit: EnclosureLimits) -> Check:
    """Glass doors and panels around a tub, shower, sauna or steam room are safety glazing."""
    safe = required(wet.enclosure_safety_glazing, limit.safety_glazing)
    if wet.enclosure_safety_glazing is True:
        return safe
    return decide(wet.glass_enclosure, safe, does_not_apply("no glass encloses it"))


class GuardLimits(Limits):
    safety_glazing: Limit[bool]


@rule("glazing.guard", stage="final")
def guard(guard: Guard, limit: GuardLimits) -> Check:
    """Glass in guards and railings is safety glazing, whatever its size and height."""
    if is_missing(guard.glass) or guard.glass == "none":
        return does_not_apply("no glass is drawn in it")
    return required(guard.safety_glazing, limit.safety_glazing).because(f"glass as {guard.glass} of a guard")


class PanelLimits(Limits):
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
    return all_of(required(guard.top_rail, limit.top_rail), at_least(guard.panels_under_rail, limit.panels)).or_fix(
        "add a top rail that rests on enough panels, or use laminated panels"
    )


class MarkLimits(Limits):
    mark: Limit[bool]


@rule("glazing.marking", stage="final")
def marking(opening: Opening, limit: MarkLimits) -> Check:
    """Each pane of safety glazing carries the manufacturer's permanent mark, which the inspector looks for."""
    panes = [Glass(about, opening, pane, Missing()) for about, pane in panes_of(opening)]
    return every((_marked(p, limit.mark) for p in panes if p.is_safe is True), "no safety glazing is drawn in it")


def _marked(glass: Glass, mark: Limit[bool]) -> Check:
    return if_stated(glass.is_marked, required, mark)
