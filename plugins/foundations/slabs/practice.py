"""Good practice for slabs, never a violation: joints, caps over old slabs, outdoor concrete, new beside old."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Pressure,
    Ratio,
    Settled,
    Slab,
    Slope,
    agrees,
    all_of,
    at_least,
    at_most,
    does_not_apply,
    is_missing,
    one_of,
    required,
    rule,
    when_given,
)

INCH = Length.parse("1 in")
OUTDOORS = ("carport", "porch", "deck")


class JointLimits(Limits):
    spacing_thicknesses: Settled[int]
    depth_part: Settled[Ratio]
    depth: Settled[Length]
    shape: Limit[Ratio]
    hours: Limit[int]
    strip: Limit[Length]


@rule("slabs.joints", stage="foundation")
def joints(slab: Slab, limit: JointLimits) -> Check:
    """Control joints are close and deep enough for the slab, panels are near square, and edges are isolated."""
    if is_missing(slab.joints) or is_missing(slab.thickness):
        return does_not_apply("no control joints are drawn")
    own, thick = slab.joints, slab.thickness
    deep: Any = replace(limit.depth, value=max(limit.depth.value, thick * limit.depth_part.value.n))
    far: Any = replace(limit.spacing_thicknesses, value=thick * limit.spacing_thicknesses.value)
    long = when_given(lambda one, other: Ratio(one / other), own.long_side, own.short_side)
    free = does_not_apply("tied to what stands beside it") if slab.tied_to_old_slab is True else None
    return all_of(
        at_most(own.spacing, far, f"{limit.spacing_thicknesses.value} times {thick}"),
        at_least(own.depth, deep),
        at_most(long, limit.shape, "long side over short side"),
        at_most(own.cut_within_hours, limit.hours),
        free or at_least(own.isolation_strip, limit.strip),
    )


class CapLimits(Limits):
    prepared: Limit[bool]
    joints_line_up: Limit[bool]
    unbonded: Limit[Length]
    heights_rechecked: Limit[bool]
    weight: Limit[Pressure]


@rule("slabs.cap", stage="foundation")
def cap(slab: Slab, limit: CapLimits) -> Check:
    """A topping over an old slab is bonded, or thick enough to lie loose, and heights are rechecked.

    Its thickness at the low end is the thinnest plus the old fall over its run; its weight goes to the old edges.
    """
    own = slab.cap
    if is_missing(own):
        return does_not_apply("it lies on the ground")
    bonded = all_of(required(own.prepared, limit.prepared), required(own.joints_line_up, limit.joints_line_up))
    loose = at_least(own.thinnest, limit.unbonded, "at its thinnest")
    thick = when_given(lambda thin, fall, run: thin + run * Fraction(fall.n), own.thinnest, own.old_fall, own.run)
    return all_of(
        bonded if own.bonded is True else loose,
        required(own.heights_rechecked, limit.heights_rechecked),
        agrees(own.thickest, thick, "thickness at the low end", INCH / 4, "thinnest and the fall of the old slab"),
    ).because(lambda: _weight(thick, limit))


def _weight(thick: Any, limit: CapLimits) -> str:
    if is_missing(thick) or limit.weight.value is None:
        return "new concrete over an old slab"
    return f"up to {thick} of new concrete adds about {Pressure(round(limit.weight.value.n * Fraction(thick / INCH)))}"


class OutdoorLimits(Limits):
    slope: Limit[Slope]
    finish: Limit[str]


@rule("slabs.outdoor", stage="foundation")
def outdoor(slab: Slab, limit: OutdoorLimits, house: House) -> Check:
    """Outdoor concrete slopes to drain and has a broom finish."""
    space = None if is_missing(slab.space) else house.space(slab.space)
    if space is None or space.use not in OUTDOORS or slab.is_existing:
        return does_not_apply("it is not outdoors, or it stands")
    return all_of(at_least(slab.fall, limit.slope), one_of(slab.finish, limit.finish))


class BesideLimits(Limits):
    dowels: Limit[Length]
    crack_membrane: Limit[bool]


@rule("slabs.beside-old", stage="foundation")
def beside_old(slab: Slab, limit: BesideLimits) -> Check:
    """Dowels tie a new slab to an old one where they must move together, and tile has a crack-isolation membrane."""
    tied = at_most(slab.dowel_spacing, limit.dowels)
    tiled = required(slab.crack_membrane, limit.crack_membrane)
    return all_of(
        tied if slab.tied_to_old_slab is True else _not_said(slab.tied_to_old_slab, "tied to an old slab"),
        tiled if slab.covering == "tile" else _not_said(slab.covering, "tile on it"),
    )


def _not_said(said: Any, what: str) -> Check:
    return does_not_apply(f"{what}: not stated" if is_missing(said) else f"{what}: no")
