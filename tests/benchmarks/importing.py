"""How long a design file takes to import and check, and how much of that is our own code. Run it by hand.

``python tests/benchmarks/importing.py FILE.ifc``; without a file, the model that PRECHECK_DUPLEX names. Time spent within the reader's
package (opening, geometry, its lookups) is told apart from ours by the profiler, so the shares are of a slower run.
"""

from __future__ import annotations

import cProfile
import os
import pstats
import sys
import time
from pathlib import Path
from statistics import median

from precheck.desk import Desk, Run
from precheck.importers import project_of, project_text, read_design

ROUNDS = 5
OTHERS = ("ifcopenshell", "ezdxf", "numpy")


def main() -> None:
    """Print the times and the shares."""
    named = sys.argv[1] if len(sys.argv) > 1 else os.environ.get("PRECHECK_DUPLEX", "")
    if not named:
        sys.exit("name a design file")
    path = Path(named)
    began = time.perf_counter()
    read_design(path)
    first = time.perf_counter() - began
    times = [_timed(path) for _ in range(ROUNDS)]
    reading, placing, checking = (median(one) for one in zip(*times, strict=True))
    print(f"first import, with the reader's own: {first:.2f} s; then {reading:.2f} s (median of {ROUNDS})")
    print(f"as a project {placing * 1000:.0f} ms; reading and checking under irc-2021 {checking:.2f} s")
    _shares(path)


def _timed(path: Path) -> tuple[float, float, float]:
    began = time.perf_counter()
    draft = read_design(path)
    read = time.perf_counter()
    project_of(draft, path)
    placed = time.perf_counter()
    Desk(Run(ruleset="irc-2021")).review(str(path))
    return read - began, placed - read, time.perf_counter() - placed


def _shares(path: Path) -> None:
    profile = cProfile.Profile()
    profile.runcall(lambda: project_text(read_design(path)))
    spent: dict[str, float] = {"ours": 0.0, "the reader's": 0.0, "Python's own": 0.0}
    for (file, _, _), (_, _, own, _, _) in pstats.Stats(profile).stats.items():  # type: ignore[attr-defined]  # not in typeshed
        ours = "/precheck/" in file.replace(os.sep, "/")
        spent["ours" if ours else "the reader's" if any(o in file for o in OTHERS) else "Python's own"] += own
    total = sum(spent.values())
    print("share of the import:", ", ".join(f"{who} {100 * one / total:.0f} %" for who, one in spent.items()))


if __name__ == "__main__":
    main()
