"""What is around an appliance: clearance to what burns, rated walls of its room, and propane that cannot run off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.appliances.places import PlacedAppliance

from precheck import (
    OUTSIDE,
    Appliance,
    Check,
    Duration,
    Fact,
    House,
    Limit,
    Limits,
    Missing,
    Space,
    Wall,
    all_of,
    at_least,
    decide,
    does_not_apply,
    every,
    fact,
    if_stated,
    required,
    rule,
    when_given,
)

HEATS = frozenset(("furnace", "boiler"))


class ClearanceLimits(Limits):
    labeled: Limit[bool]


@rule("appliances.clearance", stage="rough-in")
def clearance(at: PlacedAppliance, limit: ClearanceLimits) -> Check:
    """A fuel-burning appliance has the clearance to combustibles on its label."""
    appliance = at.appliance
    kept = when_given(lambda own, label: own >= label, appliance.clearance, appliance.labeled_clearance)
    drawn = f"{appliance.clearance} drawn, {appliance.labeled_clearance} on the label"
    far = if_stated(kept, required, limit.labeled, drawn)
    far = far.or_fix("move it away from combustibles, or shield them by the manufacturer's instructions")
    return decide(appliance.burns_fuel, far, does_not_apply("it burns no fuel"))


@fact
class WalledAppliance(Fact):
    """An appliance and the walls between its room and others. An old one is judged anew within a new wall."""

    appliance: Appliance
    space: Space
    placed: Any
    walls: tuple[Wall, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[WalledAppliance]:
        """Yield every appliance that is there when the work is done."""
        inner = [w for w in house.subjects(Wall) if not w.is_removed and OUTSIDE not in w.between]
        for at in house.subjects(PlacedAppliance):
            walls = tuple(wall for wall in inner if at.space.id in wall.between)
            yield cls(at.appliance, at.appliance, at.space, at.phase, walls)

    @property
    def phase(self) -> Any:
        """As where it stands, or ``new`` where one of the walls is."""
        return self.placed if self.placed != "existing" else super().phase


class HeatingRoomLimits(Limits):
    rating: Limit[Duration]


@rule("appliances.heating-room", stage="framing")
def heating_room(at: WalledAppliance, limit: HeatingRoomLimits) -> Check:
    """Where the jurisdiction asks for it, the walls of a furnace or boiler room are fire-rated."""
    if at.appliance.what not in HEATS:
        return does_not_apply("neither a furnace nor a boiler")
    drawn = [at_least(wall.fire_rating, limit.rating, wall.label) for wall in at.walls]
    rated = every(drawn, "") if drawn else at_least(at.space.absent("walls around it"), limit.rating)
    return decide(at.appliance.burns_fuel, rated, does_not_apply("it burns no fuel"))


class PropaneLimits(Limits):
    detector: Limit[bool]
    drain: Limit[bool]


@rule("appliances.propane-below-grade", stage="rough-in")
def propane_below_grade(at: PlacedAppliance, limit: PropaneLimits, house: House) -> Check:
    """Where the jurisdiction says so, propane in a basement or crawl space has a gas detector and a drain to daylight.

    Propane is heavier than air and gathers where it cannot run off.
    """
    appliance = at.appliance
    propane = when_given(lambda fuel: fuel == "propane", appliance.fuel)
    both = all_of(required(appliance.gas_detector, limit.detector), required(appliance.drain_to_daylight, limit.drain))
    due = decide(_below_grade(at, house), both, does_not_apply("it stands above grade"))
    return decide(propane, due, does_not_apply("it burns no propane"))


def _below_grade(at: PlacedAppliance, house: House) -> bool | Missing:
    level = house.story_level(at.space)
    return True if at.under_floor else when_given(lambda story: story == "basement", level)
