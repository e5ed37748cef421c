"""Vapor retarders of framed walls, and the insulation outside of them that lets paint do."""

from __future__ import annotations

from typing import Any

from precheck_plugins.energy.envelope import EnvelopePart, in_zone

from precheck import (
    Check,
    House,
    Insulation,
    Limit,
    Limits,
    NewValue,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    met,
    one_of,
    reads,
    rule,
    when_given,
    zone_number,
)

FIX = "show a class I or II vapor retarder on the warm side, such as kraft facing"


class RetarderLimits(Limits):
    zones: Limit[tuple[str, ...]]
    classes: Limit[tuple[str, ...]]
    with_vented_cladding: Limit[tuple[str, ...]]
    foam_over_2x4: Limit[dict[str, Insulation]]
    foam_over_2x6: Limit[dict[str, Insulation]]
    zone: Limit[str] = reads("criteria.climate-zone")


@rule("energy.vapor-retarder", stage="insulation")
def vapor_retarder(part: EnvelopePart, limit: RetarderLimits, house: House) -> Check:
    """Framed walls in cold zones have a vapor retarder on the warm side.

    Paint (class III) does behind vented cladding, and behind as much continuous insulation outside as the zone and the
    depth of the studs ask for.
    """
    if part.assembly.what != "wall":
        return does_not_apply("not a framed wall")
    zone = house.criterion(limit.zone.value, "climate_zone")
    tight = one_of(part.assembly.vapor_retarder, limit.classes)
    painted = one_of(part.assembly.vapor_retarder, limit.with_vented_cladding)
    vented = decide(part.assembly.vented_cladding, met("the cladding is vented"), _foam(part, zone, limit))
    cold = when_given(lambda text: _in(str(text), limit.zones.value), zone)
    due = tight if tight.outcome >= tight.outcome.WARN else any_of(tight, all_of(painted, vented))
    retarder = [NewValue(part.assembly, "vapor_retarder", "class II")]
    return decide(cold, due.or_fix(FIX, lambda: retarder), does_not_apply("not asked in this climate zone"))


def _foam(part: EnvelopePart, zone: Any, limit: RetarderLimits) -> Check:
    """Compare the continuous insulation with what the zone asks over the studs; the deeper ones ask for more."""
    tables = (limit.foam_over_2x4, limit.foam_over_2x6)
    over_2x4, over_2x6 = (at_least(part.continuous, in_zone(table, zone)) for table in tables)
    deep = when_given(lambda studs: studs == "2x6", part.assembly.studs)
    return decide(deep, over_2x6, over_2x4)


def _in(zone: str, zones: tuple[str, ...]) -> bool:
    marine = "4" in zone and ("c" in zone.lower() or "marine" in zone.lower())
    return f"zone {zone_number(zone)}" in zones or (marine and "zone 4 marine" in zones)
