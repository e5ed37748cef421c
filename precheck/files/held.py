"""A file held by one process at a time, on every kind of system; some network drives cannot, and nobody waits there."""

from __future__ import annotations

import errno
import time
from importlib import import_module
from typing import IO, Any

try:
    fcntl: Any = import_module("fcntl")
except ImportError:
    fcntl = None
try:
    msvcrt: Any = import_module("msvcrt")  # Windows
except ImportError:
    msvcrt = None

_PAUSE = 0.05  # seconds between two tries
_HELD = (errno.EACCES, errno.EDEADLK)  # what Windows says of a file that another holds


def hold(file: IO[bytes], wait: bool = False) -> bool:
    """Hold `file` as long as it is open, and return whether files can be held here.

    Raises `BlockingIOError` where another process holds it and is not to be waited for.
    """
    try:
        if fcntl is not None:
            fcntl.flock(file, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
        elif msvcrt is not None:
            _hold_a_byte(file, wait)
    except BlockingIOError:
        raise
    except OSError:
        return False
    return fcntl is not None or msvcrt is not None


def _hold_a_byte(file: IO[bytes], wait: bool) -> None:
    while True:
        try:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError as error:
            if error.errno not in _HELD:
                raise
            if not wait:
                raise BlockingIOError(error.errno, "another holds it") from None
            time.sleep(_PAUSE)
        else:
            return
