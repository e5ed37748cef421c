"""How far a long run is, on a terminal; silent for the first second, and wherever nobody watches."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from time import monotonic
from typing import TypeVar

T = TypeVar("T")
SILENT = 1.0  # seconds
PAUSE = 0.1
WIDTH = 30


def watched(items: Iterable[T], total: int) -> Iterator[T]:
    """Yield `items`, and show on a terminal how many of `total` are done."""
    return _shown(items, total) if sys.stderr.isatty() else iter(items)


def _shown(items: Iterable[T], total: int) -> Iterator[T]:
    began = last = monotonic()
    try:
        for done, item in enumerate(items, 1):
            _clear()
            yield item
            now = monotonic()
            if now - began > SILENT and now - last > PAUSE:
                last = now
                _draw(done, total)
    finally:
        _clear()


def _draw(done: int, total: int) -> None:
    filled = WIDTH * done // max(total, 1)
    sys.stderr.write(f"\r[{'=' * filled}{' ' * (WIDTH - filled)}] {done:,} of {total:,} files")
    sys.stderr.flush()


def _clear() -> None:
    sys.stderr.write("\r\x1b[K")
