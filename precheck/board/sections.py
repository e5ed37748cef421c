"""Sections on the page: through a room or a stair, with heights that are typed in the picture and go into the file."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.board.asked_of_sections import ShapeCeiling, TypeHeight
from precheck.board.ceilings import shaped
from precheck.board.changing import GONE, Change, Changes
from precheck.board.heights import DrawnSection, Height
from precheck.board.section_of_room import room_section
from precheck.board.section_of_stair import stair_section
from precheck.board.typed import length_in_inches
from precheck.project import Opening, Project, Space, Stair
from precheck.questions.typed import HEIGHT
from precheck.reports import words
from precheck.reports.worklist import Item
from precheck.survey import House

Data = dict[str, Any]
_DIGITS = 2


def section_of(house: House, part: str) -> DrawnSection | None:
    """Return the section through a stair or a room, or through the room of a window or thing; None where there is none."""
    found = house.project.by_id.get(part)
    if isinstance(found, Stair):
        return stair_section(house, found)
    space = found if isinstance(found, Space) else _room_of(house, found)
    return None if space is None else room_section(house, space)


def _room_of(house: House, part: Any) -> Space | None:
    if isinstance(part, Opening) and hasattr(part, "between"):
        return next((space for side in part.between if (space := house.space(side)) is not None), None)
    return house.space(str(getattr(part, "space", "")))


def shown(house: House, part: str, items: Iterable[Item]) -> Data:
    """Return the section as the page draws it, with what is to do about each of its heights."""
    section = section_of(house, part)
    if section is None:
        return {"part": part, "title": "", "strokes": [], "heights": [], "notes": []}
    listed = tuple(items)
    found = house.project.by_id.get(part)
    return {
        "part": part,
        "title": section.title,
        "room": isinstance(found, Space),
        "strokes": [{"kind": one.kind, "points": _points(one.points), "text": one.text} for one in section.strokes],
        "heights": [_height(one, house.project, listed) for one in section.heights],
        "notes": list(section.notes),
    }


def _points(points: Iterable[tuple[float, float]]) -> list[list[float]]:
    return [[round(x, _DIGITS), round(y, _DIGITS)] for x, y in points]


def _height(height: Height, project: Project, items: tuple[Item, ...]) -> Data:
    return {
        "key": height.key,
        "label": height.label,
        "value": height.written,
        "worked": height.worked,
        "line": _points(height.line),
        "state": _state(height, project, items),
    }


def _state(height: Height, project: Project, items: tuple[Item, ...]) -> str:
    """Return the group of the first thing to do that is about this height: what is asked of it, or what it measures."""
    part, name = project.by_id.get(height.of), str(height.path[-1])
    for item in items:
        if part is None or part not in item.parts:
            continue
        asked = any(name in need.key for wanted in item.wanted for need in wanted.needs)
        told = [one.what.lower() for finding in item.findings for one in words.telling(finding)]
        if asked or (height.measured and any(height.measured in what for what in told)):
            return item.group.key
    return ""


def height_typed(house: House, asked: TypeHeight) -> Changes:
    """Return the change that gives a height of a section; an empty one takes it out. Raises ValueError for what is none."""
    section = section_of(house, asked.part)
    height = next((one for one in section.heights if one.key == asked.key), None) if section is not None else None
    if height is None:
        raise ValueError(f"this section has no height `{asked.key}`; it has been drawn anew")
    value = asked.value.strip()
    if not value:
        return Changes([Change(height.path, GONE)] if height.written else [], height.label)
    if height.counts:
        if not value.isdecimal():
            raise ValueError(f"`{value}` is no number of {height.label}; write it like 14")
    else:
        length_in_inches(value, HEIGHT)
    what = height.label if height.of in height.label else f"{height.label} of {height.of}"
    return Changes([Change(height.path, value)], what)


def ceiling_shaped(house: House, asked: ShapeCeiling) -> Changes:
    """Return the changes that give a room a ceiling of a shape. Raises ValueError with what is wrong."""
    space = house.space(asked.part)
    if space is None:
        raise ValueError(f"there is no room `{asked.part}`; choose one on the plan")
    return shaped(house, space, asked)
