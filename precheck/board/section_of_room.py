"""The section across a room: its floor as it is built up, its ceiling as it is drawn, what hangs below it, its windows by height."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from precheck.board.changing import path_of
from precheck.board.heights import (
    DrawnSection,
    Height,
    Stroke,
    build_up,
    inches_or,
    level_of_floor,
    level_of_story,
    story_of,
    told,
    worked_out,
)
from precheck.board.sketch import Point, box_of
from precheck.files.missing import Missing, is_missing
from precheck.project import Ceiling, Space, Story, Window
from precheck.reports.drawings.svg import inches
from precheck.survey import House
from precheck.units import Area, Length

WIDTH, TALL = 144.0, 96.0  # inches of a room that is not drawn, or whose ceiling is not given
INCH = Length.parse("1 in")
BOX = 12.0  # inches across of what hangs below a ceiling, where its floor area is not given


def room_section(house: House, space: Space) -> DrawnSection:
    """Return the section across `space`, its floor at zero."""
    ceiling = space.ceiling if isinstance(space.ceiling, Ceiling) else None
    profile = [(inches(one.across), inches(one.height)) for one in ceiling.profile] if ceiling else []
    box = box_of(house, space)
    width = profile[-1][0] if len(profile) > 1 else box.width if box is not None else WIDTH
    tall = inches_or(house.ceiling_height(space), TALL)
    over = profile if len(profile) > 1 else [(0.0, tall), (width, tall)]
    strokes = [
        Stroke("floor", ((0.0, 0.0), (width, 0.0))),
        *build_up(house, space, width, 0.0),
        Stroke("wall", ((0.0, 0.0), (0.0, over[0][1]))),
        Stroke("wall", ((width, 0.0), (width, over[-1][1]))),
        Stroke("ceiling" if profile or not is_missing(house.ceiling_height(space)) else "unknown", tuple(over)),
        *_hanging(house, space, width, tall),
        *_windows(house, space, width),
        *_stories(house, space, width),
    ]
    heights = (*_ceiling(house, space, over, width), *_profile(house, space), *_drops(house, space, width),
               *_sills(house, space, width), *_levels(house, space, width))  # fmt: skip
    return DrawnSection(f"Section, {space.name or space.id}", tuple(strokes), heights, tuple(_notes(house, space)))


def _ceiling(house: House, space: Space, over: list[Point], width: float) -> Iterator[Height]:
    """Yield the height of a flat ceiling, or what it is built from where the file says so."""
    ceiling = space.ceiling
    path = (*path_of(house.project, space), "ceiling")
    if isinstance(ceiling, Ceiling) and ceiling.profile:
        return
    given = ceiling.height if isinstance(ceiling, Ceiling) else space.absent("ceiling height")
    at = ((width * 0.3, 0.0), (width * 0.3, over[0][1]))
    worked = worked_out(given, house.ceiling_height(space))
    yield Height(
        "ceiling height",
        "ceiling height",
        (*path, "height"),
        told(given),
        at,
        worked,
        of=space.id,
        measured="ceiling height",
    )
    if isinstance(ceiling, Ceiling) and not is_missing(ceiling.framing_level):
        above = ((width * 0.85, over[0][1]), (width * 0.85, over[0][1] + 6))
        framing = told(ceiling.framing_level)
        yield Height("framing level", "level of the framing", (*path, "framing level"), framing, above, of=space.id)


def _profile(house: House, space: Space) -> Iterator[Height]:
    ceiling = space.ceiling
    for number, point in enumerate(ceiling.profile if isinstance(ceiling, Ceiling) else ()):
        path = (*path_of(house.project, space), "ceiling", "profile", number)
        x, y = inches(point.across), inches(point.height)
        name = f"profile {number + 1}"
        yield Height(f"{name} height", f"height at point {number + 1}", (*path, "height"), str(point.height),
                     ((x, 0.0), (x, y)), of=space.id, measured="ceiling height")  # fmt: skip
        if number:
            yield Height(f"{name} across", f"point {number + 1} from the wall", (*path, "across"), str(point.across),
                         ((0.0, -18.0 - 16 * number), (x, -18.0 - 16 * number)), of=space.id)  # fmt: skip


def _hanging(house: House, space: Space, width: float, tall: float) -> Iterator[Stroke]:
    """Yield what hangs below the ceiling: round the room, where nothing says where it hangs."""
    ceiling = space.ceiling
    for drop in ceiling.drops if isinstance(ceiling, Ceiling) else ():
        clear = inches_or(drop.clear_height, tall - BOX)
        for start, end in _sides(_border(house, space, drop.floor_under), width):
            yield Stroke("drop", ((start, tall), (start, clear), (end, clear), (end, tall)), drop.what)


def _sides(wide: float, width: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (0.0, wide), (width - wide, width)


def _border(house: House, space: Space, under: Area | Missing) -> float:
    """Return how wide a border round a rectangular room is that covers an area of its floor."""
    box = box_of(house, space)
    if box is None or is_missing(under):
        return BOX
    around, covered = box.width + box.depth, inches(under.over(INCH))
    rest = around * around - 4 * covered
    return (around - sqrt(rest)) / 4 if rest > 0 else min(box.width, box.depth) / 2


def _drops(house: House, space: Space, width: float) -> Iterator[Height]:
    ceiling = space.ceiling
    for number, drop in enumerate(ceiling.drops if isinstance(ceiling, Ceiling) else ()):
        path = (*path_of(house.project, space), "ceiling", "drops", number, "clear height")
        wide = _border(house, space, drop.floor_under)
        tall = inches_or(drop.clear_height, TALL - BOX)
        yield Height(f"drop {number + 1}", f"clear height under the {drop.what if drop.what != 'other' else 'soffit'}", path,
                     told(drop.clear_height), ((width - wide / 2, 0.0), (width - wide / 2, tall)), of=space.id)  # fmt: skip


def _windows(house: House, space: Space, width: float) -> Iterator[Stroke]:
    for window, x in _placed(house, space, width):
        sill = inches_or(house.sill_height(window), 36.0)
        size = window.unit_size
        across, up = (36.0, 36.0) if is_missing(size) else (inches(size.width), inches(size.height))
        known = "window" if not is_missing(house.sill_height(window)) else "window unknown"
        half = min(across, width / 3) / 2
        yield Stroke(
            known, ((x - half, sill), (x + half, sill), (x + half, sill + up), (x - half, sill + up)), window.id
        )


def _placed(house: House, space: Space, width: float) -> list[tuple[Window, float]]:
    """Return the windows of a room, spread over the wall that one sees, left to right."""
    windows = [one for one in house.openings_of(space) if isinstance(one, Window)]
    return [(one, width * (0.45 + 0.4 * (n + 0.5) / len(windows))) for n, one in enumerate(windows)]


def _sills(house: House, space: Space, width: float) -> Iterator[Height]:
    for window, x in _placed(house, space, width):
        path = (*path_of(house.project, window), "sill height")
        sill = inches_or(house.sill_height(window), 36.0)
        worked = worked_out(window.sill_height, house.sill_height(window))
        yield Height(f"sill of {window.id}", f"sill height of {window.id}", path, told(window.sill_height),
                     ((x, 0.0), (x, sill)), worked, of=window.id, measured="sill height")  # fmt: skip


def _stories(house: House, space: Space, width: float) -> Iterator[Stroke]:
    for _, high in _above(house, space):
        yield Stroke("level", ((-10.0, high), (width + 10, high)))


def _above(house: House, space: Space) -> Iterator[tuple[Story, float]]:
    """Yield the stories not far above that of `space`, with how high above its level each one lies."""
    story = story_of(house, space)
    if story is None or is_missing(story.elevation):
        return
    for other in house.project.stories:
        if other is not story and not other.is_removed and not is_missing(other.elevation):
            high = inches(other.elevation) - inches(story.elevation)
            if 0 < high < 2 * TALL:
                yield other, high


def _levels(house: House, space: Space, width: float) -> Iterator[Height]:
    right = ((width + 14, 0.0), (width + 14, 0.0))
    yield from level_of_floor(house, space, right, "level of the finished floor")
    story = story_of(house, space)
    if story is not None and house.floor(space) is None:
        yield level_of_story(house, story, right)
    for other, high in _above(house, space):
        yield level_of_story(house, other, ((width + 14, high), (width + 14, high)))


def _notes(house: House, space: Space) -> Iterator[str]:
    if house.floor(space) is None:
        yield "Its floor is not described yet, so no build-up is drawn below it."
    if any(isinstance(one, Window) for one in house.openings_of(space)):
        yield "Windows are drawn by their heights, spread over the wall that one sees."
    ceiling = space.ceiling
    if isinstance(ceiling, Ceiling) and ceiling.drops:
        yield "What hangs below the ceiling is drawn round the room; the file does not say where it hangs."
