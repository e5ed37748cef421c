"""Hundreds of houses of 40 parts with SARIF: memory does not grow with their number, and one process reports what two do."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent / "benchmarks"))
from houses import PARTS, checked, house, written

from precheck.files.source import read_text
from precheck.project import project_from

GROWTH = 8  # MB that 400 houses more may add to the run's own process; each alone is a report of 0.1 MB


def test_a_house_of_the_benchmark_has_as_many_parts_as_it_says() -> None:
    assert len(project_from(read_text(house(7), "house.yaml")).parts) == PARTS


@pytest.mark.long
@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the peak memory of a process is not told here")
def test_memory_is_flat_and_the_report_the_same_for_any_number_of_processes(tmp_path: Path) -> None:
    few, many = written(tmp_path, 200), written(tmp_path, 600)
    small, large = checked(few, "--jobs", "2"), checked(many, "--jobs", "2")
    assert large.own - small.own < GROWTH
    assert large.child - small.child < GROWTH
    assert checked(few, "--jobs", "1").report == small.report != large.report
