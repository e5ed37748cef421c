"""Small mistakes that can be made in the rules and in the limits: where they stand and what they are.

One in code turns a comparison around, or shifts a number by one. One in a limit shifts the last number of a value that
stands alone; the cells of tables are not among them.
"""

from __future__ import annotations

import ast
import random
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import chain, zip_longest
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
FLIPS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
HELPERS = {"at_most": "at_least", "at_least": "at_most", "less_than": "at_most", "all_of": "any_of", "any_of": "all_of"}
VALUE = re.compile(r"\bvalue: (\"[^\"\n]*\"|'[^'\n]*'|[^,{}\[\]\n]+)")
RAW = ("Length(", "Area(")
RULE_NAME = re.compile(r'"([a-z-]+\.[a-z0-9-]+)"')
LIMITS_OF = re.compile(r"^  ([a-z-]+\.[a-z0-9-]+):", re.MULTILINE)
NUMBER = re.compile(r"\d+(?:/\d+|\.\d+)?")


class Mistake(NamedTuple):
    """A mistake: the file, where in its text, what stands there and what is put in its place.

    `topic` is the folder of rules or the file of limits that it stands in; `within` is the line around it.
    """

    topic: str
    path: Path
    start: int
    was: str
    to: str
    line: int
    within: str

    @property
    def told(self) -> str:
        """Say where it is and what it is."""
        return f"{self.path}:{self.line}: {self.was} -> {self.to}"

    @property
    def key(self) -> tuple[str, ...]:
        """What it is known by while the lines around it change."""
        return (str(self.path), self.within, self.was, self.to)

    def made(self) -> str:
        """Return the text of the file with the mistake in it."""
        right = (ROOT / self.path).read_text(encoding="utf-8")
        return right[: self.start] + self.to + right[self.start + len(self.was) :]


def in_code(topic: str) -> Iterator[Mistake]:
    """Yield the mistakes that can be made in the rules of a folder of plugins.

    Not in an f-string, where Python 3.11 tells wrong places; nor in a raw length or area, whose one is 1/16 um.
    """
    for path in sorted((ROOT / "plugins").glob(f"{topic}/**/*.py")):
        text = path.read_text(encoding="utf-8")
        tree = ast.parse(text)
        names = {node.asname or node.name for node in ast.walk(tree) if isinstance(node, ast.alias)}
        for node in ast.walk(tree):
            part, to = _turned(node, names)
            if part is not None:
                start, was = _stands(text, part)
                as_read = ast.parse(f"({was})", mode="eval").body if was else None
                if as_read is not None and ast.dump(as_read) == ast.dump(part) and not text[:start].endswith(RAW):
                    yield _mistake(topic, path, text, start, was, to)


def _turned(node: ast.AST, names: set[str]) -> tuple[ast.expr | None, str]:
    """Return what of `node` can be taken for something else, and for what."""
    if isinstance(node, ast.Compare):
        turned = ast.Compare(node.left, [FLIPS[type(op)]() for op in node.ops[:1]] + node.ops[1:], node.comparators)
        return node, f"({ast.unparse(turned)})"
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and HELPERS.get(node.func.id) in names:
        return node.func, HELPERS[node.func.id]
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return node, repr(node.value + 1)
    return None, ""


def _stands(text: str, node: ast.expr) -> tuple[int, str]:
    lines = text.splitlines(keepends=True)
    column = len(lines[node.lineno - 1].encode()[: node.col_offset].decode())
    return sum(map(len, lines[: node.lineno - 1])) + column, ast.get_source_segment(text, node) or ""


def limits_of(topic: str) -> Path:
    """Return the file of the limits of a topic."""
    return ROOT / "rulesets" / "codes" / "irc" / f"{topic}.yaml"


def in_limits(topic: str) -> Iterator[Mistake]:
    """Yield the mistakes that can be made in the limits of a topic."""
    path = limits_of(topic)
    text = path.read_text(encoding="utf-8")
    for found in VALUE.finditer(text):
        numbers = list(NUMBER.finditer(found[1]))
        if numbers:
            start = found.start(1) + numbers[-1].start()
            yield _mistake(topic, path, text, start, numbers[-1][0], shifted(numbers[-1][0]))


def shifted(number: str, by: int = 1) -> str:
    """Return the next number up: 36 as 37, 0.35 as 0.36, 3/4 as 7/8; or the next one down, `by` -1."""
    if "/" in number:
        over, under = map(int, number.split("/"))
        return f"{2 * over + by}/{2 * under}"
    places = len(number.partition(".")[2])
    return f"{float(number) + by * 10.0**-places:.{places}f}"


def _mistake(topic: str, path: Path, text: str, start: int, was: str, to: str) -> Mistake:
    line = text[:start].count("\n") + 1
    return Mistake(topic, path.relative_to(ROOT), start, was, to, line, text.splitlines()[line - 1].strip())


def spread(mistakes: Iterable[Mistake], seed: int) -> Iterator[Mistake]:
    """Yield mistakes at random, from one topic after the other, so that none is missed.

    The order of two depends on the seed and on themselves alone: a change elsewhere in the files leaves it as it is.
    """
    topics: dict[str, list[Mistake]] = defaultdict(list)
    for mistake in sorted(mistakes, key=lambda m: random.Random(f"{seed} {m.key}").random()):
        topics[mistake.topic].append(mistake)
    return (m for m in chain.from_iterable(zip_longest(*topics.values())) if m is not None)


def near(mistake: Mistake) -> set[str]:
    """Return the rules whose cases most likely notice a mistake: of its module, or the one whose limit it is in."""
    text = (ROOT / mistake.path).read_text(encoding="utf-8")
    if mistake.path.suffix == ".py":
        return set(RULE_NAME.findall(text))
    return set(LIMITS_OF.findall(text[: mistake.start])[-1:])
