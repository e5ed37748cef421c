"""Bathrooms, which have a window or a fan; and the heating of habitable rooms."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from precheck_plugins.light_and_air.openings import area, glazed, openable, total

from precheck import (
    AirFlow,
    Area,
    Check,
    Exhaust,
    Fact,
    Heating,
    House,
    Limit,
    Outcome,
    Ratio,
    Space,
    Temperature,
    all_of,
    any_of,
    at_least,
    broken,
    does_not_apply,
    is_missing,
    not_shown,
    one_of,
    reads,
    required,
    rule,
)

BATHS = frozenset(("bathroom", "toilet room"))


@dataclass(frozen=True)
class Bath(Fact):
    """A bathroom or toilet room, and the fan that exhausts it."""

    room: Space
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Bath]:
        """Yield every bathroom and toilet room."""
        yield from (cls(room, room, house) for room in house.spaces if room.use in BATHS)

    @property
    def fans(self) -> list[Exhaust]:
        """The fans of the room that are there when the work is done."""
        return [e for e in self.house.project.exhausts if e.space == self.room.id and not e.is_removed]


class BathLimits(NamedTuple):
    glass: Limit[Area]
    openable_share: Limit[Ratio]
    fan_on_demand: Limit[AirFlow]
    fan_all_the_time: Limit[AirFlow]
    fan_goes_to: Limit[tuple[str, ...]]


@rule("light-and-air.bathroom", stage="rough-in")
def bathroom(bath: Bath, limit: BathLimits) -> Check:
    """A bathroom or toilet room has a window, half of whose least glass opens, or else a fan that exhausts outdoors."""
    fans = [_fan(fan, limit) for fan in bath.fans]
    window = _window(bath, limit)
    if not fans and window.outcome not in (Outcome.PASS, Outcome.WARN):
        missing = bath.room.absent("exhaust fan (or a window large enough)")
        return not_shown(missing) if window.outcome is Outcome.FAIL else any_of(window, not_shown(missing))
    return any_of(window, *fans).or_fix(
        f"add a fan of {limit.fan_on_demand.value} ducted outdoors, or a window with {limit.glass.value} of glass"
    )


def _window(bath: Bath, limit: BathLimits) -> Check:
    glass = total(bath.room, bath.house, glazed)
    opens = total(bath.room, bath.house, openable)
    if not glass.names:
        return broken("no window is drawn")
    if limit.glass.value is None or limit.openable_share.value is None:
        return at_least(glass.sure, limit.glass)
    return all_of(area(glass, limit.glass), _half(opens.sure, opens.lacking is None, limit, bath))


def _half(opens: Area, is_known: bool, limit: BathLimits, bath: Bath) -> Check:
    part = Ratio(opens / limit.glass.value)
    if is_known or part >= limit.openable_share.value:
        return at_least(part, limit.openable_share, f"{opens} that opens / {limit.glass.value}")
    return at_least(bath.room.absent("openable area of its window"), limit.openable_share)


def _fan(fan: Exhaust, limit: BathLimits) -> Check:
    always = at_least(fan.flow, limit.fan_all_the_time)
    enough = at_least(fan.flow, limit.fan_on_demand)
    if enough.outcome not in (Outcome.PASS, Outcome.WARN) and fan.runs != "on demand":
        enough = always if fan.runs == "continuously" or always.outcome is not Outcome.PASS else not_shown(fan.runs)
    return all_of(enough, one_of(fan.discharges_to, limit.fan_goes_to).or_fix("duct it to the outdoors"))


class HeatLimits(NamedTuple):
    least: Limit[Temperature]
    winters_below: Limit[Temperature]
    permanent: Limit[bool]
    winter: Limit[Temperature] = reads("criteria.winter-design-temperature")


@rule("light-and-air.heating", stage="rough-in")
def heating(room: Space, limit: HeatLimits, house: House) -> Check:
    """Where winters are cold, a heating system that is no portable heater holds each habitable room warm enough."""
    winter, mild = limit.winter.value, limit.winters_below.value
    if not room.is_habitable:
        return does_not_apply("not a habitable room")
    if isinstance(winter, Temperature) and isinstance(mild, Temperature) and winter >= mild:
        return does_not_apply(f"the winter design temperature, {winter}, is not below {mild}")
    systems = [h for h in house.project.heating if not h.is_removed and (room.id in h.serves or not h.serves)]
    if not systems:
        return not_shown(room.absent("heating"))
    return any_of(*(_heats(system, room, limit) for system in systems)).or_fix(
        f"show a heating system that holds {room.id} at {limit.least.value}"
    )


def _heats(system: Heating, room: Space, limit: HeatLimits) -> Check:
    kept = system.room_temperature_kept
    holds = required(kept, limit.least, f"{limit.least.value} kept in {room.id}")
    warm = at_least(room.heated_to, limit.least) if is_missing(kept) and not is_missing(room.heated_to) else holds
    return all_of(required(system.permanent, limit.permanent, "permanent heating"), warm)
