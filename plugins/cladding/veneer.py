"""Anchored masonry veneer: air space, ties, weeps, flashing, support, height and lintels."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck import (
    Area,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Lintel,
    Look,
    Missing,
    NewValue,
    Pressure,
    Veneer,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

SEISMIC = "criteria.seismic-design-category"
SHAKEN = ("D", "E", "F")  # E and F, which the code for houses leaves to engineering, ask for no less than D2


class SpaceLimits(Limits):
    minimum: Limit[Length]
    maximum_corrugated: Limit[Length]
    maximum_wire: Limit[Length]
    maximum_adjustable: Limit[Length]
    thick_wire_over: Limit[Length]
    thick_wire: Limit[Length]


@rule("cladding.veneer-air-space", stage="framing")
def veneer_air_space(veneer: Veneer, limit: SpaceLimits) -> Check:
    """Anchored veneer has an air space that its ties can bridge, or mortar fills it."""
    if veneer.filled_with_mortar is True:
        return look_at(Look.OFFICIAL, "mortar or grout may fill the space where the section on it is followed")
    form = veneer.ties.form
    widest = {
        "corrugated": limit.maximum_corrugated,
        "wire": limit.maximum_wire,
        "adjustable wire": limit.maximum_adjustable,
    }
    most = at_most(veneer.air_space, widest[form]) if not is_missing(form) else not_shown(form)
    filled = does_not_apply("filled with mortar: not stated" if is_missing(veneer.filled_with_mortar) else "not filled")
    return all_of(at_least(veneer.air_space, limit.minimum), most, _wire(veneer, limit), filled)


def _wire(veneer: Veneer, limit: SpaceLimits) -> Check:
    """Return whether adjustable ties that cross a wide space are of thick enough wire."""
    if veneer.ties.form != "adjustable wire" or limit.thick_wire_over.value is None:
        return does_not_apply("no adjustable ties, or none of a wire of their own")
    wide = when_given(lambda space, most: space > most, veneer.air_space, limit.thick_wire_over.value)
    return decide(wide, at_least(veneer.ties.wire, limit.thick_wire), does_not_apply("the air space is not that wide"))


class TieLimits(Limits):
    area: Limit[Area]
    area_seismic: Limit[Area]
    high_wind: Limit[Pressure]
    horizontal_spacing: Limit[Length]
    vertical_spacing: Limit[Length]
    sheet_gage: Limit[int]
    sheet_width: Limit[Length]
    wire_gage: Limit[int]
    embedment: Limit[Length]
    cover: Limit[Length]
    resist_corrosion: Limit[bool]
    seismic: Limit[str] = reads(SEISMIC)


@rule("cladding.veneer-ties", stage="framing")
def veneer_ties(veneer: Veneer, limit: TieLimits, house: House) -> Check:
    """Veneer ties are close enough together, heavy enough and well embedded.

    The share is smaller in seismic categories D0 to D2, for townhouses in C, and where the wind presses hard.
    """
    ties = veneer.ties
    held = when_given(lambda across, up: across * up, ties.spacing_across, ties.spacing_up)
    severe = _holds_less(veneer, limit, house)
    fix = "close the ties up"
    return all_of(
        decide(severe, at_most(held, limit.area_seismic).or_fix(fix), at_most(held, limit.area).or_fix(fix)),
        at_most(ties.spacing_across, limit.horizontal_spacing),
        at_most(ties.spacing_up, limit.vertical_spacing),
        _gage(veneer, limit),
        at_least(ties.embedment, limit.embedment),
        at_least(ties.cover, limit.cover),
        required(ties.resist_corrosion, limit.resist_corrosion),
        does_not_apply("wind pressure: not stated" if is_missing(veneer.wind_pressure) else "wind pressure: counted"),
    )


def _holds_less(veneer: Veneer, limit: TieLimits, house: House) -> bool | Missing:
    windy = when_given(lambda wind, most: most is not None and wind > most, veneer.wind_pressure, limit.high_wind.value)
    if windy is True:
        return True
    letter = when_given(lambda text: str(text).upper()[:1], _category(limit.seismic, house))
    if letter == "C":
        dwelling = house.project.dwelling
        form = house.project.absent("form of dwelling") if is_missing(dwelling) else dwelling.form
        return when_given(lambda form: form == "townhouse", form)
    return when_given(lambda text: text in SHAKEN, letter)


def _gage(veneer: Veneer, limit: TieLimits) -> Check:
    ties = veneer.ties
    how = "gage number; a smaller one is thicker"
    if ties.form == "corrugated":
        return all_of(at_most(ties.gage, limit.sheet_gage, how), at_least(ties.width, limit.sheet_width))
    wire = at_most(ties.gage, limit.wire_gage, how)
    return decide(when_given(lambda form: form == "wire", ties.form), wire, met("as its maker says"))


def _category(criterion: Limit[str], house: House) -> Any:
    return house.criterion(criterion.value, "seismic_design_category")


class OpeningLimits(Limits):
    wider_than: Limit[Length]
    apart: Limit[Length]
    from_edge: Limit[Length]


@rule("cladding.veneer-openings", stage="framing")
def veneer_openings(veneer: Veneer, limit: OpeningLimits) -> Check:
    """Larger openings in veneer have extra ties near their edges."""
    small = at_most(veneer.largest_opening, limit.wider_than)
    if not is_missing(veneer.largest_opening) and small.is_met:
        return does_not_apply(f"no opening is larger than {limit.wider_than.value}")
    ties = veneer.ties
    return all_of(at_most(ties.spacing_around_openings, limit.apart), at_most(ties.from_opening_edge, limit.from_edge))


class WaterLimits(Limits):
    at_base: Limit[bool]
    at_supports: Limit[bool]
    weep_spacing: Limit[Length]
    weep_size: Limit[Length]


@rule("cladding.veneer-water", stage="framing")
def veneer_water(veneer: Veneer, limit: WaterLimits) -> Check:
    """Veneer has flashing at its base and supports, and weep holes."""
    weeps = veneer.weeps
    return all_of(
        required(veneer.flashed_at_base, limit.at_base),
        required(veneer.flashed_at_supports, limit.at_supports),
        at_most(weeps.spacing, limit.weep_spacing),
        at_least(weeps.size, limit.weep_size),
    )


class SupportLimits(Limits):
    supports: Limit[tuple[str, ...]]
    height: Limit[Length]
    height_seismic: Limit[Length]
    gable: Limit[Length]
    thickness: Limit[Length]
    thickness_seismic: Limit[Length]
    weight: Limit[Pressure]
    weight_seismic: Limit[Pressure]
    thickness_d2: Limit[Length]
    weight_d2: Limit[Pressure]
    seismic: Limit[str] = reads(SEISMIC)


@rule("cladding.veneer-support", stage="foundation")
def veneer_support(veneer: Veneer, limit: SupportLimits, house: House) -> Check:
    """Veneer bears on a footing, a foundation ledge or a steel angle, and is no higher, thicker or heavier than allowed.

    Support by wood or roof framing is for an engineer. An existing slab edge is no footing.
    """
    if veneer.support in ("roof framing", "wood"):
        bearing = look_at(Look.ENGINEER, "veneer on wood or roof framing has limits of weight, deflection and joints")
    else:
        bearing = one_of(veneer.support, limit.supports).or_fix(
            "give the veneer a footing of its own, or a steel angle"
        )
    if veneer.backing == "concrete or masonry":
        return bearing
    triples: list[tuple[Any, Limit[Any], Limit[Any], Limit[Any]]] = [
        (veneer.height, limit.height, limit.height_seismic, limit.height_seismic),
        (veneer.thickness, limit.thickness, limit.thickness_seismic, limit.thickness_d2),
        (veneer.weight, limit.weight, limit.weight_seismic, limit.weight_d2),
    ]
    category = when_given(lambda text: str(text).upper(), _category(limit.seismic, house))
    severe = when_given(lambda text: text[:1] in SHAKEN, category)
    most = when_given(lambda text: text in ("D", "D2", "E", "F"), category)  # a bare D may be D2
    sized = [
        decide(severe, decide(most, at_most(own, in_d2), at_most(own, in_d)), at_most(own, usual))
        for own, usual, in_d, in_d2 in triples
    ]
    gable = if_stated(veneer.gable_height, at_most, limit.gable)
    return all_of(bearing, *sized, gable)


class AngleLimits(Limits):
    weight: Limit[Pressure]
    categories: Limit[tuple[str, ...]]
    seismic: Limit[str] = reads(SEISMIC)
    height: Limit[Length]
    angles: Limit[tuple[str, ...]]
    lag_screws: Limit[int]
    stud_spacing: Limit[Length]


@rule("cladding.veneer-angle", stage="framing")
def veneer_angle(veneer: Veneer, limit: AngleLimits, house: House) -> Check:
    """Veneer on a steel angle is low and light enough, and the angle heavy and well fastened.

    It is for seismic design categories A to C.
    """
    if veneer.support != "steel angle":
        return does_not_apply("the veneer does not stand on a steel angle")
    category = when_given(lambda text: str(text).upper()[:1], _category(limit.seismic, house))
    return all_of(
        at_most(veneer.weight, limit.weight),
        one_of(category, limit.categories).or_fix("give the veneer a footing of its own, or have it engineered"),
        at_most(veneer.height, limit.height),
        one_of(when_given(lambda angle: f"L{angle}", _plain(veneer.angle)), limit.angles),
        at_least(veneer.lag_screws_per_stud, limit.lag_screws),
        at_most(veneer.stud_spacing, limit.stud_spacing),
    )


class LintelLimits(Limits):
    bearing: Limit[Length]
    painted: Limit[bool]
    spans: Limit[dict[str, tuple[Length, ...]]]


@rule("cladding.lintel", stage="framing")
def lintel(lintel: Lintel, limit: LintelLimits) -> Check:
    """A steel lintel carries veneer over no wider an opening than its table allows, bears far enough, and is protected from rust.

    The table counts the stories of veneer above. A wide opening with reinforced joints, or another angle, is for an
    engineer.
    """
    angle = _plain(lintel.angle)
    if not is_missing(angle) and angle not in limit.spans.value:
        span = look_at(Look.ENGINEER, f"the table has no angle {lintel.angle}")
    elif (found := _longest(angle, lintel.stories_above, limit)) is None:
        span = look_at(Look.ENGINEER, f"the table has no {lintel.angle} with {lintel.stories_above} stories above")
    else:
        longest = replace(limit.spans, value=found)
        fits = [name for name in limit.spans.value if _fits(name, lintel, limit)]
        span = at_most(lintel.span, longest, f"{lintel.angle}, {lintel.stories_above} stories above").or_fix(
            f"use an angle of {fits[0]}" if fits else "have the lintel designed",
            lambda: [NewValue(lintel, "angle", fits[0])] if fits else [],
        )
    return all_of(span, at_least(lintel.bearing, limit.bearing), required(lintel.painted_or_galvanized, limit.painted))


def _longest(angle: str | Missing, stories: int | Missing, limit: LintelLimits) -> Any:
    def looked_up(name: str, above: int) -> Length | None:
        row = limit.spans.value[name]
        return row[above] if above < len(row) else None

    return when_given(looked_up, angle, stories)


def _fits(name: str, lintel: Lintel, limit: LintelLimits) -> bool:
    longest = _longest(name, lintel.stories_above, limit)
    return isinstance(longest, Length) and not is_missing(lintel.span) and lintel.span <= longest


def _plain(angle: str | Missing) -> str | Missing:
    if is_missing(angle):
        return angle
    written = angle.strip().upper().removeprefix("L").strip().lower()
    return written.replace("3-1/2", "3.5").replace("3 1/2", "3.5").replace(" ", "")
