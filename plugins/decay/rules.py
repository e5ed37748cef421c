"""Wood near earth, concrete and weather: treated or durable, held off, or kept apart by a barrier."""

from __future__ import annotations

from typing import Any

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    NewValue,
    SillPlate,
    Wood,
    all_of,
    any_of,
    at_least,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    one_of,
    required,
    rule,
    when_given,
)


class PlateLimits(Limits):
    treated: Limit[bool]


@rule("decay.sill-plate", stage="framing")
def sill_plate(plate: SillPlate, limit: PlateLimits) -> Check:
    """A sill plate on concrete or masonry is pressure-treated or naturally durable, or lies on a moisture barrier."""
    if plate.on == "framing":
        return does_not_apply("it lies on framing")
    if plate.moisture_barrier is True:
        return met("an impervious barrier lies under it")
    return required(plate.treated, limit.treated).or_fix("a pressure-treated sill plate", lambda: _treat(plate))


def _treat(wood: Wood | SillPlate) -> list[NewValue]:
    return [NewValue(wood, "treated", "yes")]


class DistanceLimits(Limits):
    on_foundation: Limit[Length]
    joists: Limit[Length]
    girder: Limit[Length]
    pocket: Limit[Length]
    treated: Limit[bool]


@rule("decay.distance", stage="framing")
def distance(wood: Wood, limit: DistanceLimits) -> Check:
    """Untreated wood keeps its clearance from the ground, and has air around its ends in a masonry pocket."""
    asked: dict[str, tuple[Any, Limit[Length]]] = {
        "on foundation wall": (wood.above_ground, limit.on_foundation),
        "crawl space joists": (wood.above_ground, limit.joists),
        "crawl space girder": (wood.above_ground, limit.girder),
        "girder pocket": (wood.air_space, limit.pocket),
    }
    if wood.where not in asked:
        return does_not_apply("a distance is not what keeps it dry")
    clear = at_least(*asked[wood.where])
    if is_missing(wood.treated):
        return clear
    return any_of(clear, required(wood.treated, limit.treated)).or_fix(
        f"pressure-treated wood, or {asked[wood.where][1].value} of clearance",
        lambda: [NewValue(wood, "treated", "yes")],
    )


class BarrierLimits(Limits):
    furring: Limit[bool]
    topping: Limit[bool]
    outdoor_support: Limit[bool]
    ground_contact: Limit[bool]


@rule("decay.treated-or-apart", stage="framing")
def treated_or_apart(wood: Wood, limit: BarrierLimits) -> Check:
    """Furring below grade, wood under an exterior topping, exterior supports and wood in the ground are treated or kept dry.

    A retarder or barrier serves behind furring and under topping, a roof over outdoor supports; nothing but treatment
    for ground contact serves in the ground.
    """
    if wood.where == "in the ground":
        return required(wood.ground_contact_treated, limit.ground_contact)
    apart = {
        "furring below grade": wood.barrier,
        "under outdoor topping": wood.barrier,
        "outdoor support": wood.under_roof,
    }
    if wood.where not in apart:
        return does_not_apply("another rule keeps it dry")
    bound = {"furring below grade": limit.furring, "under outdoor topping": limit.topping}.get(
        wood.where, limit.outdoor_support
    )
    if apart[wood.where] is True:
        return met("kept apart from the damp")
    return required(wood.treated, bound).or_fix("pressure-treated wood", lambda: _treat(wood))


class CutLimits(Limits):
    cuts: Limit[bool]
    fasteners: Limit[tuple[str, ...]]
    plain_bolts: Limit[Length]


@rule("decay.treated-wood", stage="framing")
def treated_wood(wood: Wood, limit: CutLimits) -> Check:
    """Cuts in treated wood are field-treated, and its fasteners resist corrosion; bolts that are thick enough may be plain steel."""
    if wood.treated is not True and wood.ground_contact_treated is not True:
        return does_not_apply("it is not said to be treated")
    thick = when_given(
        lambda bolts, least: least is not None and bolts >= least, wood.bolt_diameter, limit.plain_bolts.value
    )
    fasteners = met("bolts thick enough for plain steel") if thick is True else one_of(wood.fasteners, limit.fasteners)
    return all_of(if_stated(wood.cuts_treated, required, limit.cuts), fasteners)
