"""Openings and passages through the separation: doors, windows, ducts, penetrations and hatches."""

from __future__ import annotations

from precheck_plugins.separation.board import board
from precheck_plugins.separation.boundaries import (
    GarageDoor,
    GarageDuct,
    GarageHatch,
    GaragePenetration,
    GarageWindow,
    if_garage,
)

from precheck import (
    Check,
    Door,
    Duct,
    Duration,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Measure,
    NewValue,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
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

OPEN_SIDES = "separation.open-sides.minimum"


class SleepingLimits(Limits):
    openings: Limit[int]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.bedroom", existing="must comply")
def bedroom(opening: GarageDoor, limit: SleepingLimits) -> Check:
    """No opening leads from a garage straight into a bedroom."""
    sleeping = when_given(lambda use: use == "bedroom", opening.room.use)
    how = f"{opening.door.id} joins {opening.vehicles.id} and {opening.room.id}"
    found = at_most(1, limit.openings, how).or_fix(
        f"lead the way from {opening.vehicles.id} through a hall, and close this opening"
    )
    due = decide(sleeping, found, does_not_apply(f"{opening.room.id} is not a bedroom"))
    return if_garage(opening.vehicles, limit.open_sides, due)


class WindowLimits(Limits):
    openings: Limit[int]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.window", existing="must comply")
def window(opening: GarageWindow, limit: WindowLimits) -> Check:
    """No window of the house opens into a garage: the openings between them are doors of the kinds that the code lists.

    A carport that is enclosed becomes a garage, and the windows that looked into it have to go.
    """
    found = at_most(1, limit.openings, f"{opening.window.id} of {opening.room.id} opens into {opening.vehicles.id}")
    fix = "close it up as the wall beside it, or ask the official about a fixed window with a fire rating"
    return if_garage(opening.vehicles, limit.open_sides, found.or_fix(fix))


class DoorLimits(Limits):
    wood: Limit[Length]
    steel: Limit[Length]
    rating: Limit[Duration]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.door", stage="final")
def door(opening: GarageDoor, limit: DoorLimits) -> Check:
    """The door between garage and house is solid wood or steel of the minimum thickness, or fire-rated."""
    return if_garage(opening.vehicles, limit.open_sides, of_kind(opening.door, limit))


def of_kind(leaf: Door, limit: DoorLimits) -> Check:
    """Return whether `leaf` is a door of the kinds that may stand between a garage and the house."""
    kinds = (("a solid wood door of", limit.wood), ("a steel door of", limit.steel), ("a door rated", limit.rating))
    ways = " or ".join(f"{kind} {way.value}" for kind, way in kinds if isinstance(way.value, Measure))
    return _leaf(leaf, limit).or_fix(f"use {ways}", lambda: _as_solid_wood(leaf, limit))


def _as_solid_wood(leaf: Door, limit: DoorLimits) -> list[NewValue]:
    """Return the leaf as a solid wood door without glass, the first of the kinds."""
    if not isinstance(limit.wood.value, Length):
        return []
    hung = [NewValue(leaf, "operation", "side-hinged")] if leaf.operation == "cased opening" else []
    glass = [NewValue(leaf, "glazed", "no")] if leaf.glazed is True else []
    wood = [NewValue(leaf, "construction", "solid wood"), NewValue(leaf, "thickness", limit.wood.value)]
    return [*hung, *glass, *wood]


def _leaf(leaf: Door, limit: DoorLimits) -> Check:
    """Return whether the leaf is of a kind that the code lists. What is built to no rating is not asked for one."""
    rated = at_least(leaf.fire_rating, limit.rating)
    unrated, listed = is_missing(leaf.fire_rating), (limit.wood, limit.steel, limit.rating)
    if leaf.operation == "cased opening":
        return broken(f"{leaf.id} is an opening without a door", *listed)
    if leaf.glazed is True:
        return rated  # whatever its frame is made of: with glass in it, only a rating makes it one of the kinds
    if is_missing(leaf.construction):
        return any_of(rated, not_shown(leaf.construction))
    if leaf.construction in ("solid wood", "solid steel", "honeycomb steel"):
        solid = at_least(leaf.thickness, limit.wood if leaf.construction == "solid wood" else limit.steel)
        plain = all_of(solid, does_not_apply("glass in it: not stated")) if is_missing(leaf.glazed) else solid
        return plain if unrated else any_of(plain, rated)
    if leaf.construction == "hollow core" and unrated:
        return broken("a hollow-core door is none of the kinds that the code lists", *listed)
    return rated


class ClosingLimits(Limits):
    self_closing: Limit[bool]
    self_latching: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.door-closing", stage="final")
def door_closing(opening: GarageDoor, limit: ClosingLimits) -> Check:
    """The door between garage and house is self-closing and, in later editions, self-latching."""
    if opening.door.operation == "cased opening":
        return does_not_apply("there is no door, which the rule for its kind judges")
    closes = all_of(
        required(opening.door.self_closing, limit.self_closing).or_fix(
            "add a closer or spring hinges", lambda: [NewValue(opening.door, "self_closing", "yes")]
        ),
        required(opening.door.self_latching, limit.self_latching).or_fix(
            "add a latch that catches by itself", lambda: [NewValue(opening.door, "self_latching", "yes")]
        ),
    )
    return if_garage(opening.vehicles, limit.open_sides, closes)


class DuctLimits(Limits):
    materials: Limit[tuple[str, ...]]
    gage: Limit[int]
    openings: Limit[int]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.ducts", stage="rough-in")
def ducts(found: GarageDuct, limit: DuctLimits) -> Check:
    """A duct in a garage or through its boundary is sheet steel, thick enough, and does not open into the garage."""
    opens = when_given(int, found.part.opens_into_garage)
    closed = at_most(opens, limit.openings).or_fix(
        "remove the grille in the garage", lambda: [NewValue(found.part, "opens_into_garage", "no")]
    )
    return if_garage(found.vehicles, limit.open_sides, all_of(_duct_wall(found.part, limit), closed))


def _duct_wall(duct: Duct, limit: DuctLimits) -> Check:
    if duct.material == "other approved":
        return look_at(Look.OFFICIAL, "a duct of other material needs the approval of the official; attach it")
    listed = one_of(duct.material, limit.materials).or_fix(
        "use sheet steel here, or show the approval of the official",
        lambda: [NewValue(duct, "material", "sheet steel"), NewValue(duct, "gage", limit.gage.value)],
    )
    if is_missing(duct.material) or duct.material != "sheet steel":
        return listed
    gage = at_most(duct.gage, limit.gage, "gage number; a smaller one is thicker")
    return all_of(
        listed,
        gage.or_fix(
            lambda: f"use No. {limit.gage.value} gage or a smaller number",
            lambda: [NewValue(duct, "gage", limit.gage.value)],
        ),
    )


class PenetrationLimits(Limits):
    sealed: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.penetrations", stage="rough-in")
def penetrations(found: GaragePenetration, limit: PenetrationLimits) -> Check:
    """Gaps around what passes through the separation are filled with material that resists flame and hot gases."""
    filled = required(found.part.sealed, limit.sealed).or_fix(
        "fill the gaps with mineral wool, fire caulk or other material that resists flame and hot gases",
        lambda: [NewValue(found.part, "sealed", "yes")],
    )
    return if_garage(found.vehicles, limit.open_sides, filled)


class HatchLimits(Limits):
    gypsum: Limit[Length]
    openings: Limit[int] = reads("separation.bedroom.openings")
    rating: Limit[Duration] = reads("separation.door.rating")
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.hatch", stage="final")
def hatch(found: GarageHatch, limit: HatchLimits, house: House) -> Check:
    """A hatch or pull-down stair in a garage ceiling that separates does not break the separation, nor one in its wall.

    The model code has no sentence for it; officials ask that the board goes on over it, or that it is listed for this.
    """
    unit = found.part
    sides = [house.space(str(side)) for side in (unit.space, unit.to) if not is_missing(side)]
    if any(space is not None and space.is_sleeping for space in sides):
        into = at_most(1, limit.openings, f"{unit.id} opens from {found.vehicles.id} into a bedroom")
        return if_garage(found.vehicles, limit.open_sides, into.or_fix("close it, and reach the space from a hall"))
    if unit.through == "wall" and is_missing(unit.to):
        return if_garage(found.vehicles, limit.open_sides, not_shown(unit.to))
    covered = at_least(board(unit.cover, limit.gypsum) if unit.cover else unit.absent("cover"), limit.gypsum)
    rated = () if is_missing(unit.fire_rating) else (at_least(unit.fire_rating, limit.rating),)
    whole = any_of(covered, *rated).or_fix(
        "cover it with gypsum board, or use a unit listed for this",
        lambda: [NewValue(unit, "cover", (f"{limit.gypsum.value} gypsum",))],
    )
    listed = unit.listed_for_separation is True
    held = met("listed for this use") if listed else whole
    placed = held if not is_missing(unit.through) else all_of(held, does_not_apply("wall or ceiling: not stated"))
    return if_garage(found.vehicles, limit.open_sides, placed)
