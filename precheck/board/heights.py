"""What a section is made of: the lines that are drawn, and the heights that are typed in the picture, each with its place in the file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from precheck.board.changing import Steps, path_of
from precheck.board.sketch import Point
from precheck.files.missing import Missing, is_missing
from precheck.project import Space, Story
from precheck.reports.drawings.svg import inches
from precheck.survey import House
from precheck.units import Length, derived


class Stroke(NamedTuple):
    """A line of a section in inches: what it stands for, its points from left to right, and what is written at it."""

    kind: str
    points: tuple[Point, ...]
    text: str = ""


class Height(NamedTuple):
    """A height of a section: what it is called, where the file holds it, what it says there, and where it is dimensioned.

    `written` is empty where the file does not give it; `worked` is what the rest of the file comes to then. `counts` tells
    a number from a length. `of` is the part whose findings are told of it, those that measure what is called `measured`.
    """

    key: str
    label: str
    path: Steps
    written: str
    line: tuple[Point, Point]
    worked: str = ""
    counts: bool = False
    of: str = ""
    measured: str = ""


class DrawnSection(NamedTuple):
    """A section as it is drawn on the page."""

    title: str
    strokes: tuple[Stroke, ...]
    heights: tuple[Height, ...]
    notes: tuple[str, ...] = ()


def told(value: Any) -> str:
    """Return a value as the file gives it, nothing where it is missing."""
    return "" if is_missing(value) else str(value)


def worked_out(given: Any, value: Length | Missing) -> str:
    """Return what a height comes to, where the file does not give it itself."""
    return "" if not is_missing(given) or is_missing(value) else derived(value)


def inches_or(value: Length | Missing, otherwise: float) -> float:
    """Return a length in inches, and `otherwise` for a drawing where it is missing."""
    return otherwise if is_missing(value) else inches(value)


def story_of(house: House, space: Space) -> Story | None:
    """Return the story that `space` is on."""
    found = None if is_missing(space.story) else house.project.by_id.get(space.story)
    return found if isinstance(found, Story) else None


def level_of_floor(house: House, space: Space, at: tuple[Point, Point], label: str) -> Iterator[Height]:
    """Yield the level of the finished floor of `space`, where its floor is described."""
    floor = house.floor(space)
    if floor is not None:
        path = (*path_of(house.project, floor), "finished level")
        worked = worked_out(floor.finished_level, house.built_up_level(floor))
        yield Height(f"level of {floor.id}", label, path, told(floor.finished_level), at, worked, of=floor.id)


def level_of_story(house: House, story: Story, at: tuple[Point, Point]) -> Height:
    """Return the level of a story."""
    name = {"ground": "ground floor", "upper": "upper floor"}.get(told(story.level), told(story.level) or story.id)
    path = (*path_of(house.project, story), "elevation")
    return Height(f"level of {story.id}", f"level of the {name}", path, told(story.elevation), at, of=story.id)


def build_up(house: House, space: Space, width: float, top: float) -> Iterator[Stroke]:
    """Yield the layers of the floor of `space` below its finished floor at `top`, from the top down, then its base."""
    floor = house.floor(space)
    if floor is None:
        return
    level = top
    for layer in reversed(floor.layers):
        deep = inches_or(layer.thickness, 1.0)
        yield Stroke("layer", ((0.0, level), (width, level - deep)), str(layer))
        level -= deep
    if not is_missing(floor.base):
        deep = 4.0 if floor.base == "slab" else 9.25
        yield Stroke("base", ((0.0, level), (width, level - deep)), floor.base)
