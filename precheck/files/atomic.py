"""Putting a file in place in one step: whatever breaks off in between, the old file is there, whole."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from precheck.files.held import hold

_WRITABLE = 0o222
_NEW_FILE = 0o666  # less what the person's umask takes away, as for any file that a program makes
_UNFINISHED = ".precheck-unfinished"  # how the file ends that is written beside the one that it will replace
_LOCK = ".precheck-lock"
_OPEN_STAYS = os.name == "nt"  # there a file that is open cannot be removed


def put(path: Path, bits: Iterable[bytes]) -> None:
    """Write `bits` to `path`, through a file beside it that takes its place when all is on the disk.

    A link stays a link, and a file keeps its permissions. Raises `OSError`; a read-only file is not replaced. A pipe or a
    device, such as ``/dev/null``, is no file to replace: it is written to. What a killed run left beside it is removed.
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        with path.open("wb") as stream:
            stream.writelines(bits)
        return
    target = Path(os.path.realpath(path))
    if target.exists() and not (target.stat().st_mode & _WRITABLE and os.access(target, os.W_OK)):
        raise PermissionError(errno.EACCES, "it is read-only")
    _clear(target.parent)
    temporary = None
    try:
        with _beside(target) as file:
            temporary = Path(file.name)
            file.writelines(bits)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(target.stat().st_mode & 0o777 if target.exists() else _NEW_FILE & ~_umask())
        temporary.replace(target)
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)  # only left over where the write broke off


def _beside(target: Path) -> IO[bytes]:
    """Return a new file beside `target`, held by this process."""
    import tempfile  # which loads archives and random numbers; most commands write nothing

    while True:
        file = tempfile.NamedTemporaryFile(  # noqa: SIM115  # it is closed by whoever fills it
            "wb", dir=target.parent, prefix=f".{target.name[:60]}.", suffix=_UNFINISHED, delete=False
        )
        hold(file, wait=True)
        if _is_same(file, Path(file.name)):
            return file
        file.close()  # another took it for one that was left over, before it was held


def put_in_place_of(path: Path, seen: bytes, text: bytes) -> bool:
    """Put `text` in place of the file at `path` if it still holds what was `seen`; return whether it was put.

    Two that do so at once take turns, so that neither loses what the other wrote. Raises `OSError`.
    """
    with _turn(Path(os.path.realpath(path))):
        if path.read_bytes() != seen:
            return False
        put(path, [text])
        return True


@contextmanager
def _turn(target: Path) -> Iterator[None]:
    """Wait until nobody else writes into `target` by turns, and keep others waiting meanwhile."""
    lock = target.with_name(f".{target.name[:60]}{_LOCK}")
    while True:
        with lock.open("wb") as held:
            hold(held, wait=True)
            if not _is_same(held, lock):  # whoever had it before has removed it
                continue
            try:
                yield
            finally:
                with suppress(OSError):
                    lock.unlink()
        if _OPEN_STAYS:
            with suppress(OSError):  # whoever waits has it open, and removes it in turn
                lock.unlink()
        return


def _is_same(held: IO[bytes], path: Path) -> bool:
    """Return whether the open file `held` is still the one at `path`."""
    try:
        one, other = os.fstat(held.fileno()), path.stat()
    except FileNotFoundError:
        return False
    return (one.st_dev, one.st_ino) == (other.st_dev, other.st_ino)


def _clear(folder: Path) -> None:
    """Remove what runs that were killed while they wrote left in `folder`; a file that is being written is held."""
    for left in folder.glob(f".*{_UNFINISHED}"):
        with suppress(OSError):
            with left.open("rb+") as file:
                free = hold(file)
                if free and not _OPEN_STAYS:
                    left.unlink()
            if free and _OPEN_STAYS:
                left.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
