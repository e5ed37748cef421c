"""How long a design file takes to import and check, and how much of that is our own code. Run it by hand.

``python tests/benchmarks/importing.py FILE.ifc``; without a file, the model that PRECHECK_DUPLEX names. Time spent within the reader's
package (opening, geometry, its lookups) is told apart from ours by the profiler, so the shares are of a slower run.
"""

from __future__ import annotations

import cProfile
import os
import sys
import time
from pathlib import Path
from statistics import median

from precheck.importers import Mapping, project_of, project_text, read_design, read_here
from precheck.runs.desk import Desk, Run

ROUNDS = 5
OTHERS = ("ifcopenshell", "ezdxf", "numpy")


def main() -> None:
    """Print the times and the shares."""
    named = sys.argv[1] if len(sys.argv) > 1 else os.environ.get("PRECHECK_DUPLEX", "")
    if not named:
        sys.exit("name a design file")
    path = Path(named)
    times = [_timed(path) for _ in range(ROUNDS)]
    reading, placing, checking = (median(one) for one in zip(*times, strict=True))
    print(f"import in a process of its own, with loading the reader: {reading:.2f} s (median of {ROUNDS})")
    print(f"as a project {placing * 1000:.0f} ms; import and check under irc-2021 {checking:.2f} s")
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
    read_here(path, path.name, Mapping(), _untold)  # so that loading the reader is not counted
    profile = cProfile.Profile()
    profile.runcall(lambda: project_text(read_here(path, path.name, Mapping(), _untold)))
    spent = {"ours": 0.0, "the reader's": 0.0, "Python's own, called by either": 0.0}
    for entry in profile.getstats():
        code = entry.code if isinstance(entry.code, str) else entry.code.co_filename
        compiled = isinstance(entry.code, str) and any(o in code for o in OTHERS)
        ours = "/precheck/" in code.replace(os.sep, "/") and not isinstance(entry.code, str)
        theirs = compiled or any(f"{os.sep}{o}{os.sep}" in code for o in OTHERS)
        spent["ours" if ours else "the reader's" if theirs else "Python's own, called by either"] += entry.inlinetime
    total = sum(spent.values())
    print("share of the import:", ", ".join(f"{who} {100 * one / total:.0f} %" for who, one in spent.items()))
    for entry in sorted(profile.getstats(), key=lambda e: -e.inlinetime)[:6]:
        print(f"  {entry.inlinetime:.3f} s in {entry.code if isinstance(entry.code, str) else entry.code.co_qualname}")


def _untold(done: int, total: int) -> None:
    """Show nothing."""


if __name__ == "__main__":
    main()
