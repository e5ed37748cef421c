"""The house with what the work takes away put back, by which one sees what the work makes worse of what stands."""

from __future__ import annotations

from precheck.files.source import Block, Items, Unusable
from precheck.project import Part, Project, project_from
from precheck.survey.house import House


def taken_away(house: House) -> tuple[Part, ...]:
    """Return the parts that the work takes away."""
    return tuple(part for part in house.project.parts if part.is_removed)


def put_back(house: House, ids: frozenset[str]) -> House | None:
    """Return the house with the removed parts of `ids` still standing; None where that is no house, or not read from a file."""
    return house.once(_put_back, ids)


def _put_back(ids: frozenset[str], house: House) -> House | None:
    project, block = house.project, house.project.block
    if block is None:
        return None
    try:
        other: Project = project_from(_standing(block, ids))
    except Unusable:  # such as a wall that fills the opening which it puts back
        return None
    other._sections, other._held, other._fields = project._sections, project._held, project._fields
    return House(other)


def _standing(block: Block, ids: frozenset[str]) -> Block:
    other = block.without(())
    for key, parts in block.items():
        if isinstance(parts, list) and any(isinstance(part, Block) and part.get("id") in ids for part in parts):
            other[key] = items = Items(getattr(parts, "at", block.at), block.file)
            items.extend(_stands(part) if isinstance(part, Block) and part.get("id") in ids else part for part in parts)
            items.items_at = list(getattr(parts, "items_at", [block.at for _ in parts]))
    return other


def _stands(part: Block) -> Block:
    standing = part.without(())
    standing["phase"] = "existing"
    return standing
