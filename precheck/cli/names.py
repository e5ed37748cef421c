"""Every name that a plugin may use, with its signature and what it means, from the code itself."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cached_property
from importlib import import_module
from typing import Any

import click

import precheck
from precheck.files.mistakes import nearest
from precheck.files.record import Record, fields_of
from precheck.files.source import read_text
from precheck.project import Project, project_from
from precheck.questions.answer import form_of
from precheck.reports.width import wrapped
from precheck.rules.plugins import Specifications
from precheck.survey import Fact

HOOKS = "hooks, which a plugin marks with @hookimpl"
_QUOTED = re.compile(r"(?:(?<=: )|(?<=> ))(?:ForwardRef\('([^']*)'\)|'([^']*)')")
_OF_READING = ("as_meant", "label_under")  # what reading calls, and no plugin


def told(name: str | None) -> Iterator[str]:
    """Yield the page of all names, or all that is said of one. Raises click's error for a name that is not offered."""
    known = {one: found for names in names_by_home().values() for one, found in names.items()}
    if name is None:
        yield from page()
    elif name in known:
        yield from in_full(name, known[name])
    else:
        meant = nearest(name, known) or "; `precheck plugins --names` lists the names"
        raise click.BadParameter(f"precheck offers no `{name}`{meant}")


def names_by_home() -> dict[str, dict[str, Any]]:
    """Return what a plugin may use, by what it is about: the hooks, and all that ``precheck`` offers, by its modules."""
    hooks = {name: hook for name, hook in vars(Specifications).items() if not name.startswith("_")}
    homes = {home: import_module(f"precheck.{home}").__all__ for home in precheck._HOMES}
    return {
        HOOKS: hooks,
        **{home: {name: getattr(precheck, name) for name in sorted(names)} for home, names in homes.items()},
    }


def page() -> Iterator[str]:
    """Yield the page of all names, each with its signature and the first sentence on it."""
    for home, names in names_by_home().items():
        yield home.partition(".")[2].upper() or home.upper()
        for name, found in names.items():
            yield from wrapped(signature(name, found), indent=2, hang=4)
            yield from wrapped(_summary(found), indent=6)
        yield ""


def in_full(name: str, found: Any) -> Iterator[str]:
    """Yield all that is said of one name: its signature, its docstring, its fields, what its methods and properties give."""
    yield from wrapped(signature(name, found), hang=4)
    yield from (f"  {line}".rstrip() for line in (inspect.getdoc(found) or "").splitlines())
    if not isinstance(found, type):
        return
    if issubclass(found, Record):
        yield "FIELDS, by their keys in the file"
        yield from _fields(found)
    if issubclass(found, Enum):
        yield from wrapped(f"One of: {', '.join(found.__members__)}", indent=2, hang=4)
    members = [(own, member) for own, member in _members(found) if not own.startswith("_") and own not in _OF_READING]
    if members:
        yield "ALSO"
    for own, member in members:
        yield from wrapped(signature(own, member), indent=2, hang=4)
        yield from wrapped(_summary(member), indent=6)


def signature(name: str, found: Any) -> str:
    """Return how a name is used: a function with its parameters, a class as it is built, a property or value by itself."""
    if isinstance(found, classmethod | staticmethod):
        found = found.__func__
    if isinstance(found, type) and issubclass(found, Fact):
        return f"{name}({', '.join(f'{field}: {_kind_of(found, field)}' for field in found._fields)})"
    if isinstance(found, type) and is_dataclass(found):
        return f"{name}({', '.join(_as_given(one) for one in fields(found) if one.init)})"
    by_itself = isinstance(found, type) and issubclass(found, Record | Enum)
    if by_itself or isinstance(found, property | cached_property):
        return name
    try:
        told = str(inspect.signature(found))
    except (TypeError, ValueError):
        return name
    bare = _QUOTED.sub(lambda match: match[1] or match[2], told)
    without_self = re.sub(r"\((?:self|cls)(?:, )?", "(", bare, count=1)
    return f"{name}{without_self}"


def _as_given(one: Field[Any]) -> str:
    """Return a field of a class of values as one gives it: ``example: str = ''``."""
    kind = one.type if isinstance(one.type, str) else getattr(one.type, "__name__", str(one.type))
    default = "" if one.default is MISSING else f" = {one.default!r}"
    return f"{one.name}: {kind}{default or (' = ...' if one.default_factory is not MISSING else '')}"


def _kind_of(kind: type, field: str) -> str:
    """Return how the class that declares a field types it."""
    every = (inspect.get_annotations(one) for one in kind.__mro__)
    return next(str(own[field]) for own in every if field in own)


def _summary(found: Any) -> str:
    """Return the first sentence on it; what is a value and has none says its type."""
    told = inspect.getdoc(found) if callable(found) or hasattr(found, "__doc__") else ""
    own = told if told != inspect.getdoc(type(found)) or isinstance(found, type) else ""
    return (own or f"{type(found).__name__}: {found!r}").partition("\n\n")[0]


def _fields(model: type[Record]) -> Iterator[str]:
    house: Project = project_from(read_text("project: any", ""))
    for field in fields_of(model).values():
        form, _, choices = form_of(field.annotation, house)
        listed = f": {', '.join(choices)}" if choices and form != "yes or no" else ""
        yield from wrapped(f"{field.key}: {form}{listed}{' (required)' if field.required else ''}", indent=2, hang=4)


def _members(kind: type) -> Iterator[tuple[str, Any]]:
    """Yield what a class of ours and those that it extends define, once each."""
    seen: set[str] = set()
    for one in kind.__mro__:
        if one.__module__.startswith("precheck") and one is not Record:
            for name, member in vars(one).items():
                if isinstance(member, property | cached_property | classmethod) or inspect.isfunction(member):
                    if name not in seen:
                        yield name, member
                    seen.add(name)
