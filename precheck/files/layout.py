"""Where each value of a YAML text stands, so that one can be changed and every other sign stays as it was."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any, Literal

from precheck.files import spelling
from precheck.files.source import events_of

_REST_OF_LINE = re.compile(r"[^\r\n]*")
_BREAK = re.compile(r"\r\n|\n|\r")


@dataclass(slots=True)
class Node:
    """A value from its first sign, `start`, to behind its last, `end`; comments after it are not part of it.

    `keys` are those of a mapping, in order, and `values` their values or the items of a list. `shared` is one that
    the file names for use in several places, or that is used by such a name.
    """

    kind: Literal["text", "mapping", "list"]
    start: int
    end: int
    text: str = ""
    flow: bool = False
    shared: bool = False
    keys: list[Node] = field(default_factory=list)
    values: list[Node] = field(default_factory=list)

    @property
    def is_blank(self) -> bool:
        """Whether nothing is written, as after a key that stands alone."""
        return self.kind == "text" and self.start == self.end

    def ends(self, index: int) -> int:
        """Return where the entry or item `index` ends."""
        return max(self.values[index].end, self.keys[index].end if self.keys else 0)

    def starts(self, index: int) -> int:
        """Return where the entry or item `index` starts, without its dash."""
        return (self.keys or self.values)[index].start

    def find(self, step: str | int) -> int | None:
        """Return which entry or item `step` names: a key, the position of an item, or the id of a part; None if none."""
        if isinstance(step, int):
            return step if self.kind == "list" and 0 <= step < len(self.values) else None
        if self.kind == "mapping":
            return key_in([key.text for key in self.keys], step)
        return part_in([item.id for item in self.values], step)

    @property
    def id(self) -> str | None:
        """The id of a part, None of what has none."""
        index = self.find("id") if self.kind == "mapping" else None
        return None if index is None else self.values[index].text

    def within(self) -> Iterator[Node]:
        """Yield the value itself and every key and value in it."""
        yield self
        for one in (*self.keys, *self.values):
            yield from one.within()


def key_in(keys: list[str], step: str) -> int | None:
    """Return which of `keys` is `step`, as it is called now or was before; None if none is."""
    if step in keys:
        return keys.index(step)
    return next((index for index, key in enumerate(keys) if spelling.key(key, (step,)) == step), None)


def part_in(ids: list[str | None], step: str) -> int | None:
    """Return which of `ids` is `step`; None if none is."""
    return ids.index(step) if step in ids else None


def layout(text: str) -> Node:
    """Return the value of the whole YAML `text`, which must be readable and hold one document."""
    events = iter(events_of(text))
    for event in events:
        if event.__class__.__name__ not in ("StreamStartEvent", "DocumentStartEvent"):
            return _node(text, event, events)
    raise ValueError("the text is empty")


def _node(text: str, event: Any, events: Iterable[Any]) -> Node:
    kind, start = event.__class__.__name__, event.start_mark.index
    if kind == "AliasEvent":
        return Node("text", start, event.end_mark.index, shared=True)
    shared = event.anchor is not None
    if kind == "ScalarEvent":
        end = event.end_mark.index
        if event.style in ("|", ">"):  # the parser counts the blank lines after it
            end = start + len(text[start:end].rstrip())
        return Node("text", start, end, event.value, shared=shared)
    node = Node(
        "mapping" if kind == "MappingStartEvent" else "list", start, start, flow=event.flow_style, shared=shared
    )
    end = event.end_mark.index
    for below in events:
        if below.__class__.__name__ in ("MappingEndEvent", "SequenceEndEvent"):
            end = below.end_mark.index
            break
        if node.kind == "mapping":
            node.keys.append(_node(text, below, events))
            below = next(iter(events))
        node.values.append(_node(text, below, events))
    node.end = end if node.flow or not node.values else node.ends(-1)
    return node


def line_start(text: str, at: int) -> int:
    """Return where the line of `at` starts."""
    return max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1


def line_end(text: str, at: int) -> int:
    """Return where the line of `at` ends, before its line break."""
    found = _REST_OF_LINE.match(text, at)
    return found.end() if found else at


def next_line(text: str, at: int) -> int:
    """Return where the line after that of `at` starts, or where the text ends."""
    found = _BREAK.match(text, end := line_end(text, at))
    return found.end() if found else end


def line_break(text: str) -> str:
    """Return how the lines of `text` end."""
    found = _BREAK.search(text)
    return found[0] if found else "\n"


def column(text: str, at: int) -> int:
    """Return how many signs stand before `at` in its line."""
    return at - line_start(text, at)
