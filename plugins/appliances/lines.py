"""What works take of appliances: where equipment stands, air for what burns a fuel, gas piping."""

from __future__ import annotations

from precheck_plugins.appliances.places import GAS

from precheck import (
    Appliance,
    Check,
    CombustionAir,
    Heating,
    House,
    Missing,
    Part,
    Pipe,
    Work,
    YardEquipment,
    does_not_apply,
    is_missing,
    line,
    not_shown,
    shown,
    to_show,
)

EQUIPMENT = "what becomes of the water heater, furnace and laundry"
HEATS = frozenset(("furnace", "boiler", "air handler", "room heater", "heat pump", "mini-split"))


@line("appliances.equipment")
def equipment(work: Work, house: House) -> Check:
    """The plans show where the equipment stands; its disconnect, receptacle and condensate are asked with it."""
    standing = [part for part in work.parts if isinstance(part, Appliance)]
    if standing:
        return shown(*standing)
    if work.kind == "water heater":
        return to_show("water heater and where it stands", work)
    heating = work.parts_of(Heating)
    served_by = [a for a in house.subjects(Appliance) if a.what in HEATS and not a.is_removed]
    if heating and served_by:
        return shown(*served_by)
    outside = work.parts_of(YardEquipment)
    if outside:
        return to_show("", work, outside[0].absent("indoor unit, with its disconnect and condensate drain"))
    if heating:
        return to_show("", work, heating[0].absent("furnace, air handler or other equipment, and where it stands"))
    return to_show("where the equipment stands, with its disconnect, service receptacle and condensate drain", work)


@line("appliances.combustion-air")
def combustion_air(work: Work, house: House) -> Check:
    """The plans show where appliances that burn a fuel get their air, where they stand in or by the rooms of the work."""
    if work.kind in ("heating or cooling", "water heater") and work.parts:
        near = [part for part in work.parts if isinstance(part, Appliance)]
    else:
        near = [a for a in house.subjects(Appliance) if _is_near(a, work, house) and not a.is_removed]
    if not near:
        return _none_drawn(work, house)
    unsaid = [burns for a in near if is_missing(burns := a.burns_fuel)]
    burning = [a for a in near if a.burns_fuel is True and a.direct_vent is not True]
    lacking = [missing for a in burning if (missing := _air_of(a, house)) is not None]
    if unsaid or lacking:
        return not_shown(*unsaid, *lacking)
    if not burning:
        return does_not_apply("nothing near it burns a fuel with air of the rooms")
    return shown(*burning)


def _is_near(appliance: Appliance, work: Work, house: House) -> bool:
    """Whether an appliance stands in a room of the work, in one beside it, or in what is left of the one it was."""
    space = house.space(appliance.space)
    return not work.rooms or any(room is space or space in house.beside(room) for room in work.rooms)


def _none_drawn(work: Work, house: House) -> Check:
    """Return what is due where no appliance is drawn near: it hangs on whether the house has any that burns a fuel."""
    dwelling = house.project.dwelling
    burns = (
        house.project.absent("fuel burning appliance of dwelling")
        if is_missing(dwelling)
        else dwelling.fuel_burning_appliance
    )
    if is_missing(burns) and work.rooms and not house.subjects(Appliance):
        return to_show(EQUIPMENT, work)  # asked once, with what becomes of them
    if is_missing(burns):
        return not_shown(burns)
    elsewhere = [a for a in house.subjects(Appliance) if a.burns_fuel is True and not a.is_removed]
    if burns is False or elsewhere:
        return does_not_apply("nothing near it burns a fuel")
    return to_show("appliances that burn a fuel, where they stand and where their air comes from", work)


def _air_of(appliance: Appliance, house: House) -> Missing | None:
    """Return what is missing of the air of an appliance that takes it from its room; gas has rules that ask for more."""
    drawn = [air for air in house.subjects(CombustionAir) if not air.is_removed]
    there = any(appliance.space in (air.space, *air.joined) for air in drawn)
    if there or appliance.fuel in GAS:
        return None
    return appliance.combustion_air if is_missing(appliance.combustion_air) else None


@line("appliances.gas-piping")
def gas_piping(work: Work, house: House) -> Check:
    """The plans show the gas piping to a new appliance that burns gas, with the input that it is sized for."""
    new = [part for part in work.parts if isinstance(part, Appliance) and part.replacement is not True]
    if work.parts and not new:
        return does_not_apply("it brings no appliance that was not there")
    if not work.parts:
        return to_show("fuel of the equipment, and gas piping where it burns gas", work)
    unsaid = [burns for a in new if is_missing(burns := a.burns_fuel)]
    burning = [a for a in new if a.fuel in GAS]
    if unsaid:
        return not_shown(*unsaid)
    if not burning:
        return does_not_apply("it burns no gas")
    return _piped(burning, [pipe for pipe in house.subjects(Pipe) if pipe.what == "gas" and not pipe.is_removed])


def _piped(burning: list[Appliance], pipes: list[Pipe]) -> Check:
    found: list[Part] = []
    for appliance in burning:
        serving = [pipe for pipe in pipes if appliance.space in pipe.serves]
        if not serving:
            unsaid = [pipe.absent("serves") for pipe in pipes if not pipe.serves]
            return not_shown(*(unsaid[:1] or [appliance.absent("gas pipe")]))
        found += serving[:1]
    return shown(*dict.fromkeys(found))
