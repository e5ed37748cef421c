"""Changes of a person's file: comments, order, quotes, spacing and line ends stay; only what changes is new.

Each change is written at the places that the parser gives. What comes of it is read again and compared with what was
meant before anything is returned, so that a change is in the file as it was meant, with all else as it was, or refused.

A project file is long, and a change touches one of its sections; so that section alone is laid out, as long as the file
is plainly made of sections that begin at the left edge and share nothing. The result is always read whole.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import Enum
from typing import Any, NamedTuple

from precheck.files import splice
from precheck.files.layout import Node, key_in, layout, part_in
from precheck.files.source import Block, Unusable, read_text
from precheck.files.spelled import refused, value_read
from precheck.files.splice import Style

_SECTION = re.compile(r"^(?![\s#-]|\.\.\.|[%?])[^\r\n]", re.MULTILINE)


class Gone(Enum):
    """What a change holds that takes something out: `GONE`."""

    GONE = "gone"


GONE = Gone.GONE
"""Written in place of a value, it takes out what stands at the path."""


class Moved(NamedTuple):
    """What a change writes that puts an item of a list to another place among the others, counted from 0."""

    to: int


class Change(NamedTuple):
    """One change: what `path` holds from now on.

    `path` is keys and, in a list, the id of a part or a position, which is that after the changes before this one;
    the position after the last is a new item. `value` is as a person writes it: a list or a mapping where it is in
    `[...]` or `{...}`, else text. What is not there yet is made. A part with an id that its section lacks is a new one.
    """

    path: tuple[str | int, ...]
    value: str | Gone | Moved


def with_changes(text: str, changes: Sequence[Change]) -> str:
    """Return the YAML `text` with `changes` made, one after the other.

    Raises `Unusable` where one of them cannot be made, or not without touching more than what it names.
    """
    return changed_file(text, changes, "")[0]


def changed_file(text: str, changes: Sequence[Change], name: str) -> tuple[str, Block]:
    """Return `text` as `with_changes` does, and what it reads as under the `name` of its file: it is read for that anyhow."""
    mark, plain = ("\ufeff", text[1:]) if text.startswith("\ufeff") else ("", text)
    style = splice.style_of(plain)
    try:
        new, tree = _by_sections(plain, style, changes, name)
    except (_NotApart, Unusable):
        new, tree = _as_a_whole(plain, style, changes, name)
    return mark + new, tree


class _NotApart(Exception):
    """The sections of a file cannot be told apart without reading all of it."""


def _as_a_whole(text: str, style: Style, changes: Sequence[Change], name: str) -> tuple[str, Block]:
    meant: Any = read_text(text, "")
    for change in changes:
        text, meant = _changed(text, style, meant, change)
    tree = read_text(text, name)
    if tree != meant:
        raise _unsafe(changes[-1])
    return text, tree


def _by_sections(text: str, style: Style, changes: Sequence[Change], name: str) -> tuple[str, Block]:
    meant: dict[str, Any] = {}
    for change in changes:
        start, end = _region(text, change)
        section = text[start:end]
        new, tree = _changed(section, style, read_text(section, ""), change, apart=True)
        text = text[:start] + new + text[end:]
        meant.update(tree, **({str(change.path[0]): GONE} if change.path[0] not in tree else {}))
    tree = read_text(text, name)
    starts = [(text.count("\n", 0, at), 0) for at in _sections(text)]
    if sorted(tree.keys_at.values()) != starts or any(tree.get(key, GONE) != value for key, value in meant.items()):
        raise _NotApart
    return text, tree


def _sections(text: str) -> list[int]:
    """Return where the lines start that look as if they began a section."""
    return [found.start() for found in _SECTION.finditer(text)]


def _named(text: str, at: int) -> str:
    """Return the key that stands at `at`, where it is plainly written."""
    return re.compile(r"[^:\r\n]*").match(text, at)[0].strip().strip("\"'")  # type: ignore[index]


def _region(text: str, change: Change) -> tuple[int, int]:
    """Return from where to where the section of `change` goes, with the one before it where it is taken out."""
    starts, key = _sections(text), str(change.path[0]) if change.path else ""
    if not starts:
        raise _NotApart
    own = key_in([_named(text, at) for at in starts], key)
    index = len(starts) - 1 if own is None else own
    goes = change.value is GONE and len(change.path) == 1
    first, last = (max(index - 1, 0), max(index, 1)) if goes else (index, index)
    return starts[first], starts[last + 1] if last + 1 < len(starts) else len(text)


def _changed(text: str, style: Style, tree: Any, change: Change, apart: bool = False) -> tuple[str, Any]:
    """Return `text` and its `tree` with one change, held to each other.

    Raises `_NotApart` where the text is to be one section, `apart` from others, and shares values with them.
    """
    root = layout(text)
    if apart and any(node.shared for node in root.within()):
        raise _NotApart
    meant: Any = _copied(tree)
    _mean(meant, change)
    if meant == tree:
        return text, tree
    new = _written(text, style, root, change)
    try:
        found = read_text(new, "")
    except Unusable:
        raise _unsafe(change) from None
    if found != meant:
        raise _unsafe(change)
    return new, meant


def _unsafe(change: Change) -> Unusable:
    where = " of ".join(str(step) for step in reversed(change.path))
    return refused(f"{where} cannot be changed here without touching more of the file; change it in an editor")


def _copied(node: Any) -> Any:
    if isinstance(node, dict):
        return {key: _copied(value) for key, value in node.items()}
    return [_copied(item) for item in node] if isinstance(node, list) else node


def _mean(tree: dict[str, Any], change: Change) -> None:
    """Make the change in the `tree`. Raises `Unusable` where there is no such place."""
    if not change.path or not isinstance(change.path[0], str):
        raise refused("name the section of the file that is to change")
    node: Any = tree
    for step, following in zip(change.path[:-1], change.path[1:], strict=True):
        node = _below(node, step, following, change)
    at = _index(node, change.path[-1])
    if change.value is GONE or isinstance(change.value, Moved):
        if at is None:
            raise _no_such(change, change.path[-1])
        kept = node.pop(at)
        if isinstance(change.value, Moved):
            _move(node, kept, change)
        return
    value = value_read(change.value)
    if at is not None:
        node[at] = value
    elif isinstance(node, dict) and isinstance(change.path[-1], str):
        node[change.path[-1]] = value
    elif _is_new(node, change.path[-1], value):
        node.append(value)
    else:
        raise _no_such(change, change.path[-1])


def _move(node: Any, kept: Any, change: Change) -> None:
    assert isinstance(change.value, Moved)
    if not isinstance(node, list) or not 0 <= change.value.to <= len(node):
        raise refused(f"{change.path[-1]} cannot stand at place {change.value.to}")
    node.insert(change.value.to, kept)


def _below(node: Any, step: str | int, following: str | int, change: Change) -> Any:
    """Return what stands at `step`, made where nothing does and a value is to go in."""
    at = _index(node, step)
    if at is not None and node[at] not in (None, {}, []):
        if not isinstance(node[at], dict | list):
            raise refused(f"{step} holds the text `{node[at]}`; it has no {following}")
        return node[at]
    makes = isinstance(change.value, str) and (at is not None or isinstance(node, dict) or _is_new(node, step, None))
    if not makes:
        raise _no_such(change, step)
    listed = isinstance(following, int) or (following == change.path[-1] and _is_part(change))
    made: Any = [] if listed else {}
    if at is None and isinstance(node, list):
        node.append(made)
    else:
        node[step if at is None else at] = made
    return made


def _is_part(change: Change) -> bool:
    """Return whether the change writes a part under its own id."""
    return (
        isinstance(change.value, str)
        and change.value.startswith("{")
        and _is_new([], change.path[-1], value_read(change.value))
    )


def _is_new(node: Any, step: str | int, value: Any) -> bool:
    """Return whether `step` is the place of a new item of the list `node`: the one after the last, or the new part's id."""
    if not isinstance(node, list):
        return False
    return step == len(node) if isinstance(step, int) else isinstance(value, dict) and value.get("id") == step


def _index(node: Any, step: str | int) -> Any:
    """Return the key or position under which `step` stands in `node`, or None."""
    if isinstance(node, list):
        if isinstance(step, int):
            return step if 0 <= step < len(node) else None
        return part_in([item.get("id") if isinstance(item, dict) else None for item in node], step)
    keys = list(node)
    at = key_in(keys, step) if isinstance(step, str) else None
    return None if at is None else keys[at]


def _no_such(change: Change, step: str | int) -> Unusable:
    where = " of ".join(str(one) for one in reversed(change.path))
    return refused(f"the file has no {step} (for {where}); look whether it was renamed or taken out")


def _written(text: str, style: Style, root: Node, change: Change) -> str:
    """Return `text` with the change, which `_mean` found to have a place."""
    parent, index, owner = None, 0, root
    for depth, step in enumerate(change.path):
        at = owner.find(step)
        if at is None:
            return _made(text, style, (parent, index, owner), change.path[depth:], change)
        parent, index, owner = owner, at, owner.values[at]
        if owner.shared:
            raise refused(f"{step} is written once and used in several places; change it in an editor")
    assert parent is not None
    if isinstance(change.value, Moved):
        return splice.moved(text, style, parent, index, change.value.to)
    if change.value is not GONE:
        return splice.replaced(text, parent, index, change.value)
    if len(parent.values) > 1:
        return splice.without(text, parent, index)
    return _emptied(text, root, parent)


def _made(text: str, style: Style, at: tuple[Node | None, int, Node], rest: splice.Steps, change: Change) -> str:
    """Return `text` with the `rest` of the path made below the last value that is there, its parent and its index."""
    parent, index, owner = at
    assert isinstance(change.value, str)
    empty = not owner.values and (owner.kind == "text" or (owner.flow and parent is not None and not parent.flow))
    if empty and parent is not None:
        return splice.within_blank(text, style, parent, index, rest, change.value)
    return splice.with_more(text, style, owner, rest, change.value)


def _emptied(text: str, root: Node, owner: Node) -> str:
    """Return `text` with nothing left in `owner`."""
    above = next((node for node in root.within() if any(one is owner for one in node.values)), None)
    if above is None:
        raise refused("this is the last section of the file; it stays")
    index = next(n for n, one in enumerate(above.values) if one is owner)
    return splice.replaced(text, above, index, "[]" if owner.kind == "list" else "{}")
