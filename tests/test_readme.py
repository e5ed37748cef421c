"""README.md shows a project file, a finding and the commands: they are what the program reads, says and has."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from precheck.cli import _COMMANDS, _offered, cli

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")


def test_the_project_file_of_the_readme_gives_the_finding_that_the_readme_shows(tmp_path: Path) -> None:
    house = tmp_path / "house.yaml"
    house.write_text(re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)[0], encoding="utf-8")
    said = CliRunner().invoke(cli, ["check", str(house)]).output
    shown = re.findall(r"```\n(FIX \(1\)\n.*?)```", README, re.DOTALL)[0]
    without_lines = [re.sub(r"^ *\d+  | +line \d+", "", text, flags=re.M) for text in (shown, said)]
    assert without_lines[0] in without_lines[1]


def test_the_readme_names_every_command() -> None:
    table = README.partition("## Commands")[2].partition("\n## ")[0]
    named = set(re.findall(r"`(?:precheck )?([a-z]+)`(?=[ ,|])", table))
    assert set(_COMMANDS) | set(_offered()) <= named


def test_the_readme_is_short() -> None:
    assert len(README.splitlines()) < 150


def test_the_readme_installs_and_checks_and_installs_and_tests_as_ci_does() -> None:
    commands = [block.strip() for block in re.findall(r"```\n(python3 -m venv .*?)```", README, re.DOTALL)]
    assert len(commands) == 2
    assert commands[0].endswith(".venv/bin/precheck check examples/alder-court/proposed.yaml")
    assert commands[1] in (Path(__file__).parents[1] / ".ci" / "run").read_text(encoding="utf-8")
