"""How fast, as one table of Markdown: checks beside general tools on the same two files, in the same run.

Run it by hand: ``python tests/benchmarks/table.py``. It measures those general tools that are installed:
``pip install check-jsonschema hobofan-regorus``.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

from run import BIG, CHECK, LIBRARIES, ROOT, SKETCH, again_after_one_value, general_tools
from timing import processor_time

FILES = (BIG, SKETCH)


def main(runs: int) -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder:
        by_file = [{"`precheck check`": [*CHECK, file], **general_tools(Path(folder), file)} for file in FILES]
        commands = [LIBRARIES, *(command for own in by_file for command in own.values())]
        libraries, *times = processor_time(commands, runs, ROOT)
    names = list(by_file[0])
    print(f"Processor time of a command of its own, Python {sys.version.split()[0]}, medians of {runs} interleaved runs; importing "
          f"the four libraries takes {1000 * libraries:.0f} ms.\n")  # fmt: skip
    print("| | " + " | ".join(f"`{file}`" for file in FILES) + " |\n|---|---|---|")
    for name, *own in zip(names, times[: len(names)], times[len(names) :], strict=True):
        print(f"| {name} | " + " | ".join(f"{1000 * s:.0f} ms, {s / libraries:.1f} x the imports" for s in own) + " |")
    again = median(again_after_one_value())
    print(f"| again in one process, after one changed value | {1000 * again:.0f} ms, {again / libraries:.1f} x | |")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
