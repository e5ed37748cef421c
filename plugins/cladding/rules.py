"""Cladding: the barrier behind it, flashing, its distance from the ground, screeds, laps and fasteners."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck import (
    Check,
    Cladding,
    Door,
    Fact,
    Flashing,
    Grade,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Project,
    Ratio,
    Window,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    every,
    fact,
    if_stated,
    is_missing,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
    zone_number,
)

_ZONE = re.compile(r"\d\s*(?P<letter>[ABC])\b")

SOLID = "concrete or masonry"


class BarrierLimits(Limits):
    present: Limit[bool]
    bare_detached: Limit[bool]
    side_lap: Limit[Length]
    end_lap: Limit[Length]
    stucco_layers: Limit[int]
    drainage_space: Limit[bool]
    moist_zones: Limit[tuple[str, ...]]
    drainage_depth: Limit[Length]
    drainage_efficiency: Limit[Ratio]
    zone: Limit[str] = reads("criteria.climate-zone")


@rule("cladding.barrier", stage="framing")
def barrier(cladding: Cladding, limit: BarrierLimits, house: House) -> Check:
    """Framed walls have a water-resistive barrier behind the cladding, lapped so that water runs out.

    Stucco over wood sheathing takes two layers, or a 60-minute barrier with a space that drains; in moist and marine
    zones, from 2021 on, it also takes a drainage gap, or a 60-minute barrier that drains nearly all of the water.
    """
    if cladding.backing == SOLID:
        return does_not_apply("a concrete or masonry wall needs none")
    if limit.bare_detached.value is not None and _is_of_detached(cladding, house):
        return does_not_apply("a detached accessory building needs none")
    present = required(cladding.water_resistive_barrier, limit.present)
    if cladding.water_resistive_barrier is False:
        return present
    laps = [
        if_stated(cladding.barrier_side_lap, at_least, limit.side_lap),
        if_stated(cladding.barrier_end_lap, at_least, limit.end_lap),
    ]
    return all_of(present, *laps, _stucco(cladding, limit, house))


def _is_of_detached(cladding: Cladding, house: House) -> bool:
    rooms = [house.space(name) for name in cladding.spaces]
    return bool(rooms) and all(room is not None and room.detached is True and not room.is_habitable for room in rooms)


def _stucco(cladding: Cladding, limit: BarrierLimits, house: House) -> Check:
    stucco = when_given(lambda what: what == "stucco", cladding.what)
    over_wood = when_given(lambda backing: backing == "wood sheathing", cladding.backing)
    if stucco is False or over_wood is False:
        return met("not stucco over wood")
    if is_missing(stucco) or is_missing(over_wood):
        return not_shown(*(one for one in (stucco, over_wood) if is_missing(one)))
    layers = at_least(cladding.barrier_layers, limit.stucco_layers).or_fix("add a second layer, lapped on its own")
    space = required(cladding.drainage_space, limit.drainage_space)
    dry = any_of(layers, space) if cladding.sixty_minute_barrier is True else layers
    if limit.moist_zones.value is None:
        return dry
    gap = at_least(cladding.drainage_depth, limit.drainage_depth).or_fix(
        lambda: f"add a drainage mat or furring {limit.drainage_depth.value} deep behind the stucco",
        lambda: [NewValue(cladding, "drainage_depth", limit.drainage_depth.value)],
    )
    drains = at_least(cladding.drainage_efficiency, limit.drainage_efficiency)
    wet = any_of(gap, drains) if cladding.sixty_minute_barrier is True else gap
    return all_of(dry, decide(_is_moist(house, limit), wet, does_not_apply("a dry climate zone")))


def _is_moist(house: House, limit: BarrierLimits) -> bool | Missing:
    """Return whether a climate zone is moist or marine, by the letter after its number; zones 7 and 8 have none."""
    zone = house.criterion(limit.zone.value, "climate_zone")
    if is_missing(zone):
        return zone
    if "marine" in str(zone).lower():
        return True
    letter = _ZONE.search(str(zone).upper())
    if letter is not None:
        return when_given(lambda zones: letter["letter"] in zones, limit.moist_zones.value)
    return False if zone_number(str(zone)) in "78" else house.project.absent("climate zone with its letter, such as 5A")


class FlashingLimits(Limits):
    present: Limit[bool]
    self_adhered: Limit[tuple[str, ...]]
    fluid_applied: Limit[tuple[str, ...]]
    mechanically_attached: Limit[tuple[str, ...]]
    above_ledger: Limit[Length]
    past_ledger_face: Limit[Length]
    down_ledger_face: Limit[Length]


@rule("cladding.flashing", stage="framing")
def flashing(flashing: Flashing, limit: FlashingLimits) -> Check:
    """Flashing is at openings, copings and trim, and where roofs, decks and masonry meet the walls.

    A membrane that is named has the standard of its kind; over a ledger the flashing goes up the wall, and past the
    ledger's face or down over it.
    """
    standards = {
        "self-adhered": limit.self_adhered,
        "fluid-applied": limit.fluid_applied,
        "mechanically attached": limit.mechanically_attached,
    }
    drawn = required(flashing.drawn, limit.present, f"at {flashing.where}")
    named = not is_missing(flashing.membrane) and flashing.membrane in standards
    own = standards[str(flashing.membrane)] if named else None
    unnamed = does_not_apply(
        "membrane: not stated" if is_missing(flashing.membrane) else "no standard for its membrane"
    )
    standard = if_stated(flashing.standard, one_of, own) if own is not None else unnamed
    if flashing.where != "deck or porch attachment":
        return all_of(drawn, standard)
    ledger = [at_least(flashing.above_ledger, limit.above_ledger), _over_ledger(flashing, limit)]
    return all_of(drawn, standard, *ledger)


def _over_ledger(flashing: Flashing, limit: FlashingLimits) -> Check:
    past = at_least(flashing.past_ledger_face, limit.past_ledger_face)
    down = at_least(flashing.down_ledger_face, limit.down_ledger_face)
    return (
        past
        if is_missing(flashing.down_ledger_face)
        else down
        if is_missing(flashing.past_ledger_face)
        else any_of(past, down)
    )


class ShownLimits(Limits):
    shown: Limit[bool]


@rule("cladding.flashing-shown", stage="plan")
def flashing_shown(project: Project, limit: ShownLimits, house: House) -> Check:
    """The plans show flashing at new windows and exterior doors, and where a new porch or deck meets the house."""
    drawn = {f.where for f in house.subjects(Flashing) if f.phase not in ("removed", "existing")}
    due = list(_due(house))
    return every(
        (
            required(where in drawn or project.absent(f"flashing at {where}"), limit.shown, f"at {where}").because(why)
            for where, why in due
        ),
        "no new window, outside door, porch or deck is drawn",
    )


def _due(house: House) -> Iterator[tuple[str, str]]:
    fresh = ("new", "altered")
    openings = [o for o in (*house.subjects(Window), *house.subjects(Door)) if o.phase in fresh]
    outside = [o for o in openings if isinstance(o, Window) or o.is_exterior]
    if outside:
        yield "windows and doors", f"{outside[0].label} is {outside[0].phase}"
    decks = [s for s in house.spaces if s.use in ("porch", "deck") and s.phase in fresh and s.detached is not True]
    if decks:
        yield "deck or porch attachment", f"{decks[0].label} is {decks[0].phase}"


class ClearanceLimits(Limits):
    wood_ground: Limit[Length]
    wood_paving: Limit[Length]
    vinyl_ground: Limit[Length]
    vinyl_paving: Limit[Length]
    stucco_ground: Limit[Length]
    stucco_paving: Limit[Length]
    adhered_ground: Limit[Length]
    adhered_paving: Limit[Length]
    adhered_floor: Limit[Length]


@fact
class SidingOverGround(Fact):
    """A cladding; `new_ground` and `new_paving` say that all ground or paving that is drawn beside the house is new."""

    cladding: Cladding
    new_ground: bool
    new_paving: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[SidingOverGround]:
        """Yield every cladding."""
        drawn = [grade for grade in house.subjects(Grade) if not grade.is_removed]
        soil, paving = ([grade for grade in drawn if grade.surface == what] for what in ("soil", "paving"))
        for cladding in house.subjects(Cladding):
            yield cls(cladding, cladding, _are_changed(soil), _are_changed(paving))

    @property
    def phase(self) -> Any:
        """``altered`` for an old one to which the ground is raised, or along which paving is laid."""
        over_new = self.new_ground or (self.new_paving and not is_missing(self.cladding.above_paving))
        return self.cladding.phase_where(over_new)


def _are_changed(grades: list[Grade]) -> bool:
    return bool(grades) and all(grade.phase in ("new", "altered") for grade in grades)


@rule("cladding.clearance", stage="final")
def clearance(siding: SidingOverGround, limit: ClearanceLimits) -> Check:
    """Siding ends high enough above finish grade and paving; old siding above those that are new."""
    cladding = siding.cladding
    extra = does_not_apply("not over a floor")
    if cladding.what in ("wood siding", "panel siding"):
        ground, paving = limit.wood_ground, limit.wood_paving
    elif cladding.what == "vinyl":
        ground, paving = limit.vinyl_ground, limit.vinyl_paving
    elif cladding.what == "stucco":
        ground, paving = limit.stucco_ground, limit.stucco_paving
    elif cladding.what == "adhered veneer":
        floor = cladding.above_floor_outside
        ground, paving = limit.adhered_ground, limit.adhered_paving
        extra = if_stated(floor, at_least, limit.adhered_floor)
    else:
        return _other(cladding, limit)
    beside = if_stated(cladding.above_paving, at_least, paving)
    low = at_least(cladding.above_ground, ground).or_fix("lower the ground, or end the cladding higher")
    if siding.phase == "altered" and cladding.is_existing:
        kept = does_not_apply("it is as it was")
        return all_of(low if siding.new_ground else kept, beside if siding.new_paving else kept)
    return all_of(low, beside, extra)


def _other(cladding: Cladding, limit: ClearanceLimits) -> Check:
    if is_missing(cladding.what):
        return at_least(cladding.what, limit.wood_ground)
    return does_not_apply(f"no clearance is carried for {cladding.what}; its maker states one")


class ScreedLimits(Limits):
    metal: Limit[Length]
    flange: Limit[Length]
    below_plate: Limit[Length]


@rule("cladding.screed", stage="framing")
def screed(cladding: Cladding, limit: ScreedLimits) -> Check:
    """Stucco and adhered veneer have a weep screed at or below the plate."""
    if cladding.what not in ("stucco", "adhered veneer"):
        return does_not_apply("not stucco or adhered veneer")
    piece = cladding.screed
    low = Length(0) if cladding.what == "stucco" else limit.below_plate.value
    return all_of(
        at_least(piece.metal_thickness, limit.metal),
        at_least(piece.flange, limit.flange),
        at_least(piece.below_plate, replace(limit.below_plate, value=low)),
    )


class FixingLimits(Limits):
    resist_corrosion: Limit[bool]
    fiber_cement_lap: Limit[Length]


@rule("cladding.fixing", stage="final")
def fixing(cladding: Cladding, limit: FixingLimits) -> Check:
    """Siding has corrosion-resistant fasteners, and fiber-cement planks lap."""
    fasteners = if_stated(cladding.fasteners_resist_corrosion, required, limit.resist_corrosion)
    planks = if_stated(cladding.plank_lap, at_least, limit.fiber_cement_lap)
    other = does_not_apply("no fiber-cement planks")
    return all_of(fasteners, decide(when_given(lambda what: what == "fiber cement", cladding.what), planks, other))
