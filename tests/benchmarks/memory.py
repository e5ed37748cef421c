"""The memory of one board on the big example while its file is changed again and again, without a pause between.

Run it by hand: ``python tests/benchmarks/memory.py``, or with another number of changes than 2,000; it takes minutes.
"""

from __future__ import annotations

import gc
import shutil
import sys
import tempfile
import threading
from itertools import cycle
from pathlib import Path
from typing import Any

from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.board.worker import Worker
from precheck.runs.desk import Desk, Run

BIG = Path(__file__).parents[2] / "examples" / "alder-court" / "proposed.yaml"
CHANGES = 2000
STATUS = Path("/proc/self/status")


def in_use() -> float:
    """Return the memory that this process holds, in MB."""
    line = next(one for one in STATUS.read_text(encoding="ascii").splitlines() if one.startswith("VmRSS"))
    return int(line.split()[1]) / 1000


def measure(changes: int = CHANGES) -> None:
    """Print the memory at the start, after a quarter of the changes and after all, and how much it grew between."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "house.yaml"
        shutil.copy(BIG, path)
        board, worker = HouseBoard(path, Desk(Run())), Worker()
        board.state()
        gc.collect()
        gc.freeze()  # as the command does
        held = {0: in_use()}
        askers = threading.Thread(target=_ask, args=(board, worker, changes, held))
        askers.start()
        worker.run(askers.is_alive)
        quarter, all_of_them = held[changes // 4], held[changes]
        print(
            f"memory of a board: {held[0]:.0f} MB loaded, {quarter:.0f} MB after {changes // 4:,} changes, "
            f"{all_of_them:.0f} MB after {changes:,} ({all_of_them / quarter:.2f} x), {max(held.values()):.0f} MB at most"
        )


def _ask(board: HouseBoard, worker: Worker, changes: int, held: dict[int, float]) -> None:
    """Ask for one change after the other, as soon as the one before it is answered; fill in what is held after each."""
    kinds = cycle((_sill, _ceiling, _along_the_wall, _undone))
    for number in range(1, changes + 1):
        asked = REQUEST.validate_python(next(kinds)(number))
        found = worker.submit(lambda asked=asked: board.do(asked)).result()  # type: ignore[misc]
        assert "refused" not in found, found["refused"]
        held[number] = in_use()


def _sill(number: int) -> dict[str, Any]:
    return {
        "do": "set",
        "part": "W1",
        "key": "sill height",
        "value": f"{30 + number % 17} {1 + 2 * (number % 31)}/64 in",
    }


def _ceiling(number: int) -> dict[str, Any]:
    return {
        "do": "height",
        "part": "suite",
        "key": "ceiling height",
        "value": f"{96 + number % 13} {1 + 2 * (number % 29)}/64 in",
    }


def _along_the_wall(number: int) -> dict[str, Any]:
    return {"do": "slide", "part": "W1", "middle": [402.0 + number % 97 / 4, 0.0]}


def _undone(number: int) -> dict[str, Any]:
    return {"do": "undo"}


if __name__ == "__main__":
    measure(*map(int, sys.argv[1:2]))
