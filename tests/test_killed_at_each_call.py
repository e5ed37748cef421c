"""Whatever writes is killed before and after each call that its write makes of the system, and nothing is lost."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from case_houses import FULL
from test_interviews_killed import HOUSE

pytestmark = [pytest.mark.long, pytest.mark.skipif(sys.platform != "linux", reason="calls are stopped as on Linux")]
STRIDE = 1 if FULL else 3  # of its calls, which one is tried
DRAWN = """
document = __import__("ezdxf").new()
document.header["$INSUNITS"] = 1
space = document.modelspace()
space.add_lwpolyline([(0, 0), (144, 0), (144, 84), (0, 84)], close=True, dxfattribs={"layer": "A-AREA"})
space.add_text("BEDROOM", dxfattribs={"layer": "A-AREA-IDEN", "insert": (60, 60)})
document.saveas("house.dxf")
"""
AGAIN = f"""{DRAWN}
CliRunner().invoke(cli, arguments.split())
old = Path("p.yaml").read_text()
{DRAWN.replace("84)", "96)")}"""
KILLED = """
import ctypes, itertools, os, signal, sys
from pathlib import Path
from click.testing import CliRunner
from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.cli import cli
from precheck.files import atomic
from precheck.project import read_project
from precheck.runs.desk import Desk, Run

setting_up, arguments, answers, turn, old, stride = sys.argv[1:]
exec(setting_up)
written = Path(arguments.split()[-1])
desk = Desk(Run())
ptrace = ctypes.CDLL(None, use_errno=True).ptrace
ptrace.argtypes = [ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p]
TRACE_ME, TO_THE_NEXT_CALL = 0, 24
turns, inside = itertools.count(), False


def work():
    if arguments.startswith("board"):
        asked = {"do": "set", "part": "W1", "key": "sill height", "value": "36 in"}
        return HouseBoard(written, desk).do(REQUEST.validate_python(asked))
    return CliRunner().invoke(cli, arguments.split(), input=answers)


def stopped_at_each_call(real):
    def write(*given):
        global inside
        if inside or next(turns) != int(turn):
            return real(*given)
        inside = True
        if ptrace(TRACE_ME, 0, None, None):
            os._exit(9)
        os.kill(os.getpid(), signal.SIGSTOP)
        try:
            return real(*given)
        finally:
            os._exit(7)  # it is written
    return write


def killed_at(call):
    child = os.fork()
    if child == 0:
        for module in list(sys.modules.values()):
            for name, real in writers.items():
                if vars(module).get(name) is real:
                    setattr(module, name, stopped_at_each_call(real))
        work()
        os._exit(8)
    _, status = os.waitpid(child, os.WUNTRACED)
    for _ in range(call):
        if not os.WIFSTOPPED(status):
            break
        assert ptrace(TO_THE_NEXT_CALL, child, None, None) == 0
        _, status = os.waitpid(child, 0)
    if os.WIFSTOPPED(status):
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
    return os.WIFSIGNALED(status) or os.WEXITSTATUS(status)


def begun():
    written.write_text(old) if old else written.unlink(missing_ok=True)


writers = {"put": atomic.put, "put_in_place_of": atomic.put_in_place_of}
begun()
work()  # which loads all that the copies of this process need
whole, found, kills = written.read_bytes(), set(), 0
assert whole != old.encode()
for call in itertools.count(0, int(stride)):
    begun()
    ended = killed_at(call)
    assert ended in (True, 7), ended  # killed, or written before it could be
    text = written.read_bytes() if written.exists() else b""
    if arguments.startswith("check") or text in (b"", old.encode()):
        assert text in (old.encode(), whole), text[-200:]
    else:
        read_project(written)
    if ended == 7:
        break
    kills += 1
    found.add(text)
begun()
work()
assert written.read_bytes() == whole
print(kills, len(found), sorted(path.name for path in Path().iterdir() if path.is_file()))
"""
ANSWERS = "double hung\n3'-0\" x 4'-0\"\n36 in\nnew\n12 ft\nyes\n" * 6
PLAN = f"Path('p.yaml').write_text({HOUSE!r})"


@pytest.mark.parametrize(
    ("setting_up", "arguments", "answers", "turn", "old"),
    [
        ("", "ask p.yaml", ANSWERS, 2, HOUSE),
        ("", "start p.yaml", "A\nirc-2021\n2026-03-02\ndeck\n\nn\n0\n", 0, ""),
        ("", "board p.yaml", "", 1, HOUSE),
        (PLAN, "check p.yaml --output report.txt", "", 0, "an old report"),
        (PLAN, "check p.yaml --report html --output report.html", "", 0, ""),
        (DRAWN, "import house.dxf --output p.yaml", "", 0, ""),
        (AGAIN, "import house.dxf --output p.yaml", "", 0, ""),
    ],
    ids=["ask", "start", "board", "check", "check to a page", "import", "import again"],
)
def test_killed_at_any_call_of_its_write_it_leaves_the_old_file_or_the_new_and_the_next_clears_the_rest(
    tmp_path: Path, setting_up: str, arguments: str, answers: str, turn: int, old: str
) -> None:
    if DRAWN in setting_up:
        pytest.importorskip("ezdxf")
    found = subprocess.run(
        [sys.executable, "-c", KILLED, setting_up, arguments, answers, str(turn), old, str(STRIDE)],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert found.returncode == 0, found.stderr
    kills, states, names = found.stdout.strip().split(" ", 2)
    assert int(kills) > 60 / STRIDE, kills
    assert int(states) == 2
    assert not [name for name in ("unfinished", "lock") if name in names]
