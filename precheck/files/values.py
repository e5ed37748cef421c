"""What a field takes: its type as the schema by which the validator's engine reads a value.

A type is str, int, float, bool, a date, a choice of words, a subclass of str, a class that reads itself, a record, a tuple
or dict of these, or several of them. `Annotated` adds marks: a function that the value passes through, or a range of
numbers. A class that reads itself has the class methods ``from_file(written)``, whose ValueError says what to write
instead, and ``form()``, the JSON Schema of what may be written.
"""

from __future__ import annotations

import re
import types
from collections.abc import Callable
from datetime import date
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic_core import CoreSchema, PydanticKnownError, core_schema

from precheck.files.missing import Missing

Read = Callable[[Any], Any]
"""Takes what was written, or what it was read as, and returns the value. Its ValueError is told with the place."""
OfRecord = Callable[[Any], CoreSchema]
"""Returns the schema of a kind of record."""

_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


class After:
    """Marks what a value passes through after it was read as its type."""

    def __init__(self, read: Read) -> None:
        self.read = read

    def around(self, schema: CoreSchema) -> CoreSchema:
        """Return `schema` with the mark."""
        return core_schema.no_info_after_validator_function(self.read, schema)


class Before(After):
    """Marks what a value passes through before it is read as its type."""

    def around(self, schema: CoreSchema) -> CoreSchema:
        """Return `schema` with the mark."""
        return core_schema.no_info_before_validator_function(self.read, schema)


class Instead(After):
    """Marks what reads a value in place of its type; `form` is the JSON Schema of what may be written."""

    def __init__(self, read: Read, form: dict[str, Any]) -> None:
        super().__init__(read)
        self.form = form

    def around(self, schema: CoreSchema) -> CoreSchema:
        """Return the schema that takes the place of `schema`."""
        return core_schema.no_info_plain_validator_function(self.read, metadata={"form": self.form})


class Within:
    """Marks numbers from `ge`, or above `gt`, to `le`."""

    def __init__(self, **bounds: int) -> None:
        self.bounds = bounds

    def around(self, schema: CoreSchema) -> CoreSchema:
        """Return `schema` with the mark."""
        bound: Any = {**schema, **self.bounds}  # a schema of numbers, which has these keys
        return core_schema.no_info_before_validator_function(_plain_digits, bound)


def _plain_digits(written: Any) -> Any:
    """Refuse ``1_4``, which Python's readers take for 14 and a person for a slip of the pen."""
    if isinstance(written, str) and "_" in written:
        raise PydanticKnownError("int_parsing")
    return written


def schema_of(kind: Any, of_record: OfRecord) -> CoreSchema:
    """Return the schema of values of the type `kind`."""
    origin, inside = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return _marked(inside[0], inside[1:], of_record)
    if origin in (Union, types.UnionType):
        return _one_of(inside, of_record)
    if origin is Literal:
        return core_schema.literal_schema(list(inside))
    if origin is tuple:
        return _several(inside, of_record)
    if origin is dict:
        return core_schema.dict_schema(*(schema_of(one, of_record) for one in inside))
    return _PLAIN[kind]() if kind in _PLAIN else _of_class(kind, of_record)


def _marked(kind: Any, marks: tuple[Any, ...], of_record: OfRecord) -> CoreSchema:
    instead = any(isinstance(mark, Instead) for mark in marks)
    schema = core_schema.any_schema() if instead else schema_of(kind, of_record)
    for mark in marks:
        schema = mark.around(schema)
    return schema


def _one_of(kinds: tuple[Any, ...], of_record: OfRecord) -> CoreSchema:
    """Return the schema of a value of one of `kinds`; an empty one counts as not given where it may be missing."""
    given: list[Any] = [schema_of(kind, of_record) for kind in kinds if kind not in (Missing, types.NoneType)]
    schema: CoreSchema = given[0] if len(given) == 1 else core_schema.union_schema(given)
    return schema if len(given) == len(kinds) else core_schema.nullable_schema(schema)


def _several(kinds: tuple[Any, ...], of_record: OfRecord) -> CoreSchema:
    if kinds[-1] is ...:
        return core_schema.tuple_schema([schema_of(kinds[0], of_record)], variadic_item_index=0)
    return core_schema.tuple_schema([schema_of(kind, of_record) for kind in kinds])


def _of_class(kind: Any, of_record: OfRecord) -> CoreSchema:
    if hasattr(kind, "from_file"):
        return core_schema.no_info_plain_validator_function(kind.from_file, metadata={"form": kind.form()})
    if issubclass(kind, str):
        return core_schema.no_info_after_validator_function(kind, core_schema.str_schema())
    return of_record(kind)


def _no_number(written: Any) -> Any:
    """Return what is written where yes or no is due, but a number: 1 is mostly a distance or a count in the wrong place."""
    if str(written) in ("0", "1", "0.0", "1.0"):
        raise PydanticKnownError("bool_parsing")
    return written


def _yes_or_no() -> CoreSchema:
    return core_schema.no_info_before_validator_function(_no_number, core_schema.bool_schema())


def _written_as_a_day(written: Any) -> Any:
    """Return what is written where a day is due, but what is only a number: seconds since 1970 are no day of a person's."""
    if (isinstance(written, str) and not _DAY.fullmatch(written)) or isinstance(written, list | dict):
        raise PydanticKnownError("date_parsing", {"error": ""})
    return written


def _day() -> CoreSchema:
    return core_schema.no_info_before_validator_function(_written_as_a_day, core_schema.date_schema())


_PLAIN: dict[Any, Callable[[], CoreSchema]] = {
    str: core_schema.str_schema, int: core_schema.int_schema, float: core_schema.float_schema,
    bool: _yes_or_no, date: _day, Any: core_schema.any_schema,
}  # fmt: skip
