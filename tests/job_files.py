"""The small jobs of tests/jobs: what each file holds, and a project with one of its parts left out.

`<job>.yaml` has the bare statement and what is asked of it; `<job>.complete.yaml` and `<job>.first.yaml` are project
files: the complete set, and the drawings as they usually come in first.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from precheck.files.record import Record, read_record
from precheck.files.source import Block, Items, read_file
from precheck.project import project_from
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.testing import code, plugins

FOLDER = Path(__file__).parent / "jobs"
CODE = "irc-2021"


class Handout(Record):
    """A published handout or list: whose it is, what it is called and where it stands."""

    kind = "handout"
    who: str
    title: str
    url: str


class Asked(Record):
    """One thing that a handout asks for: rules one of which requests it, or why this job does not take it."""

    kind = "thing asked"
    item: str
    by: tuple[str, ...] = ()
    left_out: str = ""


class Spared(Record):
    """Parts of the complete set that nothing asks for when they are left out, and why."""

    kind = "part that may be left out"
    parts: tuple[str, ...]
    why: str


class Job(Record):
    """One job: its handouts, its bare statement, what they ask for, and what lists of other offices ask of such a job."""

    kind = "job"
    handouts: tuple[Handout, ...]
    bare: Any
    asks: tuple[Asked, ...]
    lists: tuple[Handout, ...] = ()
    on_lists: tuple[Asked, ...] = ()
    spared: tuple[Spared, ...] = ()

    @property
    def listed(self) -> set[str]:
        """The rules whose requests are on the handout of the job or on one of its lists."""
        return {name for ask in (*self.asks, *self.on_lists) for name in ask.by}

    @property
    def may_be_left_out(self) -> set[str]:
        """The parts of the complete set that nothing asks for."""
        return {part for one in self.spared for part in one.parts}


@cache
def job(path: Path) -> Job:
    """Return the job that a file holds."""
    return read_record(Job, read_file(path))


def stage(path: Path, name: str) -> Path:
    """Return the project file of a job that is ``complete`` or ``first``."""
    return path.with_suffix(f".{name}.yaml")


def review_of(block: Block) -> Review:
    """Return the review of the project that a block holds."""
    return review(project_from(block), code(CODE), plugins())


@cache
def reviewed(path: Path) -> Review:
    """Return the review of a project file."""
    return review_of(read_file(path))


def work_parts(block: Block) -> Iterator[str]:
    """Yield the ids of the parts of a file that are work or tell of it: all but what exists and is not touched."""
    for items in block.values():
        for item in items if isinstance(items, list) else ():
            if isinstance(item, dict) and "id" in item and item.get("phase") != "existing":
                yield item["id"]


def without(block: Block, gone: set[str]) -> Block:
    """Return a copy of a file without some parts and the references to them."""
    copy: Block = _copied(block, gone)
    return copy


def gone_with(block: Block, part: str) -> set[str]:
    """Return the ids of a part and of what is in it or of it: with a room go its walls, doors and fixtures."""
    gone, more = {part}, {part}
    items = [one for found in block.values() if isinstance(found, list) for one in found if isinstance(one, dict)]
    while more:
        more = {one["id"] for one in items if "id" in one and _is_of(one, gone)} - gone
        gone |= more
    return gone


def _is_of(item: Any, gone: set[str]) -> bool:
    """Return whether an item of a list is a wall, door, fixture or the like of a part that is left out."""
    of = (item.get(key) for key in ("space", "of", "line", "along"))
    return any(one in gone for one in of if isinstance(one, str)) or not gone.isdisjoint(item.get("between", ()))


def _copied(node: Any, gone: set[str]) -> Any:
    """Return a copy of `node` without some parts and the references to them."""
    if isinstance(node, dict):
        copy = Block(getattr(node, "at", (0, 0)), getattr(node, "file", ""))
        copy.keys_at.update(getattr(node, "keys_at", {}))
        copy.update((key, _copied(value, gone)) for key, value in node.items() if not _is_gone(value, gone))
        return copy
    return _items(_copied(one, gone) for one in node if not _is_gone(one, gone)) if isinstance(node, list) else node


def _is_gone(node: Any, gone: set[str]) -> bool:
    return (node.get("id") if isinstance(node, dict) else node if isinstance(node, str) else None) in gone


def _items(found: Iterator[Any]) -> Items:
    items = Items((0, 0), "")
    items.extend(found)
    items.items_at = [getattr(one, "at", (0, 0)) for one in items]
    return items
