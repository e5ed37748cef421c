"""Facts of a part that the file gives twice and not alike, each with the changes that make them agree, one press each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from precheck.board.changing import GONE, Change, path_of
from precheck.files.missing import is_missing, when_given
from precheck.files.record import Record, fields_of
from precheck.project import Floor, Opening, Part, Project, Space, Stair, Window
from precheck.survey import House
from precheck.survey.flights import floors_apart
from precheck.units import Area, derived

_OF_ROW = ("id", "phase", "of", "sheets", "note", "drawn_from")
SAME = 0.02  # by which areas may differ, for their sides are rounded


class Agreeing(NamedTuple):
    """What makes two statements agree, as its button says it."""

    said: str
    changes: tuple[Change, ...]


class GivenTwice(NamedTuple):
    """A fact that is given twice, how both read, and the ways to make them agree."""

    said: str
    ways: tuple[Agreeing, ...]


def given_twice(house: House, part: Part) -> tuple[GivenTwice, ...]:
    """Return what the file says of `part` in two places that do not agree."""
    found = [*_in_rows(house, part), *_drawn_too(house, part)] if isinstance(part, Opening) else _drawn_too(house, part)
    return tuple(found)


def told_twice(project: Project, parts: Iterable[Part]) -> list[dict[str, Any]]:
    """Return the facts of parts that are given twice and not alike, with what makes them agree, as the page shows them."""
    house = House(project)
    found = [(part, fact) for part in parts for fact in given_twice(house, part)]
    return [{"part": part.id, "said": fact.said, "ways": [way.said for way in fact.ways]} for part, fact in found]


def _in_rows(house: House, opening: Opening) -> Iterator[GivenTwice]:
    """Yield what the schedule or a sheet says otherwise than the opening itself."""
    for row in house.project.schedule:
        if row.of == opening.id and not row.is_removed:
            fields = [name for name in fields_of(type(row)) if name not in _OF_ROW and hasattr(opening, name)]
            pairs = [(name, name) for name in fields]
            yield from _compared(house, opening, row, f"schedule row {row.id}", path_of(house.project, row), pairs)
    for sheet in house.project.sheets:
        for number, says in enumerate(sheet.says):
            if says.of == opening.id:
                path = (*path_of(house.project, sheet), "says", number)
                yield from _compared(house, opening, says, f"sheet {sheet.id}", path, [("unit_size", "size")])


def _compared(
    house: House, opening: Opening, other: Record, where: str, path: tuple[str | int, ...], pairs: list[tuple[str, str]]
) -> Iterator[GivenTwice]:
    for own, theirs in pairs:
        here, there = getattr(opening, own), getattr(other, theirs)
        if is_missing(here) or is_missing(there) or here == there:
            continue
        key, other_key = (fields_of(type(one))[name].key for one, name in ((opening, own), (other, theirs)))
        mine, others = _written(opening, key), _written(other, other_key)
        yield GivenTwice(
            f"{key}: {mine} at {opening.label}, {others} in {where}",
            (
                Agreeing(f"Change it to {mine} in {where} too", (Change((*path, other_key), mine),)),
                Agreeing(
                    f"Take {others} from {where}", (Change((*path_of(house.project, opening), key), others),)
                ),
            ),
        )  # fmt: skip


def _written(record: Record, key: str) -> str:
    """Return a value as the file writes it."""
    found = record.block.get(key) if record.block is not None else None
    if isinstance(found, bool):
        return "yes" if found else "no"
    return str(found)


def _drawn_too(house: House, part: Part) -> Iterator[GivenTwice]:
    """Yield what `part` states otherwise than the drawing gives it."""
    for key, stated, drawn in _facts(house, part):
        if is_missing(stated) or is_missing(drawn) or _alike(stated, drawn):
            continue
        out = Agreeing(f"Take the stated {key} out", (Change((*path_of(house.project, part), key), GONE),))
        yield GivenTwice(f"{key}: {stated} stated, {derived(drawn)} as drawn", (out,))


def _facts(house: House, part: Part) -> Iterator[tuple[str, Any, Any]]:
    """Yield the keys of what a part can state and have drawn, each with both."""
    if isinstance(part, Space):
        yield "area", part.area, house.drawn_area(part)
        if not part.outline:
            box = part.rectangle
            yield "least width", part.least_width, when_given(min, box.width, box.depth)
    elif isinstance(part, Floor):
        yield "finished level", part.finished_level, house.built_up_level(part)
    elif isinstance(part, Stair):
        yield "total rise", part.total_rise, floors_apart(part, house)
    elif isinstance(part, Window) and (room := house.space(part.space)) is not None:
        yield "sill height", part.sill_height, part.sill_level - house.finished_floor(room)


def _alike(stated: Any, drawn: Any) -> bool:
    return abs(float(stated / drawn) - 1) <= SAME if isinstance(stated, Area) else bool(stated == drawn)
