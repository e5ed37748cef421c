"""Reading a design file in a process of its own: what a broken file does to a reader's compiled code ends there.

The process answers with pickled messages on its own standard output; all that readers print goes nowhere.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from threading import Timer
from typing import IO, Any

from precheck.files.source import Unusable
from precheck.importers.bounded import bound, too_large, too_much
from precheck.importers.draft import Draft
from precheck.importers.files import refused
from precheck.importers.mapping import Mapping

PATIENCE = 600  # seconds; a house takes two
GRACE = 5  # seconds in which a process that has nothing more to say ends
_CALL = "from precheck.importers.apart import answer; answer()"

Reader = Callable[[Path, str, Mapping, Callable[[int, int], None]], Draft]


def read_apart(reader: Reader, path: Path, name: str, mapping: Mapping, tick: Callable[[int, int], None]) -> Draft:
    """Return what `reader` makes of the design file at `path`. Raises `Unusable`, also where the reader breaks off."""
    paths = os.pathsep.join([*map(str, sys.path), os.environ.get("PYTHONPATH", "")])
    with subprocess.Popen(
        [sys.executable, "-c", _CALL],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": paths},
    ) as process:
        end = Timer(PATIENCE, process.kill)
        end.start()
        try:
            for kind, told in _messages(process, pickle.dumps((reader, path, name, mapping))):
                if kind == "draft":
                    return told  # type: ignore[no-any-return]  # written by `answer`
                _heed(kind, told, name, tick)
            with suppress(subprocess.TimeoutExpired):
                process.wait(GRACE)
        finally:
            end.cancel()
            process.kill()
    broke_off = "the reader broke off or took too long; something in the file is broken, export it again"
    raise refused(name, too_much(path, process.returncode) or broke_off)


def _heed(kind: str, told: Any, name: str, tick: Callable[[int, int], None]) -> None:
    if kind == "tick":
        tick(*told)
    elif kind == "unusable":
        raise Unusable(told)
    else:
        raise refused(name, f"not readable ({told}); export it again, or report this with the file")


def _messages(process: subprocess.Popen[bytes], task: bytes) -> Iterator[tuple[str, Any]]:
    assert process.stdin is not None
    assert process.stdout is not None
    try:
        process.stdin.write(task)
        process.stdin.close()
        while True:
            yield pickle.load(process.stdout)
    except (EOFError, BrokenPipeError, pickle.UnpicklingError):
        return


def answer() -> None:
    """Read the file that standard input names, and answer: the process's whole work."""
    with os.fdopen(os.dup(1), "wb") as out:
        os.dup2(2, 1)
        reader, path, name, mapping = pickle.load(sys.stdin.buffer)
        bound(path)
        try:
            draft = reader(path, name, mapping, lambda done, total: _tell(out, "tick", (done, total)))
            _tell(out, "draft", draft)
        except Unusable as error:
            _tell(out, "unusable", error.problems)
        except MemoryError:
            _tell(out, "unusable", refused(name, too_large(path)).problems)
        except Exception as error:  # whatever a broken file makes of reading it
            _tell(out, "broke off", f"{type(error).__name__}: {str(error)[:80]}")


def _tell(out: IO[bytes], kind: str, told: Any) -> None:
    pickle.dump((kind, told), out)
    out.flush()


__all__ = ["read_apart"]
