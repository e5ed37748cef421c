"""Stopping a run of many files between two of them, so that its report is whole as far as it goes, and says how far."""

from __future__ import annotations

import signal
import threading
from time import monotonic
from types import FrameType
from typing import Any

_SIGNALS = (signal.SIGINT, signal.SIGTERM)  # Ctrl-C, and what a build server sends
TWICE = 0.5  # seconds within which one signal may come by two ways


class Stopping:
    """While it is entered, the first Ctrl-C is `asked` and waits for the file at hand; a second one ends the run at once."""

    def __init__(self) -> None:
        self.asked = False
        self._at = 0.0
        self._before: dict[Any, Any] = {}

    def __enter__(self) -> Stopping:
        if threading.current_thread() is threading.main_thread():
            self._before = {one: signal.signal(one, self._ask) for one in _SIGNALS}
        return self

    def __exit__(self, *_: object) -> None:
        for one, before in self._before.items():
            signal.signal(one, before)

    def _ask(self, _: int, __: FrameType | None) -> None:
        now = monotonic()
        if self.asked and now - self._at > TWICE:
            raise KeyboardInterrupt
        self.asked, self._at = True, now
