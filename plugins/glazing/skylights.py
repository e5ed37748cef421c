"""Skylights and sloped glass: what the glass is made of, what keeps it up when it breaks, and the curb."""

from __future__ import annotations

from typing import Any

from precheck_plugins.glazing.panes import both, over, under

from precheck import (
    Angle,
    Area,
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Skylight,
    Slope,
    at_least,
    decide,
    does_not_apply,
    exceeds,
    is_missing,
    look_at,
    one_of,
    required,
    rule,
    when_given,
)

BREAKS_SMALL = frozenset(("tempered", "heat-strengthened"))  # falls in pieces, so something must catch it


class GlassLimits(Limits):
    from_vertical: Limit[Angle]
    kinds: Limit[tuple[str, ...]]
    small_area: Limit[Area]
    low: Limit[Length]
    interlayer_small: Limit[Length]
    interlayer: Limit[Length]
    screen: Limit[bool]


@rule("glazing.skylight", stage="framing")
def skylight(skylight: Skylight, limit: GlassLimits) -> Check:
    """Sloped glass is laminated with a thick enough interlayer, or of another permitted kind with a screen beneath.

    Glass that stands nearly upright counts as a window.
    """
    sloped = True if is_missing(skylight.from_vertical) else over(skylight.from_vertical, limit.from_vertical)
    if sloped is False:
        return does_not_apply("it stands nearly upright and counts as a window")
    if skylight.glass == "laminated":
        return _laminated(skylight, limit)
    kind = one_of(skylight.glass, limit.kinds).or_fix("use laminated glass")
    return _caught(skylight, limit) if skylight.glass in BREAKS_SMALL else kind


def _is_small(skylight: Skylight, limit: GlassLimits) -> bool | Missing:
    return both(_fits(skylight.pane_area, limit.small_area), _fits(skylight.highest_above_floor, limit.low))


def _fits(measured: Any, limit: Limit[Any]) -> bool | Missing:
    """Return whether `measured` is no more than an allowance; a void one allows nothing."""
    return False if limit.value is None else when_given(lambda large: not large, exceeds(measured, limit))


def _laminated(skylight: Skylight, limit: GlassLimits) -> Check:
    thick = at_least(skylight.interlayer, limit.interlayer)
    thin = at_least(skylight.interlayer, limit.interlayer_small)
    return thick if thick.outcome is thick.outcome.PASS else decide(_is_small(skylight, limit), thin, thick)


def _caught(skylight: Skylight, limit: GlassLimits) -> Check:
    screen = required(skylight.retaining_screen, limit.screen).or_fix(
        "use laminated glass or a screen", lambda: [NewValue(skylight, "retaining_screen", "yes")]
    )
    if skylight.retaining_screen is True:
        return screen
    told = "so small and low a pane may do without a screen where the glass is thin and caught by others; ask"
    return decide(_is_small(skylight, limit), look_at(Look.OFFICIAL, told), screen)


class CurbLimits(Limits):
    flatter_than: Limit[Slope]
    minimum: Limit[Length]


@rule("glazing.skylight-curb", stage="framing")
def skylight_curb(skylight: Skylight, limit: CurbLimits) -> Check:
    """A unit skylight on a flat roof sits on a curb, unless its manufacturer says otherwise."""
    if skylight.unit is False or skylight.curb_as_maker_says is True:
        return does_not_apply("not a unit skylight, or its manufacturer says how it sits")
    flat = under(skylight.roof_slope, limit.flatter_than)
    steep = does_not_apply(f"the roof is not flatter than {limit.flatter_than.value}")
    return decide(flat, at_least(skylight.curb, limit.minimum), steep)
