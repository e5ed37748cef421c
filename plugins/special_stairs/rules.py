"""Spiral stairs, ship's ladders and alternating tread devices: where they may serve, and their sizes."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from precheck_plugins.special_stairs.forms import (
    AlternatingTread,
    AlternatingTreadUse,
    LadderUse,
    ShipLadder,
    ShipLadderUse,
    SpecialFlight,
    SpiralFlight,
)

from precheck import (
    Angle,
    Area,
    Check,
    Length,
    Limit,
    Limits,
    NewValue,
    all_of,
    at_least,
    at_most,
    does_not_apply,
    is_missing,
    met,
    not_shown,
    reads,
    rise_of,
    rule,
    when_given,
)


class SpiralWidthLimits(Limits):
    minimum: Limit[Length]


@rule("special-stairs.spiral-width", stage="framing")
def spiral_width(flight: SpiralFlight, limit: SpiralWidthLimits) -> Check:
    """A spiral stair is wide enough at and below its handrail."""
    return _wide_enough(flight, limit.minimum).or_fix("choose a spiral stair of larger diameter")


def _wide_enough(flight: SpecialFlight, least: Limit[Length]) -> Check:
    """Check the width at and below the handrails; where only that of the whole stair is given, it may be too little yet."""
    below = at_least(flight.flight.width_below_rail, least)
    known = is_missing(flight.flight.width_below_rail) and not is_missing(flight.most_width)
    return all_of(at_least(flight.most_width, least), below) if known else below


class SpiralTreadLimits(Limits):
    depth: Limit[Length]
    walkline_radius: Limit[Length]
    variation: Limit[Length] = reads("stairs.tread-depth.variation")


@rule("special-stairs.spiral-treads", stage="framing")
def spiral_treads(flight: SpiralFlight, limit: SpiralTreadLimits) -> Check:
    """The treads of a spiral stair are alike, and deep enough at a walkline that lies close enough to the middle."""
    return all_of(
        at_least(flight.tread, limit.depth).or_fix(
            "turn each tread farther, or choose a larger diameter",
            lambda: [] if flight.flight.tread_depths else [NewValue(flight.flight, "tread", limit.depth.value)],
        ),
        at_most(flight.flight.walkline_radius, limit.walkline_radius),
        _alike(flight.flight.tread_depths, limit.variation).or_fix("make all treads alike"),
        flight.treads_not_measured,
    )


class SpiralRiserLimits(Limits):
    maximum: Limit[Length]
    variation: Limit[Length] = reads("stairs.riser-height.variation")


@rule("special-stairs.spiral-riser", stage="framing")
def spiral_riser(flight: SpiralFlight, limit: SpiralRiserLimits) -> Check:
    """The risers of a spiral stair are no taller than the limit, and alike from floor to floor."""
    return all_of(
        _low_risers(flight, limit.maximum),
        _alike(flight.flight.riser_heights, limit.variation).or_fix("shim or recut until all risers are alike"),
        flight.risers_not_measured,
    )


class SpiralHeadroomLimits(Limits):
    minimum: Limit[Length]


@rule("special-stairs.spiral-headroom", stage="framing")
def spiral_headroom(flight: SpiralFlight, limit: SpiralHeadroomLimits) -> Check:
    """There is headroom over a spiral stair, a little less than over other stairs."""
    return at_least(flight.headroom, limit.minimum)


class UseLimits(Limits):
    as_egress: Limit[int]
    loft_area: Limit[Area]


@rule("special-stairs.ship-ladder-use", stage="plan")
def ship_ladder_use(use: ShipLadderUse, limit: UseLimits) -> Check:
    """A ship's ladder is not a means of egress, unless another way serves the space or the space is a small loft."""
    return _use(use, limit)


@rule("special-stairs.alternating-tread-use", stage="plan")
def alternating_tread_use(use: AlternatingTreadUse, limit: UseLimits) -> Check:
    """An alternating tread device is no means of egress, unless another way serves the space or it is a small loft."""
    return _use(use, limit)


def _use(use: LadderUse, limit: UseLimits) -> Check:
    if use.other_way:
        return met(f"{use.other_way} serves {use.leads_to} as well")
    if use.unlived_in:
        return met(f"{use.leads_to} is storage that nobody lives in, so it needs no means of egress")
    egress = at_most(when_given(int, use.stair.means_of_egress), limit.as_egress, "it is the means of egress")
    if use.stair.means_of_egress is not True or limit.loft_area.value is None:
        return egress.or_fix("draw a stair or ramp that complies to the same space")
    small = at_most(use.area, limit.loft_area)
    if small.outcome is small.outcome.FAIL or use.stair.only_way_to_kitchen_or_bath is True:
        told = f"draw a stair that complies, or keep {use.leads_to} to {limit.loft_area.value} of loft"
        return egress.or_fix(told, decide="how the plan changes")
    if is_missing(use.stair.only_way_to_kitchen_or_bath):
        return all_of(small, not_shown(use.stair.only_way_to_kitchen_or_bath))
    return small.because(f"{use.leads_to} is a small loft without a kitchen or bath of its own")


class LadderWidthLimits(Limits):
    minimum: Limit[Length]


@rule("special-stairs.ship-ladder-width", stage="framing")
def ship_ladder_width(ladder: ShipLadder, limit: LadderWidthLimits) -> Check:
    """A ship's ladder is wide enough at and below its handrails."""
    return _wide_enough(ladder, limit.minimum)


@rule("special-stairs.alternating-tread-width", stage="framing")
def alternating_tread_width(device: AlternatingTread, limit: LadderWidthLimits) -> Check:
    """An alternating tread device is wide enough at and below its handrails."""
    return _wide_enough(device, limit.minimum)


class LadderTreadLimits(Limits):
    depth: Limit[Length]
    projected_depth: Limit[Length]


@rule("special-stairs.ship-ladder-treads", stage="framing")
def ship_ladder_treads(ladder: ShipLadder, limit: LadderTreadLimits) -> Check:
    """The treads of a ship's ladder are deep enough, alone and together with their nosing."""
    return all_of(
        at_least(ladder.tread, limit.depth),
        at_least(ladder.flight.tread_and_nosing, limit.projected_depth),
        ladder.treads_not_measured,
    )


class DeviceTreadLimits(Limits):
    depth: Limit[Length]
    projected_depth: Limit[Length]
    width: Limit[Length]


@rule("special-stairs.alternating-tread-treads", stage="framing")
def alternating_tread_treads(device: AlternatingTread, limit: DeviceTreadLimits) -> Check:
    """The treads of an alternating tread device are deep and wide enough."""
    return all_of(
        at_least(device.tread, limit.depth),
        at_least(device.flight.tread_and_nosing, limit.projected_depth),
        at_least(device.flight.tread_width, limit.width),
        device.treads_not_measured,
    )


class PitchLimits(Limits):
    minimum: Limit[Angle]
    maximum: Limit[Angle]


@rule("special-stairs.alternating-tread-pitch", stage="framing")
def alternating_tread_pitch(device: AlternatingTread, limit: PitchLimits) -> Check:
    """An alternating tread device is neither flatter nor steeper than the code takes it for."""
    pitch = device.flight.pitch
    return all_of(
        at_least(pitch, limit.minimum).or_fix(
            lambda: f"choose a device of {limit.minimum.value} or more",
            lambda: [NewValue(device.flight, "pitch", limit.minimum.value)],
        ),
        at_most(pitch, limit.maximum).or_fix(
            lambda: f"choose a device of no more than {limit.maximum.value}",
            lambda: [NewValue(device.flight, "pitch", limit.maximum.value)],
        ),
    )


class LadderRiserLimits(Limits):
    maximum: Limit[Length]


@rule("special-stairs.ship-ladder-riser", stage="framing")
def ship_ladder_riser(ladder: ShipLadder, limit: LadderRiserLimits) -> Check:
    """The risers of a ship's ladder are no taller than the limit."""
    return all_of(_low_risers(ladder, limit.maximum), ladder.risers_not_measured)


@rule("special-stairs.alternating-tread-riser", stage="framing")
def alternating_tread_riser(device: AlternatingTread, limit: LadderRiserLimits) -> Check:
    """The risers of an alternating tread device are no taller than the limit."""
    return all_of(_low_risers(device, limit.maximum), device.risers_not_measured)


class LadderRailLimits(Limits):
    minimum: Limit[int]
    minimum_height: Limit[Length]
    maximum_height: Limit[Length]


@rule("special-stairs.ship-ladder-handrails", stage="final")
def ship_ladder_handrails(ladder: ShipLadder, limit: LadderRailLimits) -> Check:
    """A ship's ladder has handrails on both sides, lower than those of other stairs."""
    return _rails(ladder, limit)


@rule("special-stairs.alternating-tread-handrails", stage="final")
def alternating_tread_handrails(device: AlternatingTread, limit: LadderRailLimits) -> Check:
    """An alternating tread device has handrails on both sides, lower than those of other stairs."""
    return _rails(device, limit)


def _alike(sizes: Sequence[Length], variation: Limit[Length]) -> Check:
    """Check that sizes measured one by one are alike; one size that is given for all of them is."""
    return at_most(max(sizes) - min(sizes), variation) if sizes else does_not_apply("one size is given for all")


def _low_risers(flight: SpecialFlight, tallest: Limit[Length]) -> Check:
    return at_most(flight.riser, tallest).or_fix("add a riser", lambda: _more_risers(flight, tallest.value))


def _more_risers(flight: SpecialFlight, tallest: Length) -> list[NewValue]:
    """Return as many risers as the rise takes; risers that were measured one by one are built, and go by hand."""
    own, rise = flight.flight, rise_of(flight.flight, flight.house)
    if is_missing(rise) or is_missing(own.risers) or own.riser_heights:
        return []
    count = ceil(rise / tallest)
    each = [] if is_missing(own.riser) else [NewValue(own, "riser", (rise / count).rounded())]
    return [NewValue(own, "risers", count), *each]


def _rails(flight: SpecialFlight, limit: LadderRailLimits) -> Check:
    own = flight.flight
    both = at_least(flight.rails, limit.minimum).or_fix(
        "add a handrail on each side",
        lambda: [] if is_missing(own.rails) else [NewValue(own, "rails", limit.minimum.value)],
    )
    if flight.rails == 0:
        return both
    heights = [rail.height for rail in flight.handrails] or [flight.flight.absent("height of the handrails")]
    return all_of(
        both,
        *(at_least(h, limit.minimum_height) for h in heights),
        *(at_most(h, limit.maximum_height) for h in heights),
    )
