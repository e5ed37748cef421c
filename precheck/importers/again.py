"""Importing again: what the design file gives is brought up to date, and what a person added stays.

Parts are known by `drawn from`, which holds the id that an entity keeps from one export to the next. Of a known part,
the values that the new revision gives replace the old ones, under the id that the part has in the project file. A key
that only the person wrote stays, with its comments. A part that the revision no longer has is told, not taken out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from precheck.edit import with_value
from precheck.importers.draft import Draft, Entry, Value
from precheck.importers.writing import ORDER, head_text, part_text
from precheck.source import Block, Items, read_file, read_text

SOURCE = "drawn from"
_KEPT = frozenset(("id", SOURCE))
_HEAD = re.compile(r"\A(?:#[^\n]*\n)*")


def brought_up_to_date(path: Path, draft: Draft) -> tuple[str, list[str]]:
    """Return the text of the project file at `path` brought up to `draft`, and what changed. Raises `Unusable`."""
    tree = read_file(path)
    text = path.read_text(encoding="utf-8-sig")
    known = _known(tree)
    renamed = _ids(draft, known)
    changes: list[str] = []
    for key, entries in draft.parts.items():
        for entry in entries:
            _with_ids(entry, renamed)
            old = known.get(_source(entry, key))
            text = _merged(text, key, entry, old, changes) if old else _added(text, key, entry, changes)
    changes += _gone(known, draft)
    return head_text(draft) + _HEAD.sub("", text, count=1), changes


def _source(entry: Entry | Block, key: str) -> tuple[str, str]:
    """Return what a part is known by: what it is drawn from, or its id where it is drawn from several (a floor)."""
    given = entry.get(SOURCE) or entry.get("id")
    text = given.text if isinstance(given, Value) else str(given)
    return key, text.strip('"')


def _known(tree: Block) -> dict[tuple[str, str], Block]:
    return {_source(part, key): part for key in tree for part in _blocks(tree[key])}


def _blocks(node: Any) -> list[Block]:
    return [item for item in node if isinstance(item, Block)] if isinstance(node, Items) else []


def _ids(draft: Draft, known: dict[tuple[str, str], Block]) -> dict[str, str]:
    """Return the ids of the draft's parts that have another id in the project file, such as one a person chose."""
    found: dict[str, str] = {}
    for key, entries in draft.parts.items():
        for entry in entries:
            old = known.get(_source(entry, key))
            if old is not None and old.get("id") not in (None, entry["id"].text):
                found[entry["id"].text] = str(old["id"])
    taken = {str(part.get("id")) for part in known.values()}
    fresh = [e for key, entries in draft.parts.items() for e in entries if _source(e, key) not in known]
    for entry in fresh:  # a new part whose id another part of the file has by now
        if entry["id"].text in taken:
            found[entry["id"].text] = f"{entry['id'].text}-new"
    return found


def _with_ids(entry: Entry, renamed: dict[str, str]) -> None:
    """Give `entry` and what it refers to the ids that the project file has."""
    for key in ("id", "space", "between", "along", "storey", "floor", "open to"):
        value = entry.get(key)
        if isinstance(value, Value):
            words = [renamed.get(word, word) for word in re.split(r"([\[\], ]+)", value.text)]
            entry[key] = value._replace(text="".join(words))


def _merged(text: str, key: str, entry: Entry, old: Block, changes: list[str]) -> str:
    """Return `text` with the part `old` brought up to `entry`."""
    index = next(i for i, part in enumerate(_blocks(read_text(text, "")[key])) if part.get("id") == old.get("id"))
    for name, value in entry.items():
        if name not in _KEPT:
            for path, fresh in _leaves((name,), value):
                text = _set(text, (key, index, *path), fresh, str(old.get("id")), changes)
    return text


def _leaves(path: tuple[str | int, ...], value: Any) -> Iterator[tuple[tuple[str | int, ...], Value]]:
    if isinstance(value, Value):
        yield path, value
    elif isinstance(value, dict):
        for key, below in value.items():
            yield from _leaves((*path, key), below)
    else:
        for index, below in enumerate(value):
            yield from _leaves((*path, index), below)


def _set(text: str, path: tuple[str | int, ...], fresh: Value, part: str, changes: list[str]) -> str:
    before = _at(read_text(text, ""), path)
    wanted = _read(fresh.text)
    if before == wanted:
        return text
    was = "not given" if before is None else f"`{_shown(before)}`"
    changes.append(f"{part}: {path[-1]} was {was}, is now `{fresh.text}` ({fresh.source})")
    return with_value(text, path, fresh.text.strip('"'))


def _at(node: Any, path: tuple[str | int, ...]) -> Any:
    for step in path:
        known = step in node if isinstance(node, Block) else isinstance(node, Items) and int(step) < len(node)
        if not known:
            return None
        node = node[step]
    return node


def _read(text: str) -> Any:
    return read_text(f"a: {text}\n", "")["a"]


def _shown(value: Any) -> str:
    return f"[{', '.join(_shown(item) for item in value)}]" if isinstance(value, list) else str(value)


def _added(text: str, key: str, entry: Entry, changes: list[str]) -> str:
    """Return `text` with a part that it does not have yet, at the end of its list."""
    changes.append(f"{entry['id'].text}: new in this revision")
    tree = read_text(text, "")
    lines = text.rstrip("\n").split("\n")
    if not _blocks(tree.get(key)):
        lines = [line for line in lines if not re.match(rf"{key}:\s*(\[\s*\])?\s*$", line)]
        return "\n".join([*lines, "", f"{key}:", *part_text(entry)]) + "\n"
    later = [at[0] for name, at in tree.keys_at.items() if at[0] > tree.keys_at[key][0]]
    end = min(later, default=len(lines))
    while end and (not lines[end - 1].strip() or lines[end - 1].startswith("#")):
        end -= 1
    column = _blocks(tree[key])[0].at[1]
    shifted = [" " * max(column - 4, 0) + line for line in part_text(entry)] if column >= 4 else [
        line[4 - column :] for line in part_text(entry)
    ]  # fmt: skip
    return "\n".join([*lines[:end], *shifted, *lines[end:]]) + "\n"


def _gone(known: dict[tuple[str, str], Block], draft: Draft) -> Iterator[str]:
    there = {_source(entry, key) for key, entries in draft.parts.items() for entry in entries}
    for source, part in known.items():
        if source[0] in ORDER and part.get(SOURCE) and source not in there:
            yield f"{part.get('id')}: no longer in the design file; take it out, or mark it `phase: removed`"


__all__ = ["brought_up_to_date"]
