"""Putting the words of today into a mapping of a file whose author wrote others."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.files import spelling
from precheck.files.fields import Fielded, fields_of
from precheck.files.mistakes import choices_of, model_at, steps_of
from precheck.files.source import Block, Items, Problem

_SIZES = ("unit size", "operation")


def merged(renamed: Iterable[Problem]) -> list[Problem]:
    """Return for each word of a file that is called otherwise now its first place, with how many more there are."""
    found: dict[tuple[str, str], list[Problem]] = {}
    for problem in renamed:
        found.setdefault((problem.place.file, problem.what), []).append(problem)
    return [_and_others(problems) for problems in found.values()]


def _and_others(problems: list[Problem]) -> Problem:
    first, more = min(problems), len(problems) - 1
    others = f" (and in {more} more place{'s' if more > 1 else ''})" if more else ""
    return first._replace(what=f"{first.what}{others}")


def rename_keys(block: Block, known: Iterable[str], renamed: list[Problem]) -> bool:
    """Give the keys of `block` that are none of `known` the names of today, where they have one."""
    keys = frozenset(known)
    strange = [key for key in block if key not in keys]
    return sum(_rename(block, key, keys, renamed) for key in strange) > 0  # all of them, not the first alone


def respelled(model: type[Fielded], block: Block, errors: list[Any], renamed: list[Problem]) -> bool:
    """Put the words of today into `block` where `errors` say that a word is not known; return whether any was put."""
    return sum(_respell(model, block, error, renamed) for error in errors) > 0


def _respell(model: type[Fielded], block: Block, error: Any, renamed: list[Problem]) -> bool:
    path = steps_of(block, error["loc"])
    if error["type"] == "extra_forbidden":
        owner = _at(block, path[:-1])
        within = model_at(model, path[:-1])
        known = [field.key for field in fields_of(within).values()] if within else []
        return isinstance(owner, Block) and bool(path) and _rename(owner, path[-1], frozenset(known), renamed)
    holder: Any = _at(block, path[:-1])
    if not path or not isinstance(holder, Block | Items):
        return False
    step: Any = path[-1]
    written = holder[step] if step in (holder if isinstance(holder, dict) else range(len(holder))) else None
    if not isinstance(written, str):
        return False
    if error["type"] == "literal_error":
        return _choose(holder, step, written, choices_of(error), renamed)
    if error["type"].startswith("date"):
        return _put(holder, step, str(day)) if (day := spelling.day(written)) else False
    return step == _SIZES[0] and isinstance(holder, Block) and _take_apart(holder, written)


def _choose(holder: Any, step: Any, written: str, choices: list[str], renamed: list[Problem]) -> bool:
    meant = spelling.choice(written, choices)
    if meant is None or meant == written:
        return False
    if spelling.is_former(written):
        renamed.append(Problem(holder.place_of(step), f"`{written}` is called `{meant}` now; both are read"))
    return _put(holder, step, meant)


def _take_apart(window: Block, written: str) -> bool:
    """Let ``unit size: 3050 SH`` give the operation too, where the file gives no other."""
    found = spelling.call_out(written)
    if found is None:
        return False
    size, operation = found
    given = window.get(_SIZES[1])
    if given is not None and spelling.choice(str(given), [operation]) is None:
        return False  # the two contradict each other, which the size then is refused for
    if given is None:
        window.keys_at[_SIZES[1]] = window.keys_at[_SIZES[0]]
        window[_SIZES[1]] = operation
    return _put(window, _SIZES[0], size)


def _rename(block: Block, key: str, known: frozenset[str], renamed: list[Problem]) -> bool:
    today = spelling.key(key, known)
    if today is None or today in block:
        return False
    if spelling.is_former(key):
        renamed.append(Problem(block.place_of(key), f"`{key}` is called `{today}` now; both are read"))
    block[today] = block.pop(key)
    block.keys_at[today] = block.keys_at.pop(key)
    return True


def _put(holder: Any, step: Any, value: str) -> bool:
    holder[step] = value
    return True


def _at(block: Block, path: list[Any]) -> Any:
    node: Any = block
    for step in path:
        node = node[step] if isinstance(node, list | dict) else None
    return node
