"""Make small mistakes in the rules and the limits, one at a time, and see which of them the tests beside them notice.

python tests/mutate.py [--code 30] [--limits 30] [--seed 1] [--topic TOPIC] [--also TESTS ...]

A mistake in code turns a comparison around or shifts a number; one in a limit shifts the last number of its value. All is
done in a copy of the project. What survives is printed with its place; `--also` are tests that survivors are held to next.
"""

from __future__ import annotations

import argparse
import ast
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parent.parent
FLIPS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
HELPERS = {"at_most": "at_least", "at_least": "at_most", "less_than": "at_most", "all_of": "any_of", "any_of": "all_of"}
VALUE = re.compile(r"\bvalue: (\"[^\"]*\"|'[^']*'|[^,{}\[\]]+)")
LAST_NUMBER = re.compile(r"(?<![\d/.])(\d+)(?!\d)(?![^a-z%]*\d[^/]*$)")
MINUTES = 5


class Mistake(NamedTuple):
    """A mistake: the file, where in its text, and what stands there in place of what."""

    path: Path
    start: int
    was: str
    to: str
    beside: tuple[str, ...]
    line: int

    @property
    def told(self) -> str:
        """Say where it is and what it is."""
        return f"{self.path}:{self.line}: {self.was} -> {self.to}"


def in_code(path: Path) -> Iterator[Mistake]:
    """Yield the mistakes that can be made in a file of rules."""
    text = (ROOT / path).read_text(encoding="utf-8")
    starts = [0]
    for line in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    for node in ast.walk(ast.parse(text)):
        if not isinstance(node, ast.Compare | ast.Constant | ast.Call):
            continue
        if (to := _turned(node)) is not None and (not to.isidentifier() or to in text):
            part = node.func if isinstance(node, ast.Call) else node
            was = ast.get_source_segment(text, part) or ""
            yield Mistake(path, starts[part.lineno - 1] + part.col_offset, was, to, _beside(path.parts[1]), part.lineno)


def _turned(node: ast.Compare | ast.Constant | ast.Call) -> str | None:
    if isinstance(node, ast.Compare):
        turned = ast.Compare(node.left, [FLIPS[type(op)]() for op in node.ops[:1]] + node.ops[1:], node.comparators)
        return f"({ast.unparse(turned)})"
    if isinstance(node, ast.Call):
        return HELPERS.get(node.func.id) if isinstance(node.func, ast.Name) else None
    is_number = isinstance(node.value, int | float) and not isinstance(node.value, bool)
    return repr(node.value + 1) if is_number else None  # type: ignore[operator]


def in_limits(path: Path, folders: dict[str, tuple[str, ...]]) -> Iterator[Mistake]:
    """Yield the mistakes that can be made in the limits of a topic."""
    text = (ROOT / path).read_text(encoding="utf-8")
    beside = folders.get(path.stem, ())
    for found in VALUE.finditer(text) if beside else ():
        was = found[1]
        to = LAST_NUMBER.sub(lambda number: str(int(number[1]) + 1), was, count=1)
        if to != was:
            yield Mistake(path, found.start(1), was, to, beside, text[: found.start(1)].count("\n") + 1)


def folders_by_topic() -> dict[str, tuple[str, ...]]:
    """Return in which folders of plugins the cases of each topic stand."""
    found: dict[str, set[str]] = defaultdict(set)
    for file in sorted((ROOT / "plugins").rglob("cases/*.yaml")):
        topic = file.read_text(encoding="utf-8").partition("rule: ")[2].partition(".")[0]
        found[topic].add(file.relative_to(ROOT / "plugins").parts[0])
    return {
        topic: tuple(test for folder in sorted(folders) for test in _beside(folder)) for topic, folders in found.items()
    }


def _beside(folder: str) -> tuple[str, ...]:
    """Return the tests of a folder of plugins: the cases in it, and what stands under its name in `tests`."""
    own = ROOT / "tests" / folder
    return (f"plugins/{folder}", *([f"tests/{folder}"] if own.is_dir() else []))


def is_noticed(mistake: Mistake, copy: Path, tests: tuple[str, ...]) -> bool:
    """Return whether `tests`, which pass in the `copy` as it is, fail while the mistake is in it."""
    if not passes(copy, tests):
        sys.exit(f"{' '.join(tests)}: fails without any mistake, so it can notice none")
    file = copy / mistake.path
    right = file.read_text(encoding="utf-8")
    file.write_text(right[: mistake.start] + mistake.to + right[mistake.start + len(mistake.was) :], encoding="utf-8")
    try:
        return not _run(copy, tests)
    finally:
        file.write_text(right, encoding="utf-8")


@cache
def passes(copy: Path, tests: tuple[str, ...]) -> bool:
    """Return whether `tests` pass in the `copy` as it is."""
    return _run(copy, tests)


def _run(copy: Path, tests: tuple[str, ...]) -> bool:
    command = [sys.executable, "-m", "pytest", "-x", "-n", "0", "-p", "no:cacheprovider", *tests]
    paths = {**os.environ, "PYTHONPATH": str(copy / ".ci" / "packages"), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        done = subprocess.run(command, cwd=copy, env=paths, capture_output=True, timeout=MINUTES * 60, check=False)
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def main() -> None:
    """Make the mistakes and tell how many were noticed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--code", type=int, default=30)
    parser.add_argument("--limits", type=int, default=30)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--topic", default="")
    parser.add_argument("--also", nargs="*", default=[])
    asked = parser.parse_args()
    code = [p.relative_to(ROOT) for p in sorted((ROOT / "plugins").rglob(f"{asked.topic or '*'}/**/*.py"))]
    limits = [p.relative_to(ROOT) for p in sorted((ROOT / "rulesets/codes/irc").glob(f"{asked.topic or '*'}.yaml"))]
    by_topic = folders_by_topic()
    kinds = {
        "code": ([m for path in code for m in in_code(path)], asked.code),
        "limits": ([m for path in limits for m in in_limits(path, by_topic)], asked.limits),
    }
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "project"
        shutil.copytree(
            ROOT, copy, symlinks=True, ignore=shutil.ignore_patterns(".git", ".venv", "*_cache", "__pycache__")
        )
        for kind, (all_of_them, count) in kinds.items():
            tried = random.Random(asked.seed).sample(all_of_them, min(count, len(all_of_them)))
            _tell(kind, tried, len(all_of_them), copy, tuple(asked.also))


def _tell(kind: str, tried: list[Mistake], of: int, copy: Path, also: tuple[str, ...]) -> None:
    """Try each mistake, print what the tests beside it miss as soon as they do, and how many they noticed."""
    noticed = 0
    for mistake in tried:
        if is_noticed(mistake, copy, mistake.beside):
            noticed += 1
        else:
            held = also and is_noticed(mistake, copy, also)
            print(f"  {'noticed by the other tests' if held else 'survives'}: {mistake.told}", flush=True)
    print(f"{kind}: {noticed} of {len(tried)} noticed by the tests beside them ({of} can be made)", flush=True)


if __name__ == "__main__":
    main()
