"""Sections that a plugin adds to the project file, read entry by entry."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeVar

from precheck.files.missing import Missing, Need
from precheck.files.source import Block, Items, Place
from precheck.immutable import fixed
from precheck.units import Measure

M = TypeVar("M", bound=Measure)
ANSWERS = {"yes": True, "true": True, "no": False, "false": False}


@fixed
class Section:
    """A section of the project file that a plugin adds: its key, and the JSON Schema that its value meets.

    `called` is what people call one entry of it, such as ``carport drain`` where the key is ``carport drains``.
    """

    key: str
    schema: dict[str, Any]
    called: str = ""

    @property
    def entry(self) -> str:
        """What one entry is called."""
        return self.called or self.key


class Entry:
    """One mapping of an added section. What it does not give is `Missing`, with the exact need."""

    owner = None

    def __init__(
        self, block: Block, called: str, number: int | None = None, known: frozenset[str] | None = None
    ) -> None:
        self._block = block
        self._known = known  # the only keys that can be asked for, where the entry is of a part
        name = block.get("id") or ("" if number is None else number + 1)
        self.label = f"{called} {name}".strip()

    @property
    def place(self) -> Place:
        """Where the entry stands in the project file."""
        return self._block.place

    def absent(self, key: str, yes_or_no: bool = False) -> Missing:
        """Return the absence of `key`."""
        return Missing(Need(self.label, key, self.place, yes_or_no))

    def _value(self, key: str) -> Any:
        if self._known is not None and key not in self._known:
            raise KeyError(f"no plugin adds `{key}` to {self.label}; name it as precheck_fields does")
        return self._block.get(key)

    def text(self, key: str) -> str | Missing:
        """Return the text under `key`."""
        value = self._value(key)
        return self.absent(key) if value is None else str(value)

    def measure(self, key: str, kind: type[M]) -> M | Missing:
        """Return the measure under `key`, such as a `Length`; the schema should name its ``format``."""
        value = self._value(key)
        return self.absent(key) if value is None else kind.parse(str(value))

    def number(self, key: str) -> int | Missing:
        """Return the whole number under `key`; the schema should say ``integer``."""
        value = self._value(key)
        return self.absent(key) if value is None else int(value)

    def answer(self, key: str) -> bool | Missing:
        """Return the yes or no under `key`; the schema should say ``boolean``."""
        value = self._value(key)
        return self.absent(key, yes_or_no=True) if value is None else ANSWERS[str(value).lower()]

    def entries(self, key: str) -> tuple[Entry, ...]:
        """Return the mappings listed under `key`, named after this entry."""
        return tuple(_entries(self._value(key), f"{key} of {self.label}"))


def entries_of(section: Section, value: Any) -> tuple[Entry, ...]:
    """Return the entries of a section's value: those of a list, or the one mapping."""
    return tuple(_entries(value, section.entry))


def _entries(value: Any, called: str) -> Iterator[Entry]:
    if isinstance(value, Block):
        yield Entry(value, called)
    for number, item in enumerate(value if isinstance(value, Items) else ()):
        if isinstance(item, Block):
            yield Entry(item, called, number)
