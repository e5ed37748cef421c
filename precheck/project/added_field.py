"""Fields that a plugin adds to a kind of part, read with the part and held to a schema of their own."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from precheck.files.record import Record
from precheck.files.source import Block, Items, Problem
from precheck.immutable import fixed
from precheck.project.section import Section


@fixed
class AddedField:
    """A field that a plugin adds to a kind of part: its key, and the JSON Schema that its value meets.

    `part` is what people call the kind, such as ``window``. Rules read the value from `Part.added`. `example` is shown to
    whoever is asked for it.
    """

    part: str
    key: str
    schema: dict[str, Any]
    example: str = ""

    @property
    def called(self) -> str:
        """What messages call the field."""
        return f"`{self.key}` of a {self.part}"


class ListOfParts(NamedTuple):
    """A list of a project: its key, and the kind of record in it."""

    key: str
    model: type[Record]


Check = Callable[[Section, Block], Iterable[Problem]]


def set_aside(
    block: Block, fields: Iterable[AddedField], lists: Mapping[str, ListOfParts], check: Check
) -> tuple[Block, dict[str, Block], list[Problem]]:
    """Return `block` without what it gives in `fields`, the parts that give any by their ids, and what is wrong there.

    `block` itself stays as it is.
    """
    by_list: dict[str, list[AddedField]] = {}
    for field in fields:
        by_list.setdefault(lists[field.part].key, []).append(field)
    own, held, problems = block.without(()), dict[str, Block](), list[Problem]()
    for key, of_list in by_list.items():
        items = block.get(key)
        if isinstance(items, Items) and any(_given(item, of_list) for item in items):
            own[key] = _bare(items, of_list)
            held |= {str(item.get("id")): item for item in items if _given(item, of_list)}
            problems += [p for item in items for field in _given(item, of_list) for p in _wrong(item, field, check)]
    return own, held, problems


def _given(item: Any, fields: list[AddedField]) -> list[AddedField]:
    return [field for field in fields if field.key in item] if isinstance(item, Block) else []


def _bare(items: Items, fields: list[AddedField]) -> Items:
    bare = Items(items.at, items.file)
    bare.items_at = items.items_at
    keys = [field.key for field in fields]
    bare.extend(item.without(keys) if isinstance(item, Block) else item for item in items)
    return bare


def _wrong(item: Block, field: AddedField, check: Check) -> Iterator[Problem]:
    if item[field.key] is not None:  # an empty line gives nothing
        yield from check(Section(field.key, field.schema, field.part), item)


__all__ = ["AddedField"]
