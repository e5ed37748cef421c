"""Garage-to-dwelling separation: walls, ceilings, supports, doors, ducts, penetrations and hatches."""

from __future__ import annotations

from typing import NamedTuple

from precheck_plugins.separation.boundaries import (
    CommonWall,
    GarageDoor,
    RoomAbove,
    board,
    counts_as_garage,
    if_garage,
    is_gypsum,
)

from precheck import (
    Check,
    Duct,
    Duration,
    Dwelling,
    Hatch,
    House,
    Length,
    Limit,
    Look,
    Missing,
    Penetration,
    Space,
    Support,
    Wall,
    Window,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    less_than,
    look_at,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
)

OPEN_SIDES = "separation.open-sides.least"


class OpenSidesLimits(NamedTuple):
    least: Limit[int]


@rule("separation.open-sides", existing="must comply")
def open_sides(space: Space, limit: OpenSidesLimits) -> Check:
    """A carport is open on enough sides; with fewer it counts as a garage, and all that a garage needs is due."""
    if space.use != "carport":
        return does_not_apply("not a carport")
    enclosed = look_at(
        Look.OFFICIAL, f"with {space.open_sides} open sides it counts as a garage, and is checked as one"
    )
    return decide(counts_as_garage(space, limit.least), enclosed, at_least(space.open_sides, limit.least))


class WallLimits(NamedTuple):
    gypsum: Limit[Length]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.common-wall", stage="final")
def common_wall(boundary: CommonWall, limit: WallLimits) -> Check:
    """The wall between garage and house carries gypsum board on the garage side.

    The part of a garage that becomes a room stops being a garage; what remains beside it counts.
    """
    if boundary.room.use in ("attic", "crawl space"):
        return does_not_apply("the rule for attics judges it")
    covered = at_least(boundary.gypsum, limit.gypsum).or_fix(
        lambda: f"add {limit.gypsum.value} gypsum board on the garage side"
    )
    return if_garage(boundary.vehicles, limit.open_sides, covered)


class AtticLimits(NamedTuple):
    gypsum: Limit[Length]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.attic", stage="final")
def attic(space: Space, limit: AtticLimits, house: House) -> Check:
    """Where garage and house share an attic, the garage ceiling carries gypsum board, or the wall goes up to the roof deck."""
    if not space.is_vehicle or space.detached is True:
        return does_not_apply("not an attached garage or carport")
    shared = _shares_attic(space, house)
    carried = any(
        w.carried_to_roof_deck is True for w in house.subjects(Wall) if space.id in w.between and not w.is_removed
    )
    ceiling = (
        met("the common wall goes up to the roof deck") if carried else at_least(_ceiling_board(space), limit.gypsum)
    )
    needed = decide(shared, ceiling, does_not_apply("garage and house share no attic"))
    return if_garage(space, limit.open_sides, needed)


def _shares_attic(space: Space, house: House) -> bool | Missing:
    dwelling = house.project.dwelling
    if any(above.use == "attic" and above.habitable_attic is not True for above in house.above(space)):
        return True
    return (
        dwelling.shares_attic_with_garage
        if isinstance(dwelling, Dwelling)
        else space.absent("whether it shares the attic")
    )


def _ceiling_board(space: Space) -> Length | Missing:
    ceiling = space.ceiling
    if is_missing(ceiling) or not ceiling.layers:
        return space.absent("ceiling layers")
    return board(ceiling.layers)


class RoomsAboveLimits(NamedTuple):
    gypsum: Limit[Length]
    type_x: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.rooms-above", stage="final")
def rooms_above(pair: RoomAbove, limit: RoomsAboveLimits) -> Check:
    """A garage ceiling under habitable rooms carries thicker board of Type X.

    Halls, closets, baths and storage are not habitable, so that a strict reading leaves them out; many officials do not.
    """
    if pair.room.use == "attic" and not pair.room.is_habitable:
        return does_not_apply("only an attic is above, which the rule for attics judges")
    ceiling = pair.vehicles.ceiling
    layers = () if is_missing(ceiling) else ceiling.layers
    marked = [layer.type_x for layer in layers if is_gypsum(layer)]
    type_x = (
        True
        if True in marked
        else next((m for m in marked if is_missing(m)), False if marked else _ceiling_board(pair.vehicles))
    )
    covered = all_of(
        at_least(_ceiling_board(pair.vehicles), limit.gypsum),
        required(type_x if isinstance(type_x, bool | Missing) else False, limit.type_x, "Type X board"),
    ).or_fix(lambda: f"cover the garage ceiling with {limit.gypsum.value} Type X gypsum board")
    if not pair.room.is_habitable and covered.outcome < covered.outcome.PASS:
        covered = look_at(
            Look.OFFICIAL,
            f"{pair.room.id} is not a habitable room, but many officials ask for {limit.gypsum.value} Type X here too",
        )
    return if_garage(pair.vehicles, limit.open_sides, covered)


class SupportLimits(NamedTuple):
    gypsum: Limit[Length]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.supports", stage="final")
def supports(support: Support, limit: SupportLimits, house: House) -> Check:
    """Walls, beams and posts that hold up a ceiling which separates are covered as well."""
    space = house.space(support.space)
    if space is None or not space.is_vehicle:
        return does_not_apply("not in a garage")
    bare = Length(0) if support.covered is False else support.absent("cover")
    return if_garage(space, limit.open_sides, at_least(board(support.cover) if support.cover else bare, limit.gypsum))


class DetachedLimits(NamedTuple):
    nearer_than: Limit[Length]
    gypsum: Limit[Length]


@rule("separation.detached", stage="final")
def detached(space: Space, limit: DetachedLimits, house: House) -> Check:
    """A detached garage close to the house on the same lot carries gypsum board inside the walls that are close."""
    if space.use != "garage" or space.detached is not True:
        return does_not_apply("not a detached garage")
    near = less_than(space.distance_to_house, limit.nearer_than)
    if near.outcome == near.outcome.FAIL:
        return does_not_apply(f"it stands {space.distance_to_house} from the house")
    if is_missing(space.distance_to_house):
        return near
    walls = [w for w in house.subjects(Wall) if space.id in w.between and not w.is_removed]
    faces = [face.layers for wall in walls for face in wall.faces if face.side == space.id and face.layers]
    return at_least(min(map(board, faces)) if faces else space.absent("finish inside its walls"), limit.gypsum)


class SleepingLimits(NamedTuple):
    openings: Limit[int]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.sleeping-room", existing="must comply")
def sleeping_room(opening: GarageDoor, limit: SleepingLimits) -> Check:
    """No opening leads from a garage straight into a sleeping room."""
    if not opening.room.is_sleeping:
        return does_not_apply(f"{opening.room.id} is not a sleeping room")
    found = at_most(1, limit.openings, f"{opening.door.id} joins {opening.vehicles.id} and {opening.room.id}")
    return if_garage(
        opening.vehicles,
        limit.open_sides,
        found.or_fix(f"lead the way from {opening.vehicles.id} through a hall, and close this opening"),
    )


class SleepingWindowLimits(NamedTuple):
    openings: Limit[int] = reads("separation.sleeping-room.openings")


@rule("separation.sleeping-room-window", existing="must comply")
def sleeping_room_window(window: Window, limit: SleepingWindowLimits, house: House) -> Check:
    """No window of a sleeping room opens into a garage."""
    room = house.space(window.space)
    if room is None or not room.is_sleeping or window.opens_to != "garage":
        return does_not_apply("not a window from a sleeping room into a garage")
    return at_most(1, limit.openings, f"{window.id} opens into the garage").or_fix("close the window toward the garage")


class DoorLimits(NamedTuple):
    wood: Limit[Length]
    steel: Limit[Length]
    rating: Limit[Duration]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.door", stage="final")
def door(opening: GarageDoor, limit: DoorLimits) -> Check:
    """The door between garage and house is solid wood or steel of the least thickness, or fire-rated."""
    leaf = opening.door
    rated = at_least(leaf.fire_rating, limit.rating)
    ways = {
        "solid wood": at_least(leaf.thickness, limit.wood),
        "solid steel": at_least(leaf.thickness, limit.steel),
        "honeycomb steel": at_least(leaf.thickness, limit.steel),
    }
    if is_missing(leaf.construction):
        kind = rated if not is_missing(leaf.fire_rating) else not_shown(leaf.construction)
    elif leaf.construction in ways:
        kind = any_of(ways[leaf.construction], rated) if not is_missing(leaf.fire_rating) else ways[leaf.construction]
    else:
        kind = rated
    fix = f"use a solid wood or steel door of {limit.wood.value}, or one rated {limit.rating.value}"
    return if_garage(opening.vehicles, limit.open_sides, kind.or_fix(fix))


class ClosingLimits(NamedTuple):
    self_closing: Limit[bool]
    self_latching: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.door-closing", stage="final")
def door_closing(opening: GarageDoor, limit: ClosingLimits) -> Check:
    """The door between garage and house closes by itself and, in later editions, latches by itself."""
    closes = all_of(
        required(opening.door.self_closing, limit.self_closing, "self-closing device").or_fix(
            "add a closer or spring hinges"
        ),
        required(opening.door.self_latching, limit.self_latching, "self-latching").or_fix(
            "add a latch that catches by itself"
        ),
    )
    return if_garage(opening.vehicles, limit.open_sides, closes)


class DuctLimits(NamedTuple):
    materials: Limit[tuple[str, ...]]
    gage: Limit[int]
    openings: Limit[int]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.ducts", stage="rough-in")
def ducts(duct: Duct, limit: DuctLimits, house: House) -> Check:
    """A duct in a garage or through its boundary is sheet steel of the least thickness and does not open into the garage."""
    space = house.space(duct.space)
    if space is None or not space.is_vehicle:
        return does_not_apply("not in a garage")
    opens = duct.opens_into_garage
    closed = at_most(opens if is_missing(opens) else int(opens), limit.openings)
    return if_garage(
        space, limit.open_sides, all_of(_duct_wall(duct, limit), closed.or_fix("remove the grille in the garage"))
    )


def _duct_wall(duct: Duct, limit: DuctLimits) -> Check:
    if duct.material == "other approved":
        return look_at(Look.OFFICIAL, "a duct of other material needs the approval of the official; attach it")
    if is_missing(duct.material) or duct.material == "sheet steel":
        return at_most(
            duct.material if is_missing(duct.material) else duct.gage,
            limit.gage,
            "gage number; a smaller one is thicker",
        )
    return one_of(duct.material, limit.materials).or_fix("use sheet steel here, or show the approval of the official")


class PenetrationLimits(NamedTuple):
    sealed: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.penetrations", stage="rough-in")
def penetrations(penetration: Penetration, limit: PenetrationLimits, house: House) -> Check:
    """Gaps around what passes through the separation are filled with material that resists flame and hot gases."""
    space = house.space(penetration.space)
    if space is None or not space.is_vehicle:
        return does_not_apply("not in a garage")
    return if_garage(space, limit.open_sides, required(penetration.sealed, limit.sealed, "filling of the gaps"))


class HatchLimits(NamedTuple):
    gypsum: Limit[Length]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.hatch", stage="final")
def hatch(hatch: Hatch, limit: HatchLimits, house: House) -> Check:
    """A hatch or pull-down stair in a garage ceiling that separates does not break the separation.

    The model code has no sentence for it; officials ask that the board goes on over it, or that it is listed for this.
    """
    space = house.space(hatch.space)
    if space is None or not space.is_vehicle:
        return does_not_apply("not in a garage")
    if hatch.listed_for_separation is True:
        return met("listed for this use")
    cover = board(hatch.cover) if hatch.cover else hatch.absent("cover")
    return if_garage(
        space,
        limit.open_sides,
        at_least(cover, limit.gypsum).or_fix("cover it with gypsum board, or use a listed unit"),
    )
