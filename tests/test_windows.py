"""As on Windows, by what can be tried elsewhere: paths, encodings, ends of lines, names, and a system without POSIX."""

from __future__ import annotations

import errno
import fcntl
import json
import os
import re
import subprocess
import sys
import threading
from pathlib import Path, PureWindowsPath
from types import SimpleNamespace

import pytest

from precheck.files import atomic, held
from precheck.files.source import Unusable
from precheck.project import read_project
from precheck.reports import uri
from precheck.review.accepted import read_accepted

ROOT = Path(__file__).parents[1]
SKETCH = ROOT / "examples" / "sketch" / "sketch.yaml"
RESERVED = re.compile(r"(?i)^(con|prn|aux|nul|com\d|lpt\d)(\..*)?$")
NOT_IN_NAMES = re.compile(r'[<>:"\\|?*\x00-\x1f]|[. ]$')
WITHOUT_POSIX = """
import os, signal, sys
for name in ("fcntl", "resource", "termios", "pwd", "grp", "tty", "pty"):
    sys.modules[name] = None  # so that importing it fails
for name in ("fork", "geteuid", "getuid", "sched_getaffinity", "killpg", "fchmod", "register_at_fork"):
    vars(os).pop(name, None)
for name in ("SIGALRM", "SIGHUP", "SIGKILL", "setitimer", "ITIMER_REAL", "pthread_kill"):
    vars(signal).pop(name, None)
if __name__ == "__main__":
    import multiprocessing

    from precheck.cli import main

    multiprocessing.set_start_method("spawn")  # as Windows does, which has no other
    main()
"""


def without_posix(
    tmp_path: Path, *arguments: str, answers: str = "", cwd: Path = ROOT
) -> subprocess.CompletedProcess[bytes]:
    """Run the command in a process that lacks what only POSIX has."""
    program = tmp_path / "without_posix.py"
    program.write_text(WITHOUT_POSIX)
    env = {**os.environ, "PRECHECK_PREPARED": "off"}
    return subprocess.run(
        [sys.executable, program, *arguments], input=answers.encode(), capture_output=True, check=False, cwd=cwd, env=env
    )  # fmt: skip


def test_a_check_without_what_only_posix_has_says_the_same(tmp_path: Path) -> None:
    arguments = ["check", "examples/sketch/sketch.yaml", "--report", "json"]
    here = subprocess.run([sys.executable, "-m", "precheck", *arguments], capture_output=True, check=False, cwd=ROOT)
    there = without_posix(tmp_path, *arguments)
    assert (there.returncode, there.stderr) == (here.returncode, b"")
    assert there.stdout == here.stdout


def test_answers_are_written_without_what_only_posix_has(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_bytes(SKETCH.read_bytes())
    ran = without_posix(tmp_path, "ask", str(file), answers="yes\nstop\n")
    assert b"Traceback" not in ran.stderr
    assert {path.name for path in tmp_path.iterdir()} == {"house.yaml", "without_posix.py"}


# --- encodings


@pytest.mark.parametrize("encoding", ["cp1252", "cp437", "ascii"])
def test_a_report_is_utf_8_whatever_the_console_would_write(tmp_path: Path, encoding: str) -> None:
    file = tmp_path / "house.yaml"
    file.write_text(SKETCH.read_text("utf-8").replace("Garage to bedroom", "Peña, ½ 日本"), encoding="utf-8")
    env = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    for report in ("text", "json", "html"):
        command = [sys.executable, "-m", "precheck", "check", str(file), "--report", report]
        ran = subprocess.run(command, capture_output=True, check=False, env=env)
        assert ran.returncode == 1, ran.stderr
        assert "Peña, ½ 日本" in ran.stdout.decode("utf-8")


@pytest.mark.parametrize("end", ["\r\n", "\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_ends_of_lines_and_a_mark_at_the_beginning_change_nothing(tmp_path: Path, end: str, mark: str) -> None:
    file = tmp_path / "house.yaml"
    file.write_bytes((mark + SKETCH.read_text("utf-8").replace("\n", end)).encode())
    found, own = read_project(file, "house.yaml"), read_project(SKETCH, "house.yaml")
    assert [(p.id, p.place) for p in found.parts] == [(p.id, p.place) for p in own.parts]


@pytest.mark.parametrize(("encoding", "byte"), [("utf-16", 0), ("utf-16-le", None), ("utf-16-be", 0), ("cp1252", 9)])
def test_a_file_in_another_encoding_is_told_with_what_to_do(tmp_path: Path, encoding: str, byte: int | None) -> None:
    file = tmp_path / "house.yaml"
    file.write_bytes("project: é\nspaces: []\n".encode(encoding))
    with pytest.raises(Unusable) as caught:
        read_project(file)
    assert "UTF-8" in str(caught.value.problems[0])


# --- paths


class Windows(PureWindowsPath):
    """A Windows path that knows a folder to be in."""

    @classmethod
    def cwd(cls) -> Windows:
        """Return the folder of the run."""
        return cls("C:\\jobs\\Linden Ford")


@pytest.mark.parametrize(
    ("file", "address"),
    [
        ("C:\\jobs\\Linden Ford\\house 1.yaml", "house%201.yaml"),
        ("plans\\house.yaml", "plans/house.yaml"),
        ("D:\\other\\house.yaml", "file:///D:/other/house.yaml"),
        ("\\\\server\\share\\house.yaml", "file://server/share/house.yaml"),
    ],
)
def test_addresses_in_reports_have_forward_slashes(monkeypatch: pytest.MonkeyPatch, file: str, address: str) -> None:
    monkeypatch.setattr(uri, "Path", Windows)
    uri._uri.cache_clear()  # of what another test asked where paths are those of Unix
    assert uri.uri(file) == address
    uri._uri.cache_clear()
    assert "\\" not in uri.plain_path(file)


def test_a_record_written_on_windows_is_of_the_same_project_elsewhere(tmp_path: Path) -> None:
    text = "accepted: [{rule: stairs.width, part: S1, document: letter, by: me, project: 'plans\\house.yaml'}]\n"
    (tmp_path / "accepted.yaml").write_text(text)
    (record,) = read_accepted(tmp_path / "accepted.yaml")
    assert record.is_of("plans/house.yaml")
    assert record.is_of("C:\\jobs\\house.yaml")
    assert not record.is_of("plans/house-2.yaml")


def test_a_colon_in_the_name_of_a_drive_leaves_the_place_of_a_problem_readable(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_text("project: House\nstares: []\n")
    with pytest.raises(Unusable) as caught:
        read_project(file, "C:\\jobs\\house.yaml")
    assert str(caught.value.problems[0]).startswith("C:\\jobs\\house.yaml:2:1: ")


# --- names


def test_no_name_in_the_tree_is_one_that_windows_refuses_or_takes_for_another() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False).stdout.split(
        "\n"
    )
    if len(listed) < 2:
        pytest.skip("the tree is no checkout")
    names = {str(folder) for file in listed if file for folder in (Path(file), *Path(file).parents)} - {"."}
    assert len({name.lower() for name in names}) == len(names)
    for name in names:
        assert not RESERVED.match(Path(name).name), name
        assert not NOT_IN_NAMES.search(Path(name).name), name


# --- files that are held


class LocksOfWindows:
    """The part of `msvcrt` that is used, with the answers that it gives."""

    LK_NBLCK = 2

    @staticmethod
    def locking(descriptor: int, mode: int, count: int) -> None:
        """Hold, or say as Windows does that another holds."""
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise PermissionError(errno.EACCES, "Permission denied") from None


@pytest.fixture
def on_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hold files as on Windows, where one that this process has open cannot be removed."""
    unlink = Path.unlink

    def refused(path: Path, missing_ok: bool = False) -> None:
        here = os.path.realpath(path)
        opened = (os.path.realpath(each) for each in Path("/proc/self/fd").iterdir())
        if here in opened:
            raise PermissionError(errno.EACCES, "it is open")
        unlink(path, missing_ok)

    monkeypatch.setattr(Path, "unlink", refused)
    monkeypatch.setattr(held, "fcntl", None)
    monkeypatch.setattr(held, "msvcrt", LocksOfWindows)
    monkeypatch.setattr(atomic, "_OPEN_STAYS", True)


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="open files are not listed here")
@pytest.mark.usefixtures("on_windows")
def test_what_a_killed_run_left_is_removed_on_windows_too(tmp_path: Path) -> None:
    left = tmp_path / f".house.yaml.abc{atomic._UNFINISHED}"
    left.write_bytes(b"half")
    atomic.put(tmp_path / "house.yaml", [b"whole"])
    assert [path.name for path in tmp_path.iterdir()] == ["house.yaml"]


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="open files are not listed here")
@pytest.mark.usefixtures("on_windows")
def test_two_that_write_at_once_take_turns_on_windows_too(tmp_path: Path) -> None:
    file = tmp_path / "house.yaml"
    file.write_bytes(b"old")
    put = []

    def write(text: bytes) -> None:
        put.append(atomic.put_in_place_of(file, b"old", text))

    both = [threading.Thread(target=write, args=(text,)) for text in (b"one", b"other")]
    for each in both:
        each.start()
    for each in both:
        each.join()
    assert sorted(put) == [False, True]
    assert file.read_bytes() in (b"one", b"other")
    assert [path.name for path in tmp_path.iterdir()] == ["house.yaml"]


def test_nobody_waits_where_files_cannot_be_held(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def unsupported(*_: object) -> None:
        raise OSError(errno.EINVAL, "not on this drive")

    monkeypatch.setattr(held, "fcntl", None)
    monkeypatch.setattr(held, "msvcrt", SimpleNamespace(LK_NBLCK=2, locking=unsupported))
    with (tmp_path / "house.yaml").open("wb") as file:
        assert held.hold(file, wait=True) is False


@pytest.mark.long
def test_processes_that_do_not_begin_as_copies_give_the_same_results(tmp_path: Path) -> None:
    for number in range(60):
        (tmp_path / f"{number:02}.yaml").write_text(f"project: House {number}\njurisdiction: irc-2021\n")
    arguments = ["check", "*.yaml", "--topic", "stairs", "--report", "json", "--jobs"]
    one, two = (without_posix(tmp_path, *arguments, jobs, cwd=tmp_path) for jobs in ("1", "2"))
    assert two.stderr == b""
    assert len(json.loads(two.stdout)) == 60
    assert two.stdout == one.stdout
