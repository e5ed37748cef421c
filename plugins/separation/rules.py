"""Garage-to-dwelling separation: carports that count as garages, walls, ceilings, attics and supports."""

from __future__ import annotations

from fractions import Fraction

from precheck_plugins.separation.board import (
    board,
    boarded,
    ceiling_board,
    ceiling_boarded,
    is_type_x,
    lined,
    makes_up,
    type_x_among,
)
from precheck_plugins.separation.boundaries import (
    CommonWall,
    GarageCeiling,
    GarageSupport,
    RoomAbove,
    counts_as_garage,
    if_garage,
    pairs,
)

from precheck import (
    OUTSIDE,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    Space,
    Support,
    Wall,
    all_of,
    at_least,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    missing_of,
    reads,
    required,
    rule,
    when_given,
)

OPEN_SIDES = "separation.open-sides.minimum"
WHOLE = Ratio(Fraction(98, 100))  # of a garage, whose walls are no room over it


class OpenSidesLimits(Limits):
    minimum: Limit[int]


@rule("separation.open-sides", existing="must comply")
def open_sides(space: Space, limit: OpenSidesLimits) -> Check:
    """A carport is open on enough sides; with fewer it counts as a garage, and all that a garage needs is due."""
    if space.use != "carport":
        return does_not_apply("not a carport")
    sides = "1 side" if space.open_sides == 1 else f"{space.open_sides} sides"
    enclosed = look_at(Look.OFFICIAL, f"open on {sides}, it counts as a garage, and is checked as one")
    return decide(counts_as_garage(space, limit.minimum), enclosed, at_least(space.open_sides, limit.minimum))


class WallLimits(Limits):
    gypsum: Limit[Length]
    type_x: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.common-wall", stage="final")
def common_wall(boundary: CommonWall, limit: WallLimits) -> Check:
    """The wall between garage and house carries gypsum board on the garage side.

    The part of a garage that becomes a room stops being a garage; what remains beside it counts.
    """
    if boundary.room.use in ("attic", "crawl space"):
        return does_not_apply("the rule for attics judges it")
    if boundary.is_bare_masonry:
        bare = look_at(Look.OFFICIAL, "bare masonry or concrete; whether it is as good as board is for the official")
        return if_garage(boundary.vehicles, limit.open_sides, bare)
    covered = at_least(when_given(lambda own: board(own, limit.gypsum), boundary.layers), limit.gypsum).or_fix(
        lambda: f"add {limit.gypsum.value} gypsum board on the garage side",
        lambda: [] if boundary.wall is None else lined(boundary.wall, boundary.vehicles.id, limit.gypsum.value),
        decide="where it goes",
    )
    type_x = when_given(lambda own: type_x_among(own, limit.gypsum), boundary.layers)
    kind = required(makes_up(type_x, limit.gypsum), limit.type_x).or_fix("use Type X gypsum board on the garage side")
    return if_garage(boundary.vehicles, limit.open_sides, all_of(covered, kind))


class AtticLimits(Limits):
    gypsum: Limit[Length]
    type_x: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.attic", stage="final")
def attic(boundary: GarageCeiling, limit: AtticLimits, house: House) -> Check:
    """Where garage and house share an attic, the garage ceiling is boarded, or the wall goes up to the roof deck."""
    space = boundary.vehicles
    if space.detached is True:
        return does_not_apply("not an attached garage or carport")
    ceiling = at_least(ceiling_board(space, limit.gypsum), limit.gypsum).or_fix(
        lambda: f"board the garage ceiling with {limit.gypsum.value} gypsum, or carry the wall up to the roof deck",
        lambda: ceiling_boarded(space, limit.gypsum.value),
    )
    kind = required(is_type_x(space, limit.gypsum), limit.type_x).or_fix(
        "use Type X gypsum board on the garage ceiling"
    )
    carried = decide(_walls_go_up(space, house), met("the common wall goes up to the roof deck"), all_of(ceiling, kind))
    none = does_not_apply("garage and house share no attic")
    return if_garage(space, limit.open_sides, decide(_shares_attic(space, house), carried, none))


def _walls_go_up(space: Space, house: House) -> bool | Missing:
    """Return whether every wall to the house goes up to the roof deck; False where no drawn wall is said to."""
    walls = [w for w in house.subjects(Wall) if space.id in w.between and OUTSIDE not in w.between and not w.is_removed]
    said = [wall.carried_to_roof_deck for wall in walls]
    if False in said or True not in said:
        return False
    unsaid = missing_of(*said)
    return True if unsaid is None else unsaid


def _shares_attic(space: Space, house: House) -> bool | Missing:
    dwelling = house.project.dwelling
    if any(above.use == "attic" and above.habitable_attic is not True for above in house.above(space)):
        return True
    walls = (w for room in house.beside(space) for w in house.walls_between(space, room))
    if any(wall.carried_to_roof_deck is False for wall in walls):
        return True  # whatever is said of it: the attic runs on over the wall
    rooms = [above for above in house.above(space) if above.use != "attic"]
    if rooms and (covered := house.cover(space, rooms)) is not None and covered >= WHOLE:
        return False  # there is no attic between a garage and the rooms over all of it
    shared = dwelling.shares_attic_with_garage
    return (
        space.absent("an attic over it, or `shares attic with garage` of the dwelling")
        if is_missing(shared)
        else shared
    )


class RoomsAboveLimits(Limits):
    gypsum: Limit[Length]
    type_x: Limit[bool]
    any_room: Limit[bool]
    other_rooms: Limit[Length] = reads("separation.common-wall.gypsum")
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.rooms-above", stage="final")
def rooms_above(pair: RoomAbove, limit: RoomsAboveLimits) -> Check:
    """A garage ceiling under habitable rooms carries thicker Type X board, and under other rooms board as on the walls.

    Halls, closets, baths and storage are not habitable, so a strict reading leaves them out; many officials do not, and
    from 2024 any room of the dwelling counts. The Type X board alone makes up the thickness.
    """
    room = pair.room
    if _is_bare_attic(room):
        return does_not_apply("only an attic is above, which the rule for attics judges")
    thick = at_least(ceiling_board(pair.vehicles, limit.gypsum), limit.gypsum).or_fix(
        lambda: f"cover the garage ceiling with {limit.gypsum.value} Type X gypsum board",
        lambda: ceiling_boarded(pair.vehicles, limit.gypsum.value, "Type X gypsum"),
    )
    kind = required(is_type_x(pair.vehicles, limit.gypsum), limit.type_x)
    strict = all_of(thick, kind.or_fix("use Type X gypsum board on the garage ceiling", lambda: _type_x(pair, limit)))
    if limit.any_room.value is not None:
        return if_garage(pair.vehicles, limit.open_sides, strict)
    habitable = room.use if is_missing(room.use) else room.is_habitable
    due = decide(habitable, strict, _under_other_room(pair, limit, strict))
    return if_garage(pair.vehicles, limit.open_sides, due)


def _type_x(pair: RoomAbove, limit: RoomsAboveLimits) -> list[NewValue]:
    thick = limit.gypsum.value
    return ceiling_boarded(pair.vehicles, thick, "Type X gypsum") if isinstance(thick, Length) else []


def _under_other_room(pair: RoomAbove, limit: RoomsAboveLimits, strict: Check) -> Check:
    if strict.outcome is Outcome.PASS:
        return strict
    asked = f"{pair.room.id} is not habitable, but many officials ask for thicker Type X board under it too"
    covered = at_least(ceiling_board(pair.vehicles, limit.other_rooms), limit.other_rooms).or_fix(
        lambda: f"cover the garage ceiling with {limit.other_rooms.value} gypsum board",
        lambda: ceiling_boarded(pair.vehicles, limit.other_rooms.value),
    )
    return all_of(covered, look_at(Look.OFFICIAL, asked))


class SupportLimits(Limits):
    gypsum: Limit[Length]
    type_x: Limit[bool]
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.supports", stage="final")
def supports(found: GarageSupport, limit: SupportLimits) -> Check:
    """Walls, beams and posts that hold up a ceiling which separates are covered as well."""
    support = found.part
    bare = Length(0) if support.covered is False else support.absent("cover")
    covered = at_least(board(support.cover, limit.gypsum) if support.cover else bare, limit.gypsum)
    strict = type_x_among(support.cover, limit.gypsum) if support.cover else bare
    kind = required(makes_up(strict, limit.gypsum), limit.type_x).or_fix("use Type X gypsum board")
    thick = covered.or_fix(
        lambda: f"wrap it in {limit.gypsum.value} gypsum board", lambda: _wrapped(support, limit.gypsum.value)
    )
    return if_garage(found.vehicles, limit.open_sides, all_of(thick, kind))


def _wrapped(support: Support, thick: Length) -> list[NewValue]:
    said = [NewValue(support, "covered", "yes")] if support.covered is False else []
    return [*said, *boarded(support, "cover", support.cover, thick)]


class SupportsShownLimits(Limits):
    gypsum: Limit[Length] = reads("separation.supports.gypsum")
    open_sides: Limit[int] = reads(OPEN_SIDES)


@rule("separation.supports-shown", stage="plan")
def supports_shown(boundary: GarageCeiling, limit: SupportsShownLimits, house: House) -> Check:
    """Where a room lies over the garage, the plans show what holds its ceiling up, and that it is covered."""
    space = boundary.vehicles
    rooms = [room for vehicles, room in pairs(house, house.above) if vehicles is space and not _is_bare_attic(room)]
    if not rooms:
        return does_not_apply("no room lies over it")
    drawn = [s for s in house.project.supports if s.space == space.id and not s.is_removed]
    if drawn:
        return met(f"{', '.join(one.label for one in drawn)} hold it up")
    asked = space.absent(f"supports of the ceiling under {rooms[0].id}, and their cover")
    return if_garage(space, limit.open_sides, at_least(asked, limit.gypsum))


def _is_bare_attic(room: Space) -> bool:
    return room.use in ("attic", "crawl space") and room.habitable_attic is not True
