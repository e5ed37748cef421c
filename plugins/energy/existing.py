"""Newly heated space: its permanent heating."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.energy.envelope import EITHER, heaters_of, is_heated_anew, is_newly_conditioned

from precheck import (
    Appliance,
    Check,
    Fact,
    Heating,
    House,
    Limit,
    Limits,
    Missing,
    NewValue,
    Space,
    Temperature,
    all_of,
    any_of,
    broken,
    decide,
    does_not_apply,
    fact,
    met,
    reads,
    required,
    rule,
    unsettled,
    when_given,
)


@fact
class NewlyConditioned(Fact):
    """A garage, attic, porch or store that becomes heated space, or a new room to live in."""

    space: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[NewlyConditioned]:
        """Yield every space that the work newly conditions."""
        for space in house.subjects(Space):
            anew = is_newly_conditioned(space) or (space.was in EITHER and space.changes_use and is_heated_anew(space))
            if anew or (space.phase == "new" and space.is_habitable and is_heated_anew(space)):
                yield cls(space, space)

    @property
    def phase(self) -> str:
        """It must comply as new, whatever stood there."""
        return "removed" if self.space.is_removed else "new"


class HeatLimits(Limits):
    permanent: Limit[bool]
    room_temperature: Limit[Temperature]
    sized: Limit[bool]
    thermostat: Limit[bool]
    mild_from: Limit[Temperature]
    winter: Limit[Temperature] = reads("criteria.winter-design-temperature")


@rule("energy.heating", stage="plan", existing="must comply")
def heating(room: NewlyConditioned, limit: HeatLimits, house: House) -> Check:
    """New habitable rooms have permanent heating, sized by a load calculation.

    None is asked where winters are mild.
    """
    if not room.space.is_habitable:
        return does_not_apply("not a habitable room")
    winter = house.criterion(limit.winter.value, "winter_design_temperature")
    mild = when_given(lambda cold: cold >= limit.mild_from.value, winter)
    if mild is True:
        return does_not_apply(f"the winter design temperature is {winter}")
    serving = heaters_of(room.space, house)
    if not serving:
        return required(room.space.absent("heating"), limit.permanent)
    return any_of(*(_by(heat, limit) for heat in serving))


def _by(heat: Heating | Appliance, limit: HeatLimits) -> Check:
    sized = required(heat.sized_by_load_calculation, limit.sized).or_fix(
        "size it by a load calculation of the rooms", lambda: [NewValue(heat, "sized_by_load_calculation", "yes")]
    )
    if isinstance(heat, Appliance):  # fixed in place, with a thermostat of its own
        return sized
    return all_of(
        required(heat.permanent, limit.permanent).or_fix(
            "use heating that is fixed in place; portable heaters do not count",
            lambda: [NewValue(heat, "permanent", "yes")],
        ),
        _kept_warm(heat.room_temperature_kept, limit.room_temperature),
        sized,
        decide(
            heat.forced_air,
            required(heat.programmable_thermostat, limit.thermostat),
            does_not_apply("it is not forced air"),
        ),
    )


def _kept_warm(kept: bool | Missing, limit: Limit[Temperature]) -> Check:
    said = broken(f"the heating does not keep {limit.value}", limit)
    return unsettled(limit) or decide(kept, met(f"the heating keeps {limit.value}"), said).citing(limit)
