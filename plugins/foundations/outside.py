"""What walls stand on, and what footings carry and where they are, whatever is said of them."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.foundations.posts import PostsOf, feet_of

from precheck import (
    Footing,
    FoundationWall,
    House,
    Member,
    Missing,
    Part,
    Space,
    Wall,
    Work,
    Works,
    faces_out,
    floor_of,
    is_alone,
    is_missing,
)

OPEN_WORKS = ("deck", "porch", "carport")
WALLED = ("addition", "garage", "detached building", "new house", "new room", "porch", "carport to room",
          "porch to room", "overhead door closed")  # fmt: skip
UNDER_WALLS = ("continuous", "turned-down slab")


def below_of(wall: Wall, house: House) -> Part | None:
    """Return the footing or foundation wall of `wall` that is there when the work is done: the one that it names.

    Where no wall names any, the only new wall footing of a project with one work that builds walls is under them all.
    """
    if is_missing(wall.footing):
        return None if wall.is_existing or wall.phase == "altered" else _only_footing(house)
    part = house.project.by_id.get(wall.footing)
    return None if part is None or part.is_removed else part


def _only_footing(house: House) -> Footing | None:
    works = Works.of(house).of_kinds(*WALLED)
    if any(not is_missing(wall.footing) for wall in house.project.walls) or not works:
        return None
    new = [f for f in house.project.footings if f.phase == "new" and f.form in UNDER_WALLS]
    return new[0] if len(new) == 1 and is_alone(works[0], house, WALLED) else None


def stands_outside(footing: Footing, house: House) -> str | None:
    """Return what of the outside stands on `footing`: an outside wall or a post in the open; None where nothing drawn does."""
    found: Part | None = next((w for w in _walls_on(footing, house) if faces_out(w, house)), None)
    if found is None:
        found = next((post for _, post in _posts_on(footing, house)), None)
    return None if found is None else found.label


def stands_in_open(footing: Footing, house: House) -> bool:
    """Return whether a post of a deck, porch or carport stands on `footing`."""
    return next(_posts_on(footing, house), None) is not None


def attached_to(footing: Footing, house: House) -> str | None:
    """Return the space on `footing` that other rooms of the house stand beside, as drawn or named; None where none does."""
    on_walls = (house.space(side) for wall in _walls_on(footing, house) for side in wall.between)
    on_posts = (space for work, _ in _posts_on(footing, house) for space in work.parts_of(Space))
    spaces = (space for space in (*on_walls, *on_posts) if space is not None and space.detached is not True)
    return next((space.label for space in spaces if house.beside(space)), None)


def lowest_floor_of(footing: Footing, house: House) -> str | Missing:
    """Return the lowest floor of what stands on `footing`, as stated; a slab that is drawn as joists or a basement is none."""
    drawn = {_lowest(room, house) for room in _rooms_on(footing, house)} - {None}
    stated = footing.lowest_floor
    if is_missing(stated):
        return str(*drawn) if drawn in ({"slab"}, {"basement"}) else stated
    if "basement" in drawn:
        return "basement"
    return "crawl space" if stated == "slab" and "joists" in drawn else stated


def _lowest(room: Space, house: House) -> str | None:
    base = "basement" if house.story_level(room) == "basement" else floor_of(room, house)
    return None if is_missing(base) else base


def built_of(footing: Footing, house: House) -> str | Missing:
    """Return what the walls on `footing` are built of, as stated or by their layers; with brick veneer where it is drawn."""
    stated, framed = footing.built_of, {wall.is_framed for wall in _walls_on(footing, house)}
    if is_missing(stated) and framed == {False}:
        return "masonry or concrete"
    rooms = {room.id for room in _rooms_on(footing, house)}
    veneers = [veneer for veneer in house.project.veneers if not veneer.is_removed]
    clad = any(not rooms.isdisjoint(veneer.spaces) for veneer in veneers)
    if clad and (stated == "light frame" or (is_missing(stated) and framed == {True})):
        return "light frame with brick veneer"
    return "light frame" if is_missing(stated) and framed == {True} and not veneers else stated


def _rooms_on(footing: Footing, house: House) -> list[Space]:
    sides = (house.space(side) for wall in _walls_on(footing, house) for side in wall.between)
    return [space for space in sides if space is not None]


def _walls_on(footing: Footing, house: House) -> Iterator[Wall]:
    walls = (wall for wall in house.project.walls if not wall.is_removed)
    return (wall for wall in walls if _rests_on(below_of(wall, house), footing))


def _posts_on(footing: Footing, house: House) -> Iterator[tuple[Work, Member]]:
    posts = ((work, post) for work in Works.of(house).of_kinds(*OPEN_WORKS) for post in PostsOf.of(work, house).posts)
    return ((work, post) for work, post in posts if footing in feet_of(post, house))


def _rests_on(below: Part | None, footing: Footing) -> bool:
    return below is footing or (isinstance(below, FoundationWall) and below.footing == footing.id)


def is_all_detached(house: House) -> bool:
    """Return whether all that is built stands apart from the house, so that its footings meet none that stands."""
    built = [space for space in house.spaces if space.phase in ("new", "altered")]
    return bool(built) and all(space.detached is True for space in built)
