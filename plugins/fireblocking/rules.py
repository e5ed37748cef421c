"""Fire blocks in walls, draft stops and protection of the underside of framed floors."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from precheck_plugins.fireblocking.lines import fireblocking_note

from precheck import (
    Area,
    Check,
    Fact,
    FireBlocks,
    Floor,
    FloorGuard,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Wall,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    faces_out,
    fact,
    if_stated,
    is_furring,
    is_missing,
    is_outdoors,
    less_than,
    met,
    missing_of,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)


@fact
class ConcealedWall(Fact):
    """A wall with concealed spaces between its studs: one with fire blocks drawn, or new to the outside.

    Partitions are blocked by their plates; what else of them is fireblocked is a line of the work that builds them.
    """

    wall: Wall

    @classmethod
    def found_in(cls, house: House) -> Iterator[ConcealedWall]:
        """Yield such walls."""
        for wall in house.project.walls:
            drawn = not is_missing(wall.fire_blocks)
            new = faces_out(wall, house) and wall.phase == "new" and wall.is_framed is not False
            if drawn or (new and not is_furring(wall, house)):
                yield cls(wall, wall)


class BlockLimits(Limits):
    at_floors: Limit[bool]
    spacing: Limit[Length]
    at_connections: Limit[bool]


@rule("fireblocking.walls", stage="rough-in")
def walls(concealed: ConcealedWall, limit: BlockLimits, house: House) -> Check:
    """Concealed spaces of walls are fireblocked at floors and ceilings, along their length, and around pipes and wires.

    Soffits and stairs are asked about only where the drawings show them; pipes and wires are in every wall. A note of the
    drawings that calls for fireblocking will do where no wall shows it.
    """
    blocks: Any = concealed.wall.fire_blocks
    if is_missing(blocks):
        note = fireblocking_note(house)
        return not_shown(blocks) if note is None else does_not_apply(f"{note.label} calls for fireblocking")
    joins = [
        if_stated(own, required, limit.at_connections, where)
        for own, where in ((blocks.at_soffits, "at soffits"), (blocks.at_stair_stringers, "at stair stringers"))
    ]
    return all_of(
        required(blocks.at_floors_and_ceilings, limit.at_floors),
        at_most(blocks.spacing, limit.spacing).or_fix(*_closer(blocks, limit)),
        required(blocks.at_penetrations, limit.at_connections, "around pipes and wires"),
        *joins,
    )


def _closer(blocks: FireBlocks, limit: BlockLimits) -> tuple[Callable[[], str], Callable[[], list[NewValue]]]:
    return (lambda: f"fireblocking at {limit.spacing.value} on center",
            lambda: [NewValue(blocks, "spacing", limit.spacing.value)])  # fmt: skip


class MaterialLimits(Limits):
    thicknesses: Limit[Mapping[str, Length]]
    loose: Limit[tuple[str, ...]]


@rule("fireblocking.material", stage="rough-in")
def material(blocks: FireBlocks, limit: MaterialLimits) -> Check:
    """Fireblocking is of a material that the code lists, and thick enough; fiber batts are held in place."""
    if is_missing(blocks.material):
        return not_shown(blocks.material)
    absent = missing_of(limit.thicknesses.value, limit.loose.value)
    if absent is not None:
        return not_shown(absent)
    sizes, batts = limit.thicknesses.value or {}, limit.loose.value or ()
    if blocks.material in batts:
        return met(f"{blocks.material}, held in place")
    listed = sizes.get(blocks.material)
    if listed is None:
        accepted: Any = replace(limit.loose, value=(*sizes, *batts))
        return one_of(blocks.material, accepted)
    return at_least(blocks.thickness, replace(limit.thicknesses, value=listed), blocks.material)


class DraftLimits(Limits):
    area: Limit[Area]
    stopped: Limit[bool]


@rule("fireblocking.draft-stops", stage="rough-in")
def draft_stops(floor: FloorGuard, limit: DraftLimits) -> Check:
    """A large concealed space between ceiling and floor is divided by draftstops.

    It is open from bay to bay where the floor is of trusses or the ceiling hangs below the joists.
    """
    large = when_given(lambda area, most: most is not None and area > most, floor.concealed_area, limit.area.value)
    stopped = required(floor.draft_stopped, limit.stopped)
    split = decide(large, stopped, does_not_apply("the concealed space is small"))
    runs_on = True if floor.joists == "truss" else floor.hung_ceiling
    return decide(runs_on, split, does_not_apply("the joists close each bay"))


PANELS = ("plywood", "osb", "wood structural panel", "wood panel")


class MembraneLimits(Limits):
    gypsum: Limit[Length]
    panel: Limit[Length]
    small_area: Limit[Area]
    lumber_depth: Limit[Length]
    detached_under: Limit[Area]


@fact
class FramedFloor(Fact):
    """A new framed floor that does not show its underside, or a floor underside as drawn."""

    guard: FloorGuard | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[FramedFloor]:
        """Yield undersides as drawn, and the new floors on joists of which none is drawn."""
        drawn = [one for one in house.project.floor_undersides if not one.is_removed]
        yield from (cls(one, one) for one in drawn)
        told = {one.floor for one in drawn if not is_missing(one.floor)}
        bare = [floor for floor in house.project.floors if _is_asked(floor, house) and floor.id not in told]
        loose = sum(is_missing(one.floor) for one in drawn)
        yield from (cls(floor, None) for floor in bare[loose:])


def _is_asked(floor: Floor, house: House) -> bool:
    """Return whether a new floor stands on joists, and not outdoors as that of a deck nor over a ceiling that stands.

    A ceiling stands below an attic that is floored for storage.
    """
    rooms = [space for space in house.spaces if space.floor == floor.id]
    outdoors = bool(rooms) and all(is_outdoors(room.id, house) for room in rooms)
    stored = bool(rooms) and all(room.use == "attic" and room.phase == "altered" for room in rooms)
    lived_on = any(room.habitable_attic is True for room in rooms)
    return floor.phase == "new" and floor.base == "joists" and not outdoors and not (stored and not lived_on)


@rule("fireblocking.floor-underside", stage="rough-in")
def floor_underside(floor: FramedFloor, limit: MembraneLimits, house: House) -> Check:
    """The underside of a framed floor is covered, unless what is below or the joists themselves let it be bare.

    Solid joists as deep as a 2x10 need no cover, nor does a floor over sprinklers or over a crawl space that holds
    neither goods nor a fuel-burning appliance. From 2024 on the small floor of a detached building needs none either, where
    nobody lives above it.
    """
    guard = floor.guard
    if guard is None:
        return not_shown(floor.about.absent("floor undersides"))
    if guard.below == "sprinklered space":
        return does_not_apply("sprinklers are below")
    solid = guard.joists in ("lumber", "structural composite")
    deep = at_least(guard.joist_depth, limit.lumber_depth, "solid joists") if solid else None
    small = None if is_missing(guard.unprotected_area) else at_most(guard.unprotected_area, limit.small_area)
    ways = [way for way in (deep, small, _detached(guard, limit, house), *_cover(guard, limit)) if way is not None]
    bare = any_of(*ways) if ways else _nothing_below(guard, limit)
    crawl = when_given(lambda held: not held, guard.below_holds_storage_or_appliance)
    return (
        decide(crawl, does_not_apply("an empty crawl space is below"), bare) if guard.below == "crawl space" else bare
    )


def _detached(guard: FloorGuard, limit: MembraneLimits, house: House) -> Check | None:
    """Check that the floor of a detached building is small, or return None where it is no such floor, or one lived above."""
    rooms = [room for room in house.spaces if not is_missing(room.floor) and room.floor == guard.floor]
    apart = bool(rooms) and all(room.detached is True for room in rooms)
    lived_in = any(room.is_habitable for room in house.spaces if room.detached is True)
    if limit.detached_under.value is None or not apart or lived_in:
        return None
    area = when_given(lambda first, *others: sum(others, first), *(house.area(room) for room in rooms))
    return less_than(area, limit.detached_under)


def _nothing_below(guard: FloorGuard, limit: MembraneLimits) -> Check:
    """Return the check of an underside without cover: one that is said to be bare, or of which nothing is said."""
    if "underside" not in guard.model_fields_set:
        return not_shown(guard.absent("underside"))
    what = ", ".join(layer.material for layer in guard.underside) or "nothing"
    told = broken(f"{what} covers the underside", limit.gypsum, limit.panel)
    return told.or_fix(
        lambda: f"{limit.gypsum.value} gypsum board or {limit.panel.value} plywood under the joists",
        lambda: [NewValue(guard, "underside", (f"{limit.gypsum.value} gypsum",))],
    )


def _cover(guard: FloorGuard, limit: MembraneLimits) -> Iterator[Check]:
    """Yield the check of each layer that is gypsum board or a wood panel: nothing else counts as cover."""
    for layer in guard.underside:
        if layer.is_gypsum_board or layer.is_any_of(PANELS):
            yield at_least(layer.thickness, limit.gypsum if layer.is_gypsum_board else limit.panel, layer.material)
