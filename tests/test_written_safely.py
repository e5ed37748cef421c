"""What is written is there whole or not at all: killed, on a full disk, in a folder that is not ours, two at a time."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from precheck.files.atomic import put, put_in_place_of

pytestmark = [pytest.mark.long, pytest.mark.skipif(not hasattr(os, "fork"), reason="no process can be copied here")]
HOUSE = """\
project: P
jurisdiction: irc-2021
spaces: [{id: hall, use: hall}, {id: loft, use: bedroom}]
stairs: [{id: S1, phase: new, between: [hall, loft]}]
"""
KILLS = 1000
KILLED = """
import os, random, signal, sys, tempfile
from pathlib import Path
import precheck.files.atomic as atomic

target, chance = Path(sys.argv[1]), random.Random(7)
old, new = b"o" * 300_000, b"n" * 300_000

def dies(*_, **__):
    os.kill(os.getpid(), signal.SIGKILL)

def bits(at):
    for number in range(30):
        if number == at:
            dies()
        yield new[:10_000]

outcomes = {"old": 0, "new": 0}
atomic.put(target, [old])
for _ in range(int(sys.argv[2])):
    child = os.fork()
    if child == 0:
        stage = chance.choice(["bits", "bits", "flush", "rights", "replaced", "lives"])
        if stage == "flush":
            atomic.os.fsync = dies
        if stage == "rights":
            Path.chmod = dies
        if stage == "replaced":
            replace = Path.replace
            Path.replace = lambda one, other: (replace(one, other), dies())
        atomic.put(target, bits(chance.randrange(30) if stage == "bits" else None))
        os._exit(0)
    chance.random()
    os.waitpid(child, 0)
    found = target.read_bytes()
    assert found in (old, new), len(found)
    outcomes["old" if found == old else "new"] += 1
    if found == new:
        atomic.put(target, [old])
print(outcomes["old"], outcomes["new"], len(list(target.parent.iterdir())))
"""


def python(code: str, *arguments: str, **options: object) -> subprocess.CompletedProcess[str]:
    """Run code in a process of its own."""
    return subprocess.run(
        [sys.executable, "-c", code, *arguments],
        capture_output=True,
        text=True,
        check=False,
        **options,  # type: ignore[call-overload]
    )


def test_a_write_that_is_killed_leaves_the_old_file_or_the_new_one_and_the_next_clears_what_is_left(
    tmp_path: Path,
) -> None:
    found = python(KILLED, str(tmp_path / "house.yaml"), str(KILLS))
    assert found.returncode == 0, found.stderr
    old, new, files = map(int, found.stdout.split())
    assert old + new == KILLS
    assert min(old, new) > KILLS / 20
    assert files <= 2  # the last one killed is cleared by the next
    put(tmp_path / "other.yaml", [b"x"])
    assert sorted(path.name for path in tmp_path.iterdir()) == ["house.yaml", "other.yaml"]


def test_what_another_run_is_writing_is_not_cleared(tmp_path: Path) -> None:
    def bits() -> Iterator[bytes]:
        yield b"one "
        put(tmp_path / "second.txt", [b"other"])  # which clears what is left over
        yield b"two"

    put(tmp_path / "first.txt", bits())
    assert (tmp_path / "first.txt").read_bytes() == b"one two"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["first.txt", "second.txt"]


def test_a_file_of_a_person_that_only_looks_like_one_left_over_stays(tmp_path: Path) -> None:
    (tmp_path / ".house.yaml.backup").write_text("mine")
    put(tmp_path / "house.yaml", [b"x"])
    assert (tmp_path / ".house.yaml.backup").read_text() == "mine"


def test_two_that_write_answers_at_once_lose_none(tmp_path: Path) -> None:
    file = tmp_path / "answers"
    file.write_bytes(b"")
    code = (
        "import sys; from pathlib import Path; from precheck.files.atomic import put_in_place_of as put\n"
        "file, told = Path(sys.argv[1]), 0\n"
        "for n in range(60):\n"
        "    while True:\n"
        "        seen = file.read_bytes()\n"
        "        if put(file, seen, seen + f'{sys.argv[2]}{n}\\n'.encode()): break\n"
        "        told += 1\n"
    )
    three = [subprocess.Popen([sys.executable, "-c", code, str(file), name]) for name in "abc"]
    assert [one.wait(120) for one in three] == [0, 0, 0]
    assert sorted(file.read_text().split()) == sorted(f"{name}{n}" for name in "abc" for n in range(60))
    assert [path.name for path in tmp_path.iterdir()] == ["answers"]


def test_what_changed_since_it_was_read_is_left_as_it_is(tmp_path: Path) -> None:
    file = tmp_path / "p.yaml"
    file.write_bytes(b"theirs")
    assert not put_in_place_of(file, b"as I read it", b"mine")
    assert file.read_bytes() == b"theirs"
    assert put_in_place_of(file, b"theirs", b"mine")
    assert file.read_bytes() == b"mine"


MAIN = "from precheck.cli import main; main()"
FULL = (  # as a disk does that is full, on which no half of a compiled module may stay for others
    "import resource, sys; sys.dont_write_bytecode = True; resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))\n"
)


WRITES = (
    (["check", "p.yaml", "--output", "report.txt"], ""),
    (["check", "p.yaml", "--output", "new.html", "--report", "html"], ""),
    (["ask", "p.yaml"], "new\n"),
    (["start", "new.yaml"], "A\nirc-2021\n2026-03-02\ndeck\n\nn\n0\n"),
    (["schema", "project", "--output", "schema.json"], ""),
)


def hold_that_nothing_is_written(folder: Path, before: str, why: str) -> None:
    """Hold that whatever writes says `why` it cannot, where `before` ran, and leaves the files that are there as they are."""
    there = {path.name: path.read_bytes() for path in folder.iterdir()}
    for arguments, answers in WRITES:
        found = python(before + MAIN, *arguments, cwd=folder, input=answers)
        assert found.returncode == 2, (arguments, found.stdout, found.stderr)
        assert f"cannot be written ({why})" in found.stderr
        assert "Traceback" not in found.stderr
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == there


def test_where_no_file_can_grow_the_old_one_stays_whole_and_nothing_is_left(tmp_path: Path) -> None:
    (tmp_path / "p.yaml").write_text(HOUSE)
    (tmp_path / "report.txt").write_text("old")
    hold_that_nothing_is_written(tmp_path, FULL, "File too large")


@pytest.fixture
def full_disk(tmp_path: Path) -> Iterator[Path]:
    """Give a small disk with a project on it, and not one byte more."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)]
    if sys.platform != "linux" or subprocess.run(mount, capture_output=True, check=False).returncode:
        pytest.skip("no disk can be made here")
    try:
        (disk / "p.yaml").write_text(HOUSE)
        (disk / "report.txt").write_text("old")
        with suppress(OSError), (disk / "filler").open("wb", buffering=0) as filler:
            while filler.write(b"x" * 4096):
                pass
        yield disk
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def test_on_a_full_disk_the_old_file_stays_whole_and_nothing_is_left(full_disk: Path) -> None:
    hold_that_nothing_is_written(full_disk, "", "No space left on device")


ELSEWHERE = """
import contextlib, io, os, sys
from pathlib import Path
from precheck.cli import main

def told(arguments, answers):
    sys.argv, sys.stdin = ["precheck", *arguments], io.StringIO(answers)
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()) as said:
        try:
            main()
        except SystemExit as ended:
            return ended.code, said.getvalue()

plan, writes = Path(sys.argv[1]), eval(sys.argv[2])
before = plan.read_bytes()
for arguments, answers in writes:
    told(arguments, answers)  # which loads all that may no longer be read then
for path in plan.parent.iterdir():
    path.unlink()
plan.write_bytes(before)
plan.chmod(0o666)  # the file may be written, its folder may not
os.setgid(65534), os.setuid(65534)
for arguments, answers in writes:
    print(*told(arguments, answers), sep=" ", end="\\0")
"""


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root can become another user")
def test_in_a_folder_of_somebody_else_nothing_is_written_and_that_is_told(tmp_path: Path) -> None:
    plan = tmp_path / "p.yaml"
    plan.write_text(HOUSE)
    for folder in (tmp_path, *list(tmp_path.parents)[:3]):
        folder.chmod(0o755)
    found = python(ELSEWHERE, str(plan), repr(WRITES), cwd=tmp_path)
    assert found.returncode == 0, found.stderr
    told = found.stdout.split("\0")[:-1]
    assert len(told) == len(WRITES)
    assert all(line.startswith("2 ") and "cannot be written (Permission denied)" in line for line in told), told
    assert plan.read_text() == HOUSE
    assert [path.name for path in tmp_path.iterdir()] == ["p.yaml"]


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", "p.yaml", "--ruleset", "own/adoption.yaml", "--output", "own/adoption.yaml"],
        ["check", "p.yaml", "--output", "own/link.txt"],  # which leads to a ruleset
        ["papers", "corrections", "p.yaml", "--output", "accepted.yaml"],
        ["papers", "response", "p.yaml", "p.yaml", "--blank", "--output", "answers.yaml"],
        ["compare", "p.yaml", "p.yaml", "--output", "own/adoption.yaml"],
        ["schema", "project", "--output", "p.yaml"],
        ["check", "notes.txt", "--output", "notes.txt"],
        ["check", "p.yaml", "--output", "hard.txt"],  # the same file by another name
        ["start", "p.yaml"],
    ],
    ids=lambda arguments: " ".join(arguments[::2]),
)
def test_no_output_replaces_a_file_that_is_read_however_it_came_to_be_read(
    tmp_path: Path, arguments: list[str]
) -> None:
    (tmp_path / "own").mkdir()
    texts = {
        "p.yaml": HOUSE, "notes.txt": HOUSE, "accepted.yaml": "accepted: []\n", "answers.yaml": "answers: []\n",
        "own/adoption.yaml": "jurisdiction: Alder\nadopts: irc-2021\nin force: 2026-01-01\nby: Code 1\n",
    }  # fmt: skip
    for name, text in texts.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "own" / "link.txt").symlink_to(tmp_path / "own" / "adoption.yaml")
    (tmp_path / "hard.txt").hardlink_to(tmp_path / "p.yaml")
    found = python(MAIN, *arguments, cwd=tmp_path)
    assert found.returncode == 2, found.stdout
    assert "is there already" in found.stderr or "would be lost; name another file with --output" in found.stderr
    assert {name: (tmp_path / name).read_text() for name in texts} == texts
