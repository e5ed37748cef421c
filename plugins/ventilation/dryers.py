"""Clothes dryer ducts: length with elbows, material, how they end, shields, the transition, makeup air."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.ventilation.fans import DryerAt

from precheck import (
    AirFlow,
    Area,
    Check,
    DryerDuct,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    one_of,
    required,
    rule,
    when_given,
)


class LengthLimits(Limits):
    maximum: Limit[Length]
    each_90: Limit[Length]
    each_45: Limit[Length]


@rule("ventilation.dryer-length", stage="rough-in")
def dryer_length(duct: DryerDuct, limit: LengthLimits) -> Check:
    """A dryer duct is no longer than the maximum, less its elbows, or than the dryer's manufacturer allows."""
    if not is_missing(duct.allowed_by_manufacturer):
        by_manufacturer = replace(limit.maximum, value=duct.allowed_by_manufacturer)
        return at_most(duct.length, by_manufacturer, "what the manufacturer of the dryer allows").because(
            "the length of the manufacturer governs"
        )
    whole = when_given(
        lambda length, n90, n45: _equivalent(limit, length, n90, n45), duct.length, duct.elbows_90, duct.elbows_45
    )
    return at_most(whole, limit.maximum, lambda: _how(duct, limit)).or_fix(
        lambda: _shorter(whole, limit), lambda: _shortened(duct, whole, limit), decide="which way to take"
    )


def _equivalent(limit: LengthLimits, length: Length, elbows_90: int, elbows_45: int) -> Length:
    bends = Length(limit.each_90.value.n * elbows_90 + limit.each_45.value.n * elbows_45)
    return length + bends


def _how(duct: DryerDuct, limit: LengthLimits) -> str:
    bends = f"{duct.elbows_90} x {limit.each_90.value} + {duct.elbows_45} x {limit.each_45.value}"
    return f"{duct.length} + {bends}"


def _shorter(whole: Length | Missing, limit: LengthLimits) -> str:
    over = "" if isinstance(whole, Missing) else f" by {whole - limit.maximum.value}"
    return f"shorten the run{over}, take out an elbow, or show the length that the dryer's manufacturer allows"


def _shortened(duct: DryerDuct, whole: Length | Missing, limit: LengthLimits) -> list[NewValue]:
    """Return the length that the elbows leave, where they leave some."""
    if isinstance(whole, Missing) or is_missing(duct.length) or duct.length <= whole - limit.maximum.value:
        return []
    return [NewValue(duct, "length", duct.length - (whole - limit.maximum.value))]


class DuctLimits(Limits):
    materials: Limit[tuple[str, ...]]
    diameter: Limit[Length]
    thickness: Limit[Length]
    support: Limit[Length]
    screws: Limit[Length]


@rule("ventilation.dryer-duct", stage="rough-in")
def dryer_duct(duct: DryerDuct, limit: DuctLimits) -> Check:
    """A dryer duct is smooth metal of the required size, supported, without screws that catch lint."""
    return all_of(
        one_of(duct.material, limit.materials),
        at_least(duct.diameter, limit.diameter),
        at_most(duct.diameter, limit.diameter),
        if_stated(duct.metal_thickness, at_least, limit.thickness),
        if_stated(duct.support_spacing, at_most, limit.support),
        if_stated(duct.screw_intrusion, at_most, limit.screws),
    )


class EndLimits(Limits):
    leads_to: Limit[tuple[str, ...]]
    damper: Limit[bool]
    screens: Limit[int]
    to_opening: Limit[Length]
    open_area: Limit[Area]


@rule("ventilation.dryer-end", stage="rough-in")
def dryer_end(at: DryerAt, limit: EndLimits) -> Check:
    """A dryer duct ends outdoors, away from openings, with a backdraft damper and no screen."""
    duct = at.duct
    return all_of(
        one_of(duct.discharges_to, limit.leads_to).or_fix(
            "run the duct to the outdoors", lambda: [NewValue(duct, "discharges_to", limit.leads_to.value[0])]
        ),
        if_stated(duct.damper, required, limit.damper),
        if_stated(when_given(int, duct.screen), at_most, limit.screens).or_fix(
            "leave the screen out", lambda: [NewValue(duct, "screen", "no")]
        ),
        if_stated(duct.cap_to_opening, at_least, limit.to_opening),
        if_stated(duct.cap_opening, at_least, limit.open_area),
    )


class ShieldLimits(Limits):
    stud_edge: Limit[Length]
    plates: Limit[bool]


@rule("ventilation.dryer-shield", stage="rough-in")
def dryer_shield(duct: DryerDuct, limit: ShieldLimits) -> Check:
    """A concealed dryer duct has shield plates where it is close to the face of the framing."""
    if is_missing(duct.from_stud_edge) and is_missing(duct.shield_plates):
        return does_not_apply("the duct is not drawn inside framing")
    far = at_least(duct.from_stud_edge, limit.stud_edge)
    shielded = required(duct.shield_plates, limit.plates)
    return far if far.is_met else shielded


class TransitionLimits(Limits):
    maximum: Limit[Length]
    listed: Limit[bool]
    concealed: Limit[int]


@rule("ventilation.dryer-transition", stage="final")
def dryer_transition(duct: DryerDuct, limit: TransitionLimits) -> Check:
    """A dryer transition duct is short, listed and not concealed."""
    piece = duct.transition
    if is_missing(piece):
        return does_not_apply("no transition piece is drawn; it comes with the dryer")
    hidden = piece.concealed
    return all_of(
        at_most(piece.length, limit.maximum),
        required(piece.listed, limit.listed),
        at_most(hidden if is_missing(hidden) else int(hidden), limit.concealed),
    )


class MakeupLimits(Limits):
    closet_opening: Limit[Area]
    makeup_above: Limit[AirFlow]
    makeup: Limit[bool]
    any_fuel: Limit[bool]


@rule("ventilation.dryer-makeup-air", stage="rough-in")
def dryer_makeup_air(at: DryerAt, limit: MakeupLimits) -> Check:
    """A closet with a dryer has an opening for makeup air.

    Before the text on dryers of any fuel, only those that burn gas are asked for it.
    """
    duct = at.duct
    opening = at_least(duct.closet_opening, limit.closet_opening).or_fix("louver the closet door")
    strong = None if is_missing(duct.flow) else at_most(duct.flow, limit.makeup_above)
    makeup = required(duct.makeup_air, limit.makeup).or_fix("bring in makeup air, or use a smaller dryer")
    due = all_of(
        decide(_in_closet(at), opening, met("not in a closet")),
        makeup
        if strong is not None and strong.outcome == strong.outcome.FAIL
        else does_not_apply("not a strong dryer" if strong is not None else "air flow of the dryer: not stated"),
    )
    return due if limit.any_fuel.value is not None else decide(_burns_gas(at), due, ELECTRIC)


ELECTRIC = does_not_apply("not a gas dryer")


def _in_closet(at: DryerAt) -> bool | Missing:
    """Return whether the dryer stands in a closet: as stated, else by the use of the space that it is drawn in."""
    duct, space = at.duct, at.space
    if space is None or is_missing(space.use) or not is_missing(duct.in_closet):
        return duct.in_closet
    return space.use == "closet" or space.closet is True


def _burns_gas(at: DryerAt) -> bool | Missing:
    if not at.dryers:
        return at.duct.absent("clothes dryer and its fuel")
    return when_given(lambda fuel: fuel in ("natural gas", "propane"), at.dryers[0].fuel)
