"""Radon control under new slabs, where the place asks for it."""

from __future__ import annotations

from precheck_plugins.foundations.slabs.rules import OPEN_AIR, RoomSlab

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    RadonControl,
    all_of,
    ask_unless_set,
    at_least,
    does_not_apply,
    is_missing,
    not_shown,
    required,
    rule,
)


class DueLimits(Limits):
    required: Limit[bool]


@rule("radon.control", stage="foundation")
def control(under: RoomSlab, limit: DueLimits, house: House) -> Check:
    """Where the place requires radon control, each new slab of the house has a system under it."""
    space = under.space
    if under.slab.phase in ("existing", "altered") or not is_missing(under.slab.cap):
        return does_not_apply("no new slab on the ground is cast")
    if space is None or space.use in OPEN_AIR:
        return not_shown(under.slab.absent("space")) if space is None else does_not_apply("it lies under no room")
    if (ask := ask_unless_set(limit.required)) is not None:
        return ask
    systems = [one for one in house.project.radon_controls if not one.is_removed]
    shown = any(space.id in one.under for one in systems)
    return required(True if shown else space.absent("radon control"), limit.required)


class SystemLimits(Limits):
    gravel: Limit[Length]
    sheet: Limit[int]
    lap: Limit[Length]
    pipe: Limit[Length]
    above_roof: Limit[Length]
    from_openings: Limit[Length]
    sealed: Limit[bool]
    labeled: Limit[bool]
    power: Limit[bool]


@rule("radon.system", stage="foundation")
def system(own: RadonControl, limit: SystemLimits) -> Check:
    """A passive radon system has gravel under a lapped sheet, sealed joints, and a labeled vent pipe well above the roof.

    Power waits where a fan may be added.
    """
    return all_of(
        at_least(own.gravel, limit.gravel, "gravel"),
        at_least(own.sheet_mil, limit.sheet),
        at_least(own.sheet_lap, limit.lap, "laps of the sheet"),
        at_least(own.pipe_diameter, limit.pipe, "vent pipe"),
        at_least(own.above_roof, limit.above_roof, "end of the pipe above the roof"),
        at_least(own.from_openings, limit.from_openings, "end of the pipe from windows and other openings"),
        required(own.joints_sealed, limit.sealed),
        required(own.labeled, limit.labeled),
        required(own.power_for_fan, limit.power),
    )
