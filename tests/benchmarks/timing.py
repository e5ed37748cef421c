"""Times of calls that take turns, and an environment in which a command starts as it does once installed."""

from __future__ import annotations

import os
import statistics
import tempfile
import time
from collections.abc import Callable


def interleaved(calls: list[Callable[[], object]], runs: int) -> list[float]:
    """Return the median time of each call, the calls taking turns so that noise falls on all alike."""
    times: list[list[float]] = [[] for _ in calls]
    for _ in range(runs):
        for own, call in zip(times, calls, strict=True):
            start = time.perf_counter()
            call()
            own.append(time.perf_counter() - start)
    return [statistics.median(own) for own in times]


def as_installed() -> dict[str, str]:
    """Return an environment in which byte code is kept, as it is of every installed package, whatever this one says."""
    kept = tempfile.mkdtemp(prefix="precheck-bytecode-")
    own = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**own, "PYTHONPYCACHEPREFIX": kept}
