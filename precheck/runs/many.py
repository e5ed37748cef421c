"""Many project files: spread over processes or a cluster in chunks, taken back in the order in which they were given.

Only a few chunks are under way at a time, so that memory stays flat however many files there are.
"""

from __future__ import annotations

import gc
import os
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import chdir
from dataclasses import replace
from functools import lru_cache, partial
from importlib import import_module
from itertools import chain, islice
from pathlib import Path
from threading import Lock
from typing import Any
from uuid import uuid4

from precheck.checks.outcome import said_of
from precheck.files.source import Place, Problem, Unusable
from precheck.reports.checked import Checked
from precheck.rules.strangers import BrokenOff
from precheck.rules.time_limit import WATCHER
from precheck.runs.desk import Run, desk

__all__ = ["Checked", "Run", "check_many"]

CHUNK = 25  # files; fewer and the messages cost more than the checks, more and the cores finish unevenly
FEWEST = 2 * CHUNK  # files for which starting more processes pays
AHEAD = 4  # chunks under way for each process
_ONE_FOLDER = Lock()  # a worker of several threads has one folder that it is in

Chunk = tuple[str, ...]


def check_many(
    files: Iterable[str], run: Run | None = None, jobs: int | None = None, scheduler: str | None = None
) -> Iterator[Checked]:
    """Check project `files` and yield what comes of each, in their order; one that cannot be used is told.

    `jobs` is the number of processes, by default one for each core once there are enough files to pay for starting
    them. With `scheduler`, the address of a Dask scheduler, the chunks go to its workers instead.
    """
    coming = iter(files)
    first = list(islice(coming, FEWEST))
    run = run or Run()
    run = replace(run, several=run.several or len(first) > 1)
    processes = jobs or (cores() if len(first) == FEWEST else 1)
    chunks = _chunks(chain(first, coming))
    if scheduler:
        return _on_cluster(run, chunks, scheduler)
    return _over_processes(run, chunks, processes) if processes > 1 else _here(run, chunks)


def check_chunk(run: Run, files: Chunk) -> list[Checked]:
    """Check some files in this process."""
    return [desk(run).check(file) for file in files]


def check_and_clear(run: Run, files: Chunk) -> list[Checked]:
    """Check some files, and give back their memory: records know their owners, so that nothing else frees them soon."""
    checked = check_chunk(run, files)
    gc.collect()
    return checked


def cores() -> int:
    """Return how many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _chunks(files: Iterator[str]) -> Iterator[Chunk]:
    while chunk := tuple(islice(files, CHUNK)):
        yield chunk


def _here(run: Run, chunks: Iterable[Chunk]) -> Iterator[Checked]:
    _loaded(run)
    for chunk in chunks:
        yield from (desk(run).check(file) for file in chunk)
        gc.collect()


def _loaded(run: Run) -> None:
    desk(run).load()
    gc.freeze()  # so that to look for what can go is not to go through what was loaded, which stays


def _over_processes(run: Run, chunks: Iterable[Chunk], processes: int) -> Iterator[Checked]:
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool

    _loaded(run)  # once, where the processes start as copies of this one
    pool = ProcessPoolExecutor(processes, initializer=_leave_stopping_to_the_run)
    try:
        yield from _in_order(lambda chunk: pool.submit(check_and_clear, run, chunk), chunks, AHEAD * processes)
    except BrokenProcessPool:
        raise BrokenOff("a process ended without an answer; use --jobs 1 to see at which file") from None
    finally:
        pool.shutdown(cancel_futures=True)


def _leave_stopping_to_the_run() -> None:
    """Let Ctrl-C, which every process of a terminal gets, reach the run alone; it stops between two files.

    That a process of many ends is noticed by the run, and needs no watcher.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    WATCHER.set(None)


def _on_cluster(run: Run, chunks: Iterable[Chunk], scheduler: str) -> Iterator[Checked]:
    client = _client(scheduler)
    run = replace(run, begun=uuid4().hex)  # workers go on, and a ruleset may change before the next run
    try:
        threads = max(1, sum(client.nthreads().values()))
        yield from _in_order(partial(_submitted, client, run, Path.cwd()), chunks, AHEAD * threads)
    except (Unusable, KeyboardInterrupt):
        raise
    except Exception as error:  # whatever a cluster says that lost its workers, or its scheduler
        raise BrokenOff(f"the cluster gave no answer ({said_of(error)})") from None
    finally:
        client.close()


def _client(scheduler: str) -> Any:
    try:
        distributed: Any = import_module("distributed")
    except ImportError:
        raise _broke_off("a cluster needs the package distributed; install precheck[cluster]") from None
    try:
        return distributed.Client(scheduler, set_as_default=False, timeout="20s")
    except (OSError, ValueError) as error:
        raise _broke_off(f"there is no scheduler at `{scheduler}` ({error}); give its address") from None


def _submitted(client: Any, run: Run, folder: Path, chunk: Chunk) -> Any:
    return client.submit(check_there, run, folder, chunk, pure=False)


def check_there(run: Run, folder: Path, files: Chunk) -> list[Checked]:
    """Check some files on a worker, where their names, and those of the run's options, are those of the run's `folder`."""
    with _ONE_FOLDER, _within(folder):
        _loaded_once(run)
        return check_and_clear(run, files)


@lru_cache(maxsize=1)
def _loaded_once(run: Run) -> None:
    """Load on a worker, which is no copy of the run's own process, what each chunk of the run takes."""
    gc.unfreeze()  # what the worker loaded for the run before can go now
    _loaded(run)


def _within(folder: Path) -> chdir[Path]:
    if not folder.is_dir():
        raise FileNotFoundError(f"a worker has no folder {folder}; the run's folder must be at the same path there")
    return chdir(folder)


def _in_order(submit: Callable[[Chunk], Any], chunks: Iterable[Chunk], ahead: int) -> Iterator[Checked]:
    """Keep up to `ahead` chunks under way and yield what comes of them in their order."""
    under_way: deque[Any] = deque()
    for chunk in chunks:
        under_way.append(submit(chunk))
        if len(under_way) >= ahead:
            yield from under_way.popleft().result()
    while under_way:
        yield from under_way.popleft().result()


def _broke_off(what: str) -> Unusable:
    return Unusable([Problem(Place("precheck", 1, 1), what)])
