"""Deriving works from what the project changes. Each function finds works of some kinds; none looks at another's."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import Appliance, Door, Floor, Opening, Part, Space, Stair, Window
from precheck.project.work import ROOM_FROM
from precheck.survey.house import House
from precheck.survey.scope import CHANGED, NO_WORK, Scope
from precheck.survey.works.found import Found
from precheck.survey.works.inside import stands_within_old_rooms

LIVING = frozenset((
    "bedroom", "living room", "dining room", "kitchen", "family room", "office", "bathroom", "toilet room", "laundry",
    "hall", "closet", "sunroom",
))  # fmt: skip
SERVED = {"bathroom": "bath", "toilet room": "bath", "kitchen": "kitchen", "laundry": "laundry"}
FIXTURES = {"toilet": "bath", "bidet": "bath", "lavatory": "bath", "shower": "bath", "tub": "bath",
            "tub with shower": "bath", "kitchen sink": "kitchen", "clothes washer": "laundry"}  # fmt: skip
OUTDOORS = {"porch": "porch", "deck": "deck"}
WARMS = frozenset(("furnace", "boiler", "air handler", "room heater", "fireplace", "heat pump", "mini-split"))
WARMS_OUTSIDE = frozenset(("air conditioner", "heat pump"))
OVER_SLAB = ("sleeper", "joist", "plywood", "osb", "wood", "subfloor", "decking", "lumber")
WIRING = ("circuit", "panel", "service")
ROOFS = ("roof", "roof frame", "truss")


def derived(house: House) -> Iterator[Found]:
    """Yield the works of `house`. What it changes where there is no other work is `other work`."""
    found = [work for find in _FINDERS for work in find(house)]
    yield from found
    others = () if found else tuple(_changed(house))
    others += house.project.small_works
    if others:
        yield Found("other work", others[0], others)


def _changed(house: House) -> Iterator[Part]:
    return (part for part in house.project.parts if part.kind not in NO_WORK and part.phase in CHANGED)


def _whole_house(house: House) -> Iterator[Found]:
    (scope,) = Scope.found_in(house)
    if scope.new_house is True:
        spaces = tuple(space for space in house.spaces if space.phase == "new")
        yield Found("new house", spaces[0] if spaces else None, spaces)


def _rooms(house: House) -> Iterator[Found]:
    """Rooms made of something else: one work for all that was a garage, one for all that was a basement, and so on."""
    made: dict[str, list[Part]] = {}
    for space in house.spaces:
        if (kind := _made_of(space, house)) is not None:
            made.setdefault(kind, []).append(space)
    for kind, spaces in made.items():
        main = min(spaces, key=lambda space: not getattr(space, "is_habitable", False))
        yield Found(kind, main, tuple(spaces))


def _made_of(space: Space, house: House) -> str | None:
    if is_missing(space.was) or space.was == space.use or space.use not in LIVING or space.is_existing:
        return None
    below = house.story_level(space) == "basement"
    kind = ROOM_FROM.get(space.was)
    return "basement to room" if below and kind in ("storage to room", "basement to room") else kind


def _additions(house: House) -> Iterator[Found]:
    (scope,) = Scope.found_in(house)
    if scope.new_house is True:
        return
    new = [
        s for s in house.spaces if s.phase == "new" and is_missing(s.was) and s.use in LIVING and s.detached is not True
    ]
    kinds: dict[str, list[Part]] = {}
    for space in new:
        kinds.setdefault(_addition(space, house), []).append(space)
    for kind, spaces in kinds.items():
        if kind:
            yield Found(kind, spaces[0], tuple(spaces))


def _addition(space: Space, house: House) -> str:
    """Return which kind of addition a new room is; nothing where it is parted off from a room that stood there."""
    within = stands_within_old_rooms(space, house)
    if within is True:
        return ""
    if is_missing(within) and "addition" not in house.project.work:
        return "new room"
    level = house.story_level(space)
    return "upper addition" if level in ("upper", "attic") else "addition"


def _bedrooms(house: House) -> Iterator[Found]:
    for space in house.spaces:
        if space.is_sleeping and (space.phase == "new" or space.changes_use):
            yield Found("new bedroom", space, (space,))


def _served_rooms(house: House) -> Iterator[Found]:
    """Baths, kitchens and laundries: by the use of a room that becomes one, and by new fixtures in any."""
    rooms: dict[tuple[str, str], list[Part]] = {}
    for space in house.spaces:
        if space.use in SERVED and (space.phase == "new" or space.changes_use):
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
        if space.phase != "new":
            continue
        if space.detached is True and space.use not in OUTDOORS:
            yield Found("detached building", space, (space,))
        elif space.use in OUTDOORS:
            yield Found(OUTDOORS[space.use], space, (space,))
        elif space.is_vehicle:
            yield Found(str(space.use), space, (space,))


def _walls(house: House) -> Iterator[Found]:
    gone = {space.id for space in house.project.spaces if space.is_removed}
    for wall in house.project.walls:
        if wall.is_removed and not gone.issuperset(wall.between):
            yield Found("wall removed", wall, (wall,))


def _openings(house: House) -> Iterator[Found]:
    new_walls: set[frozenset[str]] = {frozenset(wall.between) for wall in house.project.walls if wall.phase == "new"}
    openings: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    for opening in openings:
        if (kind := _kind_of_opening(opening, house, new_walls)) is not None:
            yield Found(kind, opening, (opening,))


def _kind_of_opening(opening: Opening, house: House, new_walls: set[frozenset[str]]) -> str | None:
    if isinstance(opening, Door) and opening.operation == "hatch":
        return None
    if opening.is_removed:
        if any(side.is_removed for side in _rooms_of(opening, house)):
            return None  # it goes with its room
        is_overhead = isinstance(opening, Door) and opening.operation == "vehicle"
        return "overhead door closed" if is_overhead else "opening closed"
    if isinstance(opening, Window) and opening.replacement is True and opening.phase in CHANGED:
        return "window replaced"
    if opening.phase == "altered":
        return "opening widened"
    if opening.phase != "new" or _in_new_wall(opening, house, new_walls):
        return None
    return "opening made"


def _in_new_wall(opening: Opening, house: House, new_walls: set[frozenset[str]]) -> bool:
    """Whether the wall around an opening is new too, so that the opening belongs to the work that builds that wall."""
    if isinstance(opening, Door) and frozenset(opening.between) in new_walls:
        return True
    rooms = _rooms_of(opening, house)
    if len(rooms) == 2 and _were_one(*rooms):
        return True
    return bool(rooms) and all(room.phase == "new" and is_missing(room.was) for room in rooms)


def _were_one(one: Space, other: Space) -> bool:
    """Whether two rooms are made of one that stood there, as a bedroom and its bath of a garage."""
    before = [room.use if is_missing(room.was) else room.was for room in (one, other)]
    return before[0] == before[1] and any(not is_missing(room.was) for room in (one, other))


def _rooms_of(opening: Opening, house: House) -> list[Space]:
    sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""),)
    return [part for side in sides if isinstance(part := house.project.by_id.get(side), Space)]


def _stairs(house: House) -> Iterator[Found]:
    changed = (stair for stair in house.project.stairs if stair.phase in ("new", "altered"))
    yield from (Found("stair", stair, (stair,)) for stair in changed if isinstance(stair, Stair))


def _attic_storage(house: House) -> Iterator[Found]:
    for space in house.spaces:
        if space.use == "attic" and space.phase in ("new", "altered") and space.attic_storage is True:
            yield Found("attic storage", space, (space,))


def _floors(house: House) -> Iterator[Found]:
    for floor in house.project.floors:
        if floor.phase in ("new", "altered") and floor.base == "slab" and _is_built_up(floor):
            yield Found("floor over slab", floor, (floor,))


def _is_built_up(floor: Floor) -> bool:
    return any(layer.is_any_of(OVER_SLAB) for layer in floor.layers)


def _roofs(house: House) -> Iterator[Found]:
    changed = tuple(p for p in house.project.parts if p.kind in ROOFS and p.phase in ("altered", "removed"))
    if changed:
        yield Found("roof changed", changed[0], changed)


def _equipment(house: House) -> Iterator[Found]:
    heaters: list[Part] = [h for h in house.project.parts if h.kind == "heating" and h.phase in ("new", "altered")]
    new = [a for a in house.project.parts if isinstance(a, Appliance) and a.phase in ("new", "altered")]
    heaters += [a for a in new if a.what in WARMS]
    heaters += [e for e in house.project.yard_equipment if e.phase == "new" and e.what in WARMS_OUTSIDE]
    if heaters:
        yield Found("heating or cooling", heaters[0], tuple(heaters))
    yield from (Found("water heater", a, (a,)) for a in new if a.what == "water heater")


def _wiring(house: House) -> Iterator[Found]:
    new = tuple(p for p in house.project.parts if p.kind in WIRING and p.phase in ("new", "altered"))
    if new:
        yield Found("wiring", new[0], new)


def _demolition(house: House) -> Iterator[Found]:
    gone = tuple(space for space in house.project.spaces if space.is_removed)
    if gone:
        yield Found("demolition", gone[0], gone)


_FINDERS = (
    _whole_house, _rooms, _additions, _bedrooms, _served_rooms, _buildings, _walls, _openings, _stairs, _attic_storage,
    _floors, _roofs, _equipment, _wiring, _demolition,
)  # fmt: skip
