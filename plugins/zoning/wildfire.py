"""Wildfire: the roof, its vents and its underside, posts in the open and cladding, where the jurisdiction adopts it."""

from __future__ import annotations

from typing import Any

from precheck import (
    Check,
    Cladding,
    House,
    Length,
    Limit,
    Limits,
    Roof,
    Vent,
    all_of,
    any_of,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    one_of,
    required,
    rule,
    unsettled,
)


def if_exposed(house: House, limit: Limit[Any], check: Check) -> Check:
    """Return `check` where the jurisdiction has the rule and the lot is in a mapped wildfire area."""
    if told := unsettled(limit):
        return told
    lot = house.project.lot
    where = house.project.absent("wildfire area (of the lot)") if is_missing(lot) else lot.wildfire_area
    return decide(where, check, does_not_apply("not in a mapped wildfire area"))


class RoofLimits(Limits):
    classes: Limit[tuple[str, ...]]


@rule("wildfire.roof", stage="plan")
def roof(roof: Roof, limit: RoofLimits, house: House) -> Check:
    """In a wildfire area the roof covering is of a class that the jurisdiction names."""
    rated = one_of(roof.fire_class, limit.classes).or_fix("use a covering of that class")
    return if_exposed(house, limit.classes, rated)


class UndersideLimits(Limits):
    materials: Limit[tuple[str, ...]]


@rule("wildfire.underside", stage="framing")
def underside(roof: Roof, limit: UndersideLimits, house: House) -> Check:
    """In a wildfire area eaves, the underside of porch and carport roofs, and their posts do not catch fire easily."""
    both = all_of(one_of(roof.underside, limit.materials), one_of(roof.open_posts, limit.materials))
    return if_exposed(house, limit.materials, both)


class VentLimits(Limits):
    maximum_mesh: Limit[Length]
    tested: Limit[bool]


@rule("wildfire.vents", stage="final")
def vents(vent: Vent, limit: VentLimits, house: House) -> Check:
    """In a wildfire area vents keep embers out: by fine mesh, or as tested."""
    fine = at_most(vent.mesh, limit.maximum_mesh).or_fix(lambda: f"cover it with {limit.maximum_mesh.value} mesh")
    tested = required(vent.resists_embers, limit.tested)
    return if_exposed(house, limit.maximum_mesh, any_of(fine, tested))


class CladdingLimits(Limits):
    ignition_resistant: Limit[bool]


@rule("wildfire.cladding", stage="final")
def cladding(cladding: Cladding, limit: CladdingLimits, house: House) -> Check:
    """In a wildfire area outside walls are clad with what does not burn or resists ignition."""
    resists = required(cladding.ignition_resistant, limit.ignition_resistant)
    return if_exposed(house, limit.ignition_resistant, resists)
