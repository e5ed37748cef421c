"""Many project files in one run: in order, whatever the number of processes; a bad one is told and the rest checked."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from precheck.checks import Outcome
from precheck.cli import EXIT_UNUSABLE, cli
from precheck.cli.progress import watched
from precheck.files.source import Unusable
from precheck.reports.checked import UNUSABLE, Checked
from precheck.runs.desk import Run
from precheck.runs.many import CHUNK, check_many, check_there

FILES = 3 * CHUNK + 7
RUN = Run(topics=("stairs",), report="json")


def house(number: int) -> str:
    """Return a project file whose stair has its own rise and number of risers."""
    edition = ("irc-2018", "irc-2021")[number % 2]
    rise = f"total rise: {100 + number % 9} in, risers: {13 + number % 3}"
    stair = f"{{id: S{number}, phase: new, between: [hall, loft], {rise}}}"
    spaces = "[{id: hall, use: hall}, {id: loft, use: bedroom}]"
    return f"project: House {number}\njurisdiction: {edition}\nstairs: [{stair}]\nspaces: {spaces}\n"


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with many projects; number 40 cannot be used."""
    folder = tmp_path_factory.mktemp("plans")
    for number in range(FILES):
        (folder / f"{number:03}.yaml").write_text(house(number))
    (folder / "040.yaml").write_text("project: Bad\nstares: []\n")
    return folder


def names(plans: Path) -> list[str]:
    """Return the files of the folder, in order."""
    return [str(path) for path in sorted(plans.glob("*.yaml"))]


def precheck(*arguments: str) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(cli, ["check", *arguments])


def results(found: Iterator[Checked]) -> list[tuple[object, ...]]:
    """Return what is the same however the work was spread."""
    return [(c.file, c.verdict, c.counts, c.jurisdiction, c.rules, c.problems, c.piece) for c in found]


def test_the_results_are_the_same_for_any_number_of_processes(plans: Path) -> None:
    one = results(check_many(names(plans), RUN, jobs=1))
    assert results(check_many(names(plans), RUN, jobs=2)) == one
    assert results(check_many(names(plans), RUN, jobs=3)) == one
    assert [r[0] for r in one] == names(plans)


def test_a_cluster_gives_the_same_results(plans: Path) -> None:
    distributed = pytest.importorskip("distributed")
    quiet = {"dashboard_address": None, "processes": False, "silence_logs": 50}
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, **quiet) as cluster:
        spread = results(check_many(names(plans), RUN, scheduler=cluster.scheduler_address))
    assert spread == results(check_many(names(plans), RUN, jobs=1))


def test_a_worker_finds_files_by_their_names_in_the_folder_of_the_run(plans: Path, tmp_path: Path) -> None:
    before = Path.cwd()
    some = ("000.yaml", "001.yaml")
    assert [one.file for one in check_there(RUN, plans, some) if one.verdict != UNUSABLE] == list(some)
    assert Path.cwd() == before
    with pytest.raises(FileNotFoundError, match=r"a worker has no folder .*gone; the run's folder must be at the same"):
        check_there(RUN, tmp_path / "gone", some)


def test_a_worker_that_goes_on_reads_a_ruleset_anew_for_the_next_run(plans: Path, tmp_path: Path) -> None:
    distributed = pytest.importorskip("distributed")
    ruleset = tmp_path / "town.yaml"
    text = "jurisdiction: Town\nadopts: irc-2021\nin force: 2026-01-01\nby: ordinance\namendments:\n"
    amended = text + "  - {amend: stairs.riser-height.maximum, was: 7 3/4 in, to: VALUE, by: ordinance}\n"
    run, one = replace(RUN, ruleset=str(ruleset)), str(plans / "001.yaml")
    quiet = {"dashboard_address": None, "processes": False, "silence_logs": 50}
    outcomes = []
    with distributed.LocalCluster(n_workers=1, threads_per_worker=1, **quiet) as cluster:
        for value in ("9 in", "5 in"):
            ruleset.write_text(amended.replace("VALUE", value))
            (found,) = check_many([one], run, scheduler=cluster.scheduler_address)
            outcomes.append(dict.fromkeys(o for (rule, o), _ in found.rules if rule == "stairs.riser-height"))
    assert [list(one) for one in outcomes] == [["pass"], ["fail"]]


def test_a_scheduler_that_is_not_there_is_told() -> None:
    from precheck.files.source import Unusable

    pytest.importorskip("distributed")
    with pytest.raises(Unusable, match="there is no scheduler at `nonsense://here`"):
        list(check_many(["a.yaml"], RUN, scheduler="nonsense://here"))


def test_files_are_taken_as_they_are_needed_and_not_all_at_once() -> None:
    taken = 0

    def endless() -> Iterator[str]:
        nonlocal taken
        while True:
            taken += 1
            yield f"none-{taken}.yaml"

    found = check_many(endless(), Run(), jobs=1)
    assert next(found).verdict == UNUSABLE
    assert taken <= 3 * CHUNK


def test_a_bad_file_is_told_at_its_line_and_the_rest_are_checked(plans: Path) -> None:
    found = precheck(str(plans / "*.yaml"), "--topic", "stairs", "--jobs", "2")
    assert found.exit_code == EXIT_UNUSABLE
    assert f"{plans / '040.yaml'}:2:1: `stares` is not a key of a project; did you mean `stairs`?" in found.stderr
    lines = [line for line in found.stdout.splitlines() if line.startswith(str(plans))]
    assert len(lines) == FILES
    assert f"{plans / '040.yaml'} CANNOT BE USED: 1 problem." in lines


def test_the_summary_counts_what_the_files_come_to(plans: Path) -> None:
    text = precheck(str(plans / "*.yaml"), "--topic", "stairs").stdout
    found = list(check_many(names(plans), RUN, jobs=1))
    tall = sum(dict(c.rules).get(("stairs.riser-height", Outcome.FAIL.word), 0) for c in found)
    assert tall
    row = next(line for line in text.splitlines() if line.startswith("stairs.riser-height"))
    assert row.split()[1] == str(tall)
    assert f"{FILES} files: " in text
    assert "1 cannot be used" in text
    by_place = text[text.index("BY JURISDICTION") :]
    counted = {e: sum(c.jurisdiction == e for c in found) for e in ("irc-2018", "irc-2021")}
    for edition, number in counted.items():
        row = next(line for line in by_place.splitlines() if line.startswith(edition))
        assert sum(map(int, row.split()[1:])) == number
    assert "NOT CHECKED" in text
    assert "The local building department" in text


def test_json_of_many_files_is_one_list_in_order_with_the_bad_file_in_it(plans: Path) -> None:
    data = json.loads(precheck(str(plans / "*.yaml"), "--topic", "stairs", "--report", "json").stdout)
    assert [one["project"]["file"] for one in data] == names(plans)
    assert [one["project"]["file"] for one in data if one["verdict"] == UNUSABLE] == [str(plans / "040.yaml")]
    single = json.loads(precheck(names(plans)[3], "--topic", "stairs", "--report", "json").stdout)
    assert data[3] == single


def test_full_prints_each_project_as_alone(plans: Path) -> None:
    two = names(plans)[:2]
    both = precheck(*two, "--full").stdout
    assert both == "\n".join(precheck(name).stdout for name in two)


def test_a_file_named_twice_is_checked_once(plans: Path) -> None:
    name = names(plans)[0]
    assert precheck(name, name).stdout == precheck(name).stdout


@pytest.mark.parametrize(
    ("name", "says"), [("none/*.yaml", "no file matches this pattern"), (".", "this is a folder; name its files")]
)
def test_a_pattern_without_a_file_and_a_folder_are_told(name: str, says: str) -> None:
    found = subprocess.run(
        [sys.executable, "-m", "precheck", "check", name], capture_output=True, text=True, check=False
    )
    assert found.returncode == EXIT_UNUSABLE
    assert says in found.stderr


def test_accepted_findings_of_a_folder_are_told_only_where_no_project_uses_them(tmp_path: Path) -> None:
    for number in (1, 2):
        (tmp_path / f"{number}.yaml").write_text(house(number))
    record = "{rule: stairs.tread-depth, part: %s, document: Letter, by: me}"
    (tmp_path / "accepted.yaml").write_text(f"accepted: [{record % 'S1'}, {record % 'S7'}]\n")
    text = precheck(str(tmp_path / "*.yaml"), "--topic", "stairs").stdout
    assert "2 files: " in text
    assert "1 items accepted" in text
    assert "stairs.tread-depth of S7" in text
    assert "stairs.tread-depth of S1" not in text


def test_one_file_loads_nothing_that_only_many_files_need(plans: Path) -> None:
    code = (
        "import sys, atexit; atexit.register(lambda: print(sorted(sys.modules), file=sys.stderr)); "
        "from precheck.cli import main; sys.argv[1:] = ['check', sys.argv[1]]; main()"
    )
    found = subprocess.run([sys.executable, "-c", code, names(plans)[0]], capture_output=True, text=True, check=False)
    assert "NOT READY" in found.stdout
    loaded = set(found.stderr.replace("'", "").strip("[]\n").split(", "))
    assert "precheck.runs.desk" in loaded
    heavy = {"concurrent.futures", "jsonschema", "rich", "jinja2", "numpy", "pint", "distributed"}
    assert loaded & heavy == set()


def test_progress_is_silent_where_nobody_watches(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(watched(range(5), 5)) == list(range(5))
    assert capsys.readouterr().err == ""


def test_progress_is_drawn_on_a_terminal_once_a_run_is_long(monkeypatch: pytest.MonkeyPatch) -> None:
    import io

    from precheck.cli import progress

    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    screen = Terminal()
    ticks = iter(range(100))
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setattr(progress, "monotonic", lambda: next(ticks) * 0.6)
    assert list(watched(range(4), 4)) == list(range(4))
    assert "1 of 4 files" not in screen.getvalue()
    assert "[===============               ] 2 of 4 files" in screen.getvalue()


def test_the_hooks_for_commits_call_commands_that_there_are() -> None:
    from precheck.files.source import read_text

    text = (Path(__file__).parents[1] / ".pre-commit-hooks.yaml").read_text()
    hooks = read_text(f"hooks:\n{text}", "hooks")["hooks"]
    assert [hook["id"] for hook in hooks] == ["precheck", "precheck-ruleset"]
    for hook in hooks:
        program, *words = hook["entry"].split()
        assert program == "precheck"
        assert CliRunner().invoke(cli, [*words[: 2 if words[0] == "ruleset" else 1], "--help"]).exit_code == 0


def test_a_link_that_leads_nowhere_is_told_and_not_left_out(tmp_path: Path) -> None:
    (tmp_path / "1.yaml").write_text(house(1))
    (tmp_path / "2.yaml").symlink_to(tmp_path / "gone.yaml")
    found = precheck(str(tmp_path / "*.yaml"), "--topic", "stairs")
    assert found.exit_code == 2
    assert "2.yaml:1:1: there is no such file" in found.stderr


def test_with_a_baseline_only_what_is_new_decides_the_exit_status(tmp_path: Path) -> None:
    for number in (1, 2):
        (tmp_path / f"{number}.yaml").write_text(house(number))
    plans, baseline = str(tmp_path / "*.yaml"), tmp_path / "baseline.sarif"
    assert precheck(plans, "--topic", "stairs", "--report", "sarif", "--output", str(baseline)).exit_code == 1
    same = precheck(plans, "--topic", "stairs", "--baseline", str(baseline))
    assert same.exit_code == 0
    assert "are gone, 0 are new." in same.stderr
    (tmp_path / "3.yaml").write_text(house(2).replace("S2", "S9"))
    (tmp_path / "1.yaml").unlink()
    worse = precheck(plans, "--topic", "stairs", "--baseline", str(baseline))
    assert worse.exit_code == 1
    new = [line for line in worse.stderr.splitlines() if line.startswith("new: ")]
    assert new
    assert all("3.yaml:" in line for line in new)
    alone = precheck(str(tmp_path / "2.yaml"), "--topic", "stairs", "--baseline", str(baseline))
    assert alone.exit_code == 0


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"runs": [{"results": [{}]}]}'])
def test_a_baseline_that_is_no_report_is_refused(tmp_path: Path, text: str) -> None:
    (tmp_path / "1.yaml").write_text(house(1))
    (tmp_path / "baseline.sarif").write_text(text)
    found = precheck(str(tmp_path / "1.yaml"), "--baseline", str(tmp_path / "baseline.sarif"))
    assert isinstance(found.exception, Unusable)
    assert "this is no SARIF report of this version; make one with" in str(found.exception)
