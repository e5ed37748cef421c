"""A house with what the work takes away put back shares what stays, and is the same as the file read anew."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from case_houses import FULL, TOPICS, houses

from precheck import Project, testing
from precheck.files.record import Record, fields_of
from precheck.files.source import Block, Items, Unusable, read_file
from precheck.project import project_from
from precheck.project.standing import with_standing

EXAMPLES = Path(__file__).parents[1] / "examples"


def told(record: Record) -> Iterator[tuple[str, str, Any]]:
    """Yield every value of a record and of all below it, with whose it is and where that stands."""
    for name in fields_of(type(record)):
        value = getattr(record, name)
        held = value if isinstance(value, tuple) else (value,)
        for item in held:
            if isinstance(item, Record):
                yield from told(item)
        if not any(isinstance(item, Record) for item in held):
            yield f"{record.label} in {record.place}", name, repr(value)


def as_existing(block: Block, ids: frozenset[str]) -> Block:
    """Return a file with the parts of `ids` in it as existing ones, written out again as a whole."""
    other = block.without(())
    for key, parts in block.items():
        if isinstance(parts, Items):
            other[key] = items = Items(parts.at, parts.file)
            items.items_at = list(parts.items_at)
            for part in parts:
                again = part.without(()) if isinstance(part, Block) else part
                if isinstance(part, Block) and part.get("id") in ids:
                    again["phase"] = "existing"
                items.append(again)
    return other


def same(project: Project, block: Block) -> bool:
    """Hold the houses with all removed parts back, and with each of them, against the file read anew; say if any was."""
    gone = [part.id for part in project.parts if part.is_removed]
    for ids in {frozenset(gone), *(frozenset((one,)) for one in gone)} - {frozenset()}:
        try:
            anew = list(told(project_from(as_existing(block, ids), testing.plugins().added)))
        except Unusable:
            with pytest.raises(Unusable):
                with_standing(project, ids)
            continue
        assert list(told(with_standing(project, ids))) == anew
    return bool(gone)


@pytest.mark.long
def test_every_case_with_a_removed_part_is_the_same_as_read_anew() -> None:
    tried = 0
    for topic in TOPICS:
        for house in islice(houses(topic), 0, None, 1 if FULL else 4):
            project = project_from(house.fragment, testing.plugins().added)
            tried += same(project, house.fragment) if project.block is not None else False
    assert tried > (200 if FULL else 50)


@pytest.mark.parametrize("name", ["proposed", "corrected"])
def test_the_big_example_is_the_same_as_read_anew(name: str) -> None:
    block = read_file(EXAMPLES / "alder-court" / f"{name}.yaml")
    assert same(project_from(block, testing.plugins().added), block)
