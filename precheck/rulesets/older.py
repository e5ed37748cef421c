"""Topic files in the form of before: one file an edition, under ``editions/<edition>/<topic>.yaml``.

Plugins and firms have such files. They are read as they stand, as a model code with that one edition.
"""

from __future__ import annotations

from typing import Any

from precheck.files.record import read_record
from precheck.files.source import Block, Problem, Unusable
from precheck.rulesets.entry import BASES, NO_SOURCE, Edition
from precheck.rulesets.files import ModelCode, TopicFile

_BASIS_KEYS = {basis: key for key, basis in BASES.items()}
_RENAMED = {"means": "measures"}


def alone(name: str) -> Edition:
    """Return the edition called `name` as the only one of its model code."""
    code, dash, label = name.rpartition("-")
    return Edition(ModelCode(code=code if dash else name, editions=(label if dash else "",)), label if dash else "")


def in_todays_form(block: Block) -> TopicFile:
    """Return the topic file that `block` is in today's form. Raises `Unusable`."""
    default = {key: block.get(key) for key in ("basis", "source")}
    sources: dict[str, str] = {}
    problems: list[Problem] = []
    new = _emptied(block)
    for key, value in block.items():
        if key not in ("edition", "basis", "source"):
            _keep(new, block, key, key, value)
    limits = block.get("limits")
    for fields in limits.values() if isinstance(limits, Block) else ():
        for name, limit in fields.items() if isinstance(fields, Block) else ():
            if isinstance(limit, Block):
                fields[name] = _limit(limit, default, sources, problems)
    if problems:
        raise Unusable(problems)
    file = read_record(TopicFile, new)
    file.sources.update(sources)
    return file


def _limit(old: Block, default: dict[str, Any], sources: dict[str, str], problems: list[Problem]) -> Block:
    new = _emptied(old)
    for key, value in old.items():
        if key not in ("basis", "source"):
            _keep(new, old, key, _RENAMED.get(key, key), value)
    basis, source = old.get("basis") or default["basis"] or "memory", old.get("source") or default["source"]
    if basis not in _BASIS_KEYS:
        told = f"`{basis}` is not known as basis; write one of: {', '.join(_BASIS_KEYS)}"
        problems.append(Problem(old.place_of("basis"), told))
        return new
    short = NO_SOURCE
    if source:
        short = next((name for name, known in sources.items() if known == source), f"source-{len(sources) + 1}")
        sources[short] = str(source)
    _keep(new, old, "basis", _BASIS_KEYS[basis], short)
    return new


def _emptied(block: Block) -> Block:
    return Block(block.at, block.file)


def _keep(new: Block, old: Block, old_key: str, key: str, value: Any) -> None:
    new[key] = value
    new.keys_at[key] = old.keys_at.get(old_key, old.at)
