"""A draft as a project file: YAML with, at the end of each line, where the value came from; and as a tree in place.

The tree's positions are those of the design file, so that a finding names the line of the entity it is about.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from textwrap import wrap
from typing import Any, NamedTuple

from precheck.files.source import Block, Items, read_text
from precheck.importers.draft import Draft, Entry, Value, plain

ORDER = (
    "stories", "floors", "spaces", "walls", "doors", "windows", "skylights", "stairs", "guards", "footings", "slabs", "roofs",
    "claddings", "members", "receptacles", "lights", "alarms",
)  # fmt: skip
DESIGN_FILE = "design file"
_SAFE = re.compile(r"[A-Za-z0-9][\w .,'()/\"+-]*")
_WIDTH = 116
FROM = "  # from "  # how the comment after a value begins; what stands after other comments is a person's


class FileLine(NamedTuple):
    """One line of the project file, the entity that it was read from, and whose value under which key it holds."""

    text: str
    entity: str = ""
    owner: Entry | None = None
    key: str = ""


def project_text(draft: Draft) -> str:
    """Return the project file that `draft` comes to."""
    return "".join(f"{line.text}\n" for line in lines_of(draft))


def head_text(draft: Draft) -> str:
    """Return the comment at the top: what the file is drawn from, and what is in doubt."""
    return "".join(f"{line.text}\n" for line in _head(draft))


def part_text(entry: Entry) -> list[str]:
    """Return the lines of one part, as an item of a list that is indented by two."""
    return [line.text for line in _entry(entry, "  ")]


def in_place(draft: Draft, lines_at: Mapping[str, int]) -> Block:
    """Return `draft` as the tree of a project file, at the lines (from 1) of the entities in the design file."""
    lines = list(lines_of(draft))
    tree = read_text("".join(f"{line.text}\n" for line in lines), draft.file)
    _move(tree, [lines_at.get(line.entity, 0) - 1 for line in lines], 0)
    return tree


def scalar(text: str) -> str:
    """Return `text` as YAML reads it back."""
    shown = plain(text)
    safe = _SAFE.fullmatch(shown) and ": " not in shown and not shown.endswith((":", " ")) and shown.lower() != "null"
    return shown if safe else json.dumps(shown, ensure_ascii=False)


def lines_of(draft: Draft) -> Iterator[FileLine]:
    """Yield the lines of the project file."""
    yield from _head(draft)
    yield FileLine(f"project: {scalar(draft.project)}")
    yield FileLine("# jurisdiction:   # or choose one with --ruleset")
    yield FileLine("# applied on:     # the date of application, which picks the code in force")
    yield from _design_file(draft)
    for key in (*ORDER, *(key for key in draft.parts if key not in ORDER)):
        if draft.parts.get(key):
            yield FileLine("")
            yield FileLine(f"{key}:")
            for entry in draft.parts[key]:
                yield from _entry(entry, "  ")


def design_file_text(draft: Draft) -> list[str]:
    """Return the lines that say what the project is drawn from."""
    return [line.text for line in _design_file(draft)]


def _design_file(draft: Draft) -> Iterator[FileLine]:
    if draft.head:
        yield FileLine(f"{DESIGN_FILE}:")
        for key, value in draft.head.items():
            yield from _value(key, value, "  ", draft.head)


def _head(draft: Draft) -> Iterator[FileLine]:
    yield FileLine(f"# Drawn from {plain(draft.file)} ({draft.form}). After each value stands what it was read from.")
    yield FileLine("# What the file does not say is not here, and counts as not shown. Lengths to 0.001 mm.")
    for line in wrap(plain_long(draft.told), _WIDTH - 2, break_on_hyphens=False):
        yield FileLine(f"# {line}")
    if draft.doubts:
        yield FileLine("#")
        yield FileLine("# In doubt:")
    for doubt in draft.doubts:
        for number, line in enumerate(wrap(plain_long(doubt), _WIDTH - 6, break_on_hyphens=False)):
            yield FileLine(f"#   {'  ' if number else '- '}{line}")


def plain_long(text: str) -> str:
    """Return `text` printable and in one line, however long."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def valued(key: str, value: Value) -> str:
    """Return one key with its value, and where that came from."""
    return f"{key}: {value.text}{FROM}{plain(value.source)}" if value.source else f"{key}: {value.text}"


def _entry(entry: Entry, indent: str) -> Iterator[FileLine]:
    start = f"{indent}- "
    for key, value in entry.items():
        yield from _value(key, value, start, entry)
        start = f"{indent}  "


def _value(key: str, value: Any, start: str, owner: Entry) -> Iterator[FileLine]:
    entity = _entity(owner)
    if isinstance(value, Value):
        yield FileLine(f"{start}{valued(key, value)}", value.entity or entity, owner, key)
        return
    yield FileLine(f"{start}{key}:", entity, owner, key)
    inner = " " * (len(start) + 2)
    if isinstance(value, dict):
        for below, item in value.items():
            yield from _value(below, item, inner, value)
    else:
        for item in value:
            yield from _entry(item, inner)


def _entity(entry: Entry) -> str:
    return next((value.entity for value in entry.values() if isinstance(value, Value) and value.entity), "")


def _move(node: Block | Items, lines: list[int], above: int) -> None:
    """Set the places in `node` to `lines`, by their present line; what came from no entity stands with what holds it."""
    here = _moved(node.at, lines, above)
    node.at = (here, 0)
    if isinstance(node, Block):
        node.keys_at = {key: (_moved(at, lines, here), 0) for key, at in node.keys_at.items()}
    else:
        node.items_at = [(_moved(at, lines, here), 0) for at in node.items_at]
    for item in node.values() if isinstance(node, Block) else node:
        if isinstance(item, Block | Items):
            _move(item, lines, here)


def _moved(at: tuple[int, int], lines: list[int], above: int) -> int:
    line = lines[at[0]] if at[0] < len(lines) else -1
    return line if line >= 0 else above


__all__ = [
    "DESIGN_FILE", "FROM", "ORDER", "design_file_text", "head_text", "in_place", "lines_of", "part_text", "project_text",
    "scalar", "valued",
]  # fmt: skip
