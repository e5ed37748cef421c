"""Electrical work at heating and cooling equipment: the receptacle for service, and the disconnect."""

from __future__ import annotations

from precheck import (
    Appliance,
    Check,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Receptacle,
    any_of,
    at_most,
    does_not_apply,
    required,
    rule,
)

SERVED = frozenset(("furnace", "boiler", "air handler", "heat pump", "mini-split", "air conditioner"))
NO_EQUIPMENT = does_not_apply("not heating or cooling equipment")


class ReceptacleLimits(Limits):
    within: Limit[Length]


@rule("electrical.equipment-receptacle", stage="final")
def equipment_receptacle(appliance: Appliance, limit: ReceptacleLimits, house: House) -> Check:
    """Heating and cooling equipment has a service receptacle near it on the same level."""
    if appliance.what not in SERVED:
        return NO_EQUIPMENT
    near = [r for r in house.subjects(Receptacle) if r.space == appliance.space and not r.is_removed]
    serving = [r for r in near if r.serves == "equipment"]
    close = [r for r in near if r not in serving and isinstance(r.to_equipment, Length)]
    if not serving and not close:
        return at_most(appliance.absent("receptacle for service"), limit.within)
    return any_of(*(at_most(r.to_equipment, limit.within) for r in (*serving, *close)))


class DisconnectLimits(Limits):
    visible: Limit[bool]


@rule("electrical.disconnect", stage="rough-in")
def disconnect(appliance: Appliance, limit: DisconnectLimits) -> Check:
    """Heating and cooling equipment has a disconnect in sight of it."""
    if appliance.what not in SERVED:
        return NO_EQUIPMENT
    return required(appliance.disconnect_in_sight, limit.visible).or_fix(
        "set a disconnect in sight of the equipment", lambda: [NewValue(appliance, "disconnect_in_sight", True)]
    )
