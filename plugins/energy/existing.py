"""Newly conditioned space: what the drawings must show of its envelope and its heating."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.energy.envelope import is_newly_conditioned

from precheck import (
    Assembly,
    Check,
    Fact,
    Heating,
    House,
    Limit,
    Limits,
    Missing,
    SlabEdge,
    Space,
    Temperature,
    all_of,
    broken,
    decide,
    does_not_apply,
    fact,
    met,
    one_of,
    reads,
    required,
    rule,
    unsettled,
    when_given,
)


@fact
class NewlyConditioned(Fact):
    """A garage, carport, attic or porch that becomes conditioned space, or a new conditioned space."""

    space: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[NewlyConditioned]:
        """Yield every space that the work newly conditions."""
        for space in house.subjects(Space):
            if is_newly_conditioned(space) or (space.phase == "new" and space.is_habitable):
                yield cls(space, space)

    @property
    def phase(self) -> str:
        """It must comply as new, whatever stood there."""
        return "removed" if self.space.is_removed else "new"


class ShownLimits(Limits):
    parts: Limit[tuple[str, ...]]


@rule("energy.envelope-shown", stage="plan", existing="must comply")
def envelope_shown(room: NewlyConditioned, limit: ShownLimits, house: House) -> Check:
    """The insulation of walls, ceiling and floor of new and newly conditioned space is on the drawings.

    Space that was a garage, carport, attic or porch counts as new, and so what encloses it must meet today's table.
    """
    own = [a.what for a in house.subjects(Assembly) if a.space == room.space.id and not a.is_removed]
    shown = {"wall" if "wall" in what else what for what in own}
    if any(edge.space == room.space.id for edge in house.subjects(SlabEdge)):
        shown.add("floor")
    return all_of(*(_shown(room, part, part in shown, limit) for part in limit.parts.value)).because(
        f"{room.space.id} is new or newly conditioned space"
    )


def _shown(room: NewlyConditioned, part: str, drawn: bool, limit: ShownLimits) -> Check:
    return one_of(part if drawn else room.space.absent(f"insulation of the {part}"), limit.parts)


class HeatLimits(Limits):
    permanent: Limit[bool]
    kept: Limit[Temperature]
    sized: Limit[bool]
    thermostat: Limit[bool]
    mild_from: Limit[Temperature]
    winter: Limit[Temperature] = reads("criteria.winter-design-temperature")


@rule("energy.heating", stage="plan", existing="must comply")
def heating(room: NewlyConditioned, limit: HeatLimits, house: House) -> Check:
    """New and newly conditioned habitable rooms have permanent heating that keeps them warm, sized by calculation.

    None is asked where winters are mild.
    """
    if not room.space.is_habitable:
        return does_not_apply("not a habitable room")
    winter = limit.winter.value
    mild = when_given(lambda cold: cold >= limit.mild_from.value, winter)
    if mild is True:
        return does_not_apply(f"the winter design temperature is {winter}")
    serving = [h for h in house.subjects(Heating) if room.space.id in h.serves and not h.is_removed]
    if not serving:
        return required(room.space.absent("heating"), limit.permanent)
    heat = serving[0]
    by_air = heat.forced_air is True
    return all_of(
        required(heat.permanent, limit.permanent).or_fix("portable heaters do not count"),
        _kept_warm(heat.room_temperature_kept, limit.kept),
        required(heat.sized_by_load_calculation, limit.sized),
        required(heat.programmable_thermostat, limit.thermostat) if by_air else does_not_apply("no forced air"),
    )


def _kept_warm(kept: bool | Missing, limit: Limit[Temperature]) -> Check:
    said = broken(f"the heating does not keep {limit.value}", limit)
    return unsettled(limit) or decide(kept, met(f"the heating keeps {limit.value}"), said).citing(limit)
