"""What the fields of a record hold, from their annotations: a kind of value, a record, a list of either, references."""

from __future__ import annotations

from collections.abc import Iterable
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from precheck.files.missing import Missing
from precheck.files.record import Field, Record, Reference, fields_of
from precheck.units import Measure


def fields_by_key(model: type[Record]) -> dict[str, Field]:
    """Return the fields of `model` by their keys in files."""
    return {field.key: field for field in fields_of(model).values()}


def attribute_of(model: type[Record], key: str) -> str:
    """Return the name of the field whose key in files is `key`."""
    return next(name for name, field in fields_of(model).items() if field.key == key)


def held_in(annotation: Any) -> tuple[type | None, type[Record] | None, bool]:
    """Return the kind of value that a field has, or the record that it holds, and whether it holds a list of them."""
    origin, arguments = get_origin(annotation), get_args(annotation)
    if origin is tuple:
        many = len(arguments) == 2 and arguments[1] is ...
        kind, record, nested = held_in(arguments[0]) if many else (None, None, False)
        return (None if nested else kind), record, many
    if origin is Literal:
        return str, None, False
    if origin in (Union, UnionType, Annotated):
        found = [held_in(a) for a in arguments if isinstance(a, type) or get_origin(a) is not None]
        return next((f for f in found if f[0] is not None or f[1] is not None), (None, None, False))
    if not isinstance(annotation, type) or annotation is Missing:
        return None, None, False
    if issubclass(annotation, Record):
        return None, annotation, False
    return (annotation, None, False) if issubclass(annotation, Measure | bool | int | str) else (None, None, False)


def choices_in(annotation: Any) -> Iterable[str]:
    """Yield the words that a field offers as its choices."""
    if get_origin(annotation) is Literal:
        yield from map(str, get_args(annotation))
    else:
        for argument in get_args(annotation):
            yield from choices_in(argument)


def reference_in(annotation: Any) -> tuple[type[Reference] | None, bool]:
    """Return the kind of reference that a field holds, and whether it holds several."""
    if isinstance(annotation, type) and issubclass(annotation, Reference):
        return annotation, False
    found = (reference_in(one)[0] for one in get_args(annotation) if one is not ...)
    return next((one for one in found if one is not None), None), get_origin(annotation) is tuple
