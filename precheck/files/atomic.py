"""Putting a file in place in one step: whatever breaks off in between, the old file is there, whole."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Iterable
from pathlib import Path

_WRITABLE = 0o222
_NEW_FILE = 0o666  # less what the person's umask takes away, as for any file that a program makes


def put(path: Path, bits: Iterable[bytes]) -> None:
    """Write `bits` to `path`, through a file beside it that takes its place when all is on the disk.

    A link stays a link, and a file keeps its permissions. Raises `OSError`; a read-only file is not replaced. A pipe or a
    device, such as ``/dev/null``, is no file to replace: it is written to.
    """
    if path.exists() and not path.is_file() and not path.is_dir():
        with path.open("wb") as stream:
            stream.writelines(bits)
        return
    target = Path(os.path.realpath(path))
    if target.exists() and not (target.stat().st_mode & _WRITABLE and os.access(target, os.W_OK)):
        raise PermissionError(errno.EACCES, "it is read-only")
    temporary = None
    try:
        with tempfile.NamedTemporaryFile("wb", dir=target.parent, prefix=f".{target.name[:60]}.", delete=False) as file:
            temporary = Path(file.name)
            file.writelines(bits)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(target.stat().st_mode & 0o777 if target.exists() else _NEW_FILE & ~_umask())
        temporary.replace(target)
    finally:
        if temporary is not None:
            temporary.unlink(missing_ok=True)  # only left over where the write broke off


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
