"""Speed and memory, as ratios within one run. Run it by hand: ``python tests/benchmarks/run.py``.

Absolute times depend on the machine; the ratios are what the project aims at.
"""

from __future__ import annotations

import gc
import os
import subprocess
import sys
import tempfile
import tracemalloc
from importlib.util import find_spec
from pathlib import Path
from statistics import median
from time import process_time

import board
from timing import interleaved, processor_time

from precheck import testing
from precheck.checks import Outcome
from precheck.cli import FEW_COLLECTIONS
from precheck.files.edit import Change, with_changes
from precheck.files.missing import Missing
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.review.run import run
from precheck.rules.plugins import Plugins
from precheck.rulesets import Library, prepared
from precheck.runs.desk import Desk, Run
from precheck.survey import House

ROOT = Path(__file__).parents[2]
BIG = "examples/alder-court/proposed.yaml"
SKETCH = "examples/sketch/sketch.yaml"
LIBRARIES = [sys.executable, "-c", "import click, pydantic, pluggy, ruamel.yaml"]
CHECK = [sys.executable, "-c", "from precheck.cli import main; main()", "check"]
STAIRS = 500
PEAK = """
import contextlib, resource, sys
from precheck.cli import main
sys.argv = ["precheck", "check", "--output", "/dev/null", sys.argv[1]]
with contextlib.suppress(SystemExit):
    main()
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
ONE_POLICY = """
import json, sys
from pathlib import Path
from hobofan_regorus import Engine
from ruamel.yaml import YAML
engine = Engine()
engine.add_policy("one.rego", "package one\\nimport rego.v1\\nbad contains w.id if { some w in input.windows; not w.phase }")
engine.set_input_json(json.dumps(YAML(typ="safe").load(Path(sys.argv[1])), default=str))
assert json.loads(engine.eval_rule_as_json("data.one.bad")) == []
"""
RULES = ("riser-height", "tread-depth", "headroom", "width", "rise-between-landings")


def main() -> None:
    """Print every measurement."""
    print(f"Python {sys.version.split()[0]}, medians of interleaved runs")
    cold_check()
    warm_check()
    reading()
    editing()
    editions()
    rules()
    memory()
    board.measure()


def cold_check(runs: int = 15) -> None:
    """Time cold checks against importing their four libraries, and general tools that look at the big example alone."""
    with tempfile.TemporaryDirectory() as folder:
        commands = {**_cold_commands(), **general_tools(Path(folder))}
        times = dict(zip(commands, processor_time(list(commands.values()), runs, ROOT), strict=True))
    libraries = times["importing its four libraries"]
    print("cold, processor time of a command of its own:")
    for name, seconds in times.items():
        print(f"  {name:<58}{1000 * seconds:6.0f} ms; {seconds / libraries:5.2f} x the libraries")


def _cold_commands() -> dict[str, list[str]]:
    return {
        "bare Python": [sys.executable, "-c", "pass"],
        "importing its four libraries": LIBRARIES,
        "check of the big example (aim: 5)": [*CHECK, BIG],
        "check of a sketch of ten lines (aim: 3)": [*CHECK, SKETCH],
    }


def general_tools(folder: Path, file: str = BIG) -> dict[str, list[str]]:
    """Return what is installed of ``pip install check-jsonschema hobofan-regorus``, as commands on one file."""
    schema = folder / "schema.json"
    command = [sys.executable, "-m", "precheck", "schema", "project", "--output", str(schema)]
    subprocess.run(command, cwd=ROOT, check=True)
    tools = {
        "a general schema checker, of the shape of the file alone": (
            "check_jsonschema", [sys.executable, "-m", "check_jsonschema", "--schemafile", str(schema), file]),
        "a general policy engine, of one policy over the file": (
            "hobofan_regorus", [sys.executable, "-c", ONE_POLICY, file]),
    }  # fmt: skip
    return {name: command for name, (package, command) in tools.items() if find_spec(package)}


def warm_check() -> None:
    """Print how long a check takes again in the same process after one changed value."""
    times = again_after_one_value()
    print(
        f"again after one changed value, processor time: {1000 * median(times):.0f} ms (aim: 60), {1000 * min(times):.0f} at best"
    )


def again_after_one_value(runs: int = 25) -> list[float]:
    """Return the times of the big example again in the same process: it is read, surveyed and judged anew each time."""
    text, desk = (ROOT / BIG).read_text(encoding="utf-8"), Desk(Run())

    def again(number: int) -> None:
        changed = text.replace("sill height: 46 in", f"sill height: {40 + number % 9} in")
        assert number % 9 == 6 or changed != text
        desk.review_of(project_from(read_text(changed, BIG), desk.plugins.added), BIG)

    again(0)
    gc.collect()
    gc.freeze()  # as `board` does, and with as few collections as every command has
    before, times = gc.get_threshold(), []
    gc.set_threshold(FEW_COLLECTIONS)
    for number in range(runs):
        began = process_time()
        again(number)
        times.append(process_time() - began)
    gc.set_threshold(*before)
    gc.unfreeze()
    return times


def reading(runs: int = 15) -> None:
    """Time reading a 5,500-line project with positions against ruamel's C safe loader without them."""
    from ruamel.yaml import YAML

    text = many_stairs(lines=11)
    own, safe = interleaved([lambda: read_text(text, "big.yaml"), lambda: YAML(typ="safe").load(text)], runs)
    print(f"reading {len(text.splitlines()):,} lines: {1000 * own:.0f} ms with positions; ruamel's C safe loader "
          f"{1000 * safe:.0f} ms; {safe / own:.1f} times as fast (aim: 4)")  # fmt: skip


def editing(runs: int = 15) -> None:
    """Time one value written into the big example against reading it, which every change does once to hold itself to."""
    text = (ROOT / BIG).read_text(encoding="utf-8")
    change = [Change(("windows", "W1", "sill height"), "41 in")]
    written, read = interleaved([lambda: with_changes(text, change), lambda: read_text(text, "")], runs)
    print(f"one value written into {len(text.splitlines()):,} lines: {1000 * written:.1f} ms; reading them {1000 * read:.1f} ms; "
          f"{written / read:.1f} times as long (aim: 1.5)")  # fmt: skip


def editions(runs: int = 9) -> None:
    """Time reading one edition as it was kept by an earlier check against reading it from its files."""
    plugins: Plugins = testing.plugins()
    with tempfile.TemporaryDirectory() as kept:

        def adopted(where: str) -> None:
            os.environ[prepared.VARIABLE] = where
            Library(plugins.rulesets).adopt("irc-2024")

        adopted(kept)
        again, anew = interleaved([lambda: adopted(kept), lambda: adopted("off")], runs)
    print(f"one edition as it was kept: {1000 * again:.0f} ms; from its files: {1000 * anew:.0f} ms; "
          f"{anew / again:.1f} times as fast")  # fmt: skip


def rules(runs: int = 30) -> None:
    """Time five rules over 500 stairs against the same comparisons in one straight loop."""
    code = testing.code("irc-2021")
    house = House(project_from(read_text(many_stairs(lines=11), "big.yaml")))
    chosen = [r for r in testing.plugins().rules if r.name in {f"stairs.{name}" for name in RULES}]
    flights = house.subjects(chosen[0].signature.subject)
    found = [f for r in chosen for f in run(r, house, code)]
    assert len(found) == STAIRS * len(chosen)
    assert all(f.outcome is Outcome.PASS for f in found)
    ours, loop = interleaved(
        [lambda: [f for r in chosen for f in run(r, house, code)], lambda: straight_loop(flights, code.limits)], runs
    )
    print(f"{len(chosen)} rules over {STAIRS} stairs: {1000 * ours:.2f} ms; the same comparisons in a plain loop {1000 * loop:.2f} ms; "
          f"ratio {ours / loop:.1f} (aim: 5)")  # fmt: skip


def straight_loop(flights: tuple, limits) -> list:
    """Make the same comparisons as the rules, on the same derived values, with the same care for what is missing."""
    riser, riser_spread = limits["stairs.riser-height.maximum"].value, limits["stairs.riser-height.variation"].value
    tread, tread_spread = limits["stairs.tread-depth.minimum"].value, limits["stairs.tread-depth.variation"].value
    headroom, width = limits["stairs.headroom.minimum"].value, limits["stairs.width.clear"].value
    rise = limits["stairs.rise-between-landings.maximum"].value
    bad = []
    for flight in flights:
        for value, limit, sign in (
            (flight.riser, riser, 1), (flight.riser_variation, riser_spread, 1), (flight.tread, tread, -1),
            (flight.tread_variation, tread_spread, 1), (flight.headroom, headroom, -1), (flight.width, width, -1),
            (flight.rise, rise, 1),
        ):  # fmt: skip
            if value.__class__ is Missing or (value > limit if sign > 0 else value < limit):
                bad.append((flight, value, limit))
    return bad


def memory() -> None:
    """Print the peak memory that reading and reviewing 500 stairs takes, and that of a whole check of the big example."""
    tracemalloc.start()
    house = House(project_from(read_text(many_stairs(lines=11), "big.yaml")))
    code = testing.code("irc-2021")
    plugins: Plugins = testing.plugins()
    found = [f for r in plugins.rules if r.topic == "stairs" for f in run(r, house, code)]
    print(
        f"peak of Python objects for {STAIRS} stairs and {len(found):,} findings: {tracemalloc.get_traced_memory()[1] / 1e6:.1f} MB"
    )
    peak = subprocess.run(
        [sys.executable, "-c", PEAK, BIG], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    print(f"peak memory of a whole check of the big example: {int(peak.split()[-1]) / 1024:.0f} MB")


def many_stairs(lines: int) -> str:
    """Return a project with `STAIRS` stairs that pass, each written over `lines` lines."""
    one = [
        "  - id: S{n}", "    phase: new", "    between: [hall, loft]", "    form: straight", "    total rise: 9'-0 1/2\"",
        "    risers: 15", "    width: 36 in", "    headroom: 6'-10\"", "    flights:", "      - tread: 10 in",
        "        nosing: {{projection: 1 in}}",
    ]  # fmt: skip
    head = ["project: Many stairs", "spaces: [{id: hall}, {id: loft}]", "stairs:"]
    return "\n".join([*head, *(line.format(n=n) for n in range(STAIRS) for line in one[:lines])]) + "\n"


if __name__ == "__main__":
    main()
