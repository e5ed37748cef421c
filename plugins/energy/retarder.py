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
    broken,
    decide,
    does_not_apply,
    is_missing,
    met,
    not_shown,
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
    vented_over_any: Limit[tuple[str, ...]]
    vented_over_board: Limit[tuple[str, ...]]
    boards: Limit[tuple[str, ...]]
    no_class_i: Limit[tuple[str, ...]]
    foam_over_2x4: Limit[dict[str, Insulation]]
    foam_over_2x6: Limit[dict[str, Insulation]]
    zone: Limit[str] = reads("criteria.climate-zone")


@rule("energy.vapor-retarder", stage="insulation")
def vapor_retarder(part: EnvelopePart, limit: RetarderLimits, house: House) -> Check:
    """Framed walls in cold zones have a vapor retarder on the warm side, and in warm ones none that is as tight as foil.

    Paint (class III) does behind vented cladding, in the coldest zones over some sheathing or not at all, and behind as
    much continuous insulation outside as the zone and the depth of the studs ask for.
    """
    if part.assembly.what != "wall":
        return does_not_apply("not a framed wall")
    zone = house.criterion(limit.zone.value, "climate_zone")
    tight = one_of(part.assembly.vapor_retarder, limit.classes)
    painted = one_of(part.assembly.vapor_retarder, limit.with_vented_cladding)
    vented = decide(part.assembly.vented_cladding, _vented(part, zone, limit), _foam(part, zone, limit))
    cold = when_given(lambda text: _in(str(text), limit.zones.value), zone)
    due = tight if tight.is_met else any_of(tight, all_of(painted, vented))
    retarder = [NewValue(part.assembly, "vapor_retarder", "class II")]
    return decide(cold, due.or_fix(FIX, lambda: retarder), _where_warm(part, zone, limit))


def _where_warm(part: EnvelopePart, zone: Any, limit: RetarderLimits) -> Check:
    own = part.assembly.vapor_retarder
    warm = limit.no_class_i.value or ()
    if is_missing(zone) and own == "class I" and warm:
        return not_shown(zone)
    if own != "class I" or is_missing(zone) or not _in(str(zone), warm):
        return does_not_apply("not asked in this climate zone")
    told = (
        "a class I vapor retarder is not permitted in this climate zone, unless it opens to more than 1 perm when damp"
    )
    remedy = "use a class II or III vapor retarder, or give the wet-cup permeance of this one"
    return broken(told, limit.no_class_i).or_fix(
        remedy, lambda: [NewValue(part.assembly, "vapor_retarder", "class III")]
    )


def _vented(part: EnvelopePart, zone: Any, limit: RetarderLimits) -> Check:
    """Check that vented cladding lets paint do in this zone; over foam enough for the zone it does not matter."""
    if is_missing(zone):
        return not_shown(zone)
    if _in(str(zone), limit.vented_over_any.value or ()):
        return met("the cladding is vented")
    foam = _foam(part, zone, limit)
    if _in(str(zone), limit.vented_over_board.value or ()):
        return any_of(one_of(part.assembly.sheathing, limit.boards, "behind the vented cladding"), foam)
    told = "vented cladding is not enough for paint alone in this climate zone"
    return broken(told, limit.vented_over_any) if is_missing(part.continuous) else foam


def _foam(part: EnvelopePart, zone: Any, limit: RetarderLimits) -> Check:
    """Compare the continuous insulation with what the zone asks over the studs; the deeper ones ask for more."""
    tables = (limit.foam_over_2x4, limit.foam_over_2x6)
    over_2x4, over_2x6 = (at_least(part.continuous, in_zone(table, zone)) for table in tables)
    deep = when_given(lambda studs: studs == "2x6", part.assembly.studs)
    return decide(deep, over_2x6, over_2x4)


def _in(zone: str, zones: tuple[str, ...]) -> bool:
    marine = "4" in zone and ("c" in zone.lower() or "marine" in zone.lower())
    return f"zone {zone_number(zone)}" in zones or (marine and "zone 4 marine" in zones)
