"""What works inside a house take of alarms: smoke alarms, and carbon monoxide alarms where something calls for them."""

from __future__ import annotations

from precheck_plugins.alarms.rules.carbon_monoxide import GAS, fuel_burning, garages_joined
from precheck_plugins.alarms.rules.smoke import SMOKE
from precheck_plugins.alarms.rules.smoke import shown as alarms_shown

from precheck import (
    Check,
    DwellingUnit,
    Fixture,
    House,
    Outcome,
    Stair,
    Wall,
    Work,
    all_of,
    does_not_apply,
    is_missing,
    is_outdoors,
    line,
    missing_of,
    not_shown,
    shown,
)


@line("alarms.shown")
def alarms_on_plan(work: Work, house: House) -> Check:
    """The plan shows the smoke alarms of the house, and the carbon monoxide alarms where a fuel or a garage calls for them."""
    if why := _why_exempt(work, house):
        return does_not_apply(why)
    checks = [_of_unit(unit) for unit in house.subjects(DwellingUnit) if _is_in(unit, work)]
    found = all_of(*checks)
    return shown("the alarms drawn") if found.outcome is Outcome.PASS else found


def _why_exempt(work: Work, house: House) -> str:
    """Return why this very work makes no alarms due, as work outdoors and on the plumbing alone does not."""
    if work.parts and all(isinstance(part, Fixture) for part in work.parts):
        return "only plumbing fixtures are changed"
    sides = [side for part in work.parts if isinstance(part, Stair | Wall) for side in part.between]
    if sides and all(is_outdoors(side, house) for side in sides):
        return "it stands outdoors"
    stairs = [part for part in work.parts if isinstance(part, Stair)]
    if stairs and all(any(is_outdoors(side, house) for side in stair.between) for stair in stairs):
        return "it is an outside stair"
    return ""


def _is_in(unit: DwellingUnit, work: Work) -> bool:
    return not work.parts or any(unit.holds(part) is not False for part in work.parts)


def _of_unit(unit: DwellingUnit) -> Check:
    smoke = alarms_shown(unit, SMOKE)
    calls = [fuel_burning(unit), *garages_joined(unit)]
    if any(isinstance(one, str) for one in calls):
        return all_of(smoke, alarms_shown(unit, GAS))
    unsaid = missing_of(*calls)
    gas = alarms_shown(unit, GAS)
    if unsaid is None or gas.outcome is Outcome.PASS:
        return smoke
    return all_of(smoke, not_shown(*(one for one in calls if is_missing(one))))
