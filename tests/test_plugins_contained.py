"""What a plugin of others does to the run is contained, and it is named; a run that it ends is never ready."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from firm import Firm

from precheck.cli import EXIT_CORRECTIONS, EXIT_RULE_ERRED

pytestmark = [
    pytest.mark.long,
    pytest.mark.skipif(not hasattr(os, "fork"), reason="no process can be copied here to watch over the run"),
]

HEAD = """
import builtins, gc, os, re, signal, sys, threading, time
from precheck import Check, Project, hookimpl, met, rule
"""
PLUGIN = """
@rule("bad.rule")
def bad(project: Project) -> Check:
    \"\"\"Be a plugin of others.\"\"\"
{body}
    return met("fine")


@hookimpl
def precheck_rules():
    return [bad]
"""
HOUSE = """
project: P
jurisdiction: irc-2021
spaces: [{id: hall, use: hall}, {id: loft, use: bedroom}]
stairs: [{id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13}]
"""
SHORT = "import precheck.rules.time_limit as t; t.LONGEST = 3.0"


def firm_of(folder: Path, body: str = "    pass", at_import: str = "") -> Firm:
    """Return a plugin whose rule, or whose import, runs some code."""
    indented = "".join(f"    {line}\n" for line in body.strip().splitlines())
    firm = Firm(folder, HEAD + at_import + PLUGIN.format(body=indented), "bad")
    firm.file("house.yaml", HOUSE)
    return firm


CHECK = ("check", "house.yaml", "--topic", "stairs", "--topic", "bad")
OF_STAIRS = ("check", "house.yaml", "--topic", "stairs")
NAMED = "plugin bad (bad-rules 1.0)"


@pytest.mark.parametrize("status", [0, 1, 2])
def test_a_rule_that_ends_the_process_decides_nothing_whatever_its_status(tmp_path: Path, status: int) -> None:
    found = firm_of(tmp_path, f"os._exit({status})").precheck(*CHECK)
    assert (found.returncode, found.stdout) == (EXIT_RULE_ERRED, "")
    assert found.stderr == f"bad.rule of {NAMED} ended the run before its end, so nothing is decided\n"


@pytest.mark.parametrize("command", [CHECK, ("plugins",), ("rules",), ("ask", "house.yaml")], ids=lambda c: c[0])
def test_a_plugin_that_ends_the_process_while_it_loads_is_named(tmp_path: Path, command: tuple[str, ...]) -> None:
    found = firm_of(tmp_path, at_import="os._exit(0)").precheck(*command)
    assert found.returncode == EXIT_RULE_ERRED
    assert found.stderr == f"{NAMED}, while it loads, ended the run before its end, so nothing is decided\n"


def test_a_rule_that_kills_its_process_among_many_files_is_told(tmp_path: Path) -> None:
    firm = firm_of(tmp_path, "os._exit(0)")
    for number in range(60):
        firm.file(f"plan-{number:02}.yaml", HOUSE)
    found = firm.precheck("check", "plan-*.yaml", "--jobs", "2", "--report", "json")
    assert found.returncode == EXIT_RULE_ERRED
    assert "a process ended without an answer" in found.stderr
    assert json.loads(found.stdout)["verdict"] == "unusable"


HANGS = {
    "catches everything": "while True:\n    try:\n        time.sleep(0.01)\n    except BaseException:\n        pass",
    "takes the alarm": "signal.signal(signal.SIGALRM, signal.SIG_IGN)\nwhile True: time.sleep(0.1)",
    "is deep in compiled code": "sum(range(10**12))",
}


@pytest.mark.parametrize("body", HANGS.values(), ids=HANGS)
def test_a_rule_that_does_not_let_itself_be_broken_off_ends_the_run_with_its_name(tmp_path: Path, body: str) -> None:
    found = firm_of(tmp_path, body).precheck(*CHECK, before=SHORT)
    assert (found.returncode, found.stdout) == (EXIT_RULE_ERRED, "")
    assert found.stderr == f"bad.rule of {NAMED} does not let itself be broken off, so the run ends here\n"


def test_a_rule_that_catches_ctrl_c_does_not_keep_the_person_from_stopping_the_run(tmp_path: Path) -> None:
    body = "try:\n    os.kill(os.getpid(), signal.SIGINT)\n    time.sleep(1)\nexcept KeyboardInterrupt:\n    pass"
    found = firm_of(tmp_path, body).precheck(*CHECK)
    assert (found.returncode, found.stdout) == (EXIT_RULE_ERRED, "")
    assert found.stderr == "stopped before the end, so nothing is decided\n"


def test_a_thread_that_a_plugin_leaves_running_does_not_keep_the_run_from_ending(tmp_path: Path) -> None:
    body = "threading.Thread(target=time.sleep, args=(600,)).start()"
    found = firm_of(tmp_path, body).precheck(*CHECK, patience=30)
    assert found.returncode == EXIT_CORRECTIONS
    assert "NOT READY" in found.stdout


MEDDLES = {
    "precheck.review.finding.Review.verdict": "from precheck.review.finding import Review; Review.verdict = property(lambda self: 'ready')",
    "Check.because": "Check.because = None",
    "builtins.any": "builtins.any = lambda found: False",
    "the recursion limit": "sys.setrecursionlimit(120)",
    "the folder of the run": "os.chdir('/')",
    "precheck.review.run.run": "import precheck.review.run as it; it.run = lambda *_: iter(())",
}  # fmt: skip


def errors(firm: Firm, command: tuple[str, ...] = CHECK) -> tuple[int, dict[str, str], dict[str, list[str]]]:
    """Return the status of a check, the messages of errors by their rules, and the outcomes of stair rules."""
    found = firm.precheck(*command, "--report", "json")
    data = json.loads(found.stdout)
    stairs: dict[str, list[str]] = {}
    for one in data["findings"]:
        if one["topic"] == "stairs":
            stairs.setdefault(one["rule"], []).append(one["outcome"])
    wrong = {one["rule"]: one["why"] for one in data["findings"] if one["outcome"] == "error"}
    assert data["verdict"] == "corrections"
    return found.returncode, wrong, stairs


@pytest.fixture(scope="module")
def undisturbed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """Return what the stair rules find where the plugin leaves them alone."""
    status, wrong, stairs = errors(firm_of(tmp_path_factory.mktemp("quiet")))
    assert (status, wrong) == (EXIT_CORRECTIONS, {})
    assert ["fail"] in stairs.values()
    return stairs


@pytest.mark.parametrize(("what", "body"), MEDDLES.items(), ids=MEDDLES)
def test_what_a_plugin_changes_is_put_back_and_told_whether_it_loads_or_runs(
    tmp_path: Path, what: str, body: str, undisturbed: dict[str, list[str]]
) -> None:
    short = what.removeprefix("precheck.review.finding.")
    status, wrong, stairs = errors(firm_of(tmp_path / "runs", body))
    assert (status, stairs) == (EXIT_RULE_ERRED, undisturbed)
    assert f"its checks changed {short}; that is put back" in wrong["plugins.left-alone"]
    status, wrong, stairs = errors(firm_of(tmp_path / "loads", at_import=body), OF_STAIRS)
    assert (status, stairs) == (EXIT_RULE_ERRED, undisturbed)
    assert f"it changes {short}, which is not its own and is put back" in wrong["plugins.loaded"]


def test_a_plugin_that_changes_the_project_spoils_no_check_of_others(
    tmp_path: Path, undisturbed: dict[str, list[str]]
) -> None:
    for number, body in enumerate(("project.__dict__.clear()", "project.stairs[0].__dict__['risers'] = 20")):
        status, wrong, stairs = errors(firm_of(tmp_path / str(number), body))
        assert (status, stairs) == (EXIT_RULE_ERRED, undisturbed)
        assert "its checks changed the project (" in wrong["plugins.left-alone"]


FOREIGN = {
    "an object that claims to be a pass": (
        "from types import SimpleNamespace; return SimpleNamespace(outcome=4)",
        "SimpleNamespace",
    ),
    "a number": ("return 4", "int"),
    "nothing": ("return None", "NoneType"),
}


@pytest.mark.parametrize(("body", "kind"), FOREIGN.values(), ids=FOREIGN)
def test_what_is_no_check_of_ours_is_never_a_pass(tmp_path: Path, body: str, kind: str) -> None:
    status, wrong, _ = errors(firm_of(tmp_path, body))
    assert status == EXIT_RULE_ERRED
    assert f"it returned {kind}, which is no check" in wrong["bad.rule"]


WORDLESS = """
class Wordless(Exception):
    def __str__(self):
        raise SystemExit(0)
    __repr__ = __str__
"""


def test_an_error_that_breaks_off_while_it_is_told_is_told_by_its_kind(tmp_path: Path) -> None:
    _, wrong, _ = errors(firm_of(tmp_path / "rule", "raise Wordless", WORDLESS))
    assert "Wordless, whose message failed (SystemExit)" in wrong["bad.rule"]
    _, wrong, _ = errors(firm_of(tmp_path / "words", "return met('x').because(lambda: str(Wordless()))", WORDLESS))
    assert wrong == {}
    _, wrong, _ = errors(firm_of(tmp_path / "import", at_import=f"{WORDLESS}\nraise Wordless"), OF_STAIRS)
    assert "Wordless, whose message failed (SystemExit)" in wrong["plugins.loaded"]


@pytest.mark.parametrize("body", [
    "return broken('x').or_fix('y', lambda: 1 / 0)",
    "return met('x').with_work(lambda: sys.exit(0))",
    "return broken('x').or_fix(lambda: sys.exit(0))",
])  # fmt: skip
def test_what_a_rule_works_out_for_a_report_does_not_take_the_report_along(tmp_path: Path, body: str) -> None:
    firm = firm_of(tmp_path, f"from precheck import broken\n{body}")
    for report in ("json", "text"):
        found = firm.precheck(*CHECK, "--report", report)
        assert found.returncode == EXIT_CORRECTIONS, found.stderr
        assert len(found.stdout) > 1000


def test_the_status_of_a_watched_run_is_its_own(tmp_path: Path) -> None:
    firm = firm_of(tmp_path)
    assert firm.precheck(*CHECK).returncode == EXIT_CORRECTIONS
    assert firm.precheck("check", "house.yaml", "--topic", "bad").returncode == 0
    assert firm.precheck("check", "none.yaml").returncode == 2
    assert firm.precheck("chekc").returncode == 2
    assert firm.precheck("--help").returncode == 0


def test_a_signal_to_the_watching_process_stops_the_run(tmp_path: Path) -> None:
    firm = firm_of(tmp_path, "print('here', flush=True); time.sleep(20)")
    command = [sys.executable, "-c", "from precheck.cli import main; main()", *CHECK]
    with subprocess.Popen(
        command, cwd=tmp_path, stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(firm.folder / "site")}
    ) as run:
        assert run.stderr is not None
        assert run.stderr.readline() == b"here\n"
        run.send_signal(signal.SIGTERM)
        assert b"ended the run before its end" in run.stderr.read()
        assert run.wait(10) == EXIT_RULE_ERRED
