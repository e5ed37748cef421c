"""What windows, doors and skylights of the thermal envelope let through: U-factor and solar heat gain."""

from __future__ import annotations

from typing import Any

from precheck_plugins.energy.envelope import ZONE, GlazedOpening, WarmSkylight, as_limited, in_zone, plain

from precheck import (
    Area,
    Check,
    House,
    Limit,
    Limits,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Ratio,
    Skylight,
    Transmittance,
    all_of,
    any_of,
    at_most,
    decide,
    is_missing,
    met,
    missing_of,
    not_shown,
    reads,
    rule,
    when_given,
)


class GlassLimits(Limits):
    window: Limit[dict[str, Transmittance]]
    skylight: Limit[dict[str, Transmittance]]
    heat_gain: Limit[dict[str, Ratio]]
    exempt_glass: Limit[Area]
    exempt_door: Limit[Area]
    zone: Limit[str] = reads(ZONE)


@rule("energy.glass", stage="plan")
def glass(part: GlazedOpening, limit: GlassLimits, house: House) -> Check:
    """New and replaced windows and doors meet the U-factor and SHGC of the climate zone.

    A little glass in the whole dwelling may go without, and so may one solid side-hinged door.
    """
    if is_missing(part.is_envelope):
        return not_shown(part.is_envelope)
    zone = house.criterion(limit.zone.value, "climate_zone")
    opening = part.opening
    low_u = at_most(opening.u_factor, in_zone(limit.window, zone)).or_fix("use a window or door with a lower U-factor")
    size = when_given(lambda box: box.area, opening.unit_size)
    small = at_most(size, limit.exempt_door)
    spared = not is_missing(size) and small.is_met and _first_opaque(part, house)
    solid = any_of(low_u, met(f"the one solid door of {size} may go without")) if spared else low_u
    gain = at_most(opening.shgc, plain(in_zone(limit.heat_gain, zone))).or_fix("use glass with a lower SHGC")
    both = all_of(low_u, gain).or_fix(lambda: _told(low_u, gain), lambda: _unit_that_does(opening, low_u, gain))
    glazed = any_of(both, decide(house.once(_is_little_glass, limit), met("so little glass may go without"), both))
    return decide(part.is_opaque_door, solid, glazed)


def _first_opaque(part: GlazedOpening, house: House) -> bool:
    solid = [p for p in _certain(house) if p.is_opaque_door is True and p.phase in ("new", "altered")]
    return bool(solid) and solid[0].opening is part.opening and getattr(part.opening, "operation", "") == "side-hinged"


def _told(low_u: Check, gain: Check) -> str:
    called = {"U-factor": low_u, "SHGC": gain}
    wrong = {what: check.bound for what, check in called.items() if check.outcome is Outcome.FAIL}
    lower = [f"a lower {what} ({bound.value} maximum)" for what, bound in wrong.items() if bound is not None]
    return f"use a unit with {' and '.join(lower)}"


def _unit_that_does(opening: Opening | Skylight, low_u: Check, gain: Check) -> list[NewValue]:
    """Return the U-factor and the SHGC that are too high as the limits."""
    return as_limited(opening, {"u_factor": low_u, "shgc": gain})


def _certain(house: House) -> list[GlazedOpening]:
    return [part for part in house.subjects(GlazedOpening) if part.is_envelope is True]


def _is_little_glass(limit: GlassLimits, house: House) -> bool | Missing:
    """Return whether all new glass of the dwelling is so little that it is exempt; each pane must be known for that."""
    most = limit.exempt_glass.value
    if most is None or is_missing(most):
        return False
    panes = [
        part for part in house.subjects(GlazedOpening) if part.is_opaque_door is not True and part.phase != "existing"
    ]
    there = [part for part in panes if not part.opening.is_removed]
    if not there:
        return False
    areas = [when_given(lambda box: box.area, part.opening.unit_size) for part in there if part.is_envelope is True]
    if sum((area for area in areas if not is_missing(area)), start=Area(0)) > most:
        return False
    unknown = missing_of(*areas, *(part.is_envelope for part in there))
    return True if unknown is None else unknown


class SkylightLimits(Limits):
    skylight: Limit[dict[str, Transmittance]] = reads("energy.glass.skylight")
    heat_gain: Limit[dict[str, Ratio]]
    zone: Limit[str] = reads(ZONE)


@rule("energy.skylight", stage="plan")
def skylight(glass: WarmSkylight, limit: SkylightLimits, house: House) -> Check:
    """New and replaced skylights meet the U-factor and SHGC of the climate zone."""
    skylight: Any = glass.part
    zone = house.criterion(limit.zone.value, "climate_zone")
    low_u = at_most(skylight.u_factor, in_zone(limit.skylight, zone))
    gain = at_most(skylight.shgc, plain(in_zone(limit.heat_gain, zone)))
    return all_of(low_u, gain).or_fix(lambda: _told(low_u, gain), lambda: _unit_that_does(skylight, low_u, gain))
