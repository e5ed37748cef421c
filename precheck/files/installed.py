"""What installed distributions register, read from the folders that tell of them.

The standard library's reading loads a mail parser, archives and sockets with it, which takes as long as a quarter of all
that a check imports. It is asked where a distribution may stand elsewhere than in a folder.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from functools import cache, reduce
from importlib import import_module
from importlib.machinery import PathFinder
from pathlib import Path
from typing import Any, NamedTuple

_APART = re.compile(r"[-_.]+")


class Registered(NamedTuple):
    """What a distribution registers: a name in a group for what stands at `value`, such as ``package.module:name``."""

    group: str
    name: str
    value: str
    distribution: str = "?"
    version: str = ""

    @property
    def package(self) -> str:
        """The package that holds it."""
        return self.value.partition(":")[0].partition(".")[0].strip()

    def load(self) -> Any:
        """Import it. Raises whatever importing it raises."""
        module, _, attributes = self.value.partition("[")[0].partition(":")
        return reduce(getattr, filter(None, attributes.strip().split(".")), import_module(module.strip()))


def registered(*groups: str) -> list[Registered]:
    """Return what installed distributions register in `groups`; nothing is imported."""
    return [one for one in _all(tuple(sys.path)) if one.group in groups]


def version_of(distribution: str) -> str:
    """Return the version of an installed distribution that registers something; nothing where there is none."""
    return next((one.version for one in _all(tuple(sys.path)) if one.distribution == distribution), "")


@cache
def _all(path: tuple[str, ...]) -> tuple[Registered, ...]:
    places = tuple(Path(entry) for entry in path)
    finders = [finder for finder in sys.meta_path if hasattr(finder, "find_distributions")]
    if finders != [PathFinder] or any(one.suffix == ".egg" or one.is_file() for one in places):
        return tuple(_as_the_library_reads())
    return tuple(one for folder in _folders(places) for one in _registered_by(folder))


def _as_the_library_reads() -> Iterator[Registered]:
    from importlib.metadata import entry_points

    found = entry_points()
    for group in found.groups:
        for one in found.select(group=group):
            told = (one.dist.name, one.dist.version) if one.dist is not None and one.dist.name else ()
            yield Registered(one.group, one.name, one.value, *told)


def _folders(places: tuple[Path, ...]) -> Iterator[Path]:
    """Yield the folder that tells of each distribution; of two of one name the first is the one that is imported."""
    seen = set()
    for folder in (one for place in places for one in _told_in(place)):
        name = _APART.sub("_", folder.stem.partition("-")[0]).lower()
        if name not in seen:
            seen.add(name)
            yield folder


def _told_in(place: Path) -> list[Path]:
    try:
        names = os.listdir(place)  # noqa: PTH208  # of some hundreds a tenth tell of distributions
    except OSError:  # it is not there, or is not ours to read
        return []
    return [place / name for name in names if name.endswith((".dist-info", ".egg-info"))]


def _registered_by(folder: Path) -> Iterator[Registered]:
    try:
        lines = (folder / "entry_points.txt").read_text(encoding="utf-8").splitlines()
    except OSError:  # most register nothing
        return
    group, told = "", None
    for line in map(str.strip, lines):
        name, is_one, value = line.partition("=")
        if line.startswith("["):
            group = line.strip("[]")
        elif is_one and not line.startswith("#"):
            told = told or _name_and_version(folder)
            yield Registered(group, name.strip(), value.strip(), *told)


def _name_and_version(folder: Path) -> tuple[str, str]:
    """Return what heads the description of the distribution in `folder`, else what the folder is called."""
    name, _, version = folder.stem.partition("-")
    file = folder / ("METADATA" if folder.suffix == ".dist-info" else "PKG-INFO")
    try:
        head = file.read_text(encoding="utf-8", errors="replace").partition("\n\n")[0]
    except OSError:
        return name, version
    said = dict(line.split(": ", 1) for line in head.splitlines() if ": " in line)
    return said.get("Name", name), said.get("Version", version)


__all__ = ["Registered", "registered", "version_of"]
