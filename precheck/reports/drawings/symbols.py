"""Plan symbols: doors by how they open, windows, stairs."""

from __future__ import annotations

from precheck.files.missing import is_missing
from precheck.project import Door, Stair
from precheck.reports.drawings.drawing import Sketch
from precheck.reports.drawings.placed import PlacedOpening, inside, outline_in_inches
from precheck.reports.drawings.svg import BADGE, IN_A_ROW, Point, inches

_UP = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "up the page": (0.0, 1.0), "down the page": (0.0, -1.0)}
FEW = 3  # marks on a stair in plan, so that the stair can still be seen; its section has them all
ALONG = (0.0, 20.0, -20.0, 32.0, -32.0)  # pixels along the wall at which an id may stand
BESIDE = 22.0  # pixels from the wall to a mark


def opening(sketch: Sketch, placed: PlacedOpening) -> None:
    """Draw a door or window in its wall, with its id and marks outside the wall; what is taken out, dashed."""
    sketch.open(placed.opening)
    if placed.opening.is_removed and placed.width is not None:
        sketch.pen.path(_corners(placed, placed.width / 2), "line dashed thin", True)
    elif placed.width is None:
        _only_place(sketch, placed)
    else:
        _cut(sketch, placed, placed.width / 2)
        draw = _door if isinstance(placed.opening, Door) else _window
        draw(sketch, placed, placed.width / 2)
    sketch.close()
    _label(sketch, placed)


def _cut(sketch: Sketch, placed: PlacedOpening, half: float) -> None:
    sketch.pen.path(_corners(placed, half), "cut", True)


def _corners(placed: PlacedOpening, half: float) -> list[Point]:
    deep = placed.thickness
    return [placed.point(-half, 0), placed.point(half, 0), placed.point(half, deep), placed.point(-half, deep)]


def _only_place(sketch: Sketch, placed: PlacedOpening) -> None:
    """Mark the spot of an opening whose width is not given."""
    deep = placed.thickness
    sketch.pen.path([placed.point(-6, 0), placed.point(6, deep)], "line heavy")
    sketch.pen.path([placed.point(6, 0), placed.point(-6, deep)], "line heavy")


def _window(sketch: Sketch, placed: PlacedOpening, half: float) -> None:
    out = placed.thickness / 2
    sketch.pen.path([placed.point(-half, out), placed.point(half, out)], "line")


def _door(sketch: Sketch, placed: PlacedOpening, half: float) -> None:
    door = placed.opening
    assert isinstance(door, Door)
    if door.operation == "sliding":
        for start, end, share in ((-half, 2.0, 0.35), (-2.0, half, 0.65)):
            out = placed.thickness * share
            sketch.pen.path([placed.point(start, out), placed.point(end, out)], "line heavy")
    elif door.operation == "side-hinged" and not is_missing(door.swings_into):
        _leaf(sketch, placed, half, inward=door.swings_into == placed.inner.id)
    else:
        out = placed.thickness / 2
        sketch.pen.path([placed.point(-half, out), placed.point(half, out)], "line dashed")


def _leaf(sketch: Sketch, placed: PlacedOpening, half: float, inward: bool) -> None:
    base, way = (0.0, -1.0) if inward else (placed.thickness, 1.0)
    hinge, tip = placed.point(-half, base), placed.point(-half, base + way * 2 * half)
    latch = placed.point(half, base)
    sketch.pen.path([hinge, tip], "line heavy")
    turn = placed.along[0] * placed.out[1] - placed.along[1] * placed.out[0]
    sketch.pen.arc(tip, latch, 2 * half, (turn * way) > 0, "line thin")


def _label(sketch: Sketch, placed: PlacedOpening) -> None:
    pen, marks = sketch.pen, sketch.source.marks(placed.opening)
    out = placed.point(0, placed.thickness)
    level = abs(placed.out[0]) > 0.7
    rows = (len(marks) - 1) // IN_A_ROW
    below = BADGE * rows if placed.out[1] < -0.7 else 0.0
    side = ("start" if placed.out[0] > 0 else "end") if level else "middle"
    pen.badges(out, marks, placed.out[0] * BESIDE, -placed.out[1] * BESIDE + below, side)
    anchor = ("end" if placed.out[0] > 0 else "start") if level else "middle"
    room = outline_in_inches(sketch.source.house, placed.inner)
    alongs = [along / pen.scale.factor for along in ALONG]
    spots = [placed.point(along, 0) for along in alongs if not along or inside(placed.point(along, -2), room)]
    pen.text_clear(
        spots, placed.opening.id, "small", anchor, -placed.out[0] * 6, 4 if level else placed.out[1] * 12 + 4
    )


def stair(sketch: Sketch, part: Stair) -> None:
    """Draw a stair as its box, with a line for each riser and an arrow up where it is said which way it climbs."""
    box = part.rectangle
    assert not is_missing(box)
    x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
    sketch.open(part)
    pen = sketch.pen
    pen.path([(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)], "stair", True)
    if not is_missing(part.climbs):
        _climb(sketch, part, (x, y), (width, depth), _UP[part.climbs])
    sketch.close()
    marks = sketch.source.marks(part)
    more = f", {len(marks) - FEW} more" if len(marks) > FEW else ""
    pen.text((x, y + depth), f"{part.id}{more}", "small", "start", dy=-5)
    across = max(1, int(width * pen.scale.factor / BADGE))
    pen.badges((x + width / 2, y + depth / 2), marks[:FEW], dy=BADGE * (FEW // across - 1) / 2, most=across)


def _climb(sketch: Sketch, part: Stair, corner: Point, size: Point, way: Point) -> None:
    (x, y), (width, depth) = corner, size
    start = (x if way[0] > 0 else x + width if way[0] < 0 else x + width / 2,
             y if way[1] > 0 else y + depth if way[1] < 0 else y + depth / 2)  # fmt: skip
    length = width if way[0] else depth
    tread = part.flights[0].tread
    if len(part.flights) == 1 and not is_missing(tread):
        for n in range(int(length / inches(tread)) + 1):
            at = inches(tread) * n
            if way[0]:
                line = [(start[0] + way[0] * at, y), (start[0] + way[0] * at, y + depth)]
            else:
                line = [(x, start[1] + way[1] * at), (x + width, start[1] + way[1] * at)]
            sketch.pen.path(line, "line thin")
    end = (start[0] + way[0] * (length - 4), start[1] + way[1] * (length - 4))
    sketch.pen.path([start, end], "line")
    back, side = 6.0, 3.0
    head = [(end[0] - way[0] * back + s * way[1] * side, end[1] - way[1] * back + s * way[0] * side) for s in (1, -1)]
    sketch.pen.path([head[0], end, head[1]], "line")
    sketch.pen.text(start, "UP", "small", "start" if way[0] >= 0 else "end", dx=4 * (way[0] or 1), dy=-5)
