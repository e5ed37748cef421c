"""What lies beneath a framing plan: the story's rooms, walls and stairs, faint, to find one's way by."""

from __future__ import annotations

from math import hypot

from precheck.files.missing import is_missing
from precheck.project import Space, Stair, Story, Wall, thickness_of
from precheck.reports.drawings.drawing import Sketch
from precheck.reports.drawings.placed import outline_in_inches
from precheck.reports.drawings.svg import Pen, Point, inches
from precheck.units import Length

WALL = 4.5  # inches that a wall is drawn thick where its layers are not given
NEAR = 72.0  # inches around the members within which rooms are drawn


def point_of(point: tuple[Length, Length]) -> Point:
    """Return a point of the plan in inches."""
    return inches(point[0]), inches(point[1])


def moved(point: Point, by: Point, times: float = 1.0) -> Point:
    """Return `point` moved `by` so much, so many `times`."""
    return point[0] + by[0] * times, point[1] + by[1] * times


def draw_beneath(sketch: Sketch, story: Story, reached: list[Point]) -> list[tuple[Space, list[Point]]]:
    """Draw rooms, walls and stairs of the story faintly, as far as they are near what is `reached`."""
    house, pen = sketch.source.house, sketch.pen
    drawn = [(space, outline_in_inches(house, space)) for space in house.spaces if space.story == story.id]
    rooms = [(space, outline) for space, outline in drawn if outline and _is_near(outline, reached)]
    for _, outline in rooms:
        pen.path(outline, "faint", True)
    for wall in house.subjects(Wall):
        if not wall.is_removed and wall.story == story.id and not (is_missing(wall.from_) or is_missing(wall.to)):
            _wall(pen, wall, (point_of(wall.from_), point_of(wall.to)))
    here = {space.id for space, _ in rooms}
    for stair in house.subjects(Stair):
        if not stair.is_removed and house.ends(stair)[0] in here:
            _stair(pen, stair)
    return rooms


def _is_near(outline: list[Point], reached: list[Point]) -> bool:
    return all(
        min(p[axis] for p in outline) <= max(p[axis] for p in reached) + NEAR
        and max(p[axis] for p in outline) >= min(p[axis] for p in reached) - NEAR
        for axis in (0, 1)
    )


def _wall(pen: Pen, wall: Wall, line: tuple[Point, Point]) -> None:
    (ax, ay), (bx, by) = line
    thick, length = thickness_of(wall.layers), hypot(bx - ax, by - ay)
    if length:
        half = (inches(thick) if wall.layers and isinstance(thick, Length) else WALL) / 2
        out = (-(by - ay) / length * half, (bx - ax) / length * half)
        pen.path([moved((x, y), out, side) for (x, y), side in zip((*line, *line[::-1]), (1, 1, -1, -1), strict=True)],
                 "faint wall-beneath", True)  # fmt: skip


def _stair(pen: Pen, stair: Stair) -> None:
    box = stair.rectangle
    if is_missing(box):
        return
    x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
    pen.path([(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)], "faint dashed", True)
    pen.path([(x, y), (x + width, y + depth)], "faint dashed")
    pen.path([(x, y + depth), (x + width, y)], "faint dashed")
