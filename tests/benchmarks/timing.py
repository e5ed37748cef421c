"""Times of calls that take turns, and an environment in which a command starts as it does once installed."""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import tempfile
import time
from collections.abc import Callable
from pathlib import Path


def interleaved(calls: list[Callable[[], object]], runs: int) -> list[float]:
    """Return the median time of each call, the calls taking turns so that noise falls on all alike."""
    times: list[list[float]] = [[] for _ in calls]
    for _ in range(runs):
        for own, call in zip(times, calls, strict=True):
            start = time.perf_counter()
            call()
            own.append(time.perf_counter() - start)
    return [statistics.median(own) for own in times]


def processor_time(commands: list[list[str]], runs: int, folder: Path) -> list[float]:
    """Return the median processor time of each command, run in `folder` in turns, whatever else the machine does."""
    environment = as_installed()

    def spent(command: list[str]) -> float:
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(command, cwd=folder, env=environment, capture_output=True, check=False)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    times = [[spent(command) for command in commands] for _ in range(runs + 1)][
        1:
    ]  # the first leaves the byte code behind
    return [statistics.median(own) for own in zip(*times, strict=True)]


def as_installed() -> dict[str, str]:
    """Return an environment in which byte code is kept, as it is of every installed package, whatever this one says."""
    kept = tempfile.mkdtemp(prefix="precheck-bytecode-")
    own = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**own, "PYTHONPYCACHEPREFIX": kept}
