"""Roof coverings: least slope, underlayment, ice barrier, drip edge, nails, recovering."""

from __future__ import annotations

from typing import Any

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Roof,
    Slope,
    Speed,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    met,
    one_of,
    reads,
    required,
    rule,
    when_given,
)


class SlopeLimits(Limits):
    asphalt_shingles: Limit[Slope]
    metal_open_laps: Limit[Slope]
    metal_sealed_laps: Limit[Slope]
    standing_seam: Limit[Slope]
    tile: Limit[Slope]
    membrane: Limit[Slope]
    coal_tar: Limit[Slope]


@rule("roofing.slope", stage="plan")
def slope(roof: Roof, limit: SlopeLimits) -> Check:
    """The roof slope is steep enough for its covering."""
    if is_missing(roof.covering):
        return at_least(roof.covering, limit.asphalt_shingles)
    least = {
        "asphalt shingles": limit.asphalt_shingles,
        "metal panels with open laps": limit.metal_open_laps,
        "metal panels with sealed laps": limit.metal_sealed_laps,
        "standing seam metal": limit.standing_seam,
        "clay or concrete tile": limit.tile,
        "membrane": limit.membrane,
        "coal-tar built-up": limit.coal_tar,
    }
    if roof.covering not in least:
        return does_not_apply(f"no slope limit is carried for {roof.covering}")
    fits = [name for name, other in least.items() if not is_missing(roof.slope) and roof.slope >= other.value]
    return at_least(roof.slope, least[roof.covering], str(roof.covering)).or_fix(
        f"use a covering for this slope: {', '.join(fits)}" if fits else "make the roof steeper"
    )


class UnderlaymentLimits(Limits):
    low_slope: Limit[Slope]
    high_wind: Limit[Speed]
    layers: Limit[int]
    layers_when_double: Limit[int]
    side_lap: Limit[Length]
    side_lap_when_double: Limit[Length]
    end_lap: Limit[Length]
    standards: Limit[tuple[str, ...]]
    heavier_from: Limit[Speed]
    heavier_standards: Limit[tuple[str, ...]]
    heavier_lap: Limit[Length]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")


@rule("roofing.underlayment", stage="framing")
def underlayment(roof: Roof, limit: UnderlaymentLimits, house: House) -> Check:
    """Shingles and tile have underlayment: two layers on low slopes and in high wind, or a self-adhered sheet.

    In high wind it is heavier under shingles, and some editions have one layer lap more there.
    """
    if roof.covering not in ("asphalt shingles", "clay or concrete tile"):
        return does_not_apply("the rule is about shingles and tile")
    sheet = roof.underlayment
    shingles = roof.covering == "asphalt shingles"
    known = _standard(sheet, limit, house) if shingles else met("no standard is asked under tile")
    if sheet.self_adhered_all_over is True:
        return known
    ends = if_stated(sheet.end_lap, at_least, limit.end_lap)
    two = all_of(
        at_least(sheet.layers, limit.layers_when_double),
        if_stated(sheet.side_lap, at_least, limit.side_lap_when_double),
        ends,
    )
    one = all_of(at_least(sheet.layers, limit.layers), _lap(sheet.side_lap, limit, house), ends)
    low = when_given(lambda own: own < limit.low_slope.value, roof.slope)
    fix = f"lay {limit.layers_when_double.value} layers that lap {limit.side_lap_when_double.value}, or a self-adhered sheet"
    told = f"the roof slopes {roof.slope}" if low is True else ""
    double = two.or_fix(fix, lambda: _doubled(sheet, limit), decide="which way to take")
    windy = _is_windy(limit.high_wind, limit, house)
    return all_of(decide(low, double, decide(windy, double, one)), known).because(told)


def _doubled(sheet: Any, limit: UnderlaymentLimits) -> list[NewValue]:
    """Return two layers, and the laps that are stated as the code asks them."""
    if is_missing(sheet):
        return []
    laps = (("side_lap", limit.side_lap_when_double), ("end_lap", limit.end_lap))
    stated = [NewValue(sheet, name, max(own, least.value)) for name, least in laps
              if isinstance(own := getattr(sheet, name), Length) and isinstance(least.value, Length)]  # fmt: skip
    return [NewValue(sheet, "layers", limit.layers_when_double.value), *stated]


def _standard(sheet: Any, limit: UnderlaymentLimits, house: House) -> Check:
    """Check the standard of the sheet, where it is stated; the wind is asked for only where it decides."""
    standard = sheet.standard
    light, heavy = (if_stated(standard, one_of, bound) for bound in (limit.standards, limit.heavier_standards))
    if is_missing(standard) or standard in (limit.heavier_standards.value or ()):
        return light
    heavy = heavy.or_fix(
        "use a heavier underlayment", lambda: [NewValue(sheet, "standard", limit.heavier_standards.value[0])]
    )
    return decide(_is_windy(limit.heavier_from, limit, house), heavy, light)


def _lap(lap: Length | Missing, limit: UnderlaymentLimits, house: House) -> Check:
    plain, wide = (if_stated(lap, at_least, bound) for bound in (limit.side_lap, limit.heavier_lap))
    more = limit.heavier_lap.value
    if is_missing(lap) or more is None or lap >= more:
        return plain
    return decide(_is_windy(limit.heavier_from, limit, house), wide, plain)


def _is_windy(above: Limit[Speed], limit: UnderlaymentLimits, house: House) -> bool | Missing:
    if above.value is None:
        return False
    wind = house.criterion(limit.wind.value, "ultimate_wind_speed")
    return False if wind is None else when_given(lambda speed, least: speed >= least, wind, above.value)


class IceLimits(Limits):
    inside_wall: Limit[Length]
    long_barrier_from: Limit[Slope]
    along_slope: Limit[Length]
    coverings: Limit[tuple[str, ...]]
    due: Limit[str] = reads("criteria.ice-barrier")


@rule("roofing.ice-barrier", stage="framing")
def ice_barrier(roof: Roof, limit: IceLimits, house: House) -> Check:
    """Where the place requires it, an ice barrier extends from the eave to inside the wall line.

    On steep roofs it also has a least length along the slope. Detached buildings that are not heated need none.
    """
    if roof.detached_unheated is True and not _covers_house(roof, house):
        return does_not_apply("a detached building that is not heated")
    if not is_missing(roof.covering) and roof.covering not in limit.coverings.value:
        return does_not_apply(f"not asked under {roof.covering}")
    due = _due(limit.due, house)
    barrier = roof.ice_barrier
    steep = when_given(lambda own: own >= limit.long_barrier_from.value, roof.slope)
    inside = at_least(barrier.inside_wall, limit.inside_wall).or_fix("run the barrier farther up")
    long_enough = decide(steep, at_least(barrier.along_slope, limit.along_slope), met("not so steep"))
    return decide(due, all_of(inside, long_enough), does_not_apply("the jurisdiction asks for no ice barrier"))


def _covers_house(roof: Roof, house: House) -> bool:
    """Return whether a roof that is said to be of a detached building is drawn over what is heated or attached."""
    covered = [space for name in roof.spaces if (space := house.space(name)) is not None]
    if not covered:
        return bool(house.spaces) and all(space.detached is not True for space in house.spaces)
    return any(space.detached is not True or space.conditioned is True for space in covered)


def _due(criterion: Limit[str], house: House) -> bool | Missing:
    """Return whether the jurisdiction, or else the title sheet, says that an ice barrier is due."""
    value = criterion.value
    if is_missing(value):
        stated: bool | Missing = house.criterion(value, "ice_barrier")
        return stated
    return value is not None and str(value).lower() in ("true", "yes", "required")


class DripLimits(Limits):
    at_eaves: Limit[bool]
    at_rakes: Limit[bool]
    lap: Limit[Length]
    below_sheathing: Limit[Length]
    onto_deck: Limit[Length]
    fasteners: Limit[Length]


@rule("roofing.drip-edge", stage="framing")
def drip_edge(roof: Roof, limit: DripLimits) -> Check:
    """A shingle roof has a drip edge at eaves and rakes.

    It is field work: what the plans do not give of it is for the inspector, and not asked of them.
    """
    if roof.covering != "asphalt shingles":
        return does_not_apply("the rule is about asphalt shingles")
    edge = roof.drip_edge
    return all_of(
        if_stated(edge.at_eaves, required, limit.at_eaves),
        if_stated(edge.at_rakes, required, limit.at_rakes),
        if_stated(edge.lap, at_least, limit.lap),
        if_stated(edge.below_sheathing, at_least, limit.below_sheathing),
        if_stated(edge.onto_deck, at_least, limit.onto_deck),
        if_stated(edge.fastener_spacing, at_most, limit.fasteners),
    )


class NailLimits(Limits):
    gage: Limit[int]
    head: Limit[Length]
    penetration: Limit[Length]
    per_strip: Limit[int]
    per_shingle: Limit[int]


@rule("roofing.nails", stage="framing")
def nails(roof: Roof, limit: NailLimits) -> Check:
    """Shingle nails are heavy and long enough, and there are enough of them.

    It is field work: what the plans do not give of it is for the inspector, and not asked of them.
    """
    if roof.covering != "asphalt shingles":
        return does_not_apply("the rule is about asphalt shingles")
    nail = roof.nails
    deep = if_stated(nail.penetration, at_least, limit.penetration)
    count = if_stated(nail.per_strip, at_least, limit.per_strip)
    single = at_least(nail.per_shingle, limit.per_shingle)
    return all_of(
        if_stated(nail.gage, at_most, limit.gage, "gage number; a smaller one is thicker"),
        if_stated(nail.head, at_least, limit.head),
        met("through the deck") if nail.through_deck is True else deep,
        count if is_missing(nail.per_shingle) else any_of(count, single),
    )


class RecoverLimits(Limits):
    layers: Limit[int]
    sound: Limit[bool]


@rule("roofing.recover", stage="plan")
def recover(roof: Roof, limit: RecoverLimits) -> Check:
    """A new roof covering goes over no more than one old layer, and only over a sound one."""
    if roof.is_existing:
        return does_not_apply("the roof stays as it is")
    if is_missing(roof.existing_layers) or roof.existing_layers == 0:
        return does_not_apply("no new covering over an old one is drawn")
    return all_of(
        at_most(roof.existing_layers, limit.layers).or_fix("tear off the old layers first"),
        required(roof.existing_sound, limit.sound),
    )


class ValleyLimits(Limits):
    open_width: Limit[Length]


@rule("roofing.valley", stage="framing")
def valley(roof: Roof, limit: ValleyLimits) -> Check:
    """Open valley metal is wide enough."""
    if is_missing(roof.open_valley_width):
        return does_not_apply("no open valley is drawn")
    return at_least(roof.open_valley_width, limit.open_width)
