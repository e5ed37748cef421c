"""File names as the address that a standard report gives: relative to where the run started, with forward slashes."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote


def uri(file: str) -> str:
    """Return `file` as a URI reference; absolute where the file lies outside the folder of the run."""
    path = Path(file)
    if not path.is_absolute():
        return quote(path.as_posix())
    here = Path.cwd()
    return quote(path.relative_to(here).as_posix()) if path.is_relative_to(here) else path.as_uri()


def plain_path(file: str) -> str:
    """Return `file` with forward slashes, relative to the folder of the run where it lies in it."""
    path = Path(file)
    here = Path.cwd()
    return (path.relative_to(here) if path.is_absolute() and path.is_relative_to(here) else path).as_posix()
