"""The example plugin, installed from a copy into a virtual environment of its own and run there."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[1] / "examples" / "plugin-carport-drainage"


class Environment:
    """A virtual environment that has the plugin, and sees what this one has installed."""

    def __init__(self, folder: Path, source: Path = EXAMPLE) -> None:
        self.python = folder / "venv" / ("Scripts" if os.name == "nt" else "bin") / "python"
        self.plugin = folder / "plugin"
        shutil.copytree(source, self.plugin)
        venv.create(folder / "venv", with_pip=False)
        own = self.run("-c", "import sysconfig; print(sysconfig.get_path('purelib'))").stdout.strip()
        here = sysconfig.get_path("purelib")
        Path(own, "base.pth").write_text(f"import site; site.addsitedir({here!r})\n")
        install = [sys.executable, "-m", "pip", "--python", str(self.python), "install", "--quiet"]
        offline = ["--no-deps", "--no-build-isolation", "--no-index", "--disable-pip-version-check", str(self.plugin)]
        subprocess.run([*install, *offline], check=True, capture_output=True, text=True)

    def run(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        """Run the environment's own Python in the plugin's folder."""
        return subprocess.run([self.python, *arguments], capture_output=True, text=True, check=False, cwd=self.plugin)


@pytest.fixture(scope="module")
def there(tmp_path_factory: pytest.TempPathFactory) -> Environment:
    """Return the environment."""
    return Environment(tmp_path_factory.mktemp("firm"))


def test_the_plugin_is_listed_with_its_distribution_and_what_it_offers(there: Environment) -> None:
    said = " ".join(there.run("-m", "precheck", "plugins").stdout.split())
    assert "carport-drainage (precheck-carport-drainage 0.1.0): 3 rules, 1 section, rulesets" in said
    assert "section `carport drains` of the project file" in said


def test_its_section_is_read_and_its_rules_speak_under_its_limits(there: Environment) -> None:
    said = there.run("-m", "precheck", "check", "example.yaml", "--topic", "carport-drainage").stdout
    assert "carport drain D1" in said
    assert "Distance of the outlet from the house: 6 ft, 10 ft minimum" in said
    assert "how the ground takes the water of a dry well" in " ".join(said.split())


def test_its_section_is_refused_at_file_and_line_in_the_words_of_the_file(there: Environment) -> None:
    text = (there.plugin / "example.yaml").read_text()
    bad = text.replace("kind: trench", "kind: trensh").replace("60 sq in", "60 in").replace("    space: carport\n", "")
    (there.plugin / "bad.yaml").write_text(bad.replace("grate comes off: yes", "grate comes of: maybe"))
    found = there.run("-m", "precheck", "check", "bad.yaml")
    assert found.returncode == 2
    lines = found.stderr.splitlines()
    assert "bad.yaml:6:5: `space` is not given; add a line `space: ...`" in lines
    assert any(line.startswith("bad.yaml:7:5: `trensh` is not known as kind; did you mean `trench`?") for line in lines)
    assert any(line.startswith("bad.yaml:8:5: inlet area: `in` in `60 in` is not a unit of area") for line in lines)
    assert any("`grate comes of` is not a key of a carport drain; did you mean `grate comes off`?" in x for x in lines)


def test_it_can_be_switched_off_and_its_section_is_then_unknown(there: Environment) -> None:
    found = there.run("-m", "precheck", "check", "example.yaml", "--without", "carport-drainage")
    assert found.returncode == 2
    assert "example.yaml:5:1: `carport drains` is not a key of a project" in found.stderr


def test_the_schema_of_projects_holds_its_section(there: Environment) -> None:
    assert '"carport drains"' in there.run("-m", "precheck", "schema", "project").stdout


@pytest.mark.long
def test_its_cases_pass_under_every_edition(there: Environment) -> None:
    found = there.run("-m", "pytest", "-q", "precheck_carport_drainage", "-p", "no:cacheprovider")
    assert found.returncode == 0, found.stdout
    assert "64 passed" in found.stdout


def test_the_environment_without_the_plugin_does_not_know_it() -> None:
    found = subprocess.run([sys.executable, "-m", "precheck", "plugins"], capture_output=True, text=True, check=False)
    assert "carport-drainage" not in found.stdout
