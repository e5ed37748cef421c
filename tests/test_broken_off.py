"""A run that is broken off says how far it came, in a report that is whole so far, and ends with the status for that."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from test_many_files import RUN, house, precheck, results

from precheck.cli import EXIT_CORRECTIONS, EXIT_RULE_ERRED, EXIT_UNUSABLE
from precheck.runs.many import check_many

pytestmark = pytest.mark.long

FILES = 200


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with more projects than a moment is enough for."""
    folder = tmp_path_factory.mktemp("plans")
    for number in range(FILES):
        (folder / f"{number:03}.yaml").write_text(house(number))
    return folder


def stopped(plans: Path, name: str, *arguments: str) -> tuple[int, str, str]:
    """Return status, output and errors of a run that gets a signal once its report has begun."""
    command = [sys.executable, "-c", "from precheck.cli import main; main()", "check", str(plans / "*.yaml")]
    with subprocess.Popen(
        [*command, "--topic", "stairs", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
        bufsize=0,
    ) as run:
        assert run.stdout is not None
        begun = run.stdout.read(2000)
        os.killpg(run.pid, getattr(signal, name))  # as a terminal does, to every process of the run
        out, err = run.communicate(timeout=60)
        return run.returncode, (begun + out).decode(), err.decode()


def count(told: str) -> int:
    """Return how many files a run says that it checked."""
    number = int(told.partition(" of 200 files are checked")[0].rpartition(" ")[2])
    assert 0 < number < FILES
    return number


@pytest.mark.parametrize(("name", "jobs"), [("SIGINT", "2"), ("SIGTERM", "1")])
def test_a_run_that_is_stopped_ends_its_report_and_says_how_far_it_came(plans: Path, name: str, jobs: str) -> None:
    status, out, err = stopped(plans, name, "--report", "json", "--jobs", jobs)
    assert status == EXIT_RULE_ERRED
    assert "Traceback" not in err
    number = count(err)
    projects = json.loads(out)
    assert len(projects) == number + 1
    assert projects[-1]["verdict"] == "unusable"
    assert f"{number} of 200 files are checked" in projects[-1]["problems"][0]["what"]
    assert projects[-1]["project"]["file"] == str(plans / f"{number:03}.yaml")


def test_the_formats_of_servers_tell_a_run_that_is_broken_off_as_one(plans: Path) -> None:
    log = json.loads(stopped(plans, "SIGINT", "--report", "sarif")[1])["runs"][0]
    assert log["invocations"][0]["executionSuccessful"] is False
    assert any(
        "of 200 files are checked" in n["message"]["text"] for n in log["invocations"][0]["toolExecutionNotifications"]
    )
    suites = ET.fromstring(stopped(plans, "SIGINT", "--report", "junit")[1]).findall("testsuite")
    assert suites[-1].attrib["errors"] == "1"
    assert "of 200 files are checked" in ET.tostring(suites[-1], encoding="unicode")


def test_the_summary_for_people_says_first_that_not_all_was_checked(plans: Path) -> None:
    status, out, _ = stopped(plans, "SIGINT")
    assert status == EXIT_RULE_ERRED
    summary = out[out.index("NOT ALL CHECKED: stopped: ") :]
    assert summary.splitlines()[2].startswith(f"{count(' '.join(summary.split()))} files: ")


def test_a_single_check_that_is_stopped_has_decided_nothing(tmp_path: Path) -> None:
    plan = tmp_path / "p.yaml"
    plan.write_text(house(1))
    code = (
        "import os, signal, precheck.runs.desk as desk\n"
        "def stop(*_, **__): os.kill(os.getpid(), signal.SIGINT)\n"
        "desk.review = stop\nfrom precheck.cli import main; main()"
    )
    found = subprocess.run(
        [sys.executable, "-c", code, "check", str(plan)], capture_output=True, text=True, check=False
    )
    assert (found.returncode, found.stdout) == (EXIT_RULE_ERRED, "")
    assert found.stderr == "stopped before the end, so nothing is decided\n"


def test_of_several_files_the_worst_decides_the_exit_status(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "corrections.yaml").write_text(house(1))
    (tmp_path / "unusable.yaml").write_text("project: P\nstares: []\n")
    both = [str(tmp_path / name) for name in ("unusable.yaml", "corrections.yaml")]
    assert precheck(both[1], "--topic", "stairs").exit_code == EXIT_CORRECTIONS
    for report in ("text", "html"):
        assert precheck(*both, "--topic", "stairs", "--report", report).exit_code == EXIT_UNUSABLE
    monkeypatch.setattr("precheck.review.run._one", _breaks)
    for report in ("text", "html"):
        assert precheck(*both, "--topic", "stairs", "--report", report).exit_code == EXIT_RULE_ERRED


def _breaks(rule: object, one: object, *_: object) -> object:
    from precheck.review.run import _erred

    try:
        _ = 1 // 0
    except ZeroDivisionError as error:
        return _erred(rule, one.subject, (), error)  # type: ignore[attr-defined, arg-type]
    return None


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="there is no way to kill a process here")
def test_a_process_that_is_killed_in_mid_run_is_told_and_what_was_checked_stands(plans: Path) -> None:
    code = (
        "import os, precheck.runs.desk as desk\n"
        "checked = desk.Desk.check\n"
        "def check(self, file):\n"
        "    if file.endswith('120.yaml'): os._exit(0)\n"
        "    return checked(self, file)\n"
        "desk.Desk.check = check\nfrom precheck.cli import main; main()"
    )
    arguments = ["check", str(plans / "*.yaml"), "--topic", "stairs", "--report", "json", "--jobs", "2"]
    found = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=False)
    assert found.returncode == EXIT_RULE_ERRED
    assert "a process ended without an answer; use --jobs 1 to see at which file: " in found.stderr
    projects = json.loads(found.stdout)
    assert len(projects) == count(found.stderr) + 1
    assert all(one["verdict"] == "corrections" for one in projects[:-1])


def test_a_cluster_that_loses_a_worker_in_mid_run_gives_the_same_results(plans: Path) -> None:
    distributed = pytest.importorskip("distributed")
    names = [str(path) for path in sorted(plans.glob("*.yaml"))[:100]]
    quiet = {"dashboard_address": None, "processes": True, "silence_logs": 50}
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, **quiet) as cluster:
        coming = check_many(names, RUN, scheduler=cluster.scheduler_address)
        first = next(coming)
        victim = next(iter(cluster.workers.values()))
        os.kill(victim.pid, signal.SIGKILL)
        found = results(iter([first, *coming]))
    assert found == results(check_many(names, RUN, jobs=1))
