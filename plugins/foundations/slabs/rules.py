"""Slabs on ground: thickness, base and fill, the sheet under heated rooms, reinforcement."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Area,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Settled,
    Slab,
    Space,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    if_stated,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    phase_of,
    required,
    rule,
    when_given,
)

OPEN_AIR = ("garage", "carport", "porch", "deck")
STORES = ("storage", "utility", "workshop")
NO_FILL = "no fill under it is said"


@fact
class RoomSlab(Fact):
    """A slab, and the space over it."""

    slab: Slab
    space: Space | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomSlab]:
        """Yield slabs with their spaces. That of a converted garage which is not drawn is a line of what the work takes."""
        for slab in house.project.slabs:
            yield cls(slab, slab, None if is_missing(slab.space) else house.space(slab.space))

    @property
    def phase(self) -> Any:
        """That of the slab: one that is poured may stay under a room with a new use, for a person to look at."""
        return phase_of(self.about)


class ThicknessLimits(Limits):
    minimum: Limit[Length]


@rule("slabs.thickness", stage="foundation")
def thickness(slab: Slab, limit: ThicknessLimits) -> Check:
    """A slab on ground is thick enough, and so is a loose topping on an old slab.

    New concrete bonded to a sound old slab may count together with it; the building department says so.
    """
    if is_missing(slab.cap):
        return at_least(slab.thickness, limit.minimum).or_fix(
            lambda: f"use a slab {limit.minimum.value} thick",
            lambda: [NewValue(slab, "thickness", limit.minimum.value)],
        )
    if slab.cap.bonded is not True:
        return at_least(slab.cap.thinnest, limit.minimum, "at its thinnest").or_fix(
            "a thicker cap, or one bonded to the old slab where that is accepted as its base"
        )
    if slab.cap.old_slab_accepted is True:
        return met("the old slab is accepted as part of it")
    return look_at(Look.OFFICIAL, "whether the old slab counts as part of the thickness of a bonded cap")


class BaseLimits(Limits):
    base: Limit[Length]


@rule("slabs.base", stage="foundation")
def base(slab: Slab, limit: BaseLimits, house: House) -> Check:
    """A slab below grade lies on a clean graded base, unless the soil drains well; that of a basement is below grade.

    That of a garage or carport is not, unless the plans say so: cars drive in from the ground outside.
    """
    needed = at_least(slab.base, limit.base).or_fix(
        lambda: f"lay {limit.base.value} of gravel under the slab", lambda: [NewValue(slab, "base", limit.base.value)]
    )
    if slab.is_existing and is_missing(slab.base):
        return does_not_apply("it stands")
    if slab.well_drained_soil is True:
        return does_not_apply("the soil drains well")
    space = None if is_missing(slab.space) else house.space(slab.space)
    in_basement = space is not None and house.story_level(space) == "basement"
    if space is not None and space.is_vehicle and not in_basement and is_missing(slab.below_grade):
        return does_not_apply("cars drive in from the ground outside")
    return decide(
        True if in_basement else slab.below_grade, needed, does_not_apply("the slab is above the ground outside")
    )


class FillLimits(Limits):
    gravel: Limit[Length]
    earth: Limit[Length]
    compacted: Limit[bool]
    cleared: Limit[bool]


@rule("slabs.fill", stage="foundation")
def fill(slab: Slab, limit: FillLimits) -> Check:
    """Ground under a new slab is cleared, and fill is compacted and not too deep, or approved."""
    cleared = if_stated(slab.ground_cleared, required, limit.cleared)  # field work, for the inspector
    clear = does_not_apply("it lies on an old slab") if not is_missing(slab.cap) else cleared
    if is_missing(slab.fill):
        return all_of(clear, does_not_apply("fill under it: not stated"))
    if not slab.fill.n:
        return clear
    loose = when_given(lambda material: material == "sand or gravel", slab.fill_material)
    deep = decide(loose, at_most(slab.fill, limit.gravel), at_most(slab.fill, limit.earth))
    depth = met("the fill is approved") if slab.fill_approved is True else deep
    return all_of(clear, depth, required(slab.fill_compacted, limit.compacted))


class RetarderLimits(Limits):
    mil: Limit[int]
    class_a: Limit[bool]
    lap: Limit[Length]
    storage_area: Settled[Area]


def _sheet(sheet: Any, limit: RetarderLimits) -> list[NewValue]:
    if is_missing(sheet):
        return []
    asked = {"mil": limit.mil.value, "lap": limit.lap.value, "class_a": None if limit.class_a.value is None else "yes"}
    return [NewValue(sheet, name, value) for name, value in asked.items() if value is not None]


@rule("slabs.retarder", stage="foundation")
def retarder(under: RoomSlab, limit: RetarderLimits) -> Check:
    """A vapor retarder is under the slab of heated rooms.

    Garages, carports, porches and small unheated stores do without. A garage or carport that becomes a room loses that:
    the sheet then goes on the old slab, under a cap or the new floor, if the building department agrees.
    """
    if under.space is None:
        return not_shown(under.slab.absent("space"))
    sheet = under.slab.retarder
    laid = all_of(
        at_least(sheet.mil, limit.mil), required(sheet.class_a, limit.class_a), at_least(sheet.lap, limit.lap)
    ).or_fix(
        f"a sheet of {limit.mil.value} mil, joints lapped {limit.lap.value}, under the slab or on the old one",
        lambda: _sheet(sheet, limit),
    )
    open_air = when_given(lambda use: use in OPEN_AIR, under.space.use)
    heated = decide(_small_store(under.space, limit), does_not_apply("a small unheated store"), laid)
    if under.space.detached is True and under.space.use in STORES:
        heated = decide(under.space.conditioned, laid, does_not_apply("an unheated accessory building"))
    bare = does_not_apply(f"no sheet is asked under a {under.space.use}")
    return decide(open_air, bare, heated).because(_change(under))


def _small_store(space: Space, limit: RetarderLimits) -> bool | Missing:
    if space.use not in STORES or space.conditioned is True:
        return False
    return when_given(
        lambda area, heated: area < limit.storage_area.value and not heated, space.area, space.conditioned
    )


def _change(under: RoomSlab) -> str:
    space = under.space
    changed = space is not None and space.was in OPEN_AIR
    return f"{space.label} goes from {space.was} to {space.use}" if changed and space is not None else ""


class ReinforcementLimits(Limits):
    held: Limit[tuple[str, ...]]


@rule("slabs.reinforcement", stage="foundation")
def reinforcement(slab: Slab, limit: ReinforcementLimits) -> Check:
    """Slab reinforcement is held between the center and the upper third of the slab."""
    if slab.reinforced is False or (is_missing(slab.reinforced) and is_missing(slab.reinforcement_held)):
        return does_not_apply("no reinforcement is drawn, and none is asked")
    return one_of(slab.reinforcement_held, limit.held).or_fix(
        "chairs that hold it between the middle and upper third",
        lambda: [NewValue(slab, "reinforcement_held", limit.held.value[0])],
    )
