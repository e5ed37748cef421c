"""Checked again after a change in the same process: the result is that of a run of its own, whatever came before."""

from __future__ import annotations

import json
import random
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.reports.json import render
from precheck.runs.desk import Desk, Run

ROOT = Path(__file__).parents[1]
SKETCH, HOUSE = "examples/sketch/sketch.yaml", "examples/alder-court/proposed.yaml"
OTHERS = (
    "examples/alder-court/corrected.yaml", "tests/jobs/deck-with-stair.complete.yaml",
    "tests/jobs/basement-with-egress-window.complete.yaml", "tests/jobs/addition.complete.yaml",
)  # fmt: skip
CODES = ("irc-2015", "irc-2018", "irc-2024", "Tamarack County", "City of Linden Ford")
HEAD = re.compile(r"^(jurisdiction|applied on): .*$", re.MULTILINE)
ID = re.compile(r"\bid: ([\w-]+)")
NUMBER = re.compile(r"(?<![\w.])\d+(?=[ \"'])")
AFRESH = """
import json, sys
from tests_of_warm import told
from precheck.runs.desk import Desk, Run
desk = Desk(Run())
for file, text in json.load(sys.stdin):
    print(json.dumps(told(desk, file, text)))
"""


def edited(text: str, by: random.Random) -> str:
    """Return a project file after a change such as a person makes: another number, a part less or more, another code."""
    lines = text.splitlines(keepends=True)
    match by.choice(("number", "number", "number", "part", "line", "name", "copy", "move", "code")):
        case "number":
            at = by.choice([i for i, line in enumerate(lines) if NUMBER.search(line)])
            lines[at] = NUMBER.sub(lambda _: str(by.randint(1, 120)), lines[at], count=1)
        case "part":
            del lines[_a_part(lines, by)]
        case "line":
            del lines[by.randrange(len(lines))]
        case "name":
            name = by.choice(ID.findall(text))
            return re.sub(rf"(?<![\w-]){re.escape(name)}(?![\w-])", f"{name}-renamed", text)
        case "copy":
            part = _a_part(lines, by)
            lines[part.stop : part.stop] = [ID.sub(r"id: \1-again", line, count=1) for line in lines[part]]
        case "move":
            part = _a_part(lines, by)
            above = max((i for i in range(part.start) if lines[i].startswith("  - ")), default=part.start)
            lines[above : part.stop] = [*lines[part], *lines[above : part.start]]
        case "code":
            now = {"jurisdiction": by.choice(CODES), "applied on": f"202{by.randint(2, 6)}-05-01"}
            return HEAD.sub(lambda line: f"{line[1]}: {now[line[1]]}", text)
    return "".join(lines)


def _a_part(lines: list[str], by: random.Random) -> slice:
    """Return which lines one part of a list takes."""
    at = by.choice([i for i, line in enumerate(lines) if line.startswith("  - ")])
    return slice(at, next((i for i in range(at + 1, len(lines)) if not lines[i].startswith("    ")), len(lines)))


def edits(number: int, seed: int, files: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Yield files and what they come to say, each change made to what the last one left, or to the file as it ships."""
    by = random.Random(seed)
    texts = {file: (ROOT / file).read_text(encoding="utf-8") for file in files}
    texts = {file: text if HEAD.search(text) else f"jurisdiction: irc-2021\n{text}" for file, text in texts.items()}
    now = dict(texts)
    for _ in range(number):
        file = by.choice(files)
        now[file] = edited(by.choice((texts[file], now[file])), by)
        yield file, now[file]


def told(desk: Desk, file: str, text: str) -> str:
    """Return the report of a text, or what keeps it from being used."""
    try:
        return render([desk.review_of(project_from(read_text(text, file), desk.plugins.added), file)])
    except Unusable as error:
        return "\n".join(map(str, error.problems))


def afresh(changes: list[tuple[str, str]]) -> list[str]:
    """Return what the changes come to in another process, the last of them first, so that none comes after the same ones."""
    code = AFRESH.replace("tests_of_warm", Path(__file__).stem)
    found = subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path.insert(0, {str(Path(__file__).parent)!r}){code}"],
        input=json.dumps(changes[::-1]), capture_output=True, text=True, check=False, cwd=ROOT,
    )  # fmt: skip
    assert found.returncode == 0, found.stderr
    return [json.loads(line) for line in found.stdout.splitlines()][::-1]


def hold(number: int, seed: int, files: tuple[str, ...] = (SKETCH, HOUSE, HOUSE)) -> int:
    """Hold what one desk says of changes to what each of them comes to afresh; return how many could be used."""
    changes = list(edits(number, seed, files))
    desk = Desk(Run())
    warm = [told(desk, file, text) for file, text in changes]
    for (_, text), own, cold in zip(changes, warm, afresh(changes), strict=True):
        assert own == cold, text
    return sum(one.startswith("{") for one in warm)


def test_a_check_after_changes_is_the_same_as_one_afresh() -> None:
    assert hold(6, seed=19) >= 4


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4))
def test_many_checks_after_changes_are_the_same_as_afresh(seed: int) -> None:
    assert hold(60, seed, (SKETCH, HOUSE, HOUSE, *OTHERS)) >= 30


def test_a_text_that_is_not_saved_is_reviewed_as_the_file_would_be(tmp_path: Path) -> None:
    file, text = tmp_path / "house.yaml", (ROOT / SKETCH).read_text(encoding="utf-8")
    file.write_text(text, encoding="utf-8")
    saved = render([Desk(Run()).review(str(file))])
    file.unlink()
    assert told(Desk(Run()), str(file), text) == saved


def test_a_record_that_is_taken_back_no_longer_accepts_at_the_next_check(tmp_path: Path) -> None:
    file, accepted = tmp_path / "house.yaml", tmp_path / "accepted.yaml"
    file.write_text((ROOT / SKETCH).read_text(encoding="utf-8"), encoding="utf-8")
    desk = Desk(Run())
    assert not desk.review(str(file)).accepted
    record = "{rule: light-and-air.glazing, part: bedroom, value: 5 %, document: letter, by: the official}"
    accepted.write_text(f"accepted:\n  - {record}\n", encoding="utf-8")
    assert len(desk.review(str(file)).accepted) == 1
    accepted.write_text("accepted: []\n", encoding="utf-8")
    assert not desk.review(str(file)).accepted
