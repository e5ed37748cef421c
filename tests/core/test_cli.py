"""The command line, run as a person runs it."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
BIG = "examples/alder-court/proposed.yaml"


def precheck(*arguments: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", "from precheck.cli import main; main()", *arguments]
    return subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)


def test_help_names_every_command_and_each_has_an_example():
    listed = precheck("--help").stdout
    for command in ("check", "explain", "limits", "rules", "schema"):
        assert f"\n  {command}" in listed
        assert "Example: precheck" in precheck(command, "--help").stdout


@pytest.mark.parametrize(
    "arguments",
    [["--help"], ["check", "--help"], ["check", BIG], ["explain", "stairs.riser-height"], ["rules"], ["limits"]],
)
def test_output_fits_80_columns_and_has_no_control_codes_in_a_pipe(arguments):
    result = precheck(*arguments)
    assert result.stderr == ""
    long = [line for line in result.stdout.splitlines() if len(line) > 80 and " " in line.strip()]
    assert long == []
    assert "\x1b" not in result.stdout


def test_a_project_with_mistakes_exits_1_and_a_corrected_one_0():
    assert precheck("check", BIG).returncode == 1
    assert precheck("check", "examples/alder-court/corrected.yaml").returncode == 0


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["check", "x" * 5000], "cannot be used (File name too long); name another"),
        (["check", BIG, "--date", "2026-13-01"], "`2026-13-01` is no day; write year-month-day"),
        (["check", BIG, "--topic", "stair"], "no topic `stair`; did you mean `stairs`?"),
        (["limits", "--topic", "stair"], "no topic `stair`; did you mean `stairs`?"),
        (["rules", "--topic", "stair"], "no topic `stair`; did you mean `stairs`?"),
    ],
)
def test_what_cannot_be_asked_for_is_refused_in_a_sentence_that_says_what_to_do(arguments, says):
    result = precheck(*arguments)
    assert result.returncode == 2
    assert says in result.stderr
    assert result.stdout == ""


def test_what_would_act_on_a_terminal_or_spoil_a_page_is_not_passed_on(tmp_path: Path):
    plan = tmp_path / "p.yaml"
    plan.write_text(
        'project: "\\e[2Jgone\\a"\njurisdiction: irc-2021\nspaces: [{id: a, name: "\\e[31m", phase: new}]\n'
    )
    for report in ("text", "html", "markdown"):
        said = precheck("check", str(plan), "--report", report).stdout
        assert "gone" in said
        assert not {"\x1b", "\a"} & set(said)


def test_no_color_is_respected_on_a_terminal_too():
    from click.testing import CliRunner

    from precheck.cli import cli

    for settings, styled in (
        ({"NO_COLOR": "1"}, False),
        ({"TERM": "dumb"}, False),
        ({"NO_COLOR": "", "TERM": "xterm"}, True),
    ):
        said = CliRunner(env=settings).invoke(
            cli, ["ask", str(ROOT / "examples/sketch/sketch.yaml")], "stop\n", color=True
        )
        assert ("\x1b[1m" in said.output) is styled


@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_a_full_disk_behind_a_redirection_is_told_and_is_no_traceback(unbuffered: str):
    command = f"{sys.executable} -c 'from precheck.cli import main; main()' check {BIG} > /dev/full"
    env = {**os.environ, "PYTHONUNBUFFERED": unbuffered}
    result = subprocess.run(["bash", "-c", command], capture_output=True, text=True, cwd=ROOT, env=env, check=False)
    assert result.returncode == 2
    assert "the output:1:1: cannot be used (No space left on device)" in result.stderr
    assert "Exception ignored" not in result.stderr
    assert "Traceback" not in result.stderr


def test_strict_lets_a_warning_stop_a_ready_project(tmp_path: Path):
    sketch = tmp_path / "p.yaml"
    sketch.write_text("project: P\nspaces: [{id: a, use: carport, open sides: 1}]\n", encoding="utf-8")
    arguments = ["check", str(sketch), "--ruleset", "irc-2021", "--topic", "separation"]
    loose, strict = precheck(*arguments), precheck(*arguments, "--strict")
    assert "open on 1 side, it counts as a garage" in " ".join(loose.stdout.split())
    assert strict.returncode == 1


def test_a_file_that_cannot_be_used_exits_2_with_its_line_and_no_traceback(tmp_path: Path):
    bad = tmp_path / "bad.yaml"
    bad.write_text("project: P\nspaces:\n  - {id: a, aera: 3 sq ft}\n", encoding="utf-8")
    result = precheck("check", str(bad), BIG, "--ruleset", "irc-2021")
    assert result.returncode == 2
    assert f"{bad}:3:" in result.stderr
    assert "did you mean `area`?" in result.stderr
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["check", "nowhere.yaml"], "nowhere.yaml"),
        (["check", BIG, "--ruleset", "Tamarak County"], "did you mean `tamarack-county`?"),
        (["check", BIG, "--topic", "stars"], "did you mean `stairs`?"),
        (["check", BIG, "--date", "yesterday"], "yesterday"),
        (["chekc", BIG], "Did you mean `check`?"),
        (["explain", "stairs.riser-hight"], "did you mean `stairs.riser-height`?"),
        (["check", BIG, "--output", "no/such/folder/report.txt"], "cannot be written"),
    ],
)
def test_a_wrong_word_on_the_command_line_gets_one_message_and_exit_2(arguments, says):
    result = precheck(*arguments)
    assert result.returncode == 2
    assert says in result.stderr
    assert "Traceback" not in result.stderr


def test_the_json_report_has_the_keys_that_machines_rely_on():
    data = json.loads(precheck("check", BIG, "--report", "json").stdout)
    assert {"tool", "project", "code", "verdict", "counts", "findings", "not_checked", "reminder"} <= set(data)
    assert set(data["code"]) == {"jurisdiction", "applied_on", "chain", "partial", "choices"}
    finding = next(f for f in data["findings"] if f["rule"] == "separation.common-wall" and f["outcome"] == "fail")
    assert {"subject", "place", "why", "evidence", "sections", "limits", "needs", "remedy", "stage", "message"} <= set(
        finding
    )
    assert finding["subject"]["id"] == "W-suite-garage"
    assert finding["evidence"][0]["margin"] == "1/8 in too thin"
    assert [event["act"] for event in finding["limits"][0]["history"]] == ["set", "unchanged", "amended"]
    (change,) = finding["changes"]
    assert (change["path"], change["value"]) == (["walls", 0, "faces", 0, "layers"], ["5/8 in gypsum"])
    decided = {f["decide"] for f in data["findings"] if not f["changes"]}
    assert decided >= {"which sheet is right", "where it goes", "which way to take", ""}
    assert data["counts"]["fail"] == sum(f["outcome"] == "fail" for f in data["findings"])


def test_the_same_input_gives_the_same_bytes():
    one, two = (precheck("check", BIG, "--report", "json").stdout for _ in range(2))
    assert one == two


def test_a_report_can_be_written_to_a_file(tmp_path: Path):
    target = tmp_path / "report.txt"
    assert precheck("check", BIG, "--output", str(target)).stdout == ""
    assert "\nFIX (29)\n" in target.read_text(encoding="utf-8")
    assert [path.name for path in tmp_path.iterdir()] == ["report.txt"]


def test_another_ruleset_and_date_change_what_is_due():
    strict = precheck("check", BIG, "--ruleset", "irc-2021", "--topic", "stairs").stdout
    assert "7 3/4 in maximum" in strict
    assert "8 in maximum" in precheck("check", BIG, "--topic", "stairs").stdout


def _not_checked(*arguments: str) -> str:
    _, _, after = precheck("check", BIG, *arguments).stdout.partition("\nNOT CHECKED\n")
    return after.split("\n\n")[0]


def test_the_terminal_counts_what_the_model_code_asks_unchecked_and_lists_the_rest():
    whole = _not_checked()
    told = " ".join(whole.partition("no check covers")[2].split())
    assert whole.startswith("- stairs.storage-loft.load-sign: a sign with the storage load")
    assert len(whole.splitlines()) <= 14
    counted = sum(map(int, re.findall(r"(?<= )\d+(?=[,;]| in)", told)))
    listed = json.loads(precheck("check", BIG, "--report", "json").stdout)["not_checked"]
    assert counted == len(listed) - 1


def test_a_run_of_some_topics_counts_what_is_not_checked_of_those_alone():
    some = " ".join(_not_checked("--topic", "guards", "--topic", "stairs").split())
    told = some.partition("Parts of the model code ")[2]
    assert told.startswith("that no check covers: guards 3, stairs 1.")

    few = " ".join(_not_checked("--topic", "anchorage").split())
    assert "no check covers: townhouses in seismic design category C (R403.1.6.1)." in few


def test_explain_tells_the_whole_history_and_who_reads_a_limit():
    told = precheck("explain", "stairs.riser-height.maximum", "--ruleset", "City of Linden Ford").stdout
    assert "set: 7 3/4 in by irc-2015 R311.7.5.1" in told
    assert "unchanged by irc-2021 R311.7.5.1" in told
    assert "amended: 8 1/4 in by Ordinance 2025-21 sec. 1" in told
    assert "amended: 8 in by City Code 18.20.030" in told
    assert "jurisdictions/city-of-linden-ford/2026-02-01.yaml:10" in told
    assert "stairs.riser-height" in told[told.index("Read by:") :]


def test_explain_gives_an_address_whole():
    told = precheck("explain", "escape.sill.maximum", "--ruleset", "irc-2021").stdout
    addresses = [line.strip() for line in told.splitlines() if "://" in line]
    assert addresses
    assert all(re.search(r"https://\S+/\S+/\S+/\S+", line) for line in addresses)


def test_help_loads_click_alone():
    loaded = _loaded("--help")
    assert "click" in loaded
    assert not {"pydantic", "pluggy", "ruamel.yaml", "pint"} & loaded


def test_a_check_loads_nothing_that_it_does_not_need():
    loaded = _loaded("check", BIG)
    assert not {"pint", "jsonschema", "rich", "jinja2", "numpy", "shapely", "multiprocessing"} & loaded


def _loaded(*arguments: str) -> set[str]:
    script = (
        "import sys, contextlib, io\n"
        f"sys.argv = ['precheck', *{list(arguments)!r}]\n"
        "from precheck.cli import main\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):\n    main()\n"
        "print('\\n'.join(sys.modules), file=sys.stderr)\n"
    )
    result = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=ROOT, check=True)
    return set(result.stderr.split())


def test_a_report_is_not_written_over_what_it_is_made_from(tmp_path: Path) -> None:
    plan = tmp_path / "p.yaml"
    plan.write_text("project: P\njurisdiction: irc-2021\nspaces: [{id: a, phase: new}]\n")
    accepted = tmp_path / "accepted.yaml"
    accepted.write_text("accepted: []\n")
    ruleset = tmp_path / "rs" / "jurisdictions" / "alder" / "2026-01-01.yaml"
    ruleset.parent.mkdir(parents=True)
    ruleset.write_text("jurisdiction: Alder\nadopts: irc-2021\nin force: 2026-01-01\nby: Code 1\n")
    for output in (accepted, ruleset):
        before = output.read_text()
        found = precheck("check", str(plan), "--rulesets", str(tmp_path / "rs"), "--output", str(output))
        assert found.returncode == 2
        assert "is a file that the report is made from" in found.stderr
        assert output.read_text() == before


def test_many_problems_of_a_file_are_told_up_to_a_number(tmp_path: Path) -> None:
    plan = tmp_path / "p.yaml"
    plan.write_text("project: P\n" + "".join(f"key {number}: 1\n" for number in range(500)))
    said = precheck("check", str(plan)).stderr.splitlines()
    assert len(said) == 202
    assert said[-2:] == ["and 300 more, which may go with these", "500 problems to mend first."]


def test_explain_says_in_words_what_every_rule_applies_to():
    from precheck.cli.explain import applies_to
    from precheck.rules.plugins import load_plugins

    said = [applies_to(rule) for rule in load_plugins().rules]
    assert len(said) > 300
    assert [text for text in said if not re.fullmatch(r"[a-z][a-z' -]*", text)] == []
