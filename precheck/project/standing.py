"""A project with parts that the work takes away still standing: the very records of the other but for those."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Any

from pydantic_core import ValidationError

from precheck.files.missing import is_missing
from precheck.files.mistakes import problem_of
from precheck.files.record import bind, validated
from precheck.files.source import Block, Unusable
from precheck.project.part import Part
from precheck.project.placed_on_walls import PLACED_ON_WALLS, settle
from precheck.project.project import Project
from precheck.project.space import Space


def with_standing(project: Project, ids: frozenset[str]) -> Project:
    """Return `project`, which was read from a file, with its removed parts of `ids` as existing ones.

    Nearly all of it is shared, for to read a whole house again for one part is most of what that costs. Raises `Unusable`
    where that is no house.
    """
    again = ids | _placed_by_rooms(project, ids)
    given = ((name, value) for name, value in project.__dict__.items() if name in project.model_fields_set)
    values = {name: tuple(_anew(value, ids, again)) if type(value) is tuple else value for name, value in given}
    other = Project.made(values)
    other.stand_as(project)
    other._sections, other._held, other._fields = project._sections, project._held, project._fields
    fresh = {name: tuple(_fresh(value, again)) for name, value in values.items()}
    for part in chain.from_iterable(fresh.values()):
        bind(part, _block_of(project.by_id[part.id], ids), other, None)
    if problems := list(settle((fresh.get(name, ()) for name in PLACED_ON_WALLS), other.by_id)):
        raise Unusable(problems)
    return other


def _placed_by_rooms(project: Project, ids: frozenset[str]) -> frozenset[str]:
    """Return the members on walls, where a room comes back that may lie behind one: it stands between the two."""
    if not any(isinstance(project.by_id.get(one), Space) for one in ids):
        return frozenset()
    return frozenset(member.id for member in project.members if not is_missing(member.on))


def _anew(parts: tuple[Any, ...], ids: frozenset[str], again: frozenset[str]) -> Iterator[Any]:
    for part in parts:
        yield _read(part, ids) if isinstance(part, Part) and part.id in again else part


def _read(part: Part, ids: frozenset[str]) -> Part:
    block = _block_of(part, ids)
    try:
        return validated(type(part), block, [])
    except ValidationError as error:
        raise Unusable(problem_of(type(part), block, e) for e in error.errors(include_url=False)) from None


def _block_of(part: Part, ids: frozenset[str]) -> Block:
    """Return what the file says of a part, standing where it is one of `ids`."""
    block = part.block
    assert block is not None  # a part of a file is read from a mapping of it
    if part.id not in ids:
        return block
    standing = block.without(())
    standing["phase"] = "existing"
    return standing


def _fresh(value: Any, again: frozenset[str]) -> Iterator[Part]:
    parts = value if type(value) is tuple else ()
    return (one for one in parts if isinstance(one, Part) and one.id in again)
