"""A room that is divided by a wall, and two that become one: what is in them goes with the floor that it stands on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precheck.board.asked_of_shapes import Divide, JoinRooms
from precheck.board.changing import GONE, Change, Changes, added, path_of, plain_id
from precheck.board.regions import SLANTED, as_box, corners_of, cut, edges_of, follows_axes, joined
from precheck.board.shapes import drawn, drawn_room, kept_before, on_walls_of, place_of
from precheck.board.sketch import INNER_WALL, Point, box_of, drawn_as, nearest_wall, on_wall, point, rectangle
from precheck.board.spots import AT_WALL
from precheck.board.tray import middle_of
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.files.record import Reference, fields_of
from precheck.project import Door, Opening, Part, Space, Wall
from precheck.project.on_wall import THICKEST_WALL
from precheck.questions.typed import ROOM
from precheck.reports.drawings.placed import inside
from precheck.reports.drawings.svg import inches
from precheck.survey import House


def divided(house: House, asked: Divide) -> Changes:
    """Return the changes that part off a room: the wall stands past the typed distance. Raises ValueError, for a person."""
    space, outline = _straight(house, asked.part)
    axis = 0 if asked.from_side == "west" else 1
    around = box_of(house, space)
    assert around is not None
    face = around[axis] + length_in_inches(asked.distance, ROOM)
    low, high = around[axis], around[axis] + around[axis + 2]
    if not low < face < high - INNER_WALL:
        raise ValueError(f"the wall would not stand in the room, which is {drawn_as(high - low)} that way")
    pieces = [cut(outline, axis, low - 1, face), cut(outline, axis, face + INNER_WALL, high + 1)]
    if any(len(one) != 1 for one in pieces):
        raise ValueError("that line would cut the room into more than two; make a jog, or divide it elsewhere")
    (kept,), (other,) = pieces
    ident = plain_id(house.project, asked.name or asked.use or f"{space.id} 2")
    box = as_box(other)
    shape = {"rectangle": rectangle(box)} if box is not None else {"outline": f"[{', '.join(map(point, other))}]"}
    story = {} if is_missing(space.story) else {"story": space.story}
    floor = {} if is_missing(space.floor) else {"floor": space.floor}
    values = {
        "id": ident,
        "name": asked.name.strip(),
        "phase": asked.phase,
        "use": asked.use,
        **story,
        **floor,
        **shape,
    }
    changes = [
        *kept_before(house, space, asked.work),
        *drawn(house, space, kept),
        *_gone_over(house, space, kept, other, ident),
        added(house.project, "spaces", values),
    ]
    return Changes(changes, f"divide {space.label}")


def _straight(house: House, name: str) -> tuple[Space, list[Point]]:
    space, outline = drawn_room(house, name)
    if not follows_axes(outline):
        raise ValueError(f"{space.label} {SLANTED}")
    return space, outline


def _gone_over(house: House, space: Space, kept: list[Point], other: list[Point], ident: str) -> Iterator[Change]:
    """Yield the changes that give what stands in the part that is parted off to the room there."""
    on_walls = {part.id for part, _ in on_walls_of(house, space)}
    for part in _parts_in(house, space):
        at = place_of(house, part) or middle_of(part)
        if at is None:
            continue
        there = _nearer(at, other, kept)
        outline = other if there else kept
        path = path_of(house.project, part)
        if part.id in on_walls:
            place = nearest_wall(_canonical(outline), at)
            text = on_wall(space, _canonical(outline), place, boxed=as_box(outline) is not None)
            length = getattr(part.on, "length", None)  # type: ignore[attr-defined]  # of those on walls
            text = text if length is None or is_missing(length) else f"{text[:-1]}, length: {length}}}"
            yield Change((*path, "on"), text.replace(f"room: {space.id}", f"room: {ident}") if there else text)
        if there:
            yield from _named(house, part, space.id, ident, ("space", "between"))


def _canonical(outline: list[Point]) -> list[Point]:
    box = as_box(outline)
    return outline if box is None else corners_of(box)


def _nearer(at: Point, other: list[Point], kept: list[Point]) -> bool:
    if inside(at, other) or inside(at, kept):
        return inside(at, other)
    return _away(at, other) < _away(at, kept)


def _away(at: Point, outline: list[Point]) -> float:
    place = nearest_wall(outline, at)
    (ax, ay), (bx, by) = edges_of(outline)[place.wall]
    long = max(abs(bx - ax), abs(by - ay)) or 1.0
    foot = (ax + (bx - ax) * place.along / long, ay + (by - ay) * place.along / long)
    return abs(at[0] - foot[0]) + abs(at[1] - foot[1])


def _parts_in(house: House, space: Space) -> Iterator[Part]:
    """Yield the parts of the lists of the file that belong to `space`, or are placed on its walls."""
    on_walls = {part.id for part, _ in on_walls_of(house, space)}
    for part in house.project.parts:
        belongs = getattr(part, "space", None) == space.id or space.id in getattr(part, "between", ())
        if part is not space and (belongs or part.id in on_walls):
            yield part


def _named(house: House, part: Part, old: str, new: str, only: tuple[str, ...] = ()) -> Iterator[Change]:
    """Yield the changes that make a part name the room `new` wherever it names the room `old`, or in some fields `only`."""
    for name, field in fields_of(type(part)).items():
        value = getattr(part, name)
        named = value if isinstance(value, tuple) else (value,)
        if (only and name not in only) or not any(isinstance(one, Reference) and one == old for one in named):
            continue
        listed = dict.fromkeys(new if one == old else str(one) for one in named)
        yield Change((*path_of(house.project, part), field.key), f"[{', '.join(listed)}]" if named is value else new)


def joined_rooms(house: House, asked: JoinRooms) -> Changes:
    """Return the changes that make one room of two that lie side by side. Raises ValueError with what is wrong."""
    space, one = _straight(house, asked.part)
    beside, other = _straight(house, asked.other)
    if beside is space:
        raise ValueError("choose the room that it is joined to")
    if not is_missing(space.story) and not is_missing(beside.story) and space.story != beside.story:
        raise ValueError("the two rooms are on different stories")
    bridges = list(_between(one, other))
    outlines = joined([one, other, *bridges]) if bridges else []
    if len(outlines) != 1:
        raise ValueError(
            f"{space.label} and {beside.label} do not lie side by side, so that one room could be made of them"
        )
    stays = asked.work and beside.phase != "new"
    there = path_of(house.project, beside)
    parted = [part for part in _parts_in(house, beside) if space.id in getattr(part, "between", ())]
    changes = [
        *kept_before(house, space, asked.work),
        *drawn(house, space, outlines[0]),
        *_moved_in(house, space, beside, outlines[0], parted),
        *_without(house, parted, asked.work),
        Change((*there, "phase"), "removed") if stays else Change(("spaces", beside.id), GONE),
    ]
    return Changes(changes, f"join {space.label} and {beside.label}")


def _between(one: list[Point], other: list[Point]) -> Iterator[list[Point]]:
    """Yield the floor under the wall between two rooms: between each two walls that face each other over it."""
    for a in edges_of(one):
        for b in edges_of(other):
            for axis in (0, 1):
                if a[0][axis] == a[1][axis] and b[0][axis] == b[1][axis]:
                    apart = abs(a[0][axis] - b[0][axis])
                    low = max(min(p[1 - axis] for p in a), min(p[1 - axis] for p in b))
                    high = min(max(p[1 - axis] for p in a), max(p[1 - axis] for p in b))
                    near = apart <= inches(THICKEST_WALL) and high > low
                    if (
                        near
                        and _faces(a, axis, one, b[0][axis] - a[0][axis])
                        and _faces(b, axis, other, a[0][axis] - b[0][axis])
                    ):
                        ends = sorted((a[0][axis], b[0][axis]))
                        corners = [(ends[0], low), (ends[1], low), (ends[1], high), (ends[0], high)]
                        yield corners if axis == 0 else [(y, x) for x, y in corners]


def _faces(wall: tuple[Point, Point], axis: int, outline: list[Point], way: float) -> bool:
    """Whether a wall has its room behind it, seen from where the other one lies."""
    middle = [(wall[0][n] + wall[1][n]) / 2 for n in (0, 1)]
    middle[axis] += -0.5 if way > 0 else 0.5
    return inside((middle[0], middle[1]), outline)


def _moved_in(
    house: House, space: Space, beside: Space, outline: list[Point], parted: Iterable[Part]
) -> Iterator[Change]:
    """Yield the changes that give what stood in the other room to the one that stays, and every place on a wall anew."""
    gone, walls = [*parted, space, beside], [part for room in (space, beside) for part, _ in on_walls_of(house, room)]
    corners = _canonical(outline)
    for part in house.project.parts:
        if any(part is one for one in gone):
            continue
        at = place_of(house, part) or middle_of(part)
        if any(part is one for one in walls) and at is not None:
            yield from _placed(house, part, space, corners, at)
        yield from _named(house, part, beside.id, space.id)


def _placed(house: House, part: Part, space: Space, corners: list[Point], at: Point) -> Iterator[Change]:
    """Yield the place of a part on the walls of the joined room; at its point, where the wall that it was on is gone."""
    path = path_of(house.project, part)
    if not isinstance(part, Opening) and _away(at, corners) > AT_WALL and hasattr(part, "at"):
        yield Change((*path, "on"), GONE)
        yield Change((*path, "at"), point(at))
        return
    text = on_wall(space, corners, nearest_wall(corners, at), boxed=as_box(corners) is not None)
    length = getattr(part.on, "length", None)  # type: ignore[attr-defined]  # of those on walls
    yield Change((*path, "on"), text if length is None or is_missing(length) else f"{text[:-1]}, length: {length}}}")


def _without(house: House, parted: Iterable[Part], work: bool) -> Iterator[Change]:
    """Yield the changes that take out the wall between two rooms and the doors in it: marked, where the work does it."""
    for part in parted:
        path = path_of(house.project, part)
        if work and part.phase in ("existing", "altered"):
            yield Change((*path, "phase"), "removed")
        elif isinstance(part, Door | Wall):
            yield Change((path[0], part.id), GONE)
