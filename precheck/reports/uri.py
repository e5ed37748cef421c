"""File names as the address that a standard report gives: relative to where the run started, with forward slashes."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from urllib.parse import quote


def uri(file: str) -> str:
    """Return `file` as a URI reference; absolute where the file lies outside the folder of the run."""
    return _uri(file, str(Path.cwd()))


def plain_path(file: str) -> str:
    """Return `file` with forward slashes, relative to the folder of the run where it lies in it."""
    return _within(Path(file), Path.cwd()).as_posix()


@lru_cache(maxsize=64)
def _uri(file: str, folder: str) -> str:
    path = _within(Path(file), Path(folder))
    return path.as_uri() if path.is_absolute() else quote(path.as_posix())


def _within(path: Path, folder: Path) -> Path:
    return path.relative_to(folder) if path.is_absolute() and path.is_relative_to(folder) else path
