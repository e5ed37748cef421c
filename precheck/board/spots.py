"""Where a thing goes that is put on the plan: a point as drawn, typed distances from walls, or a place along a wall."""

from __future__ import annotations

from math import hypot
from typing import NamedTuple

from precheck.board.asking import Spot
from precheck.board.sketch import (
    OUTER_WALL,
    SIXTEENTH,
    Point,
    box_of,
    drawn_as,
    middle_on,
    nearest_wall,
    on_wall,
    point_on,
)
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.project import Space
from precheck.questions.typed import DISTANCE
from precheck.reports.drawings.placed import inside, outline_in_inches
from precheck.survey import House

AT_WALL = 12.0  # inches from a wall within which an outlet or a panel is meant to be in it
POINT = (0.0, 0.0)


class Spotted(NamedTuple):
    """The middle of what is put somewhere, in inches of the plan, and the place on a wall as the file holds it, else nothing."""

    middle: Point
    on: str = ""


def outline_of(house: House, room: Space) -> list[Point]:
    """Return the outline of `room` in inches. Raises ValueError where it is not drawn."""
    outline = outline_in_inches(house, room)
    if not outline:
        raise ValueError(f"{room.label} is not drawn yet; type its size first")
    return outline


def spotted(house: House, room: Space, asked: Spot, size: Point = POINT) -> Spotted:
    """Return where a thing of `size` goes in `room`; typed distances run to its nearer sides. Raises ValueError for no place."""
    outline = outline_of(house, room)
    if asked.wall is not None:
        place = middle_on(outline, asked.wall, length_in_inches(asked.distance, DISTANCE), size[0], asked.from_end)
        return Spotted(point_on(outline, place), on_wall(room, outline, place))
    if asked.from_west.strip() or asked.from_south.strip():
        box = box_of(house, room)
        assert box is not None
        west, south = (_typed(text, name) for text, name in ((asked.from_west, "west"), (asked.from_south, "south")))
        corner = (box.x + west, box.y + south)
        if not all(_within((corner[0] + dx, corner[1] + dy), outline) for dx, dy in ((0, 0), size)):
            told = f"{drawn_as(box.width)} x {drawn_as(box.depth)}"
            raise ValueError(f"that is not in {room.name or room.id}, which is {told}")
        return Spotted((corner[0] + size[0] / 2, corner[1] + size[1] / 2))
    if asked.at is None:
        raise ValueError("click where it goes, or type how far it is from the west wall and from the south wall")
    return Spotted(asked.at)


def _within(at: Point, outline: list[Point]) -> bool:
    """Return whether a point lies in a room or on one of its walls."""
    on = point_on(outline, nearest_wall(outline, at))
    return inside(at, outline) or hypot(at[0] - on[0], at[1] - on[1]) < SIXTEENTH


def _typed(text: str, wall: str) -> float:
    if not text.strip():
        raise ValueError(f"type how far it is from the {wall} wall as well")
    return length_in_inches(text, DISTANCE)


def against_wall(house: House, room: Space, found: Spotted, reach: float = AT_WALL) -> Spotted:
    """Return the place on the nearest wall where a point lies within `reach` of it, else the point."""
    outline = outline_of(house, room)
    place = nearest_wall(outline, found.middle)
    foot = point_on(outline, place)
    near = max(abs(foot[0] - found.middle[0]), abs(foot[1] - found.middle[1])) <= reach
    return Spotted(foot, on_wall(room, outline, place)) if near and not found.on else found


def room_at(house: House, story: str, point: Point) -> Space | None:
    """Return the room of a story in which a point of the plan lies, or in whose wall; None where it is in none."""
    drawn = [(space, outline) for space in house.spaces if (outline := outline_in_inches(house, space))]
    here = [
        (space, outline) for space, outline in drawn if is_missing(space.story) or space.story == story or not story
    ]
    within = next((space for space, outline in here if inside(point, outline)), None)
    if within is not None:
        return within
    near = [(_away(outline, point), space.id, space) for space, outline in here]
    best = min(near, default=None)
    return best[2] if best is not None and best[0] <= OUTER_WALL else None


def _away(outline: list[Point], point: Point) -> float:
    foot = point_on(outline, nearest_wall(outline, point))
    return max(abs(foot[0] - point[0]), abs(foot[1] - point[1]))
