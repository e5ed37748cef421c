"""Ways through the house that a finding is about, such as the way out of a room: dashed, from door to door, with a label."""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import pairwise
from math import hypot

from precheck.checks import Outcome
from precheck.files.missing import is_missing
from precheck.immutable import fixed
from precheck.project import Opening, Stair
from precheck.reports.drawings.drawing import Sketch
from precheck.reports.drawings.marks import kind_of
from precheck.reports.drawings.placed import inside, outline_in_inches, place
from precheck.reports.drawings.svg import Pen, Point, inches, short
from precheck.survey import House, WayOut
from precheck.survey.way_out import Way

BEYOND = 30.0  # inches that a way is drawn on outside
HEAD = 7.0  # inches of the arrow's head
BODY = 15.0  # inches from a wall or a corner at which one walks past it
ALONG = (0.5, 0.35, 0.65, 0.2, 0.8)  # shares of the longest piece at which its label may stand


@fixed
class ShownWay:
    """A way as far as this plan shows it, in pieces; each goes on where its places are drawn."""

    name: str
    kind: str
    pieces: tuple[tuple[Point, ...], ...]


def shown_ways(sketch: Sketch, middles: dict[str, Point]) -> list[ShownWay]:
    """Return the ways of what fails or wants a look, through the rooms whose `middles` the plan has."""
    house, found = sketch.source.house, {}
    for item in sketch.source.items:
        for finding in item.findings if item.outcome in (Outcome.FAIL, Outcome.WARN) else ():
            way = getattr(finding.subject, "trail", None)
            if isinstance(way, WayOut):
                room = house.space(way.room)
                name = f"way out of {short((room.name if room else '') or way.room, 24)}"
                pieces = tuple(_pieces(way, house, middles))
                found[way.room] = ShownWay(name, kind_of(item.outcome), pieces)
    return [way for way in found.values() if way.pieces]


def draw(pen: Pen, ways: list[ShownWay]) -> None:
    """Draw the lines of `ways`; their labels come when all other lettering stands."""
    for way in ways:
        pen.add(f'<g class="way {way.kind}">')
        for piece in way.pieces:
            pen.path(list(piece), "line way")
        pen.path(_head(*way.pieces[-1][-2:]), "line heavy")
        pen.add("</g>")


def label(pen: Pen, ways: list[ShownWay]) -> None:
    """Letter each way beside its longest piece, where that covers nothing."""
    for way in ways:
        straight = [pair for piece in way.pieces for pair in pairwise(piece)]
        (ax, ay), (bx, by) = max(straight, key=lambda pair: _distance(*pair))
        spots = [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in ALONG]
        upright = abs(by - ay) > abs(bx - ax) / 4
        pen.text_clear(
            spots, way.name, "small", "start" if upright else "middle", 6 if upright else 0, 4 if upright else -5
        )


def _pieces(way: WayOut, house: House, middles: dict[str, Point]) -> Iterator[tuple[Point, ...]]:
    """Yield the runs of points whose places this plan has; a stair to another story, or a door without a place, ends one."""
    here, run = way.room, [middles[way.room]] if way.room in middles else []
    for step in way.steps:
        leave, enter = _places(step, here, house, middles)
        if run and leave is not None:
            run += [*_around(run[-1], leave, here, house), leave]
        outside = house.space(step.to) is None
        goes_on = bool(run) and leave is not None and (step.to in middles or outside)
        if not goes_on:
            yield from [tuple(run)] if len(run) > 1 else []
            run = []
        fresh = enter if enter is not None else middles.get(step.to)
        if fresh is not None and (goes_on or step.to in middles) and fresh not in run:
            run.append(fresh)
        here = step.to
    yield from [tuple(run)] if len(run) > 1 else []


def _places(step: Way, here: str, house: House, middles: dict[str, Point]) -> tuple[Point | None, Point | None]:
    """Return where a step leaves a room and where it enters the next: on both sides of a door, or on a stair."""
    through = step.through
    if isinstance(through, Opening):
        placed = place(through, house)
        if placed is None:
            return None, None
        beyond = placed.thickness + (BODY if house.space(step.to) is not None else BEYOND)
        inner, other = placed.point(0, -BODY), placed.point(0, beyond)
        return (inner, other) if placed.inner.id == here else (placed.point(0, placed.thickness + BODY), inner)
    if isinstance(through, Stair):
        if is_missing(through.rectangle):
            return None, None
        box = through.rectangle
        x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
        middle = (x + width / 2, y + depth / 2)
        return middle, middle
    return middles.get(here), middles.get(step.to)


def _around(start: Point, to: Point, room: str, house: House) -> list[Point]:
    """Return the corners that the way goes around, so that it stays in the room."""
    space = house.space(room)
    outline = outline_in_inches(house, space) if space is not None else []
    corners = [turn for corner in outline if (turn := _turn(corner, outline)) is not None]
    waiting: list[tuple[float, tuple[Point, ...]]] = [(0.0, (start,))]
    seen: set[Point] = set()
    while waiting:
        length, way = heappop(waiting)
        if way[-1] == to:
            return list(way[1:-1])
        if way[-1] not in seen:
            seen.add(way[-1])
            for point in (to, *corners):
                if point not in seen and _is_clear(way[-1], point, outline):
                    heappush(waiting, (length + _distance(way[-1], point), (*way, point)))
    return []


def _turn(corner: Point, outline: list[Point]) -> Point | None:
    """Return the point in the room at which one walks around a corner that juts into it; None for other corners."""
    around = [(x, y) for x in (-BODY, BODY) for y in (-BODY, BODY)]
    wall = [(x, y) for x, y in around if not inside((corner[0] + x, corner[1] + y), outline)]
    return (corner[0] - wall[0][0], corner[1] - wall[0][1]) if len(wall) == 1 else None


def _is_clear(start: Point, end: Point, outline: list[Point]) -> bool:
    """Whether the straight line stays in the room."""
    (ax, ay), (bx, by) = start, end
    steps = max(2, int(_distance(start, end) / 6))
    return all(inside((ax + (bx - ax) * n / steps, ay + (by - ay) * n / steps), outline) for n in range(1, steps))


def _distance(one: Point, other: Point) -> float:
    return hypot(other[0] - one[0], other[1] - one[1])


def _head(start: Point, end: Point) -> list[Point]:
    """Return the two strokes of the arrow's head at `end`."""
    length = _distance(start, end) or 1.0
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    back = (end[0] - x * HEAD, end[1] - y * HEAD)
    return [(back[0] - y * HEAD / 2, back[1] + x * HEAD / 2), end, (back[0] + y * HEAD / 2, back[1] - x * HEAD / 2)]
