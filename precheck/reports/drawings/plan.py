"""The plan of each story: rooms with their walls, doors and windows where they are placed, stairs, and the marks."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, count
from string import ascii_uppercase
from textwrap import wrap
from typing import NamedTuple

from precheck.files.missing import is_missing
from precheck.project import Opening, Part, Receptacle, Space, Stair, Story
from precheck.reports.drawings import symbols, ways
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.free import largest_free
from precheck.reports.drawings.marks import Mark
from precheck.reports.drawings.placed import outline_in_inches, place, spaces_of
from precheck.reports.drawings.svg import BADGE, CHARACTER, Pen, Point, coordinate, short
from precheck.reports.drawings.things import lettering, signs
from precheck.survey.outlines import opening_outline, outline_before
from precheck.units import Length, derived, in_feet

LINE = 14.0  # pixels from one line of lettering to the next
LINES_OF_MARKS = 2  # lines of lettering as high as a row of marks
CLEAR = 14.0  # pixels between a dimension over all and what it goes past
WALL = 12.0  # inches of stroke behind a room's outline: the half outside it reads as its wall


TITLE = "Plan"


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield a plan for each story that has rooms, and one for the rooms that name none."""
    house = source.house
    stories: list[Story | None] = [s for s in house.project.stories if not s.is_removed]
    for number, story in enumerate([*stories, None], 1):
        spaces = [space for space in house.spaces if _on(space, story)]
        if spaces:
            yield _plan(source, f"plan-{number}", story, spaces)


def _on(space: Space, story: Story | None) -> bool:
    if story is None:
        return is_missing(space.story)
    return not is_missing(space.story) and space.story == story.id


def _plan(source: Source, key: str, story: Story | None, spaces: list[Space]) -> Drawing:
    title = f"{TITLE}, {story.label}" if story else TITLE
    drawn = [(space, outline) for space in spaces if (outline := outline_in_inches(source.house, space))]
    if not drawn:
        asked = [f"`rectangle` or `outline` of {space.label} (line {space.place.line})" for space in spaces]
        return cannot(source.key(key), title, *asked)
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, spaces, drawn), "3/8")


def _drawn(sketch: Sketch, title: str, spaces: list[Space], drawn: list[tuple[Space, list[Point]]]) -> Drawing:
    source = sketch.source
    trails = ways.shown_ways(
        sketch, {space.id: largest_free(sketch.source.house, space, outline)[0] for space, outline in drawn}
    )
    shown = {space.id for space, _ in drawn}
    _walls(sketch, drawn)
    _floor_openings(sketch, shown)
    placed = signs(sketch, shown)
    named = _rooms(sketch, drawn, trails)
    parts = [*source.house.project.doors, *source.house.project.windows, *source.house.project.stairs]
    for part in parts:
        if _belongs(part, source, spaces):
            _part(sketch, part, shown)
    for room in named:  # last, since they may stand anywhere in their room
        room.mark(sketch)
    told = lettering(sketch, placed)
    ways.label(sketch.pen, trails)
    overall(sketch.pen, drawn)
    tags = (room.tag for room in named if room.tag)
    notes = (*tags, *told, *_left_out(source, sketch, [*spaces, *(p for p in parts if _belongs(p, source, spaces))]))
    return sketch.finish(title, _description(sketch, drawn), notes, north=True)


def _walls(sketch: Sketch, drawn: list[tuple[Space, list[Point]]]) -> None:
    """Draw the rooms, all walls beneath all floors."""
    pen = sketch.pen
    for _, outline in drawn:
        pen.path(outline, "wall", True, style=f"stroke-width:{WALL * pen.scale.factor:.2f}px")
    for space, outline in drawn:
        sketch.open(space)
        pen.path(outline, "room", True)
        sketch.close()
    for space, _ in drawn:
        if not is_missing(space.before) and (before := outline_before(space)):
            pen.path([(coordinate(x), coordinate(y)) for x, y in before], "line dashed thin", True)


def _floor_openings(sketch: Sketch, rooms: set[str]) -> None:
    """Draw the openings through the floors and ceilings of `rooms`: dashed, with a cross through one that is open."""
    for part in sketch.source.house.project.framed_openings:
        corners = [(coordinate(x), coordinate(y)) for x, y in opening_outline(part)]
        if is_missing(part.space) or part.space not in rooms or part.is_removed or not corners:
            continue
        sketch.open(part)
        sketch.pen.path(corners, "line dashed thin", True)
        if part.through == "floor":
            for one, other in (corners[::2], corners[1::2]):
                sketch.pen.path([one, other], "line dashed thin")
        sketch.close()
        (x, y), (far, _) = corners[0], corners[1]
        sketch.pen.badges(((x + far) / 2, y), sketch.source.marks(part))


class NamedRoom(NamedTuple):
    """A room with its name lettered: what its tag stands for, if it has one, and where its marks go."""

    tag: str
    marks: tuple[Mark, ...]
    middle: Point
    below: float  # pixels from the middle down to the last row of marks
    across: int  # marks that stand side by side in it

    def mark(self, sketch: Sketch) -> None:
        """Put the marks of the room under its name, or where nothing else stands near by."""
        sketch.pen.badges(self.middle, self.marks, dy=self.below, most=self.across)


def _rooms(sketch: Sketch, drawn: list[tuple[Space, list[Point]]], trails: list[ways.ShownWay]) -> list[NamedRoom]:
    ways.draw(sketch.pen, trails)
    tags = _tags(sketch)
    return [_name(sketch, space, outline, tags) for space, outline in drawn]


def _tags(sketch: Sketch) -> Iterator[str]:
    """Yield A, B, C and so on for rooms whose names find no room, save what is the id of a part."""
    letters = (f"{more}{letter}" for more in ("", *ascii_uppercase) for letter in ascii_uppercase)
    numbered = (f"Room {n}" for n in count(1))
    taken = {part.upper() for part in sketch.source.house.project.by_id}
    return (tag for tag in chain(letters, numbered) if tag.upper() not in taken)


def _name(sketch: Sketch, space: Space, outline: list[Point], tags: Iterator[str]) -> NamedRoom:
    """Letter the room where its name fits, on two lines if need be, else a tag."""
    pen, (middle, (width, height)) = sketch.pen, largest_free(sketch.source.house, space, outline)
    name, *more = lines = _lines(sketch, space, outline)
    marks = sketch.source.marks(space)
    across = max(1, int(width * pen.scale.factor / BADGE))
    deep = -(-len(marks) // across)
    most = max(int(width * pen.scale.factor / (CHARACTER * 1.1)), 0)
    room = max(int(height * pen.scale.factor / LINE) - 1, 0)
    rows = max(room - LINES_OF_MARKS * deep, min(room, 1))
    named = wrap(name, most, break_long_words=False, break_on_hyphens=False) if most else []
    fits = 0 < len(named) <= min(rows, 2) and max(map(len, named)) <= most
    tag = "" if fits else next(tags)
    shown = [*named, *(line for line in more if len(line) <= most)][:rows] if fits else [tag]
    top = -LINE * (len(shown) - 1) / 2 - (12 * max(deep, 1) if marks else -4)
    for number, line in enumerate(shown):
        pen.text(middle, line, "name" if number < max(1, len(named)) else "small", dy=top + LINE * number)
    below = top + LINE * len(shown) + 4 + BADGE * (deep - 1)
    return NamedRoom("" if fits else f"{tag} is {', '.join(map(short, lines))}.", marks, middle, below, across)


def _lines(sketch: Sketch, space: Space, outline: list[Point]) -> list[str]:
    """Return the name of the room, its size where it is a rectangle, its use before and now, and its area."""
    use = "use not given" if is_missing(space.use) else space.use
    was = "" if is_missing(space.was) else f"was {space.was}"
    area = sketch.source.house.area(space)
    told = "" if is_missing(area) else derived(area)
    name = space.name or space.id
    return [name, *(line for line in (_size(outline), use, was, told) if line and line.lower() != name.lower())]


def _size(outline: list[Point]) -> str:
    """Return width and depth of a rectangle that stands square to the page; nothing of any other room."""
    xs, ys = ({point[axis] for point in outline} for axis in (0, 1))
    return f"{_feet(max(xs) - min(xs))} x {_feet(max(ys) - min(ys))}" if len(xs) == len(ys) == 2 else ""


def overall(pen: Pen, drawn: list[tuple[Space, list[Point]]]) -> None:
    """Draw the dimensions over all rooms that are drawn, clear of what is drawn already."""
    xs, ys = ([point[axis] for _, outline in drawn for point in outline] for axis in (0, 1))
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    (x, y), box = pen.at((right, low)), pen.box
    pen.across(left, right, low, _feet(right - left), max(54.0, box.bottom - y + CLEAR))
    pen.upright(right, low, high, _feet(high - low), max(46.0, box.right - x + CLEAR))


def _feet(size: float) -> str:
    return in_feet(Length.parse(f"{round(size * 16)}/16 in"))


def _belongs(part: Part, source: Source, spaces: list[Space]) -> bool:
    here = {space.id for space in spaces}
    if isinstance(part, Opening):
        return any(space.id in here for space in spaces_of(part, source.house))
    return isinstance(part, Stair) and source.house.ends(part)[0] in here


def _part(sketch: Sketch, part: Part, shown: set[str]) -> None:
    if isinstance(part, Opening):
        placed = place(part, sketch.source.house)
        if placed is not None and placed.inner.id in shown:
            symbols.opening(sketch, placed)
    elif isinstance(part, Stair) and not is_missing(part.rectangle):
        symbols.stair(sketch, part)


def _left_out(source: Source, sketch: Sketch, parts: list[Part]) -> Iterator[str]:
    missing = [part for part in parts if part.id not in sketch.shows and not part.is_removed]
    for kind, key in ((Space, "`rectangle` or `outline`"), (Opening, "`middle: [x, y]`"), (Stair, "`rectangle`")):
        named = [marked(source, part) for part in missing if isinstance(part, kind)]
        if named:
            yield f"Not on this plan for want of {key}: {'; '.join(named)}."


def marked(source: Source, part: Part) -> str:
    """Return what a note calls `part`: its name, its marks and its line."""
    marks = ", ".join(str(mark.number) for mark in source.marks(part))
    carried = f"{'marks' if ',' in marks else 'mark'} {marks}, " if marks else ""
    return f"{short(part.label)} ({carried}line {part.place.line})"


def _description(sketch: Sketch, drawn: list[tuple[Space, list[Point]]]) -> str:
    names = ", ".join(short(space.name or space.id) for space, _ in drawn)
    others = [sketch.source.house.project.by_id[part] for part in sketch.shows]
    placed = ", ".join(short(part.label) for part in others if not isinstance(part, Space | Receptacle))
    return f"Rooms: {names}. {'Placed: ' + placed + '.' if placed else 'No doors or windows are placed.'}"
