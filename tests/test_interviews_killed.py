"""An interview or a page that is killed at any moment leaves a file that reads, and the next one goes on from there."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = [pytest.mark.long, pytest.mark.skipif(not hasattr(os, "fork"), reason="no process can be copied here")]
KILLS = 40
HOUSE = """\
project: P
jurisdiction: irc-2021
spaces: [{id: hall, phase: existing, use: hall}, {id: loft, phase: altered, use: bedroom}]
stairs: [{id: S1, between: [hall, loft]}]
windows: [{id: W1, phase: new, space: loft}]
"""
INTERVIEW = """
import os, random, signal, sys
from pathlib import Path
from click.testing import CliRunner
import precheck.files.atomic as atomic
from precheck.cli import cli
from precheck.project import read_project

arguments, answers, began = sys.argv[1].split(), sys.argv[2], sys.argv[3]
plan, chance = Path(arguments[-1]), random.Random(11)
fsync, replace = os.fsync, Path.replace

def dies(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

def at_turn(turn, real, instead):
    turns = iter(range(1000))
    return lambda *given: (instead if next(turns) == turn else real)(*given)

CliRunner().invoke(cli, arguments, input="")  # which loads all that the copies of this process need
killed, sizes = 0, set()
for number in range(int(sys.argv[4])):
    if number % 2 == 0:
        plan.unlink(missing_ok=True)
        if began:
            plan.write_text(began)
    child = os.fork()
    if child == 0:
        turn = chance.randrange(3) if began else 0
        if chance.randrange(2):
            atomic.os.fsync = at_turn(turn, fsync, dies)
        else:
            Path.replace = at_turn(turn, replace, lambda one, other: (replace(one, other), dies()))
        CliRunner().invoke(cli, arguments, input=answers)
        os._exit(0)
    chance.randrange(3), chance.randrange(2)
    killed += os.WIFSIGNALED(os.waitpid(child, 0)[1])
    if plan.exists():
        read_project(plan)  # or the run ends here, with what is wrong
        sizes.add(plan.stat().st_size)
CliRunner().invoke(cli, arguments, input=answers)
print(killed, len(sizes), sorted(path.name for path in Path().iterdir()))
"""


@pytest.mark.parametrize(
    ("arguments", "answers", "began"),
    [
        ("ask p.yaml", "double hung\n3'-0\" x 4'-0\"\n36 in\nnew\n12 ft\nyes\n" * 6, HOUSE),
        ("start p.yaml", "A\nirc-2021\n2026-03-02\ndeck\n\nn\n0\n", ""),
    ],
    ids=["ask", "start"],
)
def test_an_interview_that_is_killed_leaves_a_file_that_reads_and_the_next_clears_the_rest(
    tmp_path: Path, arguments: str, answers: str, began: str
) -> None:
    found = subprocess.run(
        [sys.executable, "-c", INTERVIEW, arguments, answers, began, str(KILLS)],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert found.returncode == 0, found.stderr
    killed, sizes, names = found.stdout.strip().split(" ", 2)
    assert int(killed) > KILLS / 5
    assert int(sizes) >= (3 if began else 1)  # some answers were in the file by then
    assert names == "['p.yaml']"
