"""A mapping of a file as a frozen, typed record that knows its place.

Keys are the field names with spaces for underscores. An unknown key is an error that offers the nearest spelling. A
field of type `Maybe` that is not given becomes a `Missing` that names the record and the key.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, NamedTuple, TypeVar, Union, get_args

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, PrivateAttr, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import core_schema

from precheck.files.missing import Missing, Need, yes_or_no
from precheck.files.mistakes import problem_of, record_in, unknown_key, with_article
from precheck.files.respelling import rename_keys, respelled
from precheck.files.source import Block, Items, Place, Problem, Unusable

T = TypeVar("T")
R = TypeVar("R", bound="Record")
NOT_GIVEN = Missing()


class _MaybeGiven:
    """Tells pydantic to validate a `Maybe[T]` as a T; an empty value counts as not given."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        given = [kind for kind in get_args(source) if kind is not Missing]
        return core_schema.nullable_schema(handler.generate_schema(Union[tuple(given)]))  # noqa: UP007 # built at run time


Maybe = Annotated[T | Missing, _MaybeGiven()]


class Reference(str):
    """The id of another part. `kinds` are the kinds of part that it may name; reading checks that the part exists."""

    __slots__ = ()
    kinds: ClassVar[tuple[str, ...]] = ()

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return core_schema.no_info_after_validator_function(cls, core_schema.str_schema())


class Origin(NamedTuple):
    """What a record knows besides its fields: the mapping it was read from, else its place; its label and its owner."""

    block: Block | None = None
    place: Place | None = None
    label: str = ""
    owner: Any = None


NOWHERE = Origin()


class Record(BaseModel):
    """A frozen mapping of a file. `kind` is what a person calls it; `label` names the one at hand."""

    model_config = ConfigDict(
        frozen=True, defer_build=True, extra="forbid", alias_generator=lambda name: name.rstrip("_").replace("_", " ")
    )
    kind: ClassVar[str] = "record"
    _origin: Origin | None = PrivateAttr(default=None)

    if not TYPE_CHECKING:  # or every slip of the pen in a field's name would pass the type checker

        def __getattr__(self, name: str) -> Any:
            """Return the value of a field that the file does not give: its absence, or its default."""
            field = fields_of(type(self)).get(name)
            if field is None or field.required:
                return super().__getattr__(name)
            value = self.absent(field.key) if field.maybe else field.default()
            self.__dict__[name] = value
            return value

    def __eq__(self, other: object) -> bool:
        """Return whether `other` is this very record: two that say the same stand in different places."""
        return self is other

    def __hash__(self) -> int:
        return id(self)

    @property
    def label(self) -> str:
        """What messages call this record, such as ``window W2``."""
        return _origin(self).label or self.kind

    @property
    def owner(self) -> Any:
        """The record that holds this one, or None for a file's own."""
        return _origin(self).owner

    @property
    def block(self) -> Block | None:
        """The mapping of the file that the record was read from."""
        return _origin(self).block

    @property
    def place(self) -> Place:
        """Where the record stands in its file."""
        own = _origin(self)
        return own.block.place if own.block is not None else own.place or Place("", 1, 1)

    def place_of(self, field: str) -> Place:
        """Where the value of `field` stands, or the record where the file does not give it."""
        block = _origin(self).block
        return block.place_of(key_of(type(self), field)) if block is not None else self.place

    def absent(self, key: str) -> Missing:
        """Return the absence of `key` from this record, for what is derived and not a field of its own."""
        return Missing(Need(self.label, key, self.place, key in yes_or_no(type(self))))

    def label_under(self, owner: Record | None, index: int | None) -> str:
        """Return what to call this record where `owner` holds it, as item `index` of a list if it is in one."""
        own = self.kind if index is None else f"{self.kind} {index + 1}"
        return own if owner is None or owner.owner is None else f"{own} of {owner.label}"


def _origin(record: Record) -> Origin:  # pydantic's own way takes 20 times as long
    private = record.__pydantic_private__
    return (private and private["_origin"]) or NOWHERE


def key_of(model: type[Record], field: str) -> str:
    """Return the key under which a file gives `field`."""
    return fields_of(model)[field].key


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
    """Return `block` as a `model`, reading words as people write them. Raises pydantic's `ValidationError`.

    `block` gets the words of today, and `renamed` what was met of those of before. Only what is refused at first is looked
    at in this way, so that a file in the words of today costs nothing more.
    """
    while True:
        try:
            return model.model_validate(block)
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
        values = {key_of(head, name): given.__dict__[name] for name in given.model_fields_set}
    except ValidationError as error:
        problems.extend(problem_of(head, own, e) for e in error.errors(include_url=False))
    for key, kind in lists.items():
        if block.get(key) is not None:
            values[key] = tuple(_read_items(kind, block, key, problems, renamed))
    if problems:
        raise Unusable(problems)
    record: R = model.model_construct(**values)  # type: ignore[assignment]  # pydantic.mypy infers the base
    block.renamed = (*block.renamed, *renamed)
    bind(record, block, None, None)
    return record


@cache
def _parted(model: type[Record], head: type[Record]) -> tuple[frozenset[str], dict[str, Any]]:
    """Return the keys of the fields that `head` has, and by key the kind of record in each further list."""
    of_head = frozenset(field.key for field in fields_of(head).values())
    further = {
        field.alias or name: field for name, field in model.model_fields.items() if name not in head.model_fields
    }
    return of_head, {key: record_in(field.annotation) for key, field in further.items()}


def _unknown(model: type[Record], head: type[Record], block: Block) -> Iterator[Problem]:
    of_head, lists = _parted(model, head)
    for key in block:
        if key not in of_head and key not in lists:
            yield Problem(block.place_of(key), unknown_key(key, None, model))


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
    private: Any = record.__pydantic_private__
    private["_origin"] = Origin(block, at, record.label_under(owner, index), owner)
    given, fields, values = record.model_fields_set, fields_of(type(record)), record.__dict__
    kept = {name: values[name] for name in fields if name in given}
    values.clear()  # what is left out comes back when it is asked for; most of a record is never given nor asked for
    values.update((n, v) for n, v in kept.items() if v is not None or not fields[n].maybe)
    for name in holders(type(record)):
        value = values.get(name)
        if isinstance(value, Record):
            below = block.get(fields[name].key) if block is not None else None
            bind(value, below, record, None, block.place_of(fields[name].key) if block is not None else at)
        elif value:
            _bind_items(value, block.get(fields[name].key) if block is not None else None, record)


def _bind_items(records: tuple[Record, ...], items: Any, owner: Record) -> None:
    for index, record in enumerate(records):
        known = isinstance(items, Items)
        bind(record, items[index] if known else None, owner, index, items.place_of(index) if known else owner.place)


def path_to(record: Record) -> tuple[str | int, ...]:
    """Return the keys and list positions of its file that lead to `record`."""
    owner = record.owner
    for name in holders(type(owner)) if isinstance(owner, Record) else ():
        value, key = getattr(owner, name), key_of(type(owner), name)
        if value is record:
            return (*path_to(owner), key)
        if isinstance(value, tuple) and record in value:
            return (*path_to(owner), key, value.index(record))
    return ()


def walk(record: Record) -> Iterator[Record]:
    """Yield `record` and every record below it, in the order of the file."""
    yield record
    values = record.__dict__
    for name in holders(type(record)):
        value = values.get(name)
        if isinstance(value, Record):
            yield from walk(value)
        elif value and isinstance(value, tuple):
            for item in value:
                yield from walk(item)


class Field(NamedTuple):
    """What reading needs to know of one field of a record, over and over; `default` makes what it is by default."""

    key: str
    maybe: bool
    required: bool
    default: Callable[[], Any]


@cache
def fields_of(model: type[Record]) -> dict[str, Field]:
    """Return the fields of `model` by their names."""
    return {name: _field(name, field) for name, field in model.model_fields.items()}


def _field(name: str, field: FieldInfo) -> Field:
    make: Any = field.default_factory or (lambda: field.default)
    return Field(field.alias or name, field.default is NOT_GIVEN, field.is_required(), make)


@cache
def holders(model: type[Record]) -> tuple[str, ...]:
    """Return the names of the fields of `model` that hold a record or a list of records."""
    held = ((name, record_in(field.annotation)) for name, field in model.model_fields.items())
    return tuple(name for name, found in held if found is not None and issubclass(found, Record))
