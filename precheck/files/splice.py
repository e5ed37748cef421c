"""One change of a YAML text by the places of its values: what it adds, replaces or takes out is all that is touched."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from precheck.files.layout import Node, column, layout, line_break, line_end, line_start, next_line
from precheck.files.spelled import is_collection, key_written, refused, value_written

Steps = Sequence[str | int]


class Style(NamedTuple):
    """How a file is laid out: how its lines end, and in how many columns from its key a list stands."""

    ends: str
    offset: int


_LIST_UNDER_KEY = re.compile(r"^( *)[^\s#-][^\n]*:[ \t]*(?:#[^\n]*)?\n(?:[ \t]*(?:#[^\n]*)?\n)*( *)- ", re.MULTILINE)
_USUAL = 2  # columns that what is below a key stands in


def replaced(text: str, parent: Node | None, index: int, value: str) -> str:
    """Return `text` with the entry or item `index` of `parent` holding `value`, on the line on which it begins."""
    assert parent is not None
    node, is_item = parent.values[index], parent.kind == "list"
    new = value_written(value, parent.flow, is_item)
    if node.is_blank:
        return _filled_in(text, parent, index, new)
    if is_item or node.flow or node.kind == "text":
        return text[: node.start] + new + text[node.end :]
    colon = text.index(":", parent.keys[index].end) + 1
    below = text[: line_start(text, node.start)] + text[next_line(text, node.end) :]
    return f"{below[:colon]} {new}{below[colon:]}"


def _filled_in(text: str, parent: Node, index: int, new: str) -> str:
    """Return `text` with `new` where nothing is written yet."""
    at, before = parent.values[index].start, text[: parent.values[index].start].rstrip()
    if parent.flow and parent.kind == "mapping" and not before.endswith(":"):
        return f"{text[:at]}: {new}{text[at:]}"
    return f"{text[:at]}{'' if text[at - 1 : at].isspace() else ' '}{new}{text[at:]}"


def with_more(text: str, style: Style, owner: Node, steps: Steps, value: str) -> str:
    """Return `text` with an entry or an item more in `owner`: the first of `steps`, and below it the others."""
    if owner.flow:
        return _more_in_flow(text, owner, steps, value)
    if owner.kind == "list":
        at = _dash(text, owner, len(owner.values) - 1)
        lines = _item_lines(style, steps[1:], value)
        return _below(text, style, owner.end, [" " * column(text, at) + line for line in lines])
    indent = column(text, owner.keys[0].start)
    lines = [" " * indent + line for line in _entry_lines(style, steps, value)]
    waiting = _waiting(text, owner, str(steps[0]), indent)
    if waiting is None:
        return _below(text, style, _behind_notes(text, owner.end, indent), lines)
    note = text[waiting : line_end(text, waiting)].split("#", 2)[2:]
    if note and len(lines) == 1:
        lines = [f"{lines[0]}  #{note[0]}"]
    return text[:waiting] + style.ends.join(lines) + text[line_end(text, waiting) :]


def _more_in_flow(text: str, owner: Node, steps: Steps, value: str) -> str:
    new = _in_flow(steps, value)
    if owner.values:
        end = owner.ends(-1)
        return f"{text[:end].rstrip() if owner.values[-1].is_blank else text[:end]}, {new}{text[end:]}"
    opened = owner.start + 1
    inner = text[opened : owner.end - 1]
    return text[:opened] + new + (inner if inner.strip() else "") + text[owner.end - 1 :]


def _in_flow(steps: Steps, value: str) -> str:
    """Return one entry or item, as it stands within `{...}` or `[...]`."""
    step, rest = steps[0], steps[1:]
    if not rest:
        new = value_written(value, True)
    else:
        inner = _in_flow(rest, value)
        new = f"{{{inner}}}" if _is_key(rest, value) else f"[{inner}]"
    return f"{key_written(step, True)}: {new}" if isinstance(step, str) and _is_key(steps, value) else new


def _is_key(steps: Steps, value: str) -> bool:
    """Return whether the first of `steps` is a key, and not a place in a list: a position, or the id of a new part."""
    return isinstance(steps[0], str) and not (len(steps) == 1 and value.startswith("{") and _id_of(value) == steps[0])


def _id_of(value: str) -> str | None:
    return layout(f"a: {value}\n").values[0].id if is_collection(value) else None


def within_blank(text: str, style: Style, parent: Node, index: int, steps: Steps, value: str) -> str:
    """Return `text` with the first entry or item of the entry `index` of `parent`, in which nothing stands yet."""
    if parent.flow or parent.kind == "list":
        inner = _in_flow(steps, value)
        return _put_in_place(text, parent, index, f"{{{inner}}}" if _is_key(steps, value) else f"[{inner}]")
    node = parent.values[index]
    colon = text.index(":", parent.keys[index].end) + 1
    text = text[:colon] + text[node.end :] if node.flow else text  # `spaces: []`
    indent = column(text, parent.keys[index].start)
    if _is_key(steps, value):
        lines = [" " * (indent + _USUAL) + line for line in _entry_lines(style, steps, value)]
    else:
        lines = [" " * (indent + style.offset) + line for line in _item_lines(style, steps[1:], value)]
    return _below(text, style, colon, lines)


def _put_in_place(text: str, parent: Node, index: int, new: str) -> str:
    node = parent.values[index]
    return _filled_in(text, parent, index, new) if node.is_blank else text[: node.start] + new + text[node.end :]


def _entry_lines(style: Style, steps: Steps, value: str) -> list[str]:
    """Return the lines of a new entry, as they stand in the column of its mapping."""
    key, rest = key_written(str(steps[0]), False), steps[1:]
    if not rest:
        return [f"{key}: {value_written(value, False)}"]
    if _is_key(rest, value):
        return [f"{key}:", *(" " * _USUAL + line for line in _entry_lines(style, rest, value))]
    offset = " " * style.offset
    return [f"{key}:", *(offset + line for line in _item_lines(style, rest[1:], value))]


def _item_lines(style: Style, steps: Steps, value: str) -> list[str]:
    """Return the lines of a new item, as they stand in the column of its dash."""
    if not steps:
        return [f"- {value_written(value, False, item=True)}"]
    if not _is_key(steps, value):
        raise refused("a list within a list is not made here; write it like [[6 ft, 0 ft]]")
    first, *others = _entry_lines(style, steps, value)
    return [f"- {first}", *(f"  {line}" for line in others)]


def style_of(text: str) -> Style:
    """Return how the file with this `text` is laid out, by the first of its lines that tell."""
    found = _LIST_UNDER_KEY.search(text.replace("\r\n", "\n"))
    return Style(line_break(text), max(len(found[2]) - len(found[1]), 0) if found else _USUAL)


def _below(text: str, style: Style, at: int, lines: list[str]) -> str:
    """Return `text` with `lines` below the line of `at`."""
    end = line_end(text, at)
    return text[:end] + "".join(style.ends + line for line in lines) + text[end:]


def _behind_notes(text: str, at: int, indent: int) -> int:
    """Return where the comments in the column `indent` that follow the line of `at` at once end, else `at`."""
    start = next_line(text, at)
    while re.match(rf" {{{indent},}}#", text[start : line_end(text, start)]):
        at, start = start, next_line(text, start)
    return at


def _waiting(text: str, owner: Node, key: str, indent: int) -> int | None:
    """Return where a line of the mapping starts that holds ``# key:`` with no value."""
    pattern = re.compile(rf" {{{indent}}}#\s*{re.escape(key)}:\s*(#.*)?")
    for index in range(len(owner.keys)):
        start, last = next_line(text, owner.ends(index)), index + 1 == len(owner.keys)
        until = len(text) if last else owner.keys[index + 1].start
        while start < until:
            line = text[start : line_end(text, start)]
            if last and not re.match(rf" {{{indent},}}#", line):
                break
            if pattern.fullmatch(line):
                return start
            start = next_line(text, start)
    return None


def without(text: str, owner: Node, index: int) -> str:
    """Return `text` without the entry or item `index` of `owner`, which has others."""
    if owner.flow:
        return _without_in_flow(text, owner, index)
    start = owner.starts(index) if owner.kind == "mapping" else _dash(text, owner, index)
    if not text[line_start(text, start) : start].strip():
        return text[: line_start(text, start)] + text[next_line(text, owner.ends(index)) :]
    if owner.kind == "list":
        raise refused("a list within a list is not changed here; change it in an editor")
    after = owner.keys[index + 1].start  # it stands behind a dash, and the next one takes its place
    between = text[owner.ends(index) : after]
    return text[:start] + text[owner.ends(index) if between.strip() else after :]


def _without_in_flow(text: str, owner: Node, index: int) -> str:
    start, end = owner.starts(index), owner.ends(index)
    if index + 1 < len(owner.values):
        after = owner.starts(index + 1)
        between = text[end:after]
        if between.strip() == ",":
            return text[:start] + text[after:]
        return text[:start] + between.replace(",", "", 1) + text[after:]
    before = owner.ends(index - 1)
    between = text[before:start]
    return text[:before] + ("" if between.strip() == "," else between.replace(",", "", 1)) + text[end:]


def moved(text: str, style: Style, owner: Node, index: int, to: int) -> str:
    """Return `text` with the item `index` of the list `owner` standing at position `to` of the others."""
    others = [item for item in range(len(owner.values)) if item != index]
    if owner.flow:
        values = [text[item.start : item.end] for item in owner.values]
        order = [*others[:to], index, *others[to:]]
        for place, item in reversed(list(zip(owner.values, order, strict=True))):
            text = text[: place.start] + values[item] + text[place.end :]
        return text
    start = line_start(text, _dash(text, owner, index))
    end = next_line(text, owner.values[index].end)
    lines = _ended(text[start:end], style)
    first = line_start(text, _dash(text, owner, others[0]))
    at = first if to == 0 else next_line(text, owner.values[others[to - 1]].end)
    if at <= start:
        return text[:at] + lines + text[at:start] + text[end:]
    return text[:start] + _ended(text[end:at], style) + lines + text[at:]


def _ended(lines: str, style: Style) -> str:
    """Return `lines` with a line break after the last one, which the end of the file may lack."""
    return lines if lines.endswith(("\n", "\r")) else lines + style.ends


def _dash(text: str, owner: Node, index: int) -> int:
    """Return where the dash of an item stands."""
    if index == 0:
        return text.index("-", owner.start)
    after = owner.ends(index - 1)
    column_ = column(text, _dash(text, owner, 0))
    found = re.compile(rf"(?<=[\r\n]) {{{column_}}}-(?!\S)").search(text, after, owner.starts(index))
    return found.end() - 1 if found else owner.starts(index)
