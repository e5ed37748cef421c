"""The framing plan over each story: rooms and walls faint beneath, members as framing plans show them, and the marks.

A row is drawn by its first piece, with a line across it, arrowheads at both ends, as far as the row reaches; beams and
headers are heavy, posts are squares. What is there already is lighter than what is new.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from precheck.checks import Outcome
from precheck.files.missing import is_missing
from precheck.immutable import fixed
from precheck.project import Member, Space, Story
from precheck.reports.drawings.beneath import draw_beneath, moved, point_of
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.labels import Labels
from precheck.reports.drawings.placed import inside
from precheck.reports.drawings.plan import marked, overall
from precheck.reports.drawings.svg import CHARACTER, Pen, Point, inches, short

HEAVY = frozenset(("beam", "header", "ridge beam"))
POST = 5.5  # inches across of a post whose size is not given
LEAST_POST = 8.0  # pixels that a post is drawn wide at least
SHARES = (0.5, 0.85, 0.15, 0.3, 0.7)  # of a room's width and depth at which its name may stand
HALF_LINE = 6.0  # pixels from the middle of a line of lettering to its edge
HEAD, TICK = 7.0, 12.0  # pixels of an arrowhead, and from one tick to the next
HEAVIER = 4.0  # times as bad as on another line that lettering on a heavy one is
ALONG = (0.5, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)  # shares of a line at which its label may stand
SIDES: tuple[Point, ...] = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (1, 1), (-1, 1), (-1, -1), (1, -1))


@fixed
class Lie:
    """Where a member lies, in inches: its line from support to support, and how far a row of them reaches."""

    member: Member
    start: Point
    end: Point
    reach: Point = (0.0, 0.0)

    @property
    def middle(self) -> Point:
        """The middle of the first piece."""
        return (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2

    @property
    def axis(self) -> tuple[Point, Point]:
        """The line that the label stands by: across the row, or the member itself."""
        return (self.middle, moved(self.middle, self.reach)) if any(self.reach) else (self.start, self.end)

    @property
    def corners(self) -> list[Point]:
        """The ends of the first piece and of the last."""
        return [self.start, self.end, moved(self.end, self.reach), moved(self.start, self.reach)]


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield a framing plan for each story that members lie over, or what to add to get one."""
    members = [m for m in source.house.subjects(Member) if not m.is_removed]
    stories = [story for story in source.house.project.stories if not story.is_removed]
    nowhere = [member for member in members if is_missing(member.over)]
    for number, story in enumerate(stories, 1):
        mine = [member for member in members if member.over == story.id]
        if mine:
            yield _plan(source, f"framing-{number}", story, mine, nowhere)
            nowhere = []
    if nowhere:
        yield cannot(source.key("framing"), "Framing plan", *_lacking(source, nowhere))


def _plan(source: Source, key: str, story: Story, members: list[Member], nowhere: list[Member]) -> Drawing:
    title = f"Framing plan over {story.label}"
    lies = [lie for member in members if (lie := lie_of(member)) is not None]
    lacking = [m for m in members if all(m is not lie.member for lie in lies)]
    asked = tuple(_lacking(source, [*lacking, *nowhere]))
    if not lies:
        return cannot(source.key(key), title, *asked)
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, (story, lies), asked), "1/4")


def lie_of(member: Member) -> Lie | None:
    """Return where `member` lies in plan; None where it is not said, or where its two ends are one point."""
    if member.role == "post":
        return None if is_missing(member.at) else Lie(member, point_of(member.at), point_of(member.at))
    if is_missing(member.from_) or is_missing(member.to):
        return None
    start, end = point_of(member.from_), point_of(member.to)
    last = start if is_missing(member.row_to) or not member.is_repeated else point_of(member.row_to)
    return None if start == end else Lie(member, start, end, (last[0] - start[0], last[1] - start[1]))


def _drawn(sketch: Sketch, title: str, what: tuple[Story, list[Lie]], asked: tuple[str, ...]) -> Drawing:
    story, lies = what
    labels = Labels(sketch.pen)
    rooms = draw_beneath(sketch, story, [corner for lie in lies for corner in lie.corners])
    for lie in sorted(lies, key=lambda lie: not lie.member.is_existing):
        _member(sketch, lie, labels)
    for lie in lies:
        labels.beside(_spots(lie), lettering(lie.member), sketch.source.marks(lie.member))
    for space, outline in rooms:
        name = short(space.name or space.id, 24)
        spots = _corners(outline, name, sketch.pen.scale.factor)
        labels.where_free(spots, name, labels.area(outline), "small faint")
    if rooms:
        overall(sketch.pen, rooms)
    return sketch.finish(title, _description(lies, rooms), tuple(_notes(sketch, lies, asked)), north=True)


def _member(sketch: Sketch, lie: Lie, labels: Labels) -> None:
    """Draw one member in its group, to which the list leads."""
    member, pen = lie.member, sketch.pen
    broken = fails(sketch.source, member)
    there = " there" if member.is_existing else ""
    sketch.open(member)
    if member.role == "post":
        _post(pen, lie, there, broken)
        labels.keep_free(lie.start, lie.end, HEAVIER, LEAST_POST / 2)
    else:
        heavy = member.role in HEAVY
        pen.path([lie.start, lie.end], f"{'heavy-member' if heavy else 'member'}{there}")
        labels.keep_free(lie.start, lie.end, HEAVIER if heavy else 1.0)
        _overhang(pen, lie, there)
        if any(lie.reach):
            _row(pen, lie, there)
            labels.keep_free(*lie.axis)
        if broken:
            _ticks(pen, lie)
    sketch.close()


def fails(source: Source, member: Member) -> bool:
    """Return whether the list says of `member` that it does not comply as drawn."""
    return any(mark.outcome is Outcome.FAIL for mark in source.marks(member))


def _post(pen: Pen, lie: Lie, there: str, broken: bool) -> None:
    nominal = None if is_missing(lie.member.size) else int(lie.member.size.partition("x")[0])
    across = POST if nominal is None else nominal - 0.5
    half = max(across, LEAST_POST / pen.scale.factor) / 2
    corners = [moved(lie.start, way, half) for way in ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))]
    pen.path(corners, f"post{there}", True)
    if broken:
        for one, other in ((0, 2), (1, 3)):
            pen.path([moved(corners[one], (0, 0)), corners[other]], "tick")


def _overhang(pen: Pen, lie: Lie, there: str) -> None:
    """Draw what runs past the last support."""
    past = lie.member.overhang
    if not is_missing(past):
        ux, uy = _way(lie)
        pen.path([lie.end, moved(lie.end, (ux, uy), inches(past))], f"member dashed{there}")


def _row(pen: Pen, lie: Lie, there: str) -> None:
    """Draw the last piece thin, and the line across the row with an arrowhead at each end."""
    pen.path([moved(lie.start, lie.reach), moved(lie.end, lie.reach)], f"line thin{there}")
    first, last = lie.axis
    pen.path([first, last], f"line thin{there}")
    length = hypot(*lie.reach)
    ux, uy = lie.reach[0] / length, lie.reach[1] / length
    back, side = HEAD / pen.scale.factor, HEAD * 0.4 / pen.scale.factor
    for tip, way in ((first, 1.0), (last, -1.0)):
        base = moved(tip, (ux, uy), back * way)
        pen.path([moved(base, (-uy, ux), side), tip, moved(base, (uy, -ux), side)], f"arrowhead{there}", True)


def _ticks(pen: Pen, lie: Lie) -> None:
    """Draw short strokes across a member that does not comply, so that more than color tells it."""
    length, (ux, uy) = hypot(lie.end[0] - lie.start[0], lie.end[1] - lie.start[1]), _way(lie)
    count = max(int(length * pen.scale.factor / TICK), 1)
    half = 4 / pen.scale.factor
    for n in range(count):
        at = moved(lie.start, (ux, uy), length * (n + 0.5) / count)
        pen.path([moved(at, (ux - uy, uy + ux), -half), moved(at, (ux - uy, uy + ux), half)], "tick")


def _way(lie: Lie) -> Point:
    dx, dy = lie.end[0] - lie.start[0], lie.end[1] - lie.start[1]
    length = hypot(dx, dy)
    return dx / length, dy / length


def _spots(lie: Lie) -> Iterator[tuple[Point, Point]]:
    """Yield where a label may stand, best first: beside the middle of the row or member, then nearer its ends."""
    start, end = lie.axis
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    if not length:
        yield from ((start, side) for side in SIDES)
        return
    for share in ALONG:
        for side in (1.0, -1.0):
            yield moved(start, (dx, dy), share), (dy / length * side, -dx / length * side)


def _corners(outline: list[Point], name: str, factor: float) -> list[Point]:
    """Return where a room's name may stand within it: in the middle, then nearer its corners."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    spots = [(left + (right - left) * across, low + (high - low) * up) for up in SHARES for across in SHARES]
    half, up = len(name) * CHARACTER / factor / 2, HALF_LINE / factor
    return [
        (x, y) for x, y in spots if all(inside((x + dx, y + dy), outline) for dx in (-half, half) for dy in (-up, up))
    ]


def lettering(member: Member) -> list[str]:
    """Return the label of a member: id and role, then ``2-2x10 @ 16 in``; ``(E)`` marks what is there already."""
    role = f"{member.role}s" if member.is_repeated else member.role
    size = _size(member)
    spacing = "" if is_missing(member.spacing) else f" @ {member.spacing}"
    return [f"{'(E) ' if member.is_existing else ''}{member.id} {role}", *([f"{size}{spacing}"] if size else [])]


def _size(member: Member) -> str:
    if not is_missing(member.size):
        return member.label_of_size
    if is_missing(member.maker):
        return ""
    deep = "" if is_missing(member.maker.depth) else f" {member.maker.depth}"
    return f"{f'{member.plies}-' if member.plies > 1 else ''}{member.maker.product}{deep}"


def _lacking(source: Source, members: list[Member]) -> Iterator[str]:
    """Yield what to add, each with the members that lack it."""
    wanted: dict[str, list[Member]] = {}
    for member in members:
        fields = {"`over`": member.over, **_fields(member)}
        keys = [key for key, value in fields.items() if is_missing(value)] or ["another point as `to`"]
        wanted.setdefault(" and ".join(filter(None, (", ".join(keys[:-1]), keys[-1]))), []).append(member)
    for keys_, lacking in wanted.items():
        yield f"{keys_} of {'; '.join(marked(source, member) for member in lacking)}"


def _fields(member: Member) -> dict[str, object]:
    return {"`at`": member.at} if member.role == "post" else {"`from`": member.from_, "`to`": member.to}


def _notes(sketch: Sketch, lies: list[Lie], asked: tuple[str, ...]) -> Iterator[str]:
    if any(fails(sketch.source, lie.member) for lie in lies):
        yield "Short strokes across a member, or a cross in a post: it does not comply as drawn."
    if any(lie.member.is_existing for lie in lies):
        yield "(E) is there already and stays."
    open_rows = [lie.member for lie in lies if lie.member.is_repeated and is_missing(lie.member.row_to)]
    if open_rows:
        yield f"How far a row reaches is not given: add `row to` of {'; '.join(marked(sketch.source, m) for m in open_rows)}."
    for line in asked:
        yield f"Not on this plan: add {line}."


def _description(lies: list[Lie], rooms: list[tuple[Space, list[Point]]]) -> str:
    told = "; ".join(short(", ".join(lettering(lie.member)), 100) for lie in lies)
    beneath = ", ".join(short(space.name or space.id) for space, _ in rooms)
    return f"Members: {told}. {f'Rooms beneath: {beneath}.' if beneath else 'No rooms are drawn beneath.'}"
