"""What protects receptacles: ground-fault devices, shutters, covers."""

from __future__ import annotations

from precheck_plugins.electrical.around import OutletAt
from precheck_plugins.electrical.places import is_outdoors, places_of, protected

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Outcome,
    Receptacle,
    all_of,
    at_least,
    at_most,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    not_shown,
    required,
    rule,
)


class GroundFaultLimits(Limits):
    places: Limit[tuple[str, ...]]
    protected: Limit[bool]
    reached_readily: Limit[bool]
    sink: Limit[Length]
    tub: Limit[Length]
    volts: Limit[int]


@rule("electrical.ground-fault", stage="final")
def ground_fault(at: OutletAt, limit: GroundFaultLimits, house: House) -> Check:
    """Receptacles in bathrooms, kitchens, laundries, garages, basements and outdoors have GFCI protection.

    One whose voltage is not given is taken to be the usual one of 125 volts.
    """
    receptacle = at.outlet
    if not is_missing(receptacle.volts) and at_most(receptacle.volts, limit.volts).outcome is Outcome.FAIL:
        return does_not_apply(f"a receptacle of {receptacle.volts} volts")
    found = places_of(receptacle, house, limit.sink.value, limit.tub.value)
    due = [place for place in found if place in limit.places.value]
    if not due and at.space is not None and is_missing(at.space.use):
        return not_shown(at.space.use)
    if not due:
        return does_not_apply("not in a place that asks for GFCI protection")
    reset = receptacle.gfci_reached_readily
    return all_of(
        required(receptacle.gfci, limit.protected).or_fix(
            "use a GFCI receptacle here, or protect its circuit upstream", lambda: [NewValue(receptacle, "gfci", True)]
        ),
        if_stated(reset, required, limit.reached_readily),
    ).because(f"the receptacle is {protected(due[0])}")


class KindLimits(Limits):
    tamper_resistant: Limit[bool]
    exempt_above: Limit[Length]
    weather_resistant: Limit[bool]
    in_use_cover: Limit[bool]


SERVES_NOT_STATED = does_not_apply("what it serves: not stated")


@rule("electrical.receptacle-kind", stage="final")
def receptacle_kind(receptacle: Receptacle, limit: KindLimits, house: House) -> Check:
    """New receptacles are tamper-resistant; outdoors they are weather-resistant, with an in-use cover."""
    high = not is_missing(receptacle.height) and receptacle.height > limit.exempt_above.value
    exempt = high or receptacle.serves == "appliance" or receptacle.part_of_appliance is True
    shutters = required(receptacle.tamper_resistant, limit.tamper_resistant)
    tamper = (
        met("exempt")
        if exempt
        else shutters.or_fix(
            "use a tamper-resistant receptacle", lambda: [NewValue(receptacle, "tamper_resistant", "yes")]
        )
    )
    if not is_outdoors(receptacle, house):
        return all_of(tamper, SERVES_NOT_STATED) if is_missing(receptacle.serves) else tamper
    return all_of(
        tamper,
        required(receptacle.weather_resistant, limit.weather_resistant),
        required(receptacle.in_use_cover, limit.in_use_cover),
    )


class TubReceptacleLimits(Limits):
    beside: Limit[Length]


@rule("electrical.tub-receptacle", stage="rough-in")
def tub_receptacle(at: OutletAt, limit: TubReceptacleLimits) -> Check:
    """A receptacle is out of reach of someone in a tub or shower.

    Earlier editions bar it only from the tub or shower itself.
    """
    receptacle = at.outlet
    if is_missing(receptacle.to_tub_or_shower):
        return does_not_apply("it is not drawn near a tub or shower")
    return at_least(receptacle.to_tub_or_shower, limit.beside).or_fix(
        lambda: f"move it {limit.beside.value} or more from the tub or shower",
        lambda: [NewValue(receptacle, "to_tub_or_shower", limit.beside.value)],
    )
