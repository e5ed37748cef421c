"""Whether anybody has the page open: a board whose window was closed ends by itself, so that none is left running."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic

QUIET = 90.0  # seconds; the browser lets a page in the background ask only once a minute


class Presence:
    """When the page was left, if it was, and whether it has been quiet since for so long that nobody comes back."""

    def __init__(self, now: Callable[[], float] = monotonic) -> None:
        self._now = now
        self._left: float | None = None

    def seen(self) -> None:
        """Note that a page asked for something."""
        self._left = None

    def left(self) -> None:
        """Note that a page was closed, or left for another one."""
        self._left = self._now()

    @property
    def is_over(self) -> bool:
        """Whether the page was left, and no other has asked for anything since for a while."""
        return self._left is not None and self._now() - self._left > QUIET
