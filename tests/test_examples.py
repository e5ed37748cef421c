"""Each example's report is what stands beside it, word for word; ``tests/test_examples.py`` run as a script renews them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from precheck.project import read_project

ROOT = Path(__file__).parents[1]
EXAMPLES = {
    "examples/alder-court/proposed.yaml": 1,
    "examples/alder-court/corrected.yaml": 0,
    "examples/sketch/sketch.yaml": 1,
}


def expected(example: str) -> Path:
    return (ROOT / example).with_suffix(".report.txt")


def report(example: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", "from precheck.cli import main; main()", "check", example]
    return subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)


@pytest.mark.parametrize(("example", "status"), EXAMPLES.items())
def test_the_report_is_the_one_that_stands_beside_the_example(example, status):
    result = report(example)
    assert result.stderr == ""
    assert result.returncode == status
    assert result.stdout == expected(example).read_text(encoding="utf-8")


def test_the_big_example_has_about_a_hundred_parts_and_the_sketch_fits_on_a_napkin():
    assert 90 <= len(read_project(ROOT / "examples/alder-court/proposed.yaml").parts) <= 200
    assert len((ROOT / "examples/sketch/sketch.yaml").read_text(encoding="utf-8").splitlines()) <= 18


def test_the_sketch_yields_mostly_what_is_not_shown():
    text = expected("examples/sketch/sketch.yaml").read_text(encoding="utf-8")
    assert "checks wait for what is not shown" in " ".join(text.split())
    assert text.count("\n     - ") > 10


if __name__ == "__main__":
    os.chdir(ROOT)
    for name in EXAMPLES:
        expected(name).write_text(report(name).stdout, encoding="utf-8")
