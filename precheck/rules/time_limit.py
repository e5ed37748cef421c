"""A time limit for rules, and for plugins that load, so that nobody waits without end.

It works where an interval timer can interrupt: in the main thread, and not on Windows. Elsewhere one waits.
"""

from __future__ import annotations

import signal
import threading
from time import perf_counter
from types import FrameType
from typing import Any

LONGEST = (
    30.0  # seconds for one rule over all its subjects, or for one plugin to load; a house takes a thousandth of it
)


class TooLongError(BaseException):
    """Raised within what took too long. It is no `Exception`, so that what catches those cannot keep it from ending."""


class Watch:
    """While it is entered, what is timed by `start` is stopped by `TooLongError` after `longest` seconds."""

    def __init__(self, longest: float | None = None) -> None:
        self.longest = longest or LONGEST
        self.began = perf_counter()
        self._before: Any = None
        self._ticking = hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()

    def __enter__(self) -> Watch:
        if self._ticking and signal.getitimer(signal.ITIMER_REAL)[0]:
            self._ticking = False  # someone else's alarm is set; it is not ours to take
        if self._ticking:
            self._before = signal.signal(signal.SIGALRM, self._look)
            signal.setitimer(signal.ITIMER_REAL, self.longest, self.longest / 4)
        return self

    def __exit__(self, *_: object) -> None:
        if self._ticking:
            signal.setitimer(signal.ITIMER_REAL, 0)
            signal.signal(signal.SIGALRM, self._before)

    def start(self) -> None:
        """Begin to time anew."""
        self.began = perf_counter()

    def _look(self, _: int, __: FrameType | None) -> None:
        if perf_counter() - self.began >= self.longest:
            self.start()
            raise TooLongError(f"stopped after {self.longest:g} s")
