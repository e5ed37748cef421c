"""Attic ventilation: how much net free area, high and low; vent openings; clearances; unvented assemblies."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck_plugins.attics.vents import Sums, UnventedAttic, VentedAttic, larger_vent, more_vents, served_area

from precheck import (
    Area,
    Attic,
    Check,
    House,
    Insulation,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Part,
    Ratio,
    Space,
    Vent,
    Work,
    Works,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    first_given,
    in_square_inches,
    is_alone,
    is_missing,
    less_than,
    line,
    look_at,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rooms_of,
    rule,
    shown,
    to_show,
    when_given,
    zone_number,
    zone_row,
)

ZONE = "criteria.climate-zone"
CHANGED = ("new", "altered", "removed")


class ProvidedLimits(Limits):
    crosswise: Limit[bool]
    rain: Limit[bool]


@rule("attic-ventilation.provided", stage="plan", existing="must comply")
def provided(space: Space, limit: ProvidedLimits, house: House) -> Check:
    """A new or altered attic has cross ventilation through vents that keep rain and snow out, or is an unvented attic."""
    if space.use != "attic" or space.is_existing or space.habitable_attic is True:
        return does_not_apply("not a new or altered attic")
    drawn = [a for a in house.subjects(Attic) if a.space == space.id and not a.is_removed]
    if not drawn and _only_floored(space, house):
        return does_not_apply("it is floored for storage, and its vents stay as they are")
    if not drawn:
        return not_shown(space.absent("vents (an entry under `attics`)"))
    attic = drawn[0]
    if attic.vented is False or not is_missing(attic.unvented):
        return met("built as an unvented attic, which a rule of its own judges")
    rain = [required(vent.keeps_rain_out, limit.rain) for vent in attic.vents]
    crosswise = sum(_pieces(vent) for vent in attic.vents) > 1
    shown = required(crosswise if attic.vents else attic.absent("vents"), limit.crosswise)
    return all_of(shown.or_fix("add vents on the opposite side, or high and low, so that air passes through"), *rain)


def _only_floored(space: Space, house: House) -> bool:
    """Return whether all that is done to an attic is a floor for storage: no roof, and no insulation of its own."""
    floored = any(space in work.parts for work in Works.of(house).of_kinds("attic storage"))
    roofed = [*house.project.roofs, *house.project.roof_frames, *house.project.trusses]
    insulated = [part for part in house.project.assemblies if part.space == space.id]
    return floored and space.phase == "altered" and not any(p.phase in CHANGED for p in (*roofed, *insulated))


def _pieces(vent: Vent) -> int:
    return 1 if is_missing(vent.count) else vent.count


class AreaLimits(Limits):
    share: Limit[Ratio]
    reduced_share: Limit[Ratio]
    high_minimum: Limit[Ratio]
    high_maximum: Limit[Ratio]
    high_within: Limit[Length]
    low_within: Limit[Ratio]
    cold_zones: Limit[tuple[str, ...]]
    cold_retarders: Limit[tuple[str, ...]]
    both: Limit[bool]
    zone: Limit[str] = reads(ZONE)


@rule("attic-ventilation.net-free-area", stage="plan")
def net_free_area(attic: VentedAttic, limit: AreaLimits, house: House) -> Check:
    """Net free vent area is the full share of the area served, or the reduced share if it is split high and low.

    The reduced share asks for 40 to 50 percent of the area high and the rest low and, in cold zones, a vapor retarder
    on the warm side of the ceiling; the first edition asks for one of the two. What is high beyond half of the required
    area does not count toward it.
    """
    full, reduced = _needed(attic.area, limit.share), _needed(attic.area, limit.reduced_share)
    if is_missing(attic.total) and (known := at_least(_shown(attic.known), full)).outcome is Outcome.PASS:
        return known  # those whose area is given are enough
    sums = attic.sums(limit.high_within.value, limit.low_within.value)
    high = _high_share(sums, reduced, limit)
    one = any_of(high, _retarder(attic, limit, house, high))
    both = all_of(high, _retarder(attic, limit, house, met("not a cold zone")))
    split = all_of(at_least(_shown(attic.total), reduced), one if limit.both.value is None else both)
    return any_of(at_least(_shown(attic.total), full, lambda: f"{limit.share.value} of {attic.area}"), split).or_fix(
        lambda: more_vents(attic, full, reduced), lambda: larger_vent(attic, full.value), decide="where it goes"
    )


def _needed(area: Area | Missing, share: Limit[Ratio]) -> Limit[Any]:
    value = share.value if share.value is None else when_given(lambda a: in_square_inches(a * share.value.n), area)
    return replace(share, value=value)


def _shown(area: Area | Missing) -> Area | Missing:
    return when_given(in_square_inches, area)


def _high_share(sums: Sums | Missing, reduced: Limit[Any], limit: AreaLimits) -> Check:
    """Compare what is high with what is required, and with all that is provided."""
    if isinstance(sums, Missing) or isinstance(reduced.value, Missing) or not sums.total.n:
        return at_least(sums if isinstance(sums, Missing) else Ratio(0), limit.high_minimum)
    needed = reduced.value
    enough = at_least(Ratio(sums.high / needed), limit.high_minimum, f"{in_square_inches(sums.high)} high / {needed}")
    counted = min(sums.high, needed * limit.high_maximum.value.n)
    most = at_most(Ratio(sums.high / sums.total), limit.high_maximum, f"{in_square_inches(sums.high)} high / all vents")
    if most.outcome == most.outcome.FAIL and counted + sums.low >= needed:
        most = look_at(
            Look.OFFICIAL, "more is vented high than low; what is low makes up its half of the required area"
        )
    rest = at_least(in_square_inches(counted + sums.low), reduced, "low vents, and high ones up to half of it")
    return all_of(enough, most, rest)


def _retarder(attic: VentedAttic, limit: AreaLimits, house: House, elsewhere: Check) -> Check:
    zone = house.criterion(limit.zone.value, "climate_zone")
    cold = when_given(lambda text: f"zone {zone_number(str(text))}" in limit.cold_zones.value, zone)
    return decide(cold, one_of(attic.attic.vapor_retarder, limit.cold_retarders), elsewhere)


class OpeningLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]
    opens_to: Limit[tuple[str, ...]]
    near_lot_line: Limit[Length]


@rule("attic-ventilation.openings", stage="framing")
def openings(vent: Vent, limit: OpeningLimits) -> Check:
    """Attic vents open straight to the outdoors, through openings neither too small nor too large."""
    near = less_than(first_given(vent.distance_to_lot_line, limit.near_lot_line.value), limit.near_lot_line)
    by_line = near.outcome == near.outcome.PASS or near.outcome == near.outcome.WARN
    warning = look_at(Look.OFFICIAL, f"a vent nearer than {limit.near_lot_line.value} to the lot line falls under the "
                      "rules for projections and openings there")  # fmt: skip
    return all_of(
        at_least(vent.smallest_opening, limit.minimum),
        at_most(vent.smallest_opening, limit.maximum).or_fix(
            f"cover it with a screen of {limit.maximum.value} or finer",
            lambda: [NewValue(vent, "smallest_opening", limit.maximum.value)],
        ),
        one_of(vent.opens_to, limit.opens_to),
        _by_line(vent, warning, by_line),
    )


def _by_line(vent: Vent, warning: Check, by_line: bool) -> Check:
    if is_missing(vent.distance_to_lot_line):
        return does_not_apply("distance to the lot line: not stated")
    return warning if by_line else met("away from the lot line")


class ClearanceLimits(Limits):
    gap: Limit[Length]
    baffles: Limit[bool]


@rule("attic-ventilation.clearance", stage="insulation")
def clearance(attic: VentedAttic, limit: ClearanceLimits) -> Check:
    """An air space is kept between insulation and roof sheathing, and baffles keep insulation off the eave vents."""
    kind = attic.attic.insulation
    if kind == "none":
        return does_not_apply("no insulation is drawn in this attic")
    airy = kind if is_missing(kind) else kind in ("loose", "batts")
    baffled = required(attic.attic.baffles, limit.baffles)
    return all_of(
        at_least(attic.attic.air_gap, limit.gap).or_fix(
            f"fur the rafters down until {limit.gap.value} stays open",
            lambda: [NewValue(attic.attic, "air_gap", limit.gap.value)],
        ),
        decide(airy, baffled, met("foam needs no baffle")),
    )


class UnventedLimits(Limits):
    inside_envelope: Limit[bool]
    retarders_on_floor: Limit[int]
    gap_under_shingles: Limit[Length]
    cold_zones: Limit[tuple[str, ...]]
    class_ii: Limit[bool]
    insulation: Limit[dict[str, Insulation]]
    zone: Limit[str] = reads(ZONE)


@rule("attic-ventilation.unvented", stage="insulation")
def unvented(attic: UnventedAttic, limit: UnventedLimits, house: House) -> Check:
    """An unvented attic lies wholly inside the thermal envelope and keeps its roof deck from condensing."""
    built, zone = attic.built, house.criterion(limit.zone.value, "climate_zone")
    on_floor = built.class_i_retarder_on_floor
    shingle_gap = at_least(built.gap_under_shingles, limit.gap_under_shingles)
    cold = when_given(lambda text: f"zone {zone_number(str(text))}" in limit.cold_zones.value, zone)
    foam = required(built.impermeable_is_class_ii, limit.class_ii)
    return all_of(
        required(built.inside_thermal_envelope, limit.inside_envelope),
        at_most(on_floor if is_missing(on_floor) else int(on_floor), limit.retarders_on_floor),
        decide(built.wood_shingles, shingle_gap, met("no wood shingles")),
        decide(cold, foam, met("not a cold zone")),
        at_least(built.impermeable_insulation, _against_condensation(limit.insulation, zone)),
    )


def _against_condensation(table: Limit[dict[str, Insulation]], zone: str | Missing) -> Limit[Any]:
    if is_missing(zone) or table.value is None:
        return replace(table, value=None if table.value is None else zone)
    return replace(table, value=zone_row(str(zone), table.value))


class MarkerLimits(Limits):
    area_each: Limit[Area]
    numbers: Limit[Length]


@rule("attic-ventilation.depth-markers", stage="insulation")
def depth_markers(attic: Attic, limit: MarkerLimits, house: House) -> Check:
    """Loose-fill attic insulation has enough depth markers, with numbers that can be read."""
    if is_missing(attic.insulation) or attic.insulation != "loose":
        return does_not_apply("no loose-fill insulation is drawn in this attic")
    each = when_given(
        lambda area, count: area / count if count else area, served_area(attic, house), attic.depth_markers
    )
    return all_of(at_most(each, limit.area_each, "area of each marker"), at_least(attic.marker_numbers, limit.numbers))


ROOFED = ("addition", "upper addition", "new house")


@line("attic-ventilation.vents", stage="framing")
def vents(work: Work, house: House) -> Check:
    """The attic or rafter spaces over the new rooms are vented, or drawn as an unvented attic."""
    rooms = [room for room in rooms_of(work) if not any(above.use != "attic" for above in house.above(room))]
    if rooms_of(work) and not rooms:
        return does_not_apply("rooms stand over it")
    drawn: list[Part] = [
        s for s in house.spaces if s.use == "attic" and not s.is_existing and _over(s, rooms, work, house)
    ]
    whose = [
        (a, _is_over(a, rooms, work, house)) for a in house.project.attics if not a.is_existing and not a.is_removed
    ]
    drawn += [attic for attic, is_own in whose if is_own is True]
    if drawn:
        return shown(*drawn)
    unknown = [is_own for _, is_own in whose if is_missing(is_own)]
    return not_shown(*unknown) if unknown else to_show("vents of the new attic or rafter spaces", work)


def _over(attic: Space, rooms: list[Space], work: Work, house: House) -> bool:
    """Return whether an attic space lies over one of `rooms`; one that is placed nowhere does where no other work has one."""
    if any(attic in house.above(room) for room in rooms):
        return True
    placed = house.outline(attic) is not None or any(attic in house.above(space) for space in house.spaces)
    return not placed and is_alone(work, house, ROOFED)


def _is_over(attic: Attic, rooms: list[Space], work: Work, house: House) -> bool | Missing:
    space = None if is_missing(attic.space) else house.space(attic.space)
    if space is not None:
        return space in rooms or (space.use == "attic" and _over(space, rooms, work, house))
    return True if is_alone(work, house, ROOFED) else attic.absent("space")
