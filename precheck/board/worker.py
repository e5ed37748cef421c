"""One thread that does all the work on the house: the first one, where a check that hangs can be broken off.

The server answers from another thread and hands over what it is asked; so the house is used by one thread at a time.
"""

from __future__ import annotations

import gc
from collections.abc import Callable
from concurrent.futures import Future
from contextlib import suppress
from queue import Empty, Queue
from typing import Any, TypeVar

T = TypeVar("T")
MOST_LEFT = (
    400_000  # objects, some 50 MB, that are no longer used or soon will be: some twenty changes of a large house
)
_LOOK = 0.25  # seconds between two looks at whether to go on, where nothing is asked


class Worker:
    """A queue of things to do, done one after the other by whoever calls `run`."""

    def __init__(self) -> None:
        self._queue: Queue[tuple[Callable[[], Any], Future[Any]]] = Queue()
        self._ended = False

    def submit(self, do: Callable[[], T]) -> Future[T]:
        """Have `do` done in its turn; return what will hold its result."""
        future: Future[T] = Future()
        if self._ended:
            future.cancel()
        else:
            self._queue.put((do, future))
        return future

    def end(self) -> None:
        """Take nothing more, and leave undone what waits, so that nobody waits for it without end."""
        self._ended = True
        while not self._queue.empty():
            with suppress(Empty):
                self._queue.get_nowait()[1].cancel()
        self._queue.put((lambda: None, Future()))  # so that whoever waits for work looks up

    def run(self, goes_on: Callable[[], bool]) -> None:
        """Do what is asked as long as `goes_on` says so.

        What is no longer used is cleared away when nothing is asked; or sooner, where that never comes and it is too much.
        """
        gc.disable()  # else it is walked over again and again while somebody waits for an answer
        worked = False
        try:
            while goes_on():
                try:
                    do, future = self._queue.get(timeout=_LOOK)
                except Empty:
                    if worked:
                        gc.collect()
                    worked = False
                    continue
                worked = True
                if future.set_running_or_notify_cancel():
                    _done(do, future)
                if gc.get_count()[0] > MOST_LEFT:
                    gc.collect()
                    worked = False
        finally:
            gc.enable()


def _done(do: Callable[[], Any], future: Future[Any]) -> None:
    try:
        future.set_result(do())
    except KeyboardInterrupt:
        future.cancel()
        raise
    except BaseException as error:  # whatever broke off belongs to whoever asked
        future.set_exception(error)
