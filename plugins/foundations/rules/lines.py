"""What works take of foundations: a footing under each new wall, post and infill, and foundation walls of known strength."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precheck_plugins.foundations.outside import below_of
from precheck_plugins.foundations.posts import PostsOf, feet_of
from precheck_plugins.foundations.rules.support import closes_overhead_door, walls_closing

from precheck import (
    Check,
    Door,
    Footing,
    FoundationWall,
    House,
    Missing,
    Part,
    Space,
    Wall,
    Work,
    decide,
    does_not_apply,
    faces_out,
    floor_of,
    is_furring,
    is_missing,
    line,
    not_shown,
    on_ground,
    outside_walls,
    rooms_of,
    shown,
    to_show,
    undrawn_walls,
)

CLOSED_IN = ("carport to room", "porch to room")  # new walls where something stood, perhaps on footings
BUILT = ("addition", "garage", "detached building", "new house")
STAYS = ("existing", "altered")


@line("foundations.under-new-walls", stage="foundation")
def under_new_walls(work: Work, house: House) -> Check:
    """Each new outside or bearing wall on the ground has a footing or foundation wall under it."""
    spaces = work.parts_of(Space)
    if spaces and not on_ground(spaces, house):
        return does_not_apply("it stands on the story below")
    walls = [*_new_outside(work, house), *_bearing_within(work, house)]
    if not _new_outside(work, house) and (why_none := _no_walls(work, house)) is not None:
        return why_none
    lacking = [*_lacking(walls, house, work.kind not in BUILT), *_undrawn(work, house)]
    return not_shown(*lacking) if lacking else shown(*_named(walls, house))


def _new_outside(work: Work, house: House) -> list[Wall]:
    """Return the new outside walls of `work`; what closes an overhead door is a line of its own."""
    walls = [*outside_walls(work, house), *(wall for wall in work.parts_of(Wall) if faces_out(wall, house))]
    new = (wall for wall in walls if wall.phase not in STAYS and not is_furring(wall, house))
    return [wall for wall in new if work.kind in BUILT or not closes_overhead_door(wall, house)]


def _no_walls(work: Work, house: House) -> Check | None:
    """Return what is said where no new outside wall of `work` is drawn."""
    if work.kind in BUILT or not work.parts or (work.kind in CLOSED_IN and not outside_walls(work, house)):
        return to_show("footing under each new outside or bearing wall", work)
    if work.kind == "new room":
        return not_shown(work.about.absent("was"))  # whether it is an addition decides
    return None if _bearing_within(work, house) else does_not_apply("no new wall of it stands on the ground")


def _bearing_within(work: Work, house: House) -> list[Wall]:
    """Return the new walls inside that bear, on a slab or with what is under them not said."""
    own = {space.id for space in on_ground(rooms_of(work), house) if floor_of(space, house) != "joists"}
    outside = outside_walls(work, house)
    new = (wall for wall in house.project.walls if wall.phase == "new" and wall not in outside)
    return [wall for wall in new if not own.isdisjoint(wall.between) and _bears(wall, house)]


def _bears(wall: Wall, house: House) -> bool:
    """Return whether a wall is said to carry something, or a member is drawn that bears on it."""
    carries = wall.absent("framing") if is_missing(wall.framing) else wall.framing.carries
    members = (member for member in house.project.members if not member.is_removed)
    borne = any(end.on == wall.id for member in members for end in member.bears_on)
    return borne or (not is_missing(carries) and carries != "nothing")


def _undrawn(work: Work, house: House) -> Iterator[Missing]:
    """Yield the outside walls of what is built that no wall drawn covers."""
    if work.kind in BUILT and (lacks := undrawn_walls(work, house)) is not None:
        yield work.about.absent(f"the other outside walls ({lacks} more), with the footing under each")


def _named(walls: Iterable[Wall], house: House) -> tuple[Part, ...]:
    return tuple({below.id: below for wall in walls if (below := below_of(wall, house)) is not None}.values())


def _lacking(walls: Iterable[Wall], house: House, old_may_serve: bool) -> Iterator[Missing]:
    """Yield what is to be shown under each of `walls` that nothing serves."""
    for wall in walls:
        below = below_of(wall, house)
        if below is None:
            yield wall.absent("footing")
        elif isinstance(below, FoundationWall) and not below.is_existing:
            yield from _under_foundation_wall(below, house)
        elif below.is_existing and not (old_may_serve and _is_known(below)) and is_missing(_designer(below)):
            yield _old(wall, below, old_may_serve)


def _under_foundation_wall(wall: FoundationWall, house: House) -> Iterator[Missing]:
    footing = None if is_missing(wall.footing) else house.project.by_id.get(wall.footing)
    if (footing is None or footing.phase in ("existing", "removed")) and is_missing(wall.designed_by):
        yield wall.absent("footing")


def _old(wall: Part, below: Part, may_serve: bool) -> Missing:
    if may_serve:
        return below.absent("form, width and depth as found (or `designed by`)")
    return wall.absent(f"new footing ({below.id} stands today; or who designed it for this load)")


def _is_known(below: Part) -> bool:
    """Return whether an old footing is described as it was found: its form, its width, how deep it goes."""
    return isinstance(below, Footing) and not any(map(is_missing, (below.form, below.width, below.below_grade)))


def _designer(below: Part) -> object:
    return below.designed_by if isinstance(below, Footing | FoundationWall) else below.absent("designed by")


@line("foundations.under-posts", stage="foundation")
def under_posts(work: Work, house: House) -> Check:
    """Each new post of a deck, porch or carport has a footing under it."""
    own = PostsOf.of(work, house)
    lacking = [post.absent("footing") for post in own.posts if not feet_of(post, house)]
    lacking += [post.absent("at") for post in own.unplaced if not feet_of(post, house)]
    if lacking:
        return not_shown(*lacking)
    feet = {foot.id: foot for member in (*own.posts, *own.landing) for foot in feet_of(member, house)}
    return shown(*feet.values()) if feet else _no_posts(work, house)


def _no_posts(work: Work, house: House) -> Check:
    spaces = work.parts_of(Space)
    lows = [low for low in house.spaces if low.use not in ("crawl space", "attic") and low not in spaces]
    if spaces and all(any(space in house.above(low) for low in lows) for space in spaces):
        return does_not_apply("it stands on the rooms below")
    if outside_walls(work, house) and all(space.open_sides == 0 for space in spaces):
        return does_not_apply("walls carry it on all sides")
    if spaces and all(floor_of(space, house) == "slab" for space in spaces) and work.kind != "carport":
        open_air = does_not_apply("it is a slab on the ground with no roof")
        needed = to_show("footing under each post", work)
        return decide(spaces[0].roofed, needed, open_air)
    return to_show("footing under each post", work)


@line("foundations.infill", stage="foundation")
def infill(work: Work, house: House) -> Check:
    """The wall that closes an overhead door opening has a footing under it; a slab edge is none."""
    door = next(iter(work.parts_of(Door)), None)
    if door is None:
        return to_show("footing under the wall that closes the overhead door", work)
    walls = walls_closing(door, house)
    if not walls:
        return not_shown(door.absent("footing under the wall that closes the overhead door"))
    lacking = [*_lacking(walls, house, old_may_serve=True)]
    return not_shown(*lacking) if lacking else shown(*_named(walls, house))


@line("foundations.wall-thickness-shown", stage="foundation")
def wall_thickness_shown(work: Work, house: House) -> Check:
    """The plans show the foundation walls under a floor of joists or around a basement, with thickness and bars."""
    rooms = on_ground(rooms_of(work), house)
    if work.parts and not rooms:
        return does_not_apply("it stands on the story below")
    if not rooms:
        return to_show("floor (slab or joists)", work)
    below = [below_of(wall, house) for wall in outside_walls(work, house) if wall.phase not in STAYS]
    drawn = [wall for wall in below if isinstance(wall, FoundationWall) and not wall.is_existing]
    if drawn:
        return shown(*{wall.id: wall for wall in drawn}.values())
    return _foundation_walls_due(work, rooms, house)


def _foundation_walls_due(work: Work, rooms: tuple[Space, ...], house: House) -> Check:
    floors = [floor_of(room, house) for room in rooms]
    if "joists" in floors or any(house.story_level(room) == "basement" for room in rooms):
        return to_show("foundation walls, which its outside walls name as their `footing`", work)
    unknown = [floor for floor in floors if is_missing(floor)]
    return not_shown(*unknown) if unknown else does_not_apply("its walls stand on the footings of a slab")
