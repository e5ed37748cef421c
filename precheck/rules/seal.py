"""What the code of strangers must leave as it is, noticed when it does not, and put back.

It guards against slips and clever shortcuts, not against malice: a plugin runs in this process with all its rights.
"""

from __future__ import annotations

import builtins
import os
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

from precheck.files.record import Record
from precheck.immutable import complete

_OURS = "precheck"
_LATE = ("__annotat", "__signature__", "__non_callable_proto", "_abc_impl")  # what Python fills in later


class Seal:
    """Our classes and functions, the built-in ones, the recursion limit and the folder of the run, as they are now."""

    def __init__(self, records: Iterable[Record] = ()) -> None:
        self._limit = sys.getrecursionlimit()
        self._folder = Path.cwd()
        self._owners = [(owner, _held(owner)) for owner in _owners()]
        self._records = [(record, dict(record.__dict__)) for record in records]

    def broken(self) -> str:
        """Return what has changed since, after putting it back; nothing where all is as it was."""
        return ", ".join([*self._of_process(), *self._of_code(), *self._of_project()])

    def _of_process(self) -> Iterator[str]:
        if sys.getrecursionlimit() != self._limit:
            sys.setrecursionlimit(self._limit)
            yield "the recursion limit"
        if not _is_here(self._folder):
            os.chdir(self._folder)
            yield "the folder of the run"

    def _of_code(self) -> Iterator[str]:
        for owner, held in self._owners:
            now = vars(owner)
            for name, value in held.items():
                if now.get(name) is not value:
                    setattr(owner, name, value)
                    yield f"{owner.__name__}.{name}"

    def _of_project(self) -> Iterator[str]:
        for record, held in self._records:
            values = record.__dict__
            if any(name not in values or values[name] is not value for name, value in held.items()):
                values.update(held)
                yield f"the project ({record.label})"


def _is_here(folder: Path) -> bool:
    try:
        return Path.cwd() == folder
    except FileNotFoundError:
        return False


def _owners() -> Iterator[Any]:
    yield builtins
    for name, module in sorted(sys.modules.items()):
        if module is not None and (name == _OURS or name.startswith((f"{_OURS}.", f"{_OURS}_plugins"))):
            yield module
            yield from (one for one in vars(module).values() if isinstance(one, type) and one.__module__ == name)


def _held(owner: Any) -> dict[str, Any]:
    """Return what of a class or a module can be told to be the same: of a module its functions and classes."""
    if isinstance(owner, type):
        complete(owner)
    if isinstance(owner, ModuleType):
        kinds = (FunctionType, type) if owner is not builtins else object
        return {name: one for name, one in vars(owner).items() if isinstance(one, kinds) and name != "_"}
    return {name: one for name, one in vars(owner).items() if not name.startswith(_LATE) and name != "__dict__"}
