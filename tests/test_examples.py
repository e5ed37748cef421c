"""Each example's report is what stands beside it, word for word; ``tests/test_examples.py`` run as a script renews them."""

from __future__ import annotations

import os
import re
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


def report(example: str, *options: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", "from precheck.cli import main; main()", "check", example, *options]
    return subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)


@pytest.mark.parametrize(("example", "status"), EXAMPLES.items())
def test_the_report_is_the_one_that_stands_beside_the_example(example, status):
    result = report(example)
    assert result.stderr == ""
    assert result.returncode == status
    assert result.stdout == expected(example).read_text(encoding="utf-8")


def section(example: str, heading: str) -> str:
    """Return what a report says under one heading."""
    after = re.split(rf"\n{heading} \(\d+\)\n", expected(example).read_text(encoding="utf-8"))[1]
    return after.split("\n\n")[0]


def test_the_first_drawing_gets_corrections_of_many_topics_and_the_corrected_one_few_things_to_review():
    rules = re.findall(r"^     ([a-z-]+)\.[a-z-]+, ", section("examples/alder-court/proposed.yaml", "FIX"), re.M)
    assert len(rules) >= 18
    assert len(set(rules)) >= 12
    corrected = expected("examples/alder-court/corrected.yaml").read_text(encoding="utf-8")
    assert "\nFIX (" not in corrected
    assert len(re.findall(r"^ {0,2}\d+  ", corrected, re.M)) < 8


def test_zoning_comes_first_in_every_list_for_it_ends_a_job_before_any_code_check_does():
    text = section("examples/alder-court/proposed.yaml", "FIX")
    topics = re.findall(r"^     ([a-z-]+)\.[a-z-]+, ", text, re.M)
    assert topics[0] == "zoning"
    assert "zoning" not in topics[topics.count("zoning") :]
    first = section("examples/sketch/sketch.yaml", "ADD TO THE PLANS").splitlines()[:3]
    assert any("zoning approval" in line for line in first)


def test_what_to_show_says_what_answers_it_and_with_everything_told_why_it_is_due():
    assert "how it is sealed" in section("examples/alder-court/proposed.yaml", "ADD TO THE PLANS")
    sketch = " ".join(report("examples/sketch/sketch.yaml", "--all").stdout.split())
    assert "alarms.smoke-in-bedroom, alarms.smoke-outside-bedroom: space bedroom becomes" in sketch


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_report_fits_eighty_columns(example):
    assert max(map(len, expected(example).read_text(encoding="utf-8").splitlines())) <= 80


def test_the_big_example_has_about_a_hundred_parts_and_the_sketch_fits_on_a_napkin():
    assert 90 <= len(read_project(ROOT / "examples/alder-court/proposed.yaml").parts) <= 200
    assert len((ROOT / "examples/sketch/sketch.yaml").read_text(encoding="utf-8").splitlines()) <= 18


def test_the_sketch_yields_mostly_what_is_not_shown():
    text = expected("examples/sketch/sketch.yaml").read_text(encoding="utf-8")
    assert "items not shown" in " ".join(text.split())
    assert len(re.findall(r"^ *\d+  ", section("examples/sketch/sketch.yaml", "ADD TO THE PLANS"), re.M)) > 10


if __name__ == "__main__":
    os.chdir(ROOT)
    for name in EXAMPLES:
        made = report(name)
        if not made.stdout:  # or a mistake in a rule would leave an empty report behind
            raise SystemExit(made.stderr)
        expected(name).write_text(made.stdout, encoding="utf-8")
