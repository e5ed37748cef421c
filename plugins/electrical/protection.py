"""What protects receptacles: ground-fault devices, shutters, covers."""

from __future__ import annotations

from precheck_plugins.electrical.places import places_of, protected

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Receptacle,
    all_of,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    required,
    rule,
)


class GroundFaultLimits(Limits):
    places: Limit[tuple[str, ...]]
    protected: Limit[bool]
    reached_readily: Limit[bool]
    sink: Limit[Length]
    tub: Limit[Length]


@rule("electrical.ground-fault", stage="final")
def ground_fault(receptacle: Receptacle, limit: GroundFaultLimits, house: House) -> Check:
    """A receptacle near water, outdoors or in a garage, kitchen or laundry has ground-fault protection in reach."""
    found = places_of(receptacle, house, limit.sink.value, limit.tub.value)
    due = [place for place in found if place in limit.places.value]
    if not due:
        return does_not_apply("not in a place that asks for ground-fault protection")
    reset = receptacle.gfci_reached_readily
    return all_of(
        required(receptacle.gfci, limit.protected).or_fix(
            "put a ground-fault receptacle here, or protect its circuit upstream"
        ),
        if_stated(reset, required, limit.reached_readily),
    ).because(f"the receptacle is {protected(due[0])}")


class KindLimits(Limits):
    tamper_resistant: Limit[bool]
    exempt_above: Limit[Length]
    weather_resistant: Limit[bool]
    in_use_cover: Limit[bool]


@rule("electrical.receptacle-kind", stage="final")
def receptacle_kind(receptacle: Receptacle, limit: KindLimits) -> Check:
    """New receptacles are tamper-resistant; outdoors they resist weather under a cover that closes over a plug."""
    high = not is_missing(receptacle.height) and receptacle.height > limit.exempt_above.value
    exempt = high or receptacle.serves == "appliance" or receptacle.part_of_appliance is True
    tamper = met("exempt") if exempt else required(receptacle.tamper_resistant, limit.tamper_resistant)
    if receptacle.serves != "outdoors":
        return tamper
    return all_of(
        tamper,
        required(receptacle.weather_resistant, limit.weather_resistant),
        required(receptacle.in_use_cover, limit.in_use_cover),
    )
