"""The base of facts that a topic derives from the survey and writes rules about."""

from __future__ import annotations

from collections.abc import Iterator
from inspect import get_annotations
from typing import Any, ClassVar, NamedTuple, NoReturn, TypeVar, dataclass_transform

from precheck.files.missing import is_missing
from precheck.files.record import Record
from precheck.files.source import Place
from precheck.project import Part, Space
from precheck.project.section import Entry

T = TypeVar("T", bound="type[_Fields]")


class _Fields:
    """What `fact` gives a class: a constructor over its fields, frozen after."""

    _fields: ClassVar[tuple[str, ...]] = ()

    def __init__(self, *values: Any, **named: Any) -> None:
        own = self.__dict__
        own.update(zip(self._fields, values, strict=False), **named)
        if len(own) == len(values) == len(self._fields):
            return
        if len(values) > len(self._fields) or own.keys() - set(self._fields):
            raise TypeError(f"{type(self).__name__} takes {', '.join(self._fields)}")
        lacking = [name for name in self._fields if name not in own and not hasattr(type(self), name)]
        if lacking:
            raise TypeError(f"{type(self).__name__} lacks {', '.join(lacking)}")

    def __setattr__(self, name: str, value: Any) -> NoReturn:
        raise AttributeError(f"{type(self).__name__} is frozen; `{name}` cannot be set")

    def __repr__(self) -> str:
        return f"{type(self).__name__}({getattr(self, 'label', '')!r})"


@dataclass_transform(frozen_default=True)
def fact(cls: T) -> T:
    """Make `cls` a frozen record of the fields that it annotates, after those that it inherits.

    It does what a frozen dataclass would, at a tenth of the cost of making the class, which every command pays for
    every topic.
    """
    own = (name for name, kind in get_annotations(cls).items() if "ClassVar" not in str(kind))
    cls._fields = (*cls._fields, *own)
    return cls


class Exemption(NamedTuple):
    """What frees a subject of the rules about it: the name of the limit that allows it where it is in force, and why."""

    limit: str
    why: str


@fact
class Fact(_Fields):
    """Something derived that rules are about. `about` is the record that it is shown at and named after.

    A topic subclasses it under `fact` and adds ``found_in(house)``, a class method that yields its facts of one house.
    """

    about: Record | Entry

    @property
    def label(self) -> str:
        """What messages call it."""
        return self.about.label

    @property
    def place(self) -> Place:
        """Where its record stands in the project file."""
        return self.about.place

    @property
    def phase(self) -> Any:
        """The phase of the part that it belongs to; ``new`` where that stays and another part of the fact is changed.

        What is judged is the relation of parts: an old window beside a new door is as new as the door.
        """
        own = phase_of(self.about)
        return "new" if own == "existing" and any(is_changed(part) for part in self._others()) else own

    @property
    def exemption(self) -> Exemption | None:
        """What the code may free it by, where it allows that; None for most."""
        return None

    @property
    def trail(self) -> Any:
        """The way through the house (a `WayOut`) that the plan draws where something is wrong with it; None for most."""
        return None

    def _others(self) -> Iterator[Part]:
        for value in self.__dict__.values():
            for part in value if isinstance(value, tuple) else (value,):
                if isinstance(part, Part) and part is not self.about:
                    yield part


def is_changed(part: Part) -> bool:
    """Return whether the work changes `part` so that what lies beside it is judged anew: a room only by a new use."""
    if isinstance(part, Space):
        return part.phase == "new" or (part.changes_use and not part.is_existing)
    return part.phase in ("new", "altered")


def part_of(subject: Any) -> Part | None:
    """Return the part that a subject is, is about, or lies within; None for the project itself."""
    record = subject if isinstance(subject, Record) else getattr(subject, "about", subject)
    while record is not None and not isinstance(record, Part):
        record = getattr(record, "owner", None)
    return record


def phase_of(subject: Any) -> Any:
    """Return the phase of the part that `subject` belongs to, or None for the project itself; a fact may give its own.

    A record within a part that stands may say its own, as a new notch in an old joist does.
    """
    if isinstance(subject, Fact):
        return subject.phase
    part = part_of(subject)
    if part is None:
        return None
    own = getattr(subject, "phase", part.phase)
    return part.phase if is_missing(own) or part.phase not in ("existing", "altered") else own
