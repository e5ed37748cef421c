"""The thermal envelope: insulation of assemblies, U-factor and heat gain of glass, slab edges, vapor retarders."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck_plugins.energy.envelope import ZONE, ConditionedSlab, EnvelopePart, as_limited, in_zone, options

from precheck import (
    Area,
    Check,
    House,
    Insulation,
    Length,
    Limit,
    Limits,
    NewValue,
    Outcome,
    Project,
    Ratio,
    Transmittance,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

NEW_SPACE = "the space is newly conditioned, so the full table applies"


class ZoneLimits(Limits):
    zone: Limit[str] = reads(ZONE)


@rule("energy.climate-zone", stage="intake")
def climate_zone(project: Project, limit: ZoneLimits) -> Check:
    """The climate zone on the title sheet is that of the jurisdiction."""
    stated = project.design_criteria.climate_zone
    set_locally = limit.zone.value if is_missing(limit.zone.value) else str(limit.zone.value)
    return agrees(stated, set_locally, "the climate zone")


class InsulationLimits(Limits):
    ceiling: Limit[dict[str, Insulation]]
    wall: Limit[dict[str, tuple[str, ...]]]
    mass_wall: Limit[dict[str, Insulation]]
    mass_wall_inside: Limit[dict[str, Insulation]]
    floor: Limit[dict[str, Insulation]]
    floor_with_continuous: Limit[dict[str, tuple[str, ...]]]
    basement_wall: Limit[dict[str, tuple[str, ...]]]
    crawl_space_wall: Limit[dict[str, tuple[str, ...]]]
    ceiling_u: Limit[dict[str, Transmittance]]
    wall_u: Limit[dict[str, Transmittance]]
    floor_u: Limit[dict[str, Transmittance]]
    basement_wall_u: Limit[dict[str, Transmittance]]
    crawl_space_wall_u: Limit[dict[str, Transmittance]]
    full_height: Limit[dict[str, Insulation]]
    no_attic: Limit[Insulation]
    no_attic_area: Limit[Area]
    no_attic_share: Limit[Ratio]
    cavity_fill: Limit[str]
    ceiling_fill: Limit[str]
    zone: Limit[str] = reads(ZONE)


@rule("energy.insulation", stage="insulation")
def insulation(part: EnvelopePart, limit: InsulationLimits, house: House) -> Check:
    """Walls, ceilings and floors of the thermal envelope have the insulation, or the U-factor, for their climate zone.

    New parts, additions and newly conditioned space meet the table in full. An altered part of conditioned space does
    with its opened cavities filled, and nothing is asked of cavities that stay closed. Cavity and continuous insulation
    are compared each with its own number; what a ceiling or floor has is added up.
    """
    zone = house.criterion(limit.zone.value, "climate_zone")
    assembly = part.assembly
    u_table = getattr(limit, f"{assembly.what.replace(' ', '_').removeprefix('mass_')}_u")
    by_u = at_most(assembly.u_factor, in_zone(u_table, zone), "U-factor of the whole assembly")
    by_r = _by_r(part, zone, limit)
    table = by_r if is_missing(assembly.u_factor) else any_of(by_u, by_r)
    if part.newly_conditioned:
        return table.because(NEW_SPACE)
    fill = limit.ceiling_fill if assembly.what == "ceiling" else limit.cavity_fill
    if assembly.phase != "altered" or fill.value is None:
        return table
    filled = any_of(table, required(assembly.cavity_filled, fill))
    return decide(assembly.cavity_opened, filled, does_not_apply("its cavities stay closed"))


def _by_r(part: EnvelopePart, zone: Any, limit: InsulationLimits) -> Check:
    what = part.assembly.what
    if what == "ceiling":
        return _ceiling(part, in_zone(limit.ceiling, zone), limit)
    if what == "floor":
        return _floor(part, in_zone(limit.floor, zone), in_zone(limit.floor_with_continuous, zone))
    if what == "mass wall":
        outside, inside = (at_least(part.total, in_zone(t, zone)) for t in (limit.mass_wall, limit.mass_wall_inside))
        return decide(part.assembly.insulated_inside, inside, outside)
    table = {"wall": limit.wall, "basement wall": limit.basement_wall, "crawl space wall": limit.crawl_space_wall}[what]
    return _one_of_the_ways(part, in_zone(table, zone))


def _floor(part: EnvelopePart, row: Limit[Any], ways: Limit[Any]) -> Check:
    filled = at_least(part.total, row)
    if ways.value is None or is_missing(ways.value) or is_missing(part.continuous) or not part.continuous.n:
        return filled.or_fix(lambda: f"insulate the floor to {row.value}", lambda: _insulated(part, row.value, None))
    return any_of(filled, _one_of_the_ways(part, ways)).or_fix(
        f"insulate with {row.value}, or {', or '.join(ways.value)}",
        lambda: _insulated(part, row.value, None),
        "which way to take",
    )


NONE = does_not_apply("this way asks for none there")


def _one_of_the_ways(part: EnvelopePart, row: Limit[Any]) -> Check:
    if row.value is None or is_missing(row.value):
        return at_least(part.cavity, row)
    ways = [
        all_of(
            at_least(part.cavity, _of_a_way(row, way.cavity), "in the cavity") if way.cavity.n else NONE,
            at_least(part.continuous, _of_a_way(row, way.continuous), "continuous") if way.continuous.n else NONE,
        )
        for way in options(row.value)
    ]
    check = any_of(*ways)
    if check.outcome is Outcome.FAIL:  # told once with all the ways, and not once for each part of each way
        drawn = ((part.cavity, "cavity"), (part.continuous, "continuous"))
        check = one_of(" + ".join(f"{r} {where}" for r, where in drawn if not is_missing(r)), row)
    first = options(row.value)[0]
    return check.or_fix(
        f"insulate with {', or '.join(row.value)}",
        lambda: _insulated(part, first.cavity, first.continuous),
        decide="which way to take",
    )


def _insulated(part: EnvelopePart, cavity: Insulation, continuous: Insulation | None) -> list[NewValue]:
    """Return the insulation as it is to be stated; layers that are listed are listed anew by hand."""
    found = [NewValue(part.assembly, "cavity_r", cavity)] if cavity.n else []
    if continuous is not None and continuous.n:
        found.append(NewValue(part.assembly, "continuous_r", continuous))
    return [] if part.assembly.layers else found


def _of_a_way(row: Limit[Any], least: Insulation) -> Limit[Insulation]:
    return replace(row, value=least, sense="minimum")


def _ceiling(part: EnvelopePart, row: Limit[Any], limit: InsulationLimits) -> Check:
    assembly = part.assembly
    if row.value is None or is_missing(row.value):
        return at_least(part.total, row)
    ways = [at_least(part.total, row)]
    if assembly.full_height_at_eaves is True and str(row.value) in (limit.full_height.value or {}):
        ways.append(
            at_least(part.total, replace(row, value=limit.full_height.value[str(row.value)]), "full height at eaves")
        )
    if assembly.no_attic_above is True:
        share = when_given(lambda own, all_: Ratio(own / all_), assembly.area, assembly.insulated_ceiling_area)
        small = all_of(at_most(assembly.area, limit.no_attic_area), at_most(share, limit.no_attic_share))
        ways.append(all_of(at_least(part.total, limit.no_attic), small))
    return any_of(*ways).or_fix(f"insulate the ceiling to {row.value}", lambda: _insulated(part, row.value, None))


class SlabLimits(Limits):
    r_value: Limit[dict[str, Insulation]]
    depth: Limit[dict[str, Length]]
    below_grade: Limit[Length]
    zone: Limit[str] = reads(ZONE)


@rule("energy.slab-edge", stage="foundation")
def slab_edge(slab: ConditionedSlab, limit: SlabLimits, house: House) -> Check:
    """Slab edges near grade are insulated to the R-value and depth of the climate zone.

    The slab of a garage or carport that is newly conditioned counts; officials differ on how its edge is insulated.
    """
    zone = house.criterion(limit.zone.value, "climate_zone")
    deep = at_least(first_given(slab.edge.below_grade, Length(0)), limit.below_grade)
    if deep.outcome is Outcome.PASS:
        return does_not_apply(f"the slab is {slab.edge.below_grade} below grade")
    thick = at_least(slab.edge.r_value, in_zone(limit.r_value, zone))
    long = at_least(slab.edge.depth, in_zone(limit.depth, zone))
    check = all_of(thick, long).or_fix(
        "insulate the slab edge as the climate zone asks", lambda: _edge(slab, thick, long)
    )
    return check.because(NEW_SPACE) if slab.newly_conditioned else check


def _edge(slab: ConditionedSlab, thick: Check, long: Check) -> list[NewValue]:
    return as_limited(slab.edge, {"r_value": thick, "depth": long})
