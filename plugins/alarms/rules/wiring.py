"""How alarms are wired: sounding together, fed by the house, and listed."""

from __future__ import annotations

from precheck_plugins.alarms.places import choices, if_due, in_unit_of
from precheck_plugins.alarms.rules.carbon_monoxide import GAS
from precheck_plugins.alarms.rules.carbon_monoxide import exempt as exempt_of_gas
from precheck_plugins.alarms.rules.smoke import SMOKE
from precheck_plugins.alarms.rules.smoke import exempt as exempt_of_smoke

from precheck import (
    SHARED,
    Alarm,
    Check,
    DwellingUnit,
    House,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Scope,
    Space,
    all_of,
    broken,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
)


class TogetherLimits(Limits):
    sounding_together: Limit[bool]
    unopened_areas: Limit[str]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-interconnected", stage="rough-in", existing="must comply")
def smoke_interconnected(alarm: Alarm, limit: TogetherLimits, house: House) -> Check:
    """All smoke alarms of a dwelling unit sound together, by wire or by a listed radio link.

    Alarms of another unit need not sound too. The 2015 edition, and some jurisdictions, leave alarms alone in existing
    areas whose finishes stay closed, unless an attic, crawl space or basement gives a way to wire them.
    """
    check = _together(alarm, SMOKE, limit.sounding_together, limit.unopened_areas, house)
    due = _for_smoke(alarm, limit, check, house)
    return _with_others(alarm, SMOKE, due, house) if len(house.subjects(DwellingUnit)) > 1 else due


class GasTogetherLimits(Limits):
    sounding_together: Limit[bool]
    unopened_areas: Limit[str]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.carbon-monoxide-due.added-bedroom")


@rule("alarms.carbon-monoxide-interconnected", stage="rough-in", existing="must comply")
def carbon_monoxide_interconnected(alarm: Alarm, limit: GasTogetherLimits, house: House) -> Check:
    """Where more than one carbon monoxide alarm is shown in a dwelling unit, they sound together."""
    check = _together(alarm, GAS, limit.sounding_together, limit.unopened_areas, house)
    return _with_others(alarm, GAS, _for_gas(alarm, limit, check, house), house)


class PowerLimits(Limits):
    sources: Limit[tuple[str, ...]]
    battery_in_existing_house: Limit[str]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-power", stage="rough-in", existing="must comply")
def smoke_power(alarm: Alarm, limit: PowerLimits, house: House) -> Check:
    """Smoke alarms are fed by the house wiring, with a battery to take over and no switch that turns them off.

    Alarms that work in an existing dwelling makes due may run on batteries.
    """
    return _for_smoke(alarm, limit, _power(alarm, limit.sources, limit.battery_in_existing_house, house), house)


class GasPowerLimits(Limits):
    sources: Limit[tuple[str, ...]]
    battery_in_existing_house: Limit[str]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.carbon-monoxide-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.carbon-monoxide-due.added-bedroom")


@rule("alarms.carbon-monoxide-power", stage="rough-in", existing="must comply")
def carbon_monoxide_power(alarm: Alarm, limit: GasPowerLimits, house: House) -> Check:
    """Carbon monoxide alarms are fed by the house wiring, with a battery to take over, as smoke alarms are."""
    return _for_gas(alarm, limit, _power(alarm, limit.sources, limit.battery_in_existing_house, house), house)


class ListingLimits(Limits):
    smoke: Limit[tuple[str, ...]]
    carbon_monoxide: Limit[tuple[str, ...]]


@rule("alarms.listed", stage="rough-in")
def listed(alarm: Alarm, limit: ListingLimits) -> Check:
    """Each alarm is listed for all that it detects; one that detects both is listed for both and may serve for both.

    The label is looked at in the field; the plans need not give it.
    """
    if is_missing(alarm.listed_to):
        return does_not_apply("its listing is not stated, and is looked at in the field")
    if is_missing(alarm.detects):
        return not_shown(alarm.detects)
    wanted = {"smoke": limit.smoke, "carbon monoxide": limit.carbon_monoxide}
    return all_of(*(_listed(alarm.listed_to, what, wanted[what]) for what in alarm.detects))


def _listed(listings: tuple[str, ...], what: str, wanted: Limit[tuple[str, ...]]) -> Check:
    fitting = next((x for x in listings if x in choices(wanted)), ", ".join(listings) or "no listing")
    return one_of(fitting, wanted).or_fix(f"choose an alarm listed for {what}")


def _together(alarm: Alarm, what: str, together: Limit[bool], relief: Limit[str], house: House) -> Check:
    if _detects_no(alarm, what):
        return does_not_apply(f"it detects no {what}")
    check = required(alarm.interconnected, together).or_fix(
        "interconnect it, by wire or by a listed radio link", lambda: [NewValue(alarm, "interconnected", "yes")]
    )
    space = house.space(alarm.space)
    if alarm.interconnected is not False or relief.value is None or space is None or space.phase != "existing":
        return check
    way = wiring_access(house)
    closed = met("finishes stay closed here, and no attic, crawl space or basement gives a way to wire it")
    return decide(space.finishes_opened, check, decide(way, check, closed))


def _with_others(alarm: Alarm, what: str, check: Check, house: House) -> Check:
    """Return `check` where another alarm for `what` hangs in the same dwelling unit; those of other units do not count."""
    alarms = [a for a in house.project.alarms if not a.is_removed and not _detects_no(a, what)]
    found = [True if a is alarm else _in_same_unit(a, alarm, house) for a in alarms]
    several = len(house.subjects(DwellingUnit)) > 1
    alone = does_not_apply(f"it is the only {what} alarm{' of its dwelling unit' if several else ''}")
    unsaid = missing_of(*found)
    if found.count(True) < 2:  # itself, and another
        return alone if unsaid is None else decide(unsaid, check, alone)
    space = house.space(alarm.space)
    if several and space is not None and space.unit == SHARED and check.outcome is Outcome.FAIL:
        return look_at(Look.OFFICIAL, "it hangs in a space that the units share; ask what it has to sound with")
    return check


def _in_same_unit(one: Alarm, other: Alarm, house: House) -> bool | Missing:
    units = [space.unit for a in (one, other) if (space := house.space(a.space)) is not None]
    if len(house.subjects(DwellingUnit)) == 1:
        return True
    unsaid = missing_of(*units)
    return units[0] == units[-1] if unsaid is None else unsaid


def wiring_access(house: House) -> bool | Missing:
    """Return whether an attic, crawl space or basement gives a way to wire alarms: as stated, else as drawn."""
    dwelling = house.project.dwelling
    stated = house.project.absent("wiring access of dwelling") if is_missing(dwelling) else dwelling.wiring_access
    drawn = any(s.use in ("attic", "crawl space") or house.story_level(s) == "basement" for s in house.spaces)
    return stated if not is_missing(stated) else (drawn or stated)


SWITCH_NOT_STATED = does_not_apply("a switch that can turn it off: not stated")


def _power(alarm: Alarm, sources: Limit[tuple[str, ...]], relief: Limit[str], house: House) -> Check:
    if alarm.disconnecting_switch is True:
        return broken("a switch can turn it off").or_fix(
            "feed it ahead of any switch", lambda: [NewValue(alarm, "disconnecting_switch", "no")]
        )
    check = one_of(alarm.power, sources).or_fix(
        "feed it from the house wiring, with a battery",
        lambda: [NewValue(alarm, "power", choice) for choice in choices(sources)[:1]],
    )
    dwelling = house.project.dwelling
    if alarm.power != "battery" or check.outcome.word != "fail":
        return all_of(check, SWITCH_NOT_STATED) if is_missing(alarm.disconnecting_switch) else check
    if not is_missing(dwelling) and dwelling.commercial_power is False:
        return met("the house has no power from a utility")
    return check if relief.value is None else _in_existing_house(alarm, check, house)


def _in_existing_house(alarm: Alarm, check: Check, house: House) -> Check:
    space = house.space(alarm.space)
    untouched = isinstance(space, Space) and space.phase == "existing" and space.finishes_opened is not True
    relieved = met("alarms that work in an existing house makes due may run on batteries")
    if isinstance(space, Space) and is_missing(space.finishes_opened):
        relieved = all_of(relieved, does_not_apply("finishes opened: not stated"))
    ask = look_at(
        Look.OFFICIAL,
        "batteries are allowed for alarms that work in an existing house makes due; many departments still ask for "
        "house wiring in rooms that are new or whose walls are open, as here",
    )
    new: bool | Missing = house.subjects(Scope)[0].new_house
    return decide(new, check, relieved if untouched else ask)


def _for_smoke(alarm: Alarm, limit: Limits, check: Check, house: House) -> Check:
    if _detects_no(alarm, SMOKE):
        return does_not_apply("it detects no smoke")
    return _when_due(alarm, exempt_of_smoke(limit), check, house)  # type: ignore[arg-type]  # it has the two limits that are read


def _for_gas(alarm: Alarm, limit: GasTogetherLimits | GasPowerLimits, check: Check, house: House) -> Check:
    if _detects_no(alarm, GAS):
        return does_not_apply("it detects no carbon monoxide")
    return _when_due(alarm, exempt_of_gas(limit.exempt_work, limit.added_bedroom), check, house)


def _when_due(alarm: Alarm, kinds: tuple[str, ...], check: Check, house: House) -> Check:
    def judge(unit: DwellingUnit) -> Check:
        why = own or unit.scope.why_due(kinds)
        return if_due(unit.scope.makes_due(kinds), check, why, unit.scope.why_not_due())

    own = check.why
    return in_unit_of(house.space(alarm.space), house, judge)


def _detects_no(alarm: Alarm, what: str) -> bool:
    return not is_missing(alarm.detects) and what not in alarm.detects
