"""Many houses of 40 parts with SARIF: memory as their number grows, two processes and two cluster workers beside one.

Run it by hand: ``python tests/benchmarks/houses.py``, or with the number of houses (10,000 if not given). Only ratios count.
"""

from __future__ import annotations

import hashlib
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from timing import as_installed

HOUSES = 10_000
PARTS = 40
ENVIRONMENT = as_installed()
USES = ("living room", "kitchen", "bedroom", "bedroom", "bathroom", "hall")
PEAKS = """
import contextlib, re, resource, sys
from pathlib import Path
from precheck.cli import main
with contextlib.suppress(SystemExit):
    main()
own = re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())  # getrusage counts the process before it, too
print("PEAKS", own[1], resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss, file=sys.stderr)
"""


class Took(NamedTuple):
    """What a run took: seconds, the peak memory of its own process and of its largest child in MB; and its report."""

    seconds: float
    own: float
    child: float
    report: str


def house(number: int) -> str:
    """Return a project file of 40 parts: rooms in a row with walls, doors, windows, alarms, outlets and a new header."""
    width, height, sill = 110 + number % 37, 84 + number % 19, 36 + number % 13
    lines = [
        f"project: House {number}", f"jurisdiction: {('irc-2018', 'irc-2021', 'irc-2024')[number % 3]}",
        "stories: [{id: ground, level: ground}]", "floors: [{id: slab, phase: existing, base: slab, base level: 0 in}]",
        *(text for key, parts in _parts(width, height, sill) for text in (f"{key}:", *(f"  - {{{one}}}" for one in parts))),
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


def _parts(width: int, height: int, sill: int) -> Iterator[tuple[str, list[str]]]:
    """Yield the lists of a house: with its story and floor 40 parts."""
    rooms = range(len(USES))
    box = [f"rectangle: {{at: [{n * (width + 5)} in, 0 in], width: {width} in, depth: 150 in}}" for n in rooms]
    ceiling = f"ceiling: {{height: {height} in}}"
    phase = ["existing", "existing", "new", "altered", "existing", "existing"]
    yield (
        "spaces",
        [
            f"id: R{n}, use: {USES[n]}, phase: {phase[n]}, story: ground, floor: slab, {box[n]}, {ceiling}"
            for n in rooms
        ],
    )
    yield "walls", [f"id: W{n}, phase: existing, between: [R{n}, R{n + 1}]" for n in rooms[:-1]]
    yield "doors", [
        *(f"id: D{n}, phase: {phase[n]}, between: [R{n}, R{n + 1}], unit size: 30 in x 80 in" for n in rooms[:-1]),
        "id: D9, phase: existing, between: [R0, outside], unit size: 36 in x 80 in, required egress: yes",
    ]  # fmt: skip
    yield (
        "windows",
        [f"id: N{n}, phase: {phase[n]}, space: R{n}, unit size: 36 in x 48 in, sill height: {sill} in" for n in rooms],
    )
    yield "alarms", [f"id: A{n}, phase: {phase[n]}, space: R{n}, detects: [smoke]" for n in rooms]
    yield "receptacles", [f"id: P{n}, phase: {phase[n]}, space: R{n}" for n in rooms]
    yield "members", [
        f"id: H{n}, phase: new, role: header, size: 2x8, plies: 2, openings: [N{n}]" for n in (2, 3)
    ] + ["id: H9, phase: existing, role: beam, size: 4x10"]  # fmt: skip


def written(folder: Path, number: int) -> Path:
    """Write that many houses into a new folder and return it."""
    plans = folder / f"plans-{number}"
    plans.mkdir()
    for each in range(number):
        (plans / f"{each:05}.yaml").write_text(house(each), encoding="utf-8")
    return plans


def checked(plans: Path, *options: str) -> Took:
    """Check the houses of a folder in a process of its own, with a SARIF report."""
    command = [
        sys.executable,
        "-c",
        PEAKS,
        "check",
        "*.yaml",
        "--report",
        "sarif",
        "--output",
        str(plans.parent / "out.sarif"),
    ]
    began = time.perf_counter()
    ran = subprocess.run([*command, *options], cwd=plans, env=ENVIRONMENT, capture_output=True, text=True, check=False)
    took = time.perf_counter() - began
    found = re.search(r"^PEAKS (\d+) (\d+)$", ran.stderr, re.MULTILINE)
    assert found, ran.stderr[-2000:]
    with (plans.parent / "out.sarif").open("rb") as report:
        digest = hashlib.file_digest(report, "sha256").hexdigest()
    return Took(took, int(found[1]) / 1024, int(found[2]) / 1024, digest)


@contextmanager
def cluster(workers: int) -> Iterator[str]:
    """Give the address of a scheduler on this machine with that many workers, each a process of its own."""
    import distributed

    quiet = {"dashboard_address": None, "silence_logs": 50}
    with distributed.LocalCluster(n_workers=workers, threads_per_worker=1, processes=True, **quiet) as made:
        yield made.scheduler_address


def main(number: int) -> None:
    """Print every measurement."""
    print(f"Python {sys.version.split()[0]}; houses of {PARTS} parts with SARIF, in single runs")
    with tempfile.TemporaryDirectory() as folder:
        few, many = written(Path(folder), number // 10), written(Path(folder), number)
        small, two, one = (checked(plans, "--jobs", jobs) for plans, jobs in ((few, "2"), (many, "2"), (many, "1")))
        print(f"peak memory of the run: {small.own:.0f} MB for {number // 10:,}, {two.own:.0f} MB for {number:,}; "
              f"of its largest process: {small.child:.0f} and {two.child:.0f} MB; in one process {one.own:.0f} MB")  # fmt: skip
        print(f"{number:,} houses: {number / one.seconds:,.0f} a second with one process, {number / two.seconds:,.0f} with two: "
              f"{one.seconds / two.seconds:.2f} x (aim: 1.8)")  # fmt: skip
        with cluster(2) as address:
            spread = checked(many, "--scheduler", address)
        print(f"on two cluster workers: {number / spread.seconds:,.0f} a second, {one.seconds / spread.seconds:.2f} x; "
              f"peak memory of the run {spread.own:.0f} MB")  # fmt: skip
        assert one.report == two.report == spread.report, "the reports differ"


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else HOUSES)
