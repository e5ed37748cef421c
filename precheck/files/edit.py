"""Writing one value into a person's file: comments, order and spelling stay as they are; only the new lines are new.

The value goes in by a round trip through ruamel.yaml. Of what that gives, only the changed lines are taken over, so that
spacing which a round trip would even out stays too. With `source.py` the only importer of ruamel.yaml.
"""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from difflib import SequenceMatcher
from itertools import pairwise
from typing import Any, NamedTuple

from precheck.files.source import Block, Items, Place, Problem, Unusable, read_text

Path_ = Sequence[str | int]
_NO_WRAP = 1_000_000  # a line is never broken, however long
_LIST_UNDER_KEY = re.compile(
    r"^( *)(?:- )*[^\s#-][^\n]*:[ \t]*(?:#[^\n]*)?\n(?:[ \t]*(?:#[^\n]*)?\n)*( *)- ", re.MULTILINE
)


class _Spot(NamedTuple):
    """What goes in: its key, and the column of the part that it goes into."""

    key: str
    column: int


class _Added(NamedTuple):
    """Lines that go in at `at` in place of `instead` lines."""

    at: int
    instead: int
    lines: list[str]


def with_value(text: str, path: Path_, value: str) -> str:
    """Return YAML `text` with `value` at `path`: keys and list positions; what is not there yet is made.

    Raises `Unusable` where a value that begins a list or a mapping does not end it.
    """
    ends = "\r\n" if "\r\n" in text else "\n"
    plain = text.replace("\r\n", "\n")
    yaml = _yaml(plain)
    tree = yaml.load(plain)
    evened = _dumped(yaml, tree)
    _set(tree, path, _collection(yaml, value) if value[:1] in ("[", "{") else _scalar(yaml, value))
    edited = _dumped(yaml, tree)
    kept = _taken_over(plain, evened, edited, _Spot(str(path[-1]), _column(plain, path)))
    return (kept if _same(kept, edited) else edited).replace("\n", ends)


def _yaml(text: str) -> Any:
    from ruamel.yaml import YAML
    from ruamel.yaml.resolver import VersionedResolver

    class AsWritten(VersionedResolver):
        """Takes every scalar for the text that it is, as reading does, so that none is spelled anew."""

        @property
        def versioned_resolver(self) -> dict[str, Any]:
            return {}

    yaml = YAML(typ="rt")
    yaml.Resolver = AsWritten
    yaml.preserve_quotes = True
    yaml.width = _NO_WRAP
    found = _LIST_UNDER_KEY.search(text)
    offset = len(found[2]) - len(found[1]) if found else 2
    yaml.indent(mapping=2, sequence=max(offset, 0) + 2, offset=max(offset, 0))
    return yaml


def _collection(yaml: Any, value: str) -> Any:
    from ruamel.yaml.error import YAMLError

    try:
        return yaml.load(value)
    except YAMLError:
        what = f"`{value}` is not a list or a mapping; write it like [6 ft, 0 ft] or {{height: 8 ft}}"
        raise Unusable([Problem(Place("", 1, 1), what)]) from None


def _scalar(yaml: Any, value: str) -> Any:
    """Return the scalar as typed where YAML reads it back as the same text, else quoted."""
    from ruamel.yaml.scalarstring import DoubleQuotedScalarString

    try:
        same = list(yaml.load(f"a: {value}\n").values()) == [value]
    except Exception:  # whatever the parser cannot take as a plain scalar
        same = False
    return value if same else DoubleQuotedScalarString(value)


def _dumped(yaml: Any, tree: Any) -> str:
    into = io.StringIO()
    yaml.dump(tree, into)
    return into.getvalue()


def _set(tree: Any, path: Path_, value: Any) -> None:
    from ruamel.yaml.comments import CommentedMap, CommentedSeq

    node = tree
    for step, following in pairwise(path):
        if isinstance(step, int) and step == len(node):
            node.append(CommentedMap())
        elif not isinstance(step, int) and node.get(step) in (None, ""):
            node[step] = CommentedSeq() if isinstance(following, int) else CommentedMap()
        node = node[step]
    last = path[-1]
    if isinstance(last, int) and last == len(node):
        node.append(value)
    else:
        node[last] = value


def _same(kept: str, edited: str) -> bool:
    try:
        return read_text(kept, "") == read_text(edited, "")
    except Unusable:
        return False


def _column(text: str, path: Path_) -> int:
    """Return the column in which the innermost part that is there already stands."""
    node: Any = read_text(text, "")
    column: int = node.at[1]
    for step in path[:-1]:
        known = step in node if isinstance(node, Block) else isinstance(step, int) and step < len(node)
        if not known or not isinstance(node[step], Block | Items):
            break
        node = node[step]
        column = node.at[1]
    return column


def _taken_over(text: str, evened: str, edited: str, spot: _Spot) -> str:
    """Return `text` with the lines in which `edited` differs from `evened`, where the two have line for line the same."""
    lines, before, after = (t.splitlines(keepends=True) for t in (text, evened, edited))
    if len(lines) != len(before):
        return edited
    if lines and not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    changes = [c for c in SequenceMatcher(None, before, after, autojunk=False).get_opcodes() if c[0] != "equal"]
    for _, start, end, first, last in reversed(changes):
        new = after[first:last]
        if len(new) == end - start:
            new = [_spaced_as(old, line) for old, line in zip(lines[start:end], new, strict=True)]
        added = _settled(lines, _Added(start, end - start, new), spot)
        lines[added.at : added.at + added.instead] = added.lines
    return "".join(lines)


def _spaced_as(old: str, new: str) -> str:
    """Return the line `new` with the comment that ends it as far off as it was in `old`."""
    remark = re.search(r"(\s+)(#[^\n]*\n)$", old)
    if remark is None or not new.endswith(remark[2]):
        return new
    return new[: -len(remark[2])].rstrip() + remark[1] + remark[2]


def _settled(lines: list[str], added: _Added, spot: _Spot) -> _Added:
    """Return a pure insertion at its best place: for its own commented-out line, else before blank lines that end a part."""
    if added.instead or not added.lines:
        return added
    indent, at = spot.column, added.at
    shift = indent - _indent(added.lines[0])
    added = added._replace(lines=[" " * shift + line if shift > 0 else line[-shift:] for line in added.lines])
    while at and _ends_part(lines[at - 1], indent):
        at -= 1
    waiting = _waiting(lines, at, indent, spot.key)
    if waiting is None:
        return _Added(at, 0, added.lines)
    note = lines[waiting].split("#", 2)[2:]
    told = [f"{added.lines[0].rstrip()}  #{note[0]}"] if note and len(added.lines) == 1 else added.lines
    return _Added(waiting, 1, told)


def _waiting(lines: list[str], at: int, indent: int, key: str) -> int | None:
    """Return the line above or below `at`, within the same part, that holds ``# key:`` with no value."""
    pattern = re.compile(rf"\s*#\s*{re.escape(key)}:\s*(#.*)?$")
    for step, start in ((-1, at - 1), (1, at)):
        line = start
        while 0 <= line < len(lines) and _of_part(lines[line], indent):
            if pattern.match(lines[line]) and _indent(lines[line]) == indent:
                return line
            line += step
    return None


def _ends_part(line: str, indent: int) -> bool:
    return not line.strip() or (line.lstrip().startswith("#") and _indent(line) < indent)


def _of_part(line: str, indent: int) -> bool:
    return bool(line.strip()) and _indent(line) >= indent and not line.lstrip().startswith("- ")


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))
