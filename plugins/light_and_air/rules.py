"""Light and air of habitable rooms, by windows, by an adjoining room, or by what may stand in for them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from precheck_plugins.light_and_air.lived_in import LivedInRoom
from precheck_plugins.light_and_air.openings import Outlook, Total, enlarged, glazed, openable, share, together, total

from precheck import (
    AirFlow,
    Area,
    Check,
    Illuminance,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    Space,
    all_of,
    any_of,
    at_least,
    broken,
    does_not_apply,
    is_missing,
    met,
    more_than,
    one_of,
    reads,
    rule,
    when_given,
)

CUBIC_FOOT = Length.parse("1 ft").n ** 3


class GlazingLimits(Limits):
    minimum: Limit[Ratio]
    artificial: Limit[Illuminance]
    air_with_artificial: Limit[bool]
    porch_side_open: Limit[Ratio]
    porch_height: Limit[Length]
    under_deck: Limit[Length]
    sunroom_open: Limit[Ratio]
    wall_open: Limit[Ratio]
    opening_share: Limit[Ratio]
    opening: Limit[Area]
    opening_to_sunroom: Limit[bool]
    sunroom_share: Limit[Ratio] = reads("light-and-air.openable.sunroom-share")
    sunroom_opening: Limit[Area] = reads("light-and-air.openable.sunroom-opening")
    whole_house: Limit[str] = reads("light-and-air.openable.whole-house")
    room_air: Limit[Ratio] = reads("light-and-air.openable.room-air")
    kitchen: Limit[tuple[str, ...]] = reads("light-and-air.openable.kitchen")


@rule("light-and-air.glazing", stage="framing")
def glazing(need: LivedInRoom, limit: GlazingLimits) -> Check:
    """A habitable room has enough glass to the outdoors for its floor area.

    Glass under a porch or carport roof counts where that is open enough. A room that is open to another across half of
    their wall may share its glass. Artificial light may stand in for
    glass, up to 2021 together with mechanical ventilation.
    """

    def counts(outlook: Outlook) -> Check | None:
        return _enough_light_under(outlook, need, limit)

    if need.is_left_alone:
        return does_not_apply("the room stands, and its windows are not drawn")
    if (under := _under_new_roofs(need, counts)) is not None and under.outcome is not Outcome.FAIL:
        return under
    own = total(need.room, need.house, glazed, counts)
    check = share(own, need.house.area(need.room), limit.minimum, "glass")
    if check.outcome in (Outcome.PASS, Outcome.WARN):
        return check
    others = [(other, total(other, need.house, glazed, counts)) for other in need.open_rooms]
    ways = [check, *(_shared(need, own, other, found, limit, "glass") for other, found in others)]
    light = need.room.artificial_light
    if not is_missing(light):
        ways.append(all_of(at_least(light, limit.artificial), _air_with_light(need, limit)))
    return _best(check, ways).or_fix(
        f"{check.remedy or 'add glass'}; or {_instead_of_glass(need, limit)}",
        lambda: _larger(need, "glazed_area", own, limit.minimum),
        decide="where it goes",
    )


def _larger(need: LivedInRoom, field: str, found: Total, least: Limit[Ratio], opens: Any = None) -> list[NewValue]:
    """Return one window of the room made larger by what it lacks."""
    floor = need.house.area(need.room)
    if is_missing(floor) or found.lacking is not None or not isinstance(least.value, Ratio):
        return []
    return enlarged(need.room, need.house, field, floor * least.value.n - found.sure, opens)


def _under_new_roofs(need: LivedInRoom, counts: Callable[[Outlook], Check | None]) -> Check | None:
    """Return whether the windows of a room that stands keep counting under what the work builds before them.

    None where it builds nothing there, or closes a window off by a room, so that what is left has to be enough.
    """
    roofed = list(need.newly_roofed)
    if not roofed or any(outlook.under is None and not outlook.under_deck for outlook in roofed):
        return None
    found = [check for outlook in roofed if (check := counts(outlook)) is not None]
    return all_of(*found).because(f"the work builds before the windows of {need.room.id}") if found else None


def _instead_of_glass(need: LivedInRoom, limit: GlazingLimits) -> str:
    """Say what stands in for glass: light and, where the edition asks for both, air; only what is lacking of them."""
    enough = at_least(need.room.artificial_light, limit.artificial).is_met
    light = "" if enough else f"light the room to {limit.artificial.value}"
    air = "" if limit.air_with_artificial.value is None else "ventilate it mechanically"
    return " and ".join(filter(None, (light, air))) or f"light the room to {limit.artificial.value}"


def _air_with_light(need: LivedInRoom, limit: GlazingLimits) -> Check:
    if limit.air_with_artificial.value is None:
        return does_not_apply(limit.air_with_artificial.why_void or "artificial light alone stands in for glass")
    air = _air_instead(need, limit)
    without = broken("artificial light stands in for glass only together with mechanical ventilation")
    return without if air.outcome is Outcome.DOES_NOT_APPLY else air


class OpenableLimits(Limits):
    minimum: Limit[Ratio]
    whole_house: Limit[str]
    room_air: Limit[Ratio]
    kitchen: Limit[tuple[str, ...]]
    porch_perimeter_open: Limit[Ratio]
    porch_perimeter_over: Limit[Ratio]
    sunroom_share: Limit[Ratio]
    sunroom_opening: Limit[Area]
    wall_open: Limit[Ratio] = reads("light-and-air.glazing.wall-open")
    opening_share: Limit[Ratio] = reads("light-and-air.glazing.opening-share")
    opening: Limit[Area] = reads("light-and-air.glazing.opening")
    half_opens: Limit[Ratio] = reads("escape.clear-opening-possible.hung")


@rule("light-and-air.openable", stage="framing")
def openable_area(need: LivedInRoom, limit: OpenableLimits) -> Check:
    """Enough of a habitable room's windows and doors opens to the outdoors for its floor area.

    Mechanical ventilation may stand in for it; the egress window of a bedroom must open all the same.
    """

    def counts(outlook: Outlook) -> Check | None:
        return _enough_air_under(outlook, need, limit)

    if need.is_left_alone:
        return does_not_apply("the room stands, and its windows are not drawn")
    under = _under_new_roofs(need, counts)
    if under is not None and under.is_met:
        return under
    own = total(need.room, need.house, openable, counts)
    check = share(own, need.house.area(need.room), limit.minimum, "opening")
    if check.outcome in (Outcome.PASS, Outcome.WARN):
        return check
    others = [(other, total(other, need.house, openable, counts)) for other in need.open_rooms]
    instead = _air_instead(need, limit)
    ways = [check, *(_shared(need, own, other, found, limit, "opening") for other, found in others)]
    ways += [instead] if instead.outcome is not Outcome.DOES_NOT_APPLY else []
    return _best(check, ways).or_fix(
        f"{check.remedy or 'add windows that open'}; or ventilate the room mechanically",
        lambda: _larger(need, "openable_area", own, limit.minimum, limit.half_opens.value),
        decide="where it goes",
    )


def _best(own: Check, ways: list[Check]) -> Check:
    """Return the way that serves; where its own windows are not given, those alone are asked for, and not other rooms."""
    found = any_of(*ways)
    return own if own.outcome is Outcome.NOT_SHOWN and found.outcome is Outcome.NOT_SHOWN else found


def _shared(
    need: LivedInRoom, own: Total, other: Space, found: Total, limit: GlazingLimits | OpenableLimits, what: str
) -> Check:
    """Check that the room may count as a part of `other`, and that the two together have enough."""
    floors = [need.house.area(space) for space in (need.room, other)]
    wide = need.opening_to(other)
    of_wall = when_given(lambda wall: Ratio(wide / wall), need.wall_to(other))
    of_floor = when_given(lambda floor: Ratio(wide / floor), floors[0])
    return all_of(
        at_least(of_wall, limit.wall_open, lambda: f"{wide} open to {other.id} / {need.wall_to(other)} of wall"),
        at_least(of_floor, limit.opening_share, lambda: f"{wide} open to {other.id} / {floors[0]} of floor"),
        at_least(wide, limit.opening, f"open to {other.id}"),
        share(own.and_of(found), together(floors), limit.minimum, what),
    ).because(f"it is open to {other.id}")


def _enough_light_under(outlook: Outlook, need: LivedInRoom, limit: GlazingLimits) -> Check | None:
    roof = outlook.under
    if roof is None:
        return at_least(getattr(outlook.opening, "path_height", limit.under_deck.value), limit.under_deck)
    height = need.house.ceiling_height(roof)
    if roof.use == "sunroom":
        closed = None if limit.opening_to_sunroom.value is None else _into_sunroom(outlook, need, limit)
        if closed is None or limit.sunroom_open.value is None or is_missing(roof.perimeter_open):
            return closed
        return any_of(
            closed, all_of(more_than(roof.perimeter_open, limit.sunroom_open), at_least(height, limit.porch_height))
        )
    return all_of(at_least(roof.longer_side_open, limit.porch_side_open), at_least(height, limit.porch_height))


def _enough_air_under(outlook: Outlook, need: LivedInRoom, limit: OpenableLimits) -> Check | None:
    roof = outlook.under
    if roof is None:
        return None
    if roof.use != "sunroom":
        open_ = roof.perimeter_open
        return all_of(at_least(open_, limit.porch_perimeter_open), more_than(open_, limit.porch_perimeter_over))
    return _into_sunroom(outlook, need, limit)


def _into_sunroom(outlook: Outlook, need: LivedInRoom, limit: GlazingLimits | OpenableLimits) -> Check:
    """Check what opens into a sunroom: by what is sure, then by the whole unit, which can only fall short."""
    sure, most, lacking = openable(outlook.opening)
    found = _opens_into_sunroom(sure, need, limit)
    if lacking is None or found.is_met:
        return found
    if most is not None and (whole := _opens_into_sunroom(most, need, limit)).outcome is Outcome.FAIL:
        return whole
    return at_least(lacking, limit.sunroom_opening)


def _opens_into_sunroom(opens: Area, need: LivedInRoom, limit: GlazingLimits | OpenableLimits) -> Check:
    floor = need.house.area(need.room)
    return all_of(
        at_least(when_given(lambda area: Ratio(opens / area), floor), limit.sunroom_share),
        at_least(opens, limit.sunroom_opening),
    )


def _air_instead(need: LivedInRoom, limit: GlazingLimits | OpenableLimits) -> Check:
    """Check that mechanical ventilation stands in for windows that open; it does not apply where none is given."""
    room, project = need.room, need.house.project
    if room.use == "kitchen" and limit.kitchen.value is not None:
        fans = [e for e in project.exhausts if e.space == room.id and not e.is_removed]
        led = [one_of(fan.discharges_to, limit.kitchen) for fan in fans]
        return any_of(*led) if led else does_not_apply("no kitchen exhaust is drawn")
    if limit.whole_house.value is not None and any(not s.is_removed for s in project.whole_house_ventilation):
        return met("the whole house is ventilated mechanically")
    if is_missing(room.outdoor_air):
        return does_not_apply("no mechanical ventilation is drawn")
    return at_least(_air_changes(need), limit.room_air, lambda: f"{room.outdoor_air} in an hour / volume of the room")


def _air_changes(need: LivedInRoom) -> Ratio | Missing:
    room, house = need.room, need.house

    def in_an_hour(air: AirFlow, floor: Area, height: Length) -> Ratio:
        return Ratio(Fraction(air.n) * 60 * CUBIC_FOOT / (floor.n * height.n))

    return when_given(in_an_hour, room.outdoor_air, house.area(room), house.ceiling_height(room))
