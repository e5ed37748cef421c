"""Bathrooms, which have a window or a fan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.light_and_air.openings import Outlook, Total, area, glazed, openable, total

from precheck import (
    AirFlow,
    Area,
    Check,
    Exhaust,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Outcome,
    Ratio,
    Space,
    all_of,
    any_of,
    at_least,
    broken,
    fact,
    more_than,
    not_shown,
    one_of,
    outlook_of,
    reads,
    rule,
)

BATHS = frozenset(("bathroom", "toilet room"))


@fact
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
        """The fans of the room that are there when the work is done. A hood is a fan of the cooking below it."""
        here = [e for e in self.house.project.exhausts if e.space == self.room.id]
        return [e for e in here if not e.is_removed and e.what != "range hood"]

    @property
    def phase(self) -> Any:
        """``new`` where a bath stands and the work takes a fan or window from it, or builds before a window of it."""
        windows = [w for w in self.house.project.windows if w.space == self.room.id]
        own = [*windows, *(e for e in self.house.project.exhausts if e.space == self.room.id)]
        built = [s for w in windows if not w.is_removed for s in outlook_of(w, self.room, self.house)]
        touched = any(one.phase == "removed" for one in own) or any(s.phase in ("new", "altered") for s in built)
        return "new" if self.room.phase == "existing" and touched else self.room.phase


class BathLimits(Limits):
    glass: Limit[Area]
    openable_share: Limit[Ratio]
    fan_intermittent: Limit[AirFlow] = reads("ventilation.exhaust-rate.bath-intermittent")
    fan_all_the_time: Limit[AirFlow] = reads("ventilation.exhaust-rate.bath-continuous")
    fan_goes_to: Limit[tuple[str, ...]] = reads("ventilation.exhaust-outlet.leads-to")
    porch_side_open: Limit[Ratio] = reads("light-and-air.glazing.porch-side-open")
    porch_height: Limit[Length] = reads("light-and-air.glazing.porch-height")
    under_deck: Limit[Length] = reads("light-and-air.glazing.under-deck")
    sunroom_open: Limit[Ratio] = reads("light-and-air.glazing.sunroom-open")


@rule("light-and-air.bathroom", stage="rough-in")
def bathroom(bath: Bath, limit: BathLimits) -> Check:
    """A bathroom or toilet room has a window, half of whose required glass opens, or else a fan that moves enough air.

    Where the air of a fan ends is judged with the fan (`ventilation.exhaust-outlet`). A fan that stands may keep its
    outlet there, so that it is judged here for a room that is new or altered.
    """
    fans = [_fan(fan, bath.room, limit) for fan in bath.fans]
    window = _window(bath, limit)
    if not fans and window.outcome not in (Outcome.PASS, Outcome.WARN):
        missing = bath.room.absent("exhaust fan (or a window large enough)")
        return not_shown(missing) if window.outcome is Outcome.FAIL else any_of(window, not_shown(missing))
    if fans and window.outcome is Outcome.FAIL:
        return any_of(*fans)
    return any_of(window, *fans).or_fix(
        f"add a fan of {limit.fan_intermittent.value} ducted outdoors, or a window with {limit.glass.value} of glass",
        decide="where it goes",
    )


def _window(bath: Bath, limit: BathLimits) -> Check:
    def counts(outlook: Outlook) -> Check | None:
        return _is_outdoors(outlook, bath.house, limit)

    glass = total(bath.room, bath.house, glazed, counts)
    opens = total(bath.room, bath.house, openable, counts)
    if not glass.names:
        return broken("no window is drawn")
    if not isinstance(limit.glass.value, Area) or not isinstance(limit.openable_share.value, Ratio):
        return all_of(at_least(glass.sure, limit.glass), at_least(bath.room.absent("glass"), limit.openable_share))
    return all_of(area(glass, limit.glass), _half(opens, limit))


def _is_outdoors(outlook: Outlook, house: House, limit: BathLimits) -> Check:
    """Return whether what a window looks into is open enough to count as outdoors."""
    roof = outlook.under
    if roof is None:
        return at_least(getattr(outlook.opening, "path_height", limit.under_deck.value), limit.under_deck)
    high = at_least(house.ceiling_height(roof), limit.porch_height)
    if roof.use != "sunroom":
        return all_of(at_least(roof.longer_side_open, limit.porch_side_open), high)
    if limit.sunroom_open.value is None:
        return broken(f"it looks into {roof.id}")
    return all_of(more_than(roof.perimeter_open, limit.sunroom_open), high)


def _half(opens: Total, limit: BathLimits) -> Check:
    part = Ratio(opens.sure / limit.glass.value)
    if opens.lacking is None or part >= limit.openable_share.value:
        return at_least(part, limit.openable_share, f"{opens.sure} that opens / {limit.glass.value}")
    return at_least(opens.lacking, limit.openable_share)


def _fan(fan: Exhaust, room: Space, limit: BathLimits) -> Check:
    always = at_least(fan.flow, limit.fan_all_the_time)
    enough = at_least(fan.flow, limit.fan_intermittent)
    if enough.outcome not in (Outcome.PASS, Outcome.WARN) and fan.runs != "on demand":
        enough = always if fan.runs == "continuously" or always.outcome is not Outcome.PASS else not_shown(fan.runs)
    enough = all_of(enough).or_fix(
        f"put in a fan of {limit.fan_intermittent.value} or more, ducted outdoors",
        lambda: [NewValue(fan, "flow", limit.fan_intermittent.value)],
    )
    if not fan.is_existing or room.is_existing:
        return enough
    return all_of(enough, one_of(fan.discharges_to, limit.fan_goes_to).or_fix("duct it to the outdoors"))
