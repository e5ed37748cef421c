"""The lines of what works take, in topic files: each is read as a limit that lists the works for which it is due."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple, get_args

from precheck.files.mistakes import nearest
from precheck.files.source import Block, Place, Problem
from precheck.project.work import WorkKind
from precheck.rulesets.files import TopicFile
from precheck.rulesets.limit import WORKS, Asked, Takes

KINDS: tuple[str, ...] = get_args(WorkKind)
_RENAMED = {"line": "measures", "works": "value"}
_OWN = frozenset(("show on", "asked", "firm", "not checked"))


class LineEntry(NamedTuple):
    """One line as its file gives it: a mapping in the form of a limit, and what only lines say."""

    name: str
    block: Block
    place: Place
    takes: Takes


def lines_of(file: TopicFile, problems: list[Problem]) -> Iterator[LineEntry]:
    """Yield the lines that `file` holds; what is wrong with them goes to `problems`."""
    held = file.block["takes"] if file.block is not None and "takes" in file.block else None
    for name, block in held.items() if isinstance(held, Block) else ():
        place = held.place_of(name) if isinstance(held, Block) else file.place
        if not isinstance(block, Block):
            told = f"`{name}` is no mapping; write {{line: ..., works: [...], section: ...}}"
            problems.append(Problem(place, told))
            continue
        yield LineEntry(f"{name}.{WORKS}", _as_limit(block, problems), place, _takes(block, problems))


def _as_limit(block: Block, problems: list[Problem]) -> Block:
    """Return what is said of a line as a limit would say it: its text, and by edition the works as value."""
    new = Block(block.at, block.file)
    for key, value in block.items():
        if key in _OWN:
            continue
        if key == "works":
            _check_kinds(value, block.place_of(key), problems)
        today = _RENAMED.get(key, key)
        new[today] = _as_limit(value, problems) if isinstance(value, Block) and key not in _RENAMED else value
        new.keys_at[today] = block.keys_at[key]
    return new


def _check_kinds(written: Any, place: Place, problems: list[Problem]) -> None:
    for kind in written if isinstance(written, list) else ():
        if kind not in KINDS:
            told = f"no work is called `{kind}`{nearest(str(kind), KINDS) or '; write one of: ' + ', '.join(KINDS)}"
            problems.append(Problem(place, told))


def _takes(block: Block, problems: list[Problem]) -> Takes:
    asked, choices = block.get("asked", "early"), get_args(Asked)
    if asked not in choices:
        problems.append(
            Problem(block.place_of("asked"), f"`{asked}` is not known as asked; write one of: {', '.join(choices)}")
        )
        asked = "early"
    firm = block.get("firm", "no")
    if firm not in ("yes", "no"):
        problems.append(Problem(block.place_of("firm"), f"firm: `{firm}` is neither yes nor no; write yes or no"))
    return Takes(str(block.get("show on") or ""), asked, firm == "yes", str(block.get("not checked") or ""))
