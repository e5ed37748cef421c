"""What is installed is what stands here: the wheel runs from any folder, and the source distribution makes the same one."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from distribution import ROOT, alone, contents, environment, sdist, tree, unpacked, wheel

pytestmark = pytest.mark.long
EXAMPLE = ROOT / "examples" / "alder-court" / "proposed.yaml"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the wheel of this tree."""
    folder = tmp_path_factory.mktemp("built")
    return wheel(tree(folder / "tree"), folder / "wheel")


def test_the_source_distribution_makes_the_same_wheel(built: Path, tmp_path: Path) -> None:
    source = unpacked(sdist(tree(tmp_path / "tree"), tmp_path / "sdist"), tmp_path / "unpacked")
    again, own = contents(wheel(source, tmp_path / "wheel")), contents(built)
    assert set(again) == set(own)
    assert {name for name in own if own[name] != again[name]} == set()


def test_the_wheel_holds_every_module_and_every_file_that_is_read(built: Path) -> None:
    held = set(contents(built))
    for folder, package in (
        ("precheck", "precheck"),
        ("plugins", "precheck_plugins"),
        ("rulesets", "precheck_rulesets"),
    ):
        kinds = (".py", ".j2", ".css", ".typ", ".txt", ".csv", ".yaml", ".typed")
        here = {path for path in (ROOT / folder).rglob("*") if path.suffix in kinds and "tests" not in path.parts}
        named = {f"{package}/{path.relative_to(ROOT / folder).as_posix()}" for path in here}
        assert named - held == set()


def test_the_wheel_in_an_environment_of_its_own_says_what_is_said_here(built: Path, tmp_path: Path) -> None:
    programs = environment(tmp_path / "env", sys.executable, str(built))
    elsewhere = tmp_path / "a folder elsewhere"
    elsewhere.mkdir()
    shutil.copy(EXAMPLE, elsewhere / "house.yaml")
    arguments = ["check", "house.yaml", "--report", "json"]
    installed = subprocess.run(
        [programs / "precheck", *arguments], cwd=elsewhere, env=alone(), capture_output=True, check=False
    )
    here = subprocess.run(
        [sys.executable, "-m", "precheck", *arguments], cwd=elsewhere, capture_output=True, check=False
    )
    assert installed.stderr == here.stderr == b""
    assert installed.returncode == here.returncode == 1
    assert installed.stdout == here.stdout
