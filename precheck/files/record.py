"""A mapping of a file as a frozen, typed record that knows its place.

Keys are the field names with spaces for underscores. An unknown key is an error that offers the nearest spelling. A
field of type `Maybe` that is not given becomes a `Missing` that names the record and the key.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import FrozenInstanceError
from functools import cache
from typing import TYPE_CHECKING, Any, ClassVar, NamedTuple, Self, TypeVar, Union

from pydantic_core import ValidationError
from typing_extensions import dataclass_transform

from precheck.files.fields import NOT_GIVEN, Field, Fielded, fields_of, key_of, validator_of, yes_or_no
from precheck.files.missing import Missing, Need
from precheck.files.mistakes import problem_of, record_in, unknown_key, with_article
from precheck.files.respelling import rename_keys, respelled
from precheck.files.source import Block, Items, Place, Problem, Unusable

__all__ = ["NOT_GIVEN", "Field", "Maybe", "Record", "Reference", "bind", "fields_of", "key_of", "read_lists",
           "read_record", "walk"]  # fmt: skip

T = TypeVar("T")
R = TypeVar("R", bound="Record")
if TYPE_CHECKING:
    Maybe = Union[T, Missing]  # noqa: UP007  # its parameter is told to the type checker in this form alone
else:

    class Maybe:
        """A value of a type, or its absence: the same union, which takes half as long to make in this way."""

        def __class_getitem__(cls, kind: Any) -> Any:
            return Union[kind, Missing]  # noqa: UP007  # a choice of words knows no other form


class Reference(str):
    """The id of another part. `kinds` are the kinds of part that it may name; reading checks that the part exists."""

    __slots__ = ()
    kinds: ClassVar[tuple[str, ...]] = ()


class Origin(NamedTuple):
    """What a record knows besides its fields: the mapping it was read from, else its place; its label and its owner."""

    block: Block | None = None
    place: Place | None = None
    label: str = ""
    owner: Any = None


NOWHERE = Origin()
WITH_ADVICE = 100  # unknown keys of a file that are told with what may be meant, which takes time to find


@dataclass_transform(kw_only_default=True, frozen_default=True)
class Record(Fielded):
    """A frozen mapping of a file. `kind` is what a person calls it; `label` names the one at hand."""

    __slots__ = ("__dict__", "_given", "_origin")
    kind: ClassVar[str] = "record"

    if TYPE_CHECKING:
        _given: ClassVar[frozenset[str]]
        _origin: ClassVar[Origin]

    else:  # or every slip of the pen in a field's name would pass the type checker

        def __init__(self, /, **given: Any) -> None:
            _keep(self, "_given", frozenset(given))
            _keep(self, "_origin", NOWHERE)
            self.__dict__.update(given)

        def __getattr__(self, name: str) -> Any:
            """Return the value of a field that the file does not give: its absence, or its default."""
            field = fields_of(self.__class__).get(name)
            if field is None or field.required:
                raise AttributeError(f"{type(self).__name__!r} object has no attribute {name!r}")
            value = self.absent(field.key) if field.maybe else field.default()
            self.__dict__[name] = value
            return value

        def __setattr__(self, name: str, value: Any) -> None:
            """Keep what reading notes besides the fields, which are frozen."""
            if not name.startswith("_"):
                raise FrozenInstanceError(f"{name} of {self.label} is frozen, as it was read")
            _keep(self, name, value)

    def __repr__(self) -> str:
        return f"<{self.label}>"

    @classmethod
    def made(cls, values: dict[str, Any]) -> Self:
        """Return a record of values that were read, by the names of their fields."""
        return cls(**values)

    @property
    def model_fields_set(self) -> frozenset[str]:
        """The names of the fields that the file gives."""
        return self._given

    @property
    def label(self) -> str:
        """What messages call this record, such as ``window W2``."""
        return self._origin.label or self.kind

    @property
    def owner(self) -> Any:
        """The record that holds this one, or None for a file's own."""
        return self._origin.owner

    @property
    def block(self) -> Block | None:
        """The mapping of the file that the record was read from."""
        return self._origin.block

    @property
    def place(self) -> Place:
        """Where the record stands in its file."""
        own = self._origin
        return own.block.place if own.block is not None else own.place or Place("", 1, 1)

    def place_of(self, field: str) -> Place:
        """Where the value of `field` stands, or the record where the file does not give it."""
        block = self._origin.block
        return block.place_of(key_of(type(self), field)) if block is not None else self.place

    def absent(self, key: str) -> Missing:
        """Return the absence of `key` from this record, for what is derived and not a field of its own."""
        own = self._origin  # which is looked into here, for half of all values are absent
        place = own.block.place if own.block is not None else self.place
        return Missing(Need(own.label or self.kind, key, place, key in yes_or_no(self.__class__)))

    def stand_as(self, other: Record) -> None:
        """Take over where `other` stands in its file, and whose it is."""
        _keep(self, "_origin", other._origin)

    def label_under(self, owner: Record | None, index: int | None) -> str:
        """Return what to call this record where `owner` holds it, as item `index` of a list if it is in one."""
        own = self.kind if index is None else f"{self.kind} {index + 1}"
        return own if owner is None or owner.owner is None else f"{own} of {owner.label}"


def read_record(model: type[R], block: Block) -> R:
    """Validate `block` as a `model` whose records all know their place. Raises `Unusable` with every problem found."""
    renamed: list[Problem] = []
    try:
        record = validated(model, block, renamed)
    except ValidationError as error:
        raise Unusable(problem_of(model, block, e) for e in error.errors(include_url=False)) from None
    block.renamed = (*block.renamed, *renamed)
    bind(record, block, None, None)
    return record


def validated(model: type[R], block: Block, renamed: list[Problem]) -> R:
    """Return `block` as a `model`, reading words as people write them. Raises the validator's `ValidationError`.

    `block` gets the words of today, and `renamed` what was met of those of before. Only what is refused at first is looked
    at in this way, so that a file in the words of today costs nothing more.
    """
    while True:
        try:
            return validator_of(model).validate_python(block)  # type: ignore[no-any-return]  # a `model`
        except ValidationError as error:
            if not respelled(model, block, error.errors(include_url=False), renamed):
                raise


def read_lists(model: type[R], head: type[Record], block: Block) -> R:
    """Validate `block` as a `model`: the fields of `head` together, every further field as a list of records.

    Lists are validated record by record, so that only the kinds of part that the file has are ever built. Raises
    `Unusable` with every problem found.
    """
    of_head, lists = _parted(model, head)
    renamed: list[Problem] = []
    rename_keys(block, (*of_head, *lists), renamed)
    problems: list[Problem] = [*_unknown(model, head, block)]
    values: dict[str, Any] = {}
    own = Block(block.at, block.file)
    own.keys_at = block.keys_at
    own.update((key, value) for key, value in block.items() if key in of_head)
    try:
        given = validated(head, own, renamed)
        values = {name: given.__dict__[name] for name in given.model_fields_set}
    except ValidationError as error:
        problems.extend(problem_of(head, own, e) for e in error.errors(include_url=False))
    for key, kind in lists.items():
        if block.get(key) is not None:
            values[kind.name] = tuple(_read_items(kind.record, block, key, problems, renamed))
    if problems:
        raise Unusable(problems)
    record = model.made(values)
    block.renamed = (*block.renamed, *renamed)
    bind(record, block, None, None)
    return record


class _List(NamedTuple):
    """A list of records that a file may have: the name of its field, and that field."""

    name: str
    field: Field

    @property
    def record(self) -> Any:
        """The kind of record in it."""
        return record_in(self.field.annotation)


@cache
def _parted(model: type[Record], head: type[Record]) -> tuple[frozenset[str], dict[str, _List]]:
    """Return the keys of the fields that `head` has, and by its key each further list."""
    of_head = fields_of(head)
    further = {field.key: _List(name, field) for name, field in fields_of(model).items() if name not in of_head}
    return frozenset(field.key for field in of_head.values()), further


def _unknown(model: type[Record], head: type[Record], block: Block) -> Iterator[Problem]:
    of_head, lists = _parted(model, head)
    unknown = [key for key in block if key not in of_head and key not in lists]
    for told, key in enumerate(unknown):
        what = unknown_key(key, None, model) if told < WITH_ADVICE else f"`{key}` is not a key of a {model.kind} either"
        yield Problem(block.place_of(key), what)


def _read_items(
    kind: type[Record], block: Block, key: str, problems: list[Problem], renamed: list[Problem]
) -> Iterator[Record]:
    items = block[key]
    if not isinstance(items, Items):
        told = f"{key}: a list belongs here; begin each {kind.kind} with `- id: ...`"
        problems.append(Problem(block.place_of(key), told))
        return
    for index, item in enumerate(items):
        if not isinstance(item, Block):
            told = f"{key}: {with_article(kind.kind)} is a mapping; begin it with `id: ...`"
            problems.append(Problem(items.place_of(index), told))
            continue
        try:
            yield validated(kind, item, renamed)
        except ValidationError as error:
            problems.extend(problem_of(kind, item, e) for e in error.errors(include_url=False))


def bind(record: Record, node: Any, owner: Record | None, index: int | None, at: Place | None = None) -> None:
    """Tell `record` and all below it where they stand and whose they are, and keep of its fields those that are given."""
    block = node if isinstance(node, Block) else None
    _keep(record, "_origin", Origin(block, at, record.label_under(owner, index), owner))
    given, fields, values = record.model_fields_set, fields_of(type(record)), record.__dict__
    kept = {name: values[name] for name in fields if name in given}
    values.clear()  # what is left out comes back when it is asked for; most of a record is never given nor asked for
    values.update((n, v) for n, v in kept.items() if v is not None or not fields[n].maybe)
    for name, value in _held(record):
        key = fields[name].key
        below = block.get(key) if block is not None else None
        if isinstance(value, Record):
            bind(value, below, record, None, block.place_of(key) if block is not None else at)
        else:
            _bind_items(value, below, record)


def _bind_items(records: tuple[Record, ...], items: Any, owner: Record) -> None:
    for index, record in enumerate(records):
        known = isinstance(items, Items) and index < len(items)  # an empty list may stand for a record of its own
        bind(record, items[index] if known else None, owner, index, items.place_of(index) if known else owner.place)


def walk(record: Record) -> Iterator[Record]:
    """Yield `record` and every record below it, in the order of the file."""
    yield record
    for _, value in _held(record):
        for item in value if isinstance(value, tuple) else (value,):
            yield from walk(item)


def _held(record: Record) -> list[tuple[str, Any]]:
    """Return the fields that hold a record or a list of records, each with what it holds."""
    fields = fields_of(type(record))
    return [
        (name, value)
        for name, value in record.__dict__.items()
        if isinstance(value[0] if value.__class__ is tuple and value else value, Record) and name in fields
    ]


_keep = object.__setattr__
