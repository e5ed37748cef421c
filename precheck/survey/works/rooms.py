"""Works that make or build a space: a room of something else, an addition, a bath, a garage, a deck."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import Part, Space
from precheck.project.work import ROOM_FROM
from precheck.survey.house import House
from precheck.survey.scope import Scope
from precheck.survey.works.found import Found
from precheck.survey.works.inside import old_under, stands_within_old_rooms

LIVING = frozenset((
    "bedroom", "living room", "dining room", "kitchen", "family room", "office", "bathroom", "toilet room", "laundry",
    "hall", "closet", "sunroom",
))  # fmt: skip
INDOORS = LIVING | {"storage", "utility", "workshop"}
MADE = frozenset(ROOM_FROM.values())
SERVED = {"bathroom": "bath", "toilet room": "bath", "kitchen": "kitchen", "laundry": "laundry"}
FIXTURES = {"toilet": "bath", "bidet": "bath", "lavatory": "bath", "shower": "bath", "tub": "bath",
            "tub with shower": "bath", "kitchen sink": "kitchen", "clothes washer": "laundry"}  # fmt: skip
OUTDOORS = {"porch": "porch", "deck": "deck"}


def found_rooms(house: House) -> Iterator[Found]:
    """Yield the works of `house` that make or build spaces."""
    yield from _whole_house(house)
    yield from _made(house)
    yield from _added(house)
    yield from _bedrooms(house)
    yield from _served_rooms(house)
    yield from _buildings(house)
    yield from _attics(house)


def is_new_house(house: House) -> bool:
    """Return whether the whole house is said to be new."""
    (scope,) = house.subjects(Scope)
    return scope.new_house is True


def _whole_house(house: House) -> Iterator[Found]:
    if is_new_house(house):
        spaces = tuple(space for space in house.spaces if space.phase == "new")
        yield Found("new house", spaces[0] if spaces else None, spaces)


def _made(house: House) -> Iterator[Found]:
    """Rooms made of something else: one work for all that was a garage, one for all that was a basement, and so on."""
    made: dict[str, list[Part]] = {}
    for space in house.spaces:
        if (kind := made_of(space, house)) is not None:
            made.setdefault(kind, []).append(space)
    for kind, spaces in made.items():
        main = min(spaces, key=lambda space: not getattr(space, "is_habitable", False))
        yield Found(kind, main, tuple(spaces))


def made_of(space: Space, house: House) -> str | None:
    """Return which work makes a room of what `space` was: as said of it, as drawn over what goes, or as the file lists."""
    if space.use == "attic" and space.habitable_attic is True and space.phase in ("new", "altered"):
        return "attic to room"
    if space.use not in LIVING or space.is_existing:
        return None
    was = old_under(space, house) if is_missing(space.was) and space.phase == "new" else space.was
    if was is None or is_missing(was):
        return _listed_for(space, house)
    if was == space.use:
        return None
    level = house.story_level(space)
    below = level == "basement" or (is_missing(level) and "basement to room" in house.project.work)
    kind = ROOM_FROM.get(was)
    return "basement to room" if below and kind in ("storage to room", "basement to room") else kind


def _listed_for(space: Space, house: House) -> str | None:
    """Return the one room-making work that the file lists, for a new room of which it says nothing else."""
    if space.phase != "new" or not is_missing(space.addition) or is_new_house(house):
        return None
    listed = [kind for kind in house.project.work if kind in MADE]
    built = {"addition", "upper addition", "new house"} & set(house.project.work)
    told = any(s.was in ROOM_FROM for s in house.spaces if not is_missing(s.was))
    return str(listed[0]) if len(listed) == 1 and not built and not told else None


def _added(house: House) -> Iterator[Found]:
    if is_new_house(house):
        return
    kinds: dict[str, list[Part]] = {}
    for space in house.spaces:
        if kind := addition_of(space, house):
            kinds.setdefault(kind, []).append(space)
    for kind, spaces in kinds.items():
        yield Found(kind, spaces[0], tuple(spaces))


def addition_of(space: Space, house: House) -> str:
    """Return which kind of addition a new room is; nothing where it is none, or parted off from a room that stood there.

    A room of which nothing tells is a `new room`: so is one in the basement or the attic, which are finished more often
    than they are built, and a bath or closet by itself.
    """
    new = space.phase == "new" and space.use in INDOORS and space.detached is not True
    if not new or not is_missing(space.was) or made_of(space, house) is not None:
        return ""
    within = stands_within_old_rooms(space, house)
    if within is True:
        return ""
    level, listed = house.story_level(space), house.project.work
    above = level in ("upper", "attic") or (
        is_missing(level) and "upper addition" in listed and "addition" not in listed
    )
    kind = "upper addition" if above else "addition"
    if space.addition is True or kind in listed:
        return kind
    unsure = is_missing(within) or level in ("basement", "attic") or _is_small_and_alone(space, house)
    return "new room" if unsure else kind


def _is_small_and_alone(space: Space, house: House) -> bool:
    """Return whether a room that is often parted off from another comes without a room to live in, and undrawn."""
    if space.is_habitable or space.use == "sunroom" or house.outline(space) is not None:
        return False
    return not any(s.phase == "new" and s.is_habitable and is_missing(s.was) for s in house.spaces)


def _bedrooms(house: House) -> Iterator[Found]:
    for space in house.spaces:
        if space.is_sleeping and _becomes(space, "new bedroom", house):
            yield Found("new bedroom", space, (space,))


def _becomes(space: Space, kind: str, house: House) -> bool:
    """Return whether a space becomes what it is: new, of another use, or altered where the file lists the work."""
    altered = space.phase == "altered" and kind in house.project.work
    return altered or (not space.is_existing and (space.phase == "new" or space.changes_use))


def _served_rooms(house: House) -> Iterator[Found]:
    """Baths, kitchens and laundries: by the use of a room that becomes one, and by new fixtures in any."""
    rooms: dict[tuple[str, str], list[Part]] = {}
    for space in house.spaces:
        if space.use in SERVED and _becomes(space, SERVED[space.use], house):
            rooms.setdefault((SERVED[space.use], space.id), []).append(space)
    for fixture in house.project.fixtures:
        if fixture.phase in ("new", "altered") and fixture.what in FIXTURES:
            where = "" if is_missing(fixture.space) else str(fixture.space)
            rooms.setdefault((FIXTURES[fixture.what], where), []).append(fixture)
    for (kind, where), parts in rooms.items():
        space_of = house.space(where)
        yield Found(kind, space_of or parts[0], tuple(parts))


def _buildings(house: House) -> Iterator[Found]:
    for space in house.spaces:
        becomes = space.phase == "altered" and space.changes_use
        if space.phase != "new" and not becomes:
            continue
        if space.use in OUTDOORS:
            yield Found(OUTDOORS[space.use], space, (space,))
        elif space.use == "carport":
            yield Found("carport", space, (space,))
        elif _stands_apart(space, house) and not becomes:
            yield Found("detached building", space, (space,))
        elif space.is_vehicle:
            yield Found("garage", space, (space,))


def _stands_apart(space: Space, house: House) -> bool:
    """Return whether a building stands apart from the house, as it says or as the only one that the file lists does."""
    listed = house.project.work
    unsaid = is_missing(space.detached) and space.is_vehicle
    return space.detached is True or (unsaid and "detached building" in listed and "garage" not in listed)


def _attics(house: House) -> Iterator[Found]:
    for space in house.spaces:
        changed = space.phase in ("new", "altered")
        floored = space.use == "attic" and space.attic_storage is True
        if changed and (floored or (space.was == "attic" and space.use == "storage")):
            yield Found("attic storage", space, (space,))
