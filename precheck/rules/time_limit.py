"""A time limit for rules, and for plugins that load, so that nobody waits without end.

It works where an interval timer can interrupt: in the main thread, and not on Windows. Elsewhere one waits. What catches
all that is raised in it, and goes on, ends the run: no report then says what was not decided.
"""

from __future__ import annotations

import os
import signal
import sys
import threading
from contextvars import ContextVar
from time import perf_counter
from types import FrameType
from typing import Any

LONGEST = (
    30.0  # seconds for one rule over all its subjects, or for one plugin to load; a house takes a thousandth of it
)
EXIT_BROKEN_OFF = 3
WATCHER: ContextVar[int | None] = ContextVar("WATCHER", default=None)
"""The pipe to the process that watches over this one, which is told whose code runs; None where nobody watches."""


class TooLongError(BaseException):
    """Raised within what took too long. It is no `Exception`, so that what catches those cannot keep it from ending."""


class Watch:
    """While it is entered, what is timed by `start` is stopped by `TooLongError` after `longest` seconds."""

    def __init__(self, longest: float | None = None) -> None:
        self.longest = longest or LONGEST
        self.began = perf_counter()
        self.running = ""
        self._broken_off = self._interrupted = False
        self._before: dict[Any, Any] = {}
        self._ticking = hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()

    def __enter__(self) -> Watch:
        if self._ticking and signal.getitimer(signal.ITIMER_REAL)[0]:
            self._ticking = False  # someone else's alarm is set; it is not ours to take
        if self._ticking:
            self._before[signal.SIGALRM] = signal.signal(signal.SIGALRM, self._look)
            signal.setitimer(signal.ITIMER_REAL, self.longest, self.longest / 4)
            if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
                self._before[signal.SIGINT] = signal.signal(signal.SIGINT, self._interrupt)
        return self

    def __exit__(self, kind: object, *_: object) -> None:
        if self._ticking:
            signal.setitimer(signal.ITIMER_REAL, 0)
        for one, before in self._before.items():
            signal.signal(one, before)
        if self.running:
            self._tell("")
        if self._interrupted and kind is None:
            raise KeyboardInterrupt

    def start(self, running: str = "") -> None:
        """Begin to time anew; `running` names whose code runs, where it is a stranger's.

        A Ctrl-C that what ran before has caught is raised again.
        """
        if self._interrupted:
            raise KeyboardInterrupt
        self.began = perf_counter()
        self._broken_off = False
        if running != self.running:
            self._tell(running)
        if running and self._ticking and signal.getsignal(signal.SIGALRM) != self._look:
            signal.signal(signal.SIGALRM, self._look)  # a stranger took it

    def _tell(self, running: str) -> None:
        self.running = running
        if (watcher := WATCHER.get()) is not None:
            os.write(watcher, f"{' '.join(running.split())}\n".encode())

    def _look(self, _: int, __: FrameType | None) -> None:
        if perf_counter() - self.began < self.longest:
            return
        if self._broken_off:
            ended(f"{self.running or 'a check'} does not let itself be broken off, so the run ends here")
        self.began = perf_counter()
        self._broken_off = True
        raise TooLongError(f"stopped after {self.longest:g} s")

    def _interrupt(self, _: int, __: FrameType | None) -> None:
        self._interrupted = True
        raise KeyboardInterrupt


def ended(why: str) -> None:
    """End the process at once with the status of a run that broke off, for what cannot be ended otherwise."""
    stream = sys.__stderr__
    if stream is not None:
        stream.write(f"{why}\n")
        stream.flush()
    if (watcher := WATCHER.get()) is not None:
        os.write(watcher, f"\x00{EXIT_BROKEN_OFF}\n".encode())
    os._exit(EXIT_BROKEN_OFF)
