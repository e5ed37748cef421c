"""The fields of a kind of record, from its annotations, and the validator that reads it.

Nothing of a kind is worked out before the first record of it is read: a file has few of the kinds that there are, and
every command would pay for all of them.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from functools import cache
from inspect import get_annotations
from typing import Annotated, Any, ClassVar, get_args, get_origin

from pydantic_core import CoreSchema, SchemaValidator, core_schema

from precheck.files.missing import Missing
from precheck.files.values import schema_of

NOT_GIVEN = Missing()


class Field:
    """One field of a record: its key in the file, whether it must be given, and whether it is a `Maybe`."""

    def __init__(self, owner: type, name: str, written: Any, *default: Any) -> None:
        self.key = name.rstrip("_").replace("_", " ")
        self.required = not default
        self.maybe = default == (NOT_GIVEN,)
        self._owner, self._written, self._default = owner, written, default

    @property
    def kind(self) -> Any:
        """The type that the record annotates it with, marks and all."""
        return _evaluated(self._owner.__module__, self._written)

    @property
    def annotation(self) -> Any:
        """The type of its values."""
        return _bare(self._owner.__module__, self._written)

    @property
    def schema(self) -> CoreSchema:
        """The schema by which its values are read."""
        return _schema(self._owner.__module__, self._written)

    def default(self) -> Any:
        """Return what it is where the file does not give it: a mapping of its own, or the value that all share."""
        (value,) = self._default
        return dict(value) if isinstance(value, dict) else value


@cache
def _evaluated(module: str, written: Any) -> Any:
    return eval(written, vars(sys.modules[module])) if isinstance(written, str) else written


@cache
def _bare(module: str, written: Any) -> Any:
    kind = _evaluated(module, written)
    return get_args(kind)[0] if get_origin(kind) is Annotated else kind


@cache
def _schema(module: str, written: Any) -> CoreSchema:
    return schema_of(_evaluated(module, written), _read_when_met)


class _Kind(type):
    """The class of kinds of record, by which the type checker takes them for the keys that they are in what is kept."""


class Fielded(metaclass=_Kind):
    """The base of records: a subclass annotates its fields, after those that it inherits. Names with an underscore before are none.

    The defaults are taken from the class, so that what is not given is asked of the record's ``__getattr__``.
    """

    __slots__ = ()
    _own_fields: ClassVar[Mapping[str, tuple[Any, ...]]] = {}

    def __init_subclass__(cls) -> None:
        own: dict[str, tuple[Any, ...]] = {}
        for name, written in get_annotations(cls).items():
            if not name.startswith("_") and "ClassVar" not in str(written):
                own[name] = (written, *((cls.__dict__[name],) if name in cls.__dict__ else ()))
                if name in cls.__dict__:
                    delattr(cls, name)
        cls._own_fields = own

    @classmethod
    def made(cls, values: dict[str, Any]) -> Any:
        """Return a record of values that were read, by the names of their fields."""
        raise NotImplementedError

    @classmethod
    def as_meant(cls, written: Any) -> Any:
        """Return the mapping that a person means by what is `written`; a subclass may complete it."""
        return written


@cache
def fields_of(model: type[Fielded]) -> dict[str, Field]:
    """Return the fields of `model` by their names."""
    bases = (base for base in reversed(model.__mro__) if issubclass(base, Fielded))
    return {name: Field(base, name, *own) for base in bases for name, own in base._own_fields.items()}


def key_of(model: type[Fielded], field: str) -> str:
    """Return the key under which a file gives `field`."""
    return fields_of(model)[field].key


@cache
def yes_or_no(model: type[Fielded]) -> frozenset[str]:
    """Return the keys of a kind of record that a file answers with yes or no."""
    return frozenset(field.key for field in fields_of(model).values() if bool in get_args(field.annotation))


@cache
def validator_of(model: type[Fielded]) -> SchemaValidator:
    """Return what reads a mapping as a `model`."""
    fields = {
        name: core_schema.typed_dict_field(field.schema, required=field.required, validation_alias=field.key)
        for name, field in fields_of(model).items()
    }
    given = core_schema.typed_dict_schema(fields, extra_behavior="forbid")
    return SchemaValidator(core_schema.no_info_after_validator_function(model.made, meant(model, given)))


def meant(model: type[Fielded], schema: CoreSchema) -> CoreSchema:
    """Return `schema`, before which the record completes what is written, where it does that."""
    completes = model.as_meant.__func__ is not Fielded.as_meant.__func__  # type: ignore[attr-defined]  # class methods
    return core_schema.no_info_before_validator_function(model.as_meant, schema) if completes else schema


@cache
def _read_when_met(model: type[Fielded]) -> CoreSchema:
    """Return the schema of a record within another: its validator is made when a file has one. Errors keep their way."""

    def read(written: Any) -> Any:
        return validator_of(model).validate_python(written)

    return core_schema.no_info_plain_validator_function(read)
