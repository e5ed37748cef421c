"""YAML with positions: every value of a file knows its line and column, and every error names them.

The tree is built straight from the parser's events: mappings become `Block` (a dict), sequences `Items` (a list), and
scalars stay the text that was written. Nothing is guessed: no implicit numbers, dates or octals. Tags, several
documents, duplicate keys and oversized or deeply nested files are refused. The only importer of ruamel.yaml.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from stat import S_ISDIR, S_ISREG
from typing import Any, NamedTuple

from precheck.files.inert import ACTING, shown_name

LARGEST_FILE = 8 * 1024 * 1024  # bytes; a large house is 0.2 MB
DEEPEST = 40  # levels of nesting; a project file needs 8
_BEGINNING = "begin with a line like `project: My house` or, in a ruleset, `jurisdiction: Alder Township`"
MOST_VALUES = 400_000  # with every alias counted in full, so that a small file cannot unfold into a huge one


class Place(NamedTuple):
    """Where something stands: file, line and column, both counted from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{shown_name(self.file)}:{self.line}:{self.column}"


class Problem(NamedTuple):
    """One thing wrong with a file: where, and what, ending in what to write instead."""

    place: Place
    what: str

    def __str__(self) -> str:
        return f"{self.place}: {self.what}" if self.place.file else self.what


class Unusable(Exception):
    """Files that cannot be used. `problems` holds everything found wrong, in file order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = sorted(dict.fromkeys(problems))
        super().__init__("\n".join(map(str, self.problems)))


class Block(dict[str, Any]):
    """A mapping. `at` is where it starts, `keys_at` where each key stands, as zero-based line and column.

    `renamed` holds, for the mapping of a whole file, what reading met of keys and words of before.
    """

    __slots__ = ("_place", "at", "file", "keys_at", "renamed")

    def __init__(self, at: tuple[int, int], file: str) -> None:
        self.at = at
        self.file = file
        self.keys_at: dict[str, tuple[int, int]] = {}
        self.renamed: tuple[Problem, ...] = ()
        self._place: Place | None = None

    @property
    def place(self) -> Place:
        """Where the mapping starts."""
        self._place = self._place or _place(self.file, self.at)
        return self._place

    def place_of(self, key: str) -> Place:
        """Where `key` stands, or where the mapping starts if it lacks the key."""
        return _place(self.file, self.keys_at.get(key, self.at))

    def without(self, keys: Iterable[str]) -> Block:
        """Return a copy at the same place that lacks `keys`; what else it holds is shared."""
        copy, left_out = Block(self.at, self.file), frozenset(keys)
        copy.keys_at = self.keys_at
        copy.update((key, value) for key, value in self.items() if key not in left_out)
        return copy


class Items(list[Any]):
    """A sequence. `items_at` is where each item starts, as zero-based line and column."""

    __slots__ = ("at", "file", "items_at")

    def __init__(self, at: tuple[int, int], file: str) -> None:
        self.at = at
        self.file = file
        self.items_at: list[tuple[int, int]] = []

    def place_of(self, index: int) -> Place:
        """Where item `index` starts."""
        return _place(self.file, self.items_at[index])


def read_file(path: Path, name: str | None = None) -> Block:
    """Read the YAML file at `path` as one mapping; `name` is what messages call it (default: the path). Raises `Unusable`."""
    return read_text(text_of(path, name or str(path)), name or str(path))


def text_of(path: Path, name: str) -> str:
    """Return the text of a file. Raises `Unusable` where it is missing, unreadable, too large or not text."""
    try:
        size_of(path, name, LARGEST_FILE)
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise _refused(name, "there is no such file; check the spelling of the path") from None
    except UnicodeDecodeError as error:
        raise _refused(name, f"byte {error.start} is not UTF-8 text; save the file as UTF-8") from None
    except OSError as error:
        raise _refused(name, f"cannot be read ({error.strerror}); name a file that can") from None


def size_of(path: Path, name: str, most: int) -> int:
    """Return the size in bytes of the file at `path`.

    Raises `Unusable` where it has more than `most`, or is a pipe or a device, which would be waited for or read without
    end, and OSError where it cannot be looked at.
    """
    found = path.stat()
    if not S_ISREG(found.st_mode) and not S_ISDIR(found.st_mode):
        raise _refused(name, "this is a pipe or a device and no file; save what it gives as a file, and name that")
    if found.st_size > most:
        raise _refused(name, f"the file has {found.st_size:,} bytes; {most:,} is the most that is read. Split it")
    return found.st_size


def read_text(text: str, name: str) -> Block:
    """Read YAML `text` as one mapping. Raises `Unusable`."""
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    try:
        tree = _Builder(name).build(events_of(text))
    except MarkedYAMLError as error:
        raise Unusable([_misread(error, text, name)]) from None
    except YAMLError as error:
        raise _refused(name, f"not readable as text: {str(error).splitlines()[0]}; remove that character") from None
    if tree is None:
        raise _refused(name, f"the file is empty; {_BEGINNING}")
    if not isinstance(tree, Block):
        raise _refused(name, f"a mapping of keys to values belongs here; {_BEGINNING}")
    return tree


def _misread(error: Any, text: str, name: str) -> Problem:
    unclosed = any(word in (error.context or "") for word in ("quoted", "flow"))  # then where it opened is what helps
    mark = error.context_mark if unclosed and error.context_mark else error.problem_mark or error.context_mark
    at = (mark.line, mark.column) if mark else (0, 0)
    said = " ".join(filter(None, (error.context, error.problem)))
    return Problem(_place(name, at), f"not readable as YAML: {said}; {_advice(text, at[0])}")


def _advice(text: str, line: int) -> str:
    lines = text.splitlines()
    if line < len(lines) and "\t" in lines[line]:
        return "indent with spaces instead of a tab"
    return "look for a missing quote or bracket, or an indent that changed, on this line or the one before"


def _refused(name: str, what: str) -> Unusable:
    return Unusable([Problem(Place(name, 1, 1), what)])


def _place(file: str, at: tuple[int, int]) -> Place:
    return Place(file, at[0] + 1, at[1] + 1)


def events_of(text: str) -> Iterator[Any]:
    """Return the parser's events of YAML `text`; iterating raises ruamel.yaml's errors."""
    text = text.removeprefix("\ufeff")
    try:
        from _ruamel_yaml import CParser
    except ImportError:  # a platform without the C scanner: the same events, several times slower
        from ruamel.yaml import YAML

        return iter(YAML(typ="safe", pure=True).parse(text))
    return iter(CParser(text).get_event, None)


class _Builder:
    """Turns parser events into the tree, on an explicit stack so that nesting cannot exhaust Python's own."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.stack: list[tuple[Any, str | None, str | None, int]] = []  # what `parent`, `key` were; anchor, values
        self.parent: Any = None
        self.key: str | None = None  # of the mapping being built, the key that waits for its value
        self.anchors: dict[str, tuple[Any, int]] = {}
        self.values = 0
        self.root: Any = None
        self.documents = 0

    def build(self, events: Iterable[Any]) -> Any:
        from ruamel.yaml import events as kinds

        handlers = {
            kinds.ScalarEvent: self._scalar,
            kinds.MappingStartEvent: self._open_block,
            kinds.SequenceStartEvent: self._open_items,
            kinds.MappingEndEvent: self._close,
            kinds.SequenceEndEvent: self._close,
            kinds.AliasEvent: self._alias,
            kinds.DocumentStartEvent: self._document,
            kinds.DocumentEndEvent: _nothing,
            kinds.StreamStartEvent: _nothing,
            kinds.StreamEndEvent: _nothing,
        }
        for event in events:
            handlers[event.__class__](event)
        return self.root

    def _refuse(self, event: Any, what: str) -> Unusable:
        mark = event.start_mark
        return Unusable([Problem(_place(self.file, (mark.line, mark.column)), what)])

    def _document(self, event: Any) -> None:
        self.documents += 1
        if self.documents > 1:
            raise self._refuse(event, "a second document starts here; keep one per file and remove the `---`")

    def _scalar(self, event: Any) -> None:
        if event.tag is not None:
            raise self._refuse(event, f"the tag `{event.tag}` is not used here; remove it")
        text = event.value
        if not text.isprintable():  # a name of two lines could begin the second as it likes
            text = ACTING.sub("\N{REPLACEMENT CHARACTER}", text)
            text = " ".join(text.split()) if "\n" in text else text
        if self.key is None and self.parent.__class__ is Block:
            self._name(event, text)
            return
        value = None if text in _EMPTY and event.implicit[0] else text
        if event.anchor is not None:
            self.anchors[event.anchor] = (value, 1)
        self._put(event, value)

    def _name(self, event: Any, key: str) -> None:
        keys_at = self.parent.keys_at
        if key in keys_at:
            raise self._refuse(event, f"`{key}` stands twice, first in line {keys_at[key][0] + 1}; keep one of them")
        mark = event.start_mark
        keys_at[key] = (mark.line, mark.column)
        self.key = key

    def _put(self, event: Any, value: Any) -> None:
        self.values += 1
        if self.values > MOST_VALUES:
            raise self._refuse(event, f"the file unfolds to more than {MOST_VALUES:,} values; split it")
        parent = self.parent
        if parent.__class__ is Block:
            if self.key is None:
                raise self._refuse(event, "a key must be plain text; write `name: value`")
            parent[self.key] = value
            self.key = None
        elif parent is not None:
            parent.append(value)
            mark = event.start_mark
            parent.items_at.append((mark.line, mark.column))
        else:
            self.root = value

    def _open_block(self, event: Any) -> None:
        self._open(event, Block)

    def _open_items(self, event: Any) -> None:
        self._open(event, Items)

    def _open(self, event: Any, kind: type[Block] | type[Items]) -> None:
        if event.tag is not None:
            raise self._refuse(event, f"the tag `{event.tag}` is not used here; remove it")
        if len(self.stack) >= DEEPEST:
            raise self._refuse(event, f"nested more than {DEEPEST} levels deep; flatten it")
        mark = event.start_mark
        collection = kind((mark.line, mark.column), self.file)
        self._put(event, collection)
        self.stack.append((self.parent, self.key, event.anchor, self.values))
        self.parent, self.key = collection, None

    def _close(self, event: Any) -> None:
        collection = self.parent
        self.parent, self.key, anchor, before = self.stack.pop()
        if anchor:
            self.anchors[anchor] = (collection, self.values - before + 1)

    def _alias(self, event: Any) -> None:
        if event.anchor not in self.anchors:
            raise self._refuse(event, f"`*{event.anchor}` refers to nothing written before it; write the value out")
        value, values = self.anchors[event.anchor]
        self.values += values - 1
        self._put(event, value)


_EMPTY = frozenset(("", "~", "null"))


def _nothing(event: Any) -> None:
    """Pass over an event that carries no value."""
