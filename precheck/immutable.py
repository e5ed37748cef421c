"""Records of values that nobody changes: frozen dataclasses whose methods all share, save the constructor.

To write six methods for each class, as the standard library does, takes half a millisecond, which every command would pay
for every class that it imports. Here the constructor alone is written, when the first record is made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from functools import cache
from operator import attrgetter
from typing import Any, NoReturn, TypeVar

from typing_extensions import dataclass_transform

__all__ = ["fixed"]  # of what plugins are offered

T = TypeVar("T")
_MADE = object()  # the default of what is made anew for each record


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def fixed(cls: type[T]) -> type[T]:
    """Make `cls` a frozen dataclass of the fields that it annotates: `dataclasses.replace` and `fields` know it."""
    for name, method in _METHODS.items():
        if name not in cls.__dict__:
            setattr(cls, name, method)
    return dataclass(init=False, repr=False, eq=False)(cls)  # which notes the fields, and writes nothing


def complete(cls: Any) -> None:
    """Write the constructor of `cls` if none of its records was made as yet."""
    if cls.__dict__.get("__init__") is _made:
        cls.__init__ = _constructor(cls)


def _made(self: Any, /, *values: Any, **named: Any) -> None:
    """Make the first record of a class, or of one that has its constructor from it."""
    complete(next(one for one in type(self).__mro__ if "__init__" in one.__dict__))
    self.__init__(*values, **named)


def _constructor(owner: Any) -> Callable[..., None]:
    given = [one for one in fields(owner) if one.init]
    known = {"_MADE": _MADE} | {f"_{one.name}": _default(one) for one in given}
    parameters = ", ".join(_parameters(given))
    body = "".join(f"\n    _own[{one.name!r}] = {_value(one)}" for one in given)
    exec(f"def __init__(self, {parameters}):\n    _own = self.__dict__{body}", known)
    found: Callable[..., None] = known["__init__"]  # type: ignore[assignment]  # which was written just now
    return found


def _parameters(given: list[Field[Any]]) -> Iterator[str]:
    yield from map(_parameter, (one for one in given if not one.kw_only))
    if named := [one for one in given if one.kw_only]:
        yield "*"
        yield from map(_parameter, named)


def _parameter(one: Field[Any]) -> str:
    if one.default_factory is not MISSING:
        return f"{one.name}=_MADE"
    return one.name if one.default is MISSING else f"{one.name}=_{one.name}"


def _default(one: Field[Any]) -> Any:
    return one.default if one.default_factory is MISSING else one.default_factory


def _value(one: Field[Any]) -> str:
    return one.name if one.default_factory is MISSING else f"_{one.name}() if {one.name} is _MADE else {one.name}"


@cache
def _values(cls: type) -> Callable[[Any], Any]:
    """Return what gives the values of a record by which it is compared, as one thing to compare and to hash."""
    names = [one.name for one in fields(cls) if one.compare]
    return attrgetter(*names) if names else lambda _: ()


def _equal(self: Any, other: object) -> Any:
    if other.__class__ is not self.__class__:
        return NotImplemented
    values = _values(self.__class__)  # type: ignore[arg-type]  # a class is hashable; typeshed's stub says it is not
    return values(self) == values(other)


def _hashed(self: Any) -> int:
    return hash(_values(self.__class__)(self))


def _shown(self: Any) -> str:
    told = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{type(self).__qualname__}({told})"


def _refused(self: Any, name: str, *_: Any) -> NoReturn:
    raise FrozenInstanceError(f"{name} of {type(self).__name__} is frozen")


_METHODS: dict[str, Callable[..., Any]] = {
    "__init__": _made, "__eq__": _equal, "__hash__": _hashed, "__repr__": _shown, "__setattr__": _refused,
    "__delattr__": _refused,
}  # fmt: skip
