"""Rooms whose walls move, as changes of the project file: what is in their walls goes along, and how they were may stay."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import hypot

from precheck.board.asked_of_shapes import Jog, MoveWall
from precheck.board.changing import GONE, Change, Changes, path_of
from precheck.board.regions import as_box, corners_of, counterclockwise, edges_of, straightened
from precheck.board.sketch import SIXTEENTH, Point, drawn_as, nearest_wall, on_wall, point, rectangle
from precheck.board.tray import middle_of, moved_to, room_called
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.project import Member, Opening, Part, Space, Stair
from precheck.project.on_wall import OnWall
from precheck.questions.typed import DISTANCE, ROOM
from precheck.reports.drawings.placed import outline_in_inches, place
from precheck.reports.drawings.svg import inches
from precheck.survey import House

Moves = Callable[[Point], Point]
NEAR = 14.0  # inches from a wall within which a place is in it
FEWEST, ENDS = 3, 2  # corners of an outline, points of a member


def wall_moved(house: House, asked: MoveWall) -> Changes:
    """Return the changes that move a wall of a room. Raises ValueError with what is wrong, for a person."""
    space, outline = drawn_room(house, asked.part, asked.wall)
    wall, by = asked.wall, asked.by
    if asked.length.strip():
        (ax, ay), (bx, by_) = edges_of(outline)[wall]
        wanted, long = length_in_inches(asked.length, ROOM), hypot(bx - ax, by_ - ay)
        wall, by = (wall + 1) % len(outline), wanted - long
        if not _square(outline, asked.wall, wall):
            raise ValueError(
                "the wall at its end does not stand square to it; drag that one, or change the corners in the file"
            )
    new, moves = _with_wall(outline, wall, by)
    told = asked.length.strip() or drawn_as(abs(by))
    return reshaped(house, space, new, moves, f"wall of {space.label}, {told}", asked.work)


def jogged(house: House, asked: Jog) -> Changes:
    """Return the changes that move a stretch of a wall out of its room or into it."""
    space, outline = drawn_room(house, asked.part, asked.wall)
    start, end = edges_of(outline)[asked.wall]
    long = hypot(end[0] - start[0], end[1] - start[1])
    first, size, deep = (length_in_inches(text, DISTANCE) for text in (asked.start or "0 in", asked.length, asked.deep))
    if first < 0 or size <= 0 or deep <= 0 or first + size > long + SIXTEENTH:
        raise ValueError(
            f"the wall is {drawn_as(long)} long, so {drawn_as(size)} at {drawn_as(first)} does not fit in it"
        )
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    out = _outward(outline, asked.wall)
    far = -deep if asked.inward else deep
    a, b = ((start[0] + ux * at, start[1] + uy * at) for at in (first, min(first + size, long)))
    pushed = [(x + out[0] * far, y + out[1] * far) for x, y in (a, b)]
    corners = [*outline[: asked.wall + 1], a, *pushed, b, *outline[asked.wall + 1 :]]

    def moves(at: Point) -> Point:
        along = (at[0] - start[0]) * ux + (at[1] - start[1]) * uy
        off = abs((at[0] - start[0]) * out[0] + (at[1] - start[1]) * out[1])
        on = off < NEAR and first <= along <= first + size
        return (at[0] + out[0] * far, at[1] + out[1] * far) if on else at

    return reshaped(house, space, straightened(corners), moves, f"jog in a wall of {space.label}", asked.work)


def drawn_room(house: House, name: str, wall: int = 0) -> tuple[Space, list[Point]]:
    """Return a room and its outline, corners against the clock or with it as the file has them. Raises ValueError."""
    space = room_called(house, name)
    outline = outline_in_inches(house, space)
    if not outline:
        raise ValueError(f"{space.label} is not drawn yet; type its size first")
    if wall >= len(outline):
        raise ValueError("the room has no such wall; choose one of its walls on the plan")
    return space, outline


def _outward(outline: list[Point], wall: int) -> Point:
    (ax, ay), (bx, by) = edges_of(outline)[wall]
    long = hypot(bx - ax, by - ay)
    turn = 1 if counterclockwise(outline) else -1
    return (by - ay) / long * turn, (ax - bx) / long * turn


def _square(outline: list[Point], one: int, other: int) -> bool:
    (ax, ay), (bx, by) = edges_of(outline)[one]
    (cx, cy), (dx, dy) = edges_of(outline)[other]
    return abs((bx - ax) * (dx - cx) + (by - ay) * (dy - cy)) < SIXTEENTH


def _with_wall(outline: list[Point], wall: int, by: float) -> tuple[list[Point], Moves]:
    """Return the outline with a wall moved out of the room by inches, and where that takes a point of its walls."""
    out = _outward(outline, wall)
    shift = (out[0] * by, out[1] * by)
    ends = (wall, (wall + 1) % len(outline))
    moved = [(x + shift[0], y + shift[1]) if n in ends else (x, y) for n, (x, y) in enumerate(outline)]
    for (a, b), (c, d) in zip(edges_of(outline), edges_of(moved), strict=True):
        if (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) < -SIXTEENTH:
            raise ValueError("that would turn the room inside out; move it less far")
    start, end = edges_of(outline)[wall]

    def moves(at: Point) -> Point:
        found = nearest_wall(outline, at).wall
        if found == wall:
            return at[0] + shift[0], at[1] + shift[1]
        if found not in ((wall - 1) % len(outline), (wall + 1) % len(outline)):
            return at
        corner, other = (
            (start, outline[wall - 1])
            if found == (wall - 1) % len(outline)
            else (end, outline[(wall + 2) % len(outline)])
        )
        nearer = hypot(at[0] - corner[0], at[1] - corner[1]) < hypot(at[0] - other[0], at[1] - other[1])
        return (at[0] + shift[0], at[1] + shift[1]) if nearer else at

    return straightened(moved), moves


def reshaped(house: House, space: Space, new: list[Point], moves: Moves, what: str, work: bool) -> Changes:
    """Return the changes that give `space` an outline; what is in its walls goes where `moves` takes it."""
    if len(new) < FEWEST:
        raise ValueError("nothing would be left of the room; move it less far")
    box = as_box(new)
    new = new if box is None else corners_of(box)
    old = outline_in_inches(house, space)
    changes = [*kept_before(house, space, work), *drawn(house, space, new)]
    same = len(old) == len(new) and bool(space.outline) == (box is None)
    for part, on in on_walls_of(house, space):
        if not same:
            changes.append(Change((*path_of(house.project, part), "on"), _on(house, space, part, on, new, moves)))
    for opening, at in _middles(house, space):
        foot = moves(at)
        if foot != at:
            changes.append(Change((*path_of(house.project, opening), "middle"), point(foot)))
    return Changes(changes, what)


def room_moved(house: House, space: Space, by: Point) -> Changes:
    """Return the changes that move a room as it is by inches, with all that stands in it."""
    outline = outline_in_inches(house, space)
    if not outline:
        raise ValueError(f"{space.label} is not drawn yet; type its size first")
    new = [(x + by[0], y + by[1]) for x, y in outline]
    changes = list(drawn(house, space, new))
    for opening, (x, y) in _middles(house, space):
        changes.append(Change((*path_of(house.project, opening), "middle"), point((x + by[0], y + by[1]))))
    return Changes([*changes, *things_moved(house, space, by)], f"place of {space.label}")


def things_moved(house: House, space: Space, by: Point) -> Iterator[Change]:
    """Yield the changes that move what stands in a room with it; what is on its walls needs none."""
    for part in house.project.parts:
        inside = getattr(part, "space", None) == space.id or (
            isinstance(part, Stair) and house.ends(part)[0] == space.id
        )
        at = middle_of(part) if inside and part is not space else None
        if at is not None and is_missing(getattr(part, "on", part.absent("on"))):
            yield from moved_to(path_of(house.project, part), part, (at[0] + by[0], at[1] + by[1]))


def drawn(house: House, space: Space, new: list[Point]) -> Iterator[Change]:
    """Yield the changes that draw `space` as an outline, or as a rectangle where it is one."""
    path, box = path_of(house.project, space), as_box(new)
    given, other = ("rectangle", "outline") if box is not None else ("outline", "rectangle")
    if space.block is not None and other in space.block:
        yield Change((*path, other), GONE)
    yield Change((*path, given), rectangle(box) if box is not None else f"[{', '.join(map(point, new))}]")


def as_before(house: House, space: Space) -> str:
    """Return how `space` is drawn, as the file holds how it was before the work."""
    outline = outline_in_inches(house, space)
    box = as_box(outline) if not space.outline else None
    shape = f"rectangle: {rectangle(box)}" if box is not None else f"outline: [{', '.join(map(point, outline))}]"
    return f"{{{shape}}}"


def kept_before(house: House, space: Space, work: bool) -> Iterator[Change]:
    """Yield the changes that keep how a room was, where the work moves the walls of one that stands."""
    if not work or space.phase not in ("existing", "altered"):
        return
    path = path_of(house.project, space)
    if is_missing(space.before):
        yield Change((*path, "before"), as_before(house, space))
    if space.phase == "existing":
        yield Change((*path, "phase"), "altered")


def on_walls_of(house: House, space: Space) -> Iterator[tuple[Part, OnWall]]:
    """Yield the parts whose place is on a wall of `space`, with that place."""
    project = house.project
    for part in (*project.doors, *project.windows, *project.receptacles, *project.panels, *project.alarms, *project.lights,
                 *project.members):  # fmt: skip
        on = part.on  # type: ignore[attr-defined]  # of those that have one
        if not is_missing(on) and on.room == space.id:
            yield part, on


def _on(house: House, space: Space, part: Part, on: OnWall, new: list[Point], moves: Moves) -> str:
    at = place_of(house, part)
    if at is None:
        raise ValueError(f"{part.label} has no place on the plan; mend that first")
    text = on_wall(space, new, nearest_wall(new, moves(at)), boxed=as_box(new) is not None)
    length = getattr(on, "length", None)
    return text if length is None or is_missing(length) else f"{text[:-1]}, length: {length}}}"


def place_of(house: House, part: Part) -> Point | None:
    """Return where a part stands on the plan, in inches: on its wall, at its point, or in the middle of its ends."""
    if isinstance(part, Opening):
        at = place(part, house)
        return None if at is None else at.middle
    if isinstance(part, Member) and part.role != "post":
        ends = [(inches(one[0]), inches(one[1])) for one in (part.from_, part.to) if not is_missing(one)]
        return None if len(ends) < ENDS else ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    point_of = getattr(part, "at", part.absent("at"))
    return None if is_missing(point_of) else (inches(point_of[0]), inches(point_of[1]))


def _middles(house: House, space: Space) -> Iterator[tuple[Opening, Point]]:
    """Yield the openings of `space` that are placed by a point, with it."""
    for opening in house.openings_of(space):
        if is_missing(opening.on) and not is_missing(opening.middle) and place(opening, house) is not None:
            yield opening, (inches(opening.middle[0]), inches(opening.middle[1]))
