"""Five comparisons over 10,000 stairs: ours beside general engines that are installed, and the scaling of many files.

Run it by hand: ``python tests/benchmarks/engines.py``. It needs none of the engines and measures those it finds:
``pip install jsonschema-rs cel-expr-python common-expression-language hobofan-regorus check-jsonschema``, and with Node
``npm install --global ajv-cli``. Every engine gets the stairs in the form it likes best, prepared beforehand, and must find
the same stairs wanting. Only the ratios count.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from importlib import import_module
from pathlib import Path
from typing import Any

from timing import as_installed, interleaved

from precheck import Length, at_least, at_most
from precheck.checks import Outcome
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.review.run import review
from precheck.rules.plugins import Offer, Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library

STAIRS = 10_000
ENVIRONMENT = as_installed()
RUNS = 5
COMPARISONS = (
    ("riser", "at most", "7 3/4 in"),
    ("tread", "at least", "10 in"),
    ("headroom", "at least", "80 in"),
    ("width", "at least", "36 in"),
    ("rise", "at most", "151 in"),
)
KEYS = tuple(key for key, _, _ in COMPARISONS)
LIMITS = {key: float(Length.parse(limit) / Length.parse("1 in")) for key, _, limit in COMPARISONS}
SIGNS = {key: "<=" if comparison == "at most" else ">=" for key, comparison, _ in COMPARISONS}
PEAK = """
import contextlib, re, resource, sys
from pathlib import Path
from precheck.cli import main
with contextlib.suppress(SystemExit):
    main()
own = re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())  # getrusage counts the process before it, too
print(max(int(own[1]), resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss), file=sys.stderr)
"""


def inches(number: int) -> dict[str, float]:
    """Return the five values of one stair; one in eleven has a riser too tall, one in thirteen a tread too short."""
    return {
        "riser": 8.0 if number % 11 == 0 else 7.25,
        "tread": 9.5 if number % 13 == 0 else 10.5,
        "headroom": 82.0,
        "width": 36.0,
        "rise": 108.5,
    }


WANTING = sum((n % 11 == 0) + (n % 13 == 0) for n in range(STAIRS))


def project_text(count: int = STAIRS) -> str:
    """Return a project file with that many stairs."""
    lines = ["project: Many stairs", "jurisdiction: irc-2021", "spaces: [{id: a}, {id: b}]", "stairs:"]
    for number in range(count):
        values = ", ".join(f"{key}: {value} in" for key, value in inches(number).items())
        lines.append(f"  - {{id: S{number}, phase: new, between: [a, b], flights: [{{{values}}}]}}")
    return "\n".join(lines) + "\n"


def ruleset_text() -> str:
    """Return a ruleset that adds the five comparisons as data."""
    head = "jurisdiction: Bench\nadopts: irc-2021\nin force: 2026-01-01\nby: the benchmark\namendments:\n"
    check = "{{part: flight, measure: {0}, comparison: {1}}}"
    each = f"  - {{{{add: bench.{{0}}, value: {{2}}, means: limit of the {{0}}, by: the benchmark, check: {check}}}}}\n"
    return head + "".join(each.format(*one) for one in COMPARISONS)


def ours(folder: Path) -> Iterator[tuple[str, Callable[[], int]]]:
    """Yield our ways to make the comparisons: the helpers alone, and a whole review under a ruleset."""
    rows = [{key: Length.parse(f"{value} in") for key, value in inches(n).items()} for n in range(STAIRS)]
    code = bench_code(folder)
    limits = {key: code.limits[f"bench.{key}"] for key in KEYS}
    pairs = [(key, at_most if comparison == "at most" else at_least) for key, comparison, _ in COMPARISONS]

    def helpers() -> int:
        return sum(c(row[k], limits[k]).outcome is Outcome.FAIL for k, c in pairs for row in rows)

    project = project_from(read_text(project_text(), "bench.yaml"))
    alone = Plugins()

    def whole() -> int:
        return review(project, code, alone).counts[Outcome.FAIL]

    yield "ours: the comparison helpers, with evidence", helpers
    yield "ours: a whole review, with a finding for each", whole


def bench_code(folder: Path) -> AdoptedCode:
    """Return the code of the ruleset that adds the five comparisons."""
    path = folder / "bench.yaml"
    path.write_text(ruleset_text(), encoding="utf-8")
    rulesets = tuple(Offer(o.plugin, o.distribution, (), o.rulesets) for o in load_plugins().offers)
    return Library(Plugins(rulesets).rulesets).adopt(str(path))


def json_schema() -> dict[str, Any]:
    """Return the comparisons as a JSON Schema of one stair."""
    word = {"<=": "maximum", ">=": "minimum"}
    return {
        "type": "object",
        "properties": {k: {"type": "number", word[SIGNS[k]]: LIMITS[k]} for k in KEYS},
        "required": list(KEYS),
    }


def jsonschema_rs() -> Callable[[], int]:
    """Return the comparisons by a JSON Schema validator in Rust."""
    validator = import_module("jsonschema_rs").validator_for(json_schema())
    rows = [inches(n) for n in range(STAIRS)]
    return lambda: sum(sum(1 for _ in validator.iter_errors(row)) for row in rows)


def jsonschema_rs_yes_or_no() -> Callable[[], int]:
    """Return the same without saying what is wrong: one answer for the five comparisons of a stair."""
    validator = import_module("jsonschema_rs").validator_for(json_schema())
    rows = [inches(n) for n in range(STAIRS)]
    both = sum(n % 143 == 0 for n in range(STAIRS))
    return lambda: sum(not validator.is_valid(row) for row in rows) + both


def cel_of_google() -> Callable[[], int]:
    """Return the comparisons by Google's CEL engine in C++, one compiled expression each."""
    cel = import_module("cel_expr_python.cel")
    env = cel.NewEnv(variables={"e": cel.Type.Map(cel.Type.STRING, cel.Type.DOUBLE)})
    rules = [env.compile(f"e.{key} {SIGNS[key]} {LIMITS[key]!r}") for key in KEYS]
    rows = [{"e": inches(n)} for n in range(STAIRS)]
    return lambda: sum(not rule.eval(data=row).plain_value() for rule in rules for row in rows)


def cel_in_rust() -> Callable[[], int]:
    """Return the comparisons by a CEL engine in Rust, one compiled expression each."""
    cel = import_module("cel")
    rules = [cel.compile(f"e.{key} {SIGNS[key]} {LIMITS[key]!r}") for key in KEYS]
    rows = [{"e": inches(n)} for n in range(STAIRS)]
    return lambda: sum(not rule.execute(row) for rule in rules for row in rows)


def rego() -> Callable[[], int]:
    """Return the comparisons by a Rego interpreter in Rust, over all stairs in one query."""
    engine = import_module("hobofan_regorus").Engine()
    against = {"<=": ">", ">=": "<"}
    rules = "\n".join(
        f'bad contains [i, "{k}"] if {{ some i; input.stairs[i].{k} {against[SIGNS[k]]} {LIMITS[k]!r} }}' for k in KEYS
    )
    engine.add_policy("bench.rego", f"package bench\nimport rego.v1\n{rules}\n")
    stairs = json.dumps({"stairs": [inches(n) for n in range(STAIRS)]})

    def run() -> int:
        engine.set_input_json(stairs)  # each time, or the answer of the time before is given again
        return len(json.loads(engine.eval_rule_as_json("data.bench.bad")))

    return run


ENGINES: dict[str, Callable[[], Callable[[], int]]] = {
    "JSON Schema in Rust, saying what is wrong": jsonschema_rs,
    "JSON Schema in Rust, yes or no": jsonschema_rs_yes_or_no,
    "CEL in C++": cel_of_google,
    "CEL in Rust": cel_in_rust,
    "Rego in Rust": rego,
}


def in_process(folder: Path) -> None:
    """Print the time of each engine for one comparison, and how many times ours it is."""
    ways = list(ours(folder))
    for name, prepare in ENGINES.items():
        try:
            ways.append((name, prepare()))
        except ImportError:
            print(f"{name}: not installed")
    for name, way in ways:
        assert way() == WANTING, f"{name} finds {way()} wanting instead of {WANTING}"
    times = dict(zip((name for name, _ in ways), interleaved([way for _, way in ways], RUNS), strict=True))
    helpers, whole = list(times.values())[:2]
    print(f"{len(COMPARISONS)} comparisons over {STAIRS:,} stairs, {WANTING:,} wanting:")
    for name, seconds in times.items():
        each = 1e6 * seconds / (STAIRS * len(COMPARISONS))
        print(f"  {name:<48}{each:8.3f} us; {seconds / helpers:6.1f} x the helpers, {seconds / whole:6.1f} x a review")


def cold(folder: Path) -> None:
    """Print the time of a cold command on all stairs in one YAML file, beside JSON Schema commands on the same numbers."""
    (folder / "project.yaml").write_text(project_text(), encoding="utf-8")
    (folder / "bench.yaml").write_text(ruleset_text(), encoding="utf-8")
    rows = [{"id": f"S{n}", **inches(n)} for n in range(STAIRS)]
    plain = "\n".join(f"- {{{', '.join(f'{k}: {v}' for k, v in row.items())}}}" for row in rows)
    (folder / "plain.yaml").write_text(plain, encoding="utf-8")
    (folder / "schema.json").write_text(json.dumps({"type": "array", "items": json_schema()}), encoding="utf-8")
    own = [sys.executable, "-m", "precheck", "check", "project.yaml", "--ruleset", "bench.yaml", "--topic", "bench"]
    commands = {"ours": [*own, "--output", "out.txt"], **others_in_yaml()}
    calls = [
        lambda c=c: subprocess.run(c, cwd=folder, env=ENVIRONMENT, capture_output=True, check=False)
        for c in commands.values()
    ]
    interleaved(calls, 1)  # which leaves the byte code behind
    times = dict(zip(commands, interleaved(calls, RUNS), strict=True))
    print(f"cold, {STAIRS:,} stairs in one YAML file, the others without units, places or a finding for what is met:")
    for name, seconds in times.items():
        print(f"  {name:<48}{seconds:8.2f} s; {seconds / times['ours']:6.1f} x ours")


def others_in_yaml() -> dict[str, list[str]]:
    """Return the commands that check plain YAML by a JSON Schema, those that are installed."""
    beside = str(Path(sys.executable).parent)
    python = shutil.which("check-jsonschema") or shutil.which("check-jsonschema", path=beside)
    node = shutil.which("ajv")
    found = {
        "a JSON Schema command in Python": python and [python, "--schemafile", "schema.json", "plain.yaml"],
        "a JSON Schema command on Node": node
        and [node, "validate", "--all-errors", "-s", "schema.json", "-d", "plain.yaml"],
    }
    return {name: command for name, command in found.items() if command}


def many_files(folder: Path) -> None:
    """Print how many files a second are checked by one process and by two, and the peak memory for more files."""
    plans = folder / "plans"
    plans.mkdir()
    for number in range(10_000):
        (plans / f"{number:05}.yaml").write_text(project_text(1).replace("Many stairs", f"House {number}"))
    for number, pattern in ((2_000, "plans/0[01]*.yaml"), (10_000, "plans/*.yaml")):
        one, two = interleaved([lambda j=j, p=pattern: checked(folder, p, "--jobs", j) for j in ("1", "2")], 3)
        print(f"{number:,} files: {number / one:,.0f} files/s with one process, {number / two:,.0f} with two: "
              f"{one / two:.2f} x (aim: 1.7)")  # fmt: skip
    few, all_of_them = (checked(folder, p, "--jobs", "2") for p in ("plans/00*.yaml", "plans/*.yaml"))
    print(f"peak memory: {few / 1024:.0f} MB for 1,000 files, {all_of_them / 1024:.0f} MB for 10,000")


def checked(folder: Path, pattern: str, *options: str) -> int:
    """Check the files of a pattern in a process of its own and return its peak memory in kB."""
    command = [sys.executable, "-c", PEAK, "check", pattern, "--topic", "stairs", "--output", "out.txt", *options]
    ran = subprocess.run(command, cwd=folder, env=ENVIRONMENT, capture_output=True, text=True, check=True)
    return int(ran.stderr.split()[-1])


def main() -> None:
    """Print every measurement."""
    print(f"Python {sys.version.split()[0]}, medians of interleaved runs")
    with tempfile.TemporaryDirectory() as folder:
        in_process(Path(folder))
        cold(Path(folder))
        many_files(Path(folder))


if __name__ == "__main__":
    main()
