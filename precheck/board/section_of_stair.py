"""The section of a stair on the page: its steps, the headroom over its nosings, the floors that it joins and their levels."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.board.changing import Steps, path_of
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
)
from precheck.board.sketch import Point
from precheck.files.missing import is_missing
from precheck.project import Space, Stair
from precheck.reports.drawings.stair import FLOOR, profile_of, steps_of
from precheck.reports.drawings.svg import inches
from precheck.survey import House
from precheck.survey.flights import climb_of
from precheck.units import derived

RISE, RUN = 105.0, 130.0  # inches of a stair of which nothing is given yet


def stair_section(house: House, stair: Stair) -> DrawnSection:
    """Return the section of `stair`, its flights unrolled into one plane, the lower floor at zero."""
    steps, lacking = steps_of(stair, house)
    lines: list[Point] = []
    nosings: list[Point] = []
    at = (0.0, 0.0)
    for number, flight in enumerate(steps):
        line, edges = profile_of(flight, at) if not lacking else ([], [])
        lines, nosings = [*lines, *line], [*nosings, *edges]
        at = (line[-1][0] + (FLOOR * 2 if number < len(steps) - 1 else 0.0), line[-1][1]) if line else at
    climb = climb_of(stair, house)
    top = lines[-1] if lines else (RUN, inches_or(climb, RISE))
    drawn = Stroke("step", tuple(lines)) if lines else Stroke("unknown", ((0.0, 0.0), top))
    lower, upper = (house.space(side) for side in house.ends(stair))
    strokes = [Stroke("floor", ((-FLOOR, 0.0), (0.0, 0.0))), drawn, Stroke("floor", (top, (top[0] + 2 * FLOOR, top[1]))),
               *_headroom_line(stair, nosings), *_floors(house, lower, upper, top)]  # fmt: skip
    heights = (*_of_stair(house, stair, top, nosings), *_levels(house, lower, upper, top))
    return DrawnSection(f"Section, {stair.label}", tuple(strokes), heights, tuple(_notes(stair, lacking, len(steps))))


def _headroom_line(stair: Stair, nosings: list[Point]) -> Iterator[Stroke]:
    clear = stair.headroom
    if nosings:
        yield Stroke("pitch", (nosings[0], nosings[-1]))
    if nosings and not is_missing(clear):
        high = inches(clear)
        yield Stroke("headroom", tuple((x, y + high) for x, y in (nosings[0], nosings[-1])))


def _floors(house: House, lower: Space | None, upper: Space | None, top: Point) -> Iterator[Stroke]:
    """Yield the floors as they are built up, and the ceiling of the lower room as far as it is given."""
    for space, left, level in ((lower, -FLOOR, 0.0), (upper, top[0], top[1])):
        for stroke in build_up(house, space, 2 * FLOOR, level) if space is not None else ():
            yield stroke._replace(points=tuple((x + left, y) for x, y in stroke.points))
    tall = None if lower is None else house.ceiling_height(lower)
    if tall is not None and not is_missing(tall):
        yield Stroke("ceiling", ((-FLOOR, inches(tall)), (FLOOR, inches(tall))), "ceiling below")


def _of_stair(house: House, stair: Stair, top: Point, nosings: list[Point]) -> Iterator[Height]:
    path = path_of(house.project, stair)
    climb = climb_of(stair, house)
    right = top[0] + 2 * FLOOR
    worked = "" if not is_missing(stair.total_rise) or is_missing(climb) else derived(climb)
    yield Height("total rise", "total rise", (*path, "total rise"), told(stair.total_rise),
                 ((right, 0.0), (right, top[1])), worked, of=stair.id)  # fmt: skip
    whole = len(stair.flights) == 1
    flight = stair.flights[0]
    counted = (*path, "flights", 0, "risers") if whole and not is_missing(flight.risers) else (*path, "risers")
    risers = flight.risers if counted[-3:-1] == ("flights", 0) else stair.risers
    yield Height("risers", "risers", counted, told(risers), ((-FLOOR, top[1] * 0.5), (-FLOOR, top[1] * 0.5)),
                 counts=True, of=stair.id, measured="riser")  # fmt: skip
    if whole and not flight.tread_depths:
        yield _tread(path, stair, top)
    x, y = nosings[len(nosings) * 2 // 3] if nosings else (top[0] * 0.6, top[1] * 0.6)
    high = inches_or(stair.headroom, 84.0)
    yield Height(
        "headroom",
        "headroom",
        (*path, "headroom"),
        told(stair.headroom),
        ((x, y), (x, y + high)),
        of=stair.id,
        measured="headroom",
    )


def _tread(path: Steps, stair: Stair, top: Point) -> Height:
    return Height("tread", "tread", (*path, "flights", 0, "tread"), told(stair.flights[0].tread),
                  ((0.0, -14.0), (top[0], -14.0)), of=stair.id, measured="tread")  # fmt: skip


def _levels(house: House, lower: Space | None, upper: Space | None, top: Point) -> Iterator[Height]:
    for space, x, level, which in ((lower, -FLOOR, 0.0, "lower"), (upper, top[0] + FLOOR, top[1], "upper")):
        if space is None:
            continue
        at = ((x, level), (x, level))
        story = story_of(house, space)
        if house.floor(space) is not None:
            yield from level_of_floor(house, space, at, f"level of the {which} floor")
        elif story is not None:
            yield level_of_story(house, story, at)


def _notes(stair: Stair, lacking: list[str], flights: int) -> Iterator[str]:
    if lacking:
        yield f"To draw the steps, type {', '.join(one.split(' (')[0].replace('`', '') for one in lacking)}."
    if flights > 1:
        yield "The flights are unrolled into one plane, with landings of 36 in between."
    if is_missing(stair.headroom):
        yield "Headroom is measured straight up from the line of the nosings to the ceiling."
