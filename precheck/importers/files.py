"""What all readers of design files share: whether the file is all there, refusals."""

from __future__ import annotations

from pathlib import Path

from precheck.files.foreign import refuse_other
from precheck.files.source import Place, Problem, Unusable, size_of

LARGEST_FILE = 512 * 1024 * 1024  # bytes; a house is 2 to 20 MB
_ENDS = 4096


def refused(name: str, what: str) -> Unusable:
    """Return what is raised for a design file that cannot be used."""
    return Unusable([Problem(Place(name, 1, 1), what)])


def whole(path: Path, name: str) -> tuple[bytes, bytes]:
    """Return how a file begins and ends, by which a reader tells whether it is all there.

    Raises `Unusable` where it cannot be read, is empty, or begins as a file of another kind.
    """
    try:
        size = size_of(path, name, LARGEST_FILE)
        with path.open("rb") as file:
            start = file.read(_ENDS)
            file.seek(max(0, size - _ENDS))
            end = file.read()
    except FileNotFoundError:
        raise refused(name, "there is no such file; check the spelling of the path") from None
    except OSError as error:
        raise refused(name, f"cannot be read ({error.strerror}); name a file that can") from None
    if not start.strip():
        raise refused(name, "the file is empty; save or copy it again")
    refuse_other(name, path.suffix, start)
    return start, end


__all__ = ["refused", "whole"]
