"""Importing again: what the design file gives is brought up to date, and what a person added stays.

Parts are known by `drawn from`, which holds the id that an entity keeps from one export to the next. Of a known part,
the values that the new revision gives replace those that an import wrote, which say where they came from. What a
person wrote stays, with its comments, and where the revision says otherwise that is told. A part that the revision no
longer has is told, not taken out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from precheck.files.edit import Change, with_changes
from precheck.files.source import Block, Items, read_file, read_text
from precheck.importers.draft import Draft, Entry, Value
from precheck.importers.writing import DESIGN_FILE, FROM, ORDER, design_file_text, head_text, part_text, valued

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
    text = _drawn_anew(_sources_renewed(text, draft, changes), draft)
    return head_text(draft) + _HEAD.sub("", text, count=1), changes


def _drawn_anew(text: str, draft: Draft) -> str:
    """Return `text` with what the project is drawn from as this revision says it."""
    lines, fresh = text.split("\n"), design_file_text(draft)
    start = next((i for i, line in enumerate(lines) if line.rstrip() == f"{DESIGN_FILE}:"), None)
    if start is None:
        start = next((i for i, line in enumerate(lines) if line.startswith("project:")), len(lines) - 1) + 1
        return "\n".join([*lines[:start], *fresh, *lines[start:]])
    end = start + 1
    while end < len(lines) and lines[end].startswith(" "):
        end += 1
    return "\n".join([*lines[:start], *fresh, *lines[end:]])


def _sources_renewed(text: str, draft: Draft, changes: list[str]) -> str:
    """Return `text` with what stands after values brought up to date; a value no longer given becomes a comment."""
    tree, lines = _tree(text), text.split("\n")
    given = {_source(entry, key): entry for key, entries in draft.parts.items() for entry in entries}
    for key in tree:
        for part in _blocks(tree[key]):
            entry = given.get(_source(part, key))
            if entry is not None:
                _renew(part, entry, lines, str(part.get("id")), changes)
    return "\n".join(lines)


def _renew(block: Block, entry: Entry, lines: list[str], part: str, changes: list[str]) -> None:
    for name, (row, column) in block.keys_at.items():
        fresh, old, line = entry.get(name), block[name], lines[row]
        if isinstance(fresh, Value):
            plainly = f"{name}: {fresh.text}"
            rest = line[column:].removeprefix(plainly).strip()
            if line[column:].startswith(plainly) and (not rest or rest.startswith(FROM.strip())):
                lines[row] = line[:column] + valued(name, fresh)
        elif isinstance(old, Block) and isinstance(fresh, dict):
            _renew(old, fresh, lines, part, changes)
        elif isinstance(old, Items) and isinstance(fresh, list):
            for below, item in zip(_blocks(old), fresh, strict=False):
                _renew(below, item, lines, part, changes)
        elif fresh is None and FROM.strip() in line and not isinstance(old, Block) and "- " not in line[:column]:
            lines[row] = f"{line[:column]}# {line[column:]}"
            changes.append(f"{part}: {name} was `{_shown(old)}`, and this revision does not give it; now a comment")


@lru_cache(maxsize=2)
def _tree(text: str) -> Block:
    """Return `text` as a tree, read once as long as nothing in it changes; nobody writes into it."""
    return read_text(text, "")


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
    for key in ("id", "space", "between", "along", "story", "floor", "open to", "over", "swings into", "footing"):
        value = entry.get(key)
        if isinstance(value, Value):
            words = [renamed.get(word, word) for word in re.split(r"([\[\], ]+)", value.text)]
            entry[key] = value._replace(text="".join(words))


def _merged(text: str, key: str, entry: Entry, old: Block, changes: list[str]) -> str:
    """Return `text` with the part `old` brought up to `entry`."""
    index = next(i for i, part in enumerate(_blocks(_tree(text)[key])) if part.get("id") == old.get("id"))
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
    tree = _tree(text)
    before = _at(tree, path)
    if before == _read(fresh.text):
        return text
    told = f"`{fresh.text}` (from {fresh.source})"
    if before is None:
        changes.append(f"{part}: {path[-1]} was not given, is now {told}")
    elif not _is_ours(tree, path, text):
        changes.append(f"{part}: {path[-1]} stays `{_shown(before)}`, as a person wrote; the design file says {told}")
        return text
    else:
        changes.append(f"{part}: {path[-1]} was `{_shown(before)}`, is now {told}")
    return with_changes(text, [Change(path, fresh.text.strip('"'))])


def _is_ours(tree: Block, path: tuple[str | int, ...], text: str) -> bool:
    """Return whether a value is still as an import wrote it, which says where it came from."""
    owner = _at(tree, path[:-1])
    row = owner.keys_at[str(path[-1])][0] if isinstance(owner, Block) else tree.at[0]
    return FROM.strip() in text.split("\n")[row]


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
    tree = _tree(text)
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
