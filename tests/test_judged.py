"""What the text of the code says of small projects, as it was decided before the program ran on them."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from precheck.files.source import Block, read_file
from precheck.runs import cases
from precheck.testing import findings, overlay

FILES = sorted((Path(__file__).parent / "published").glob("judged*.yaml"))
GROUPS = [group for file in FILES for group in read_file(file, file.name)["groups"]]
SCENARIOS = [(group, scenario) for group in GROUPS for scenario in group["scenarios"]]
SECTION = re.compile(r"20(15|18|21|24) code.*, [A-Z]{1,2}\d{3,4}(\.\d+)*")


@pytest.mark.parametrize(("group", "scenario"), SCENARIOS, ids=[f"{g['rule']}-{s['is']}" for g, s in SCENARIOS])
def test_the_program_comes_to_what_the_code_says(group: Any, scenario: Any) -> None:
    found = findings(group["rule"], overlay(group.get("base", Block((0, 0), "")), scenario["project"]), group["code"])
    silent = not found and scenario["expect"] == "does not apply"
    assert silent or not cases.wrong(found, scenario["expect"]), (group["settled by"], cases.as_lines(found))


def test_each_names_the_section_and_the_text_that_settle_it() -> None:
    for group in GROUPS:
        assert SECTION.match(group["settled by"]), group["settled by"]
        assert group["settled by"][:4] == group["code"][-4:]


def test_they_are_many_and_come_to_every_outcome() -> None:
    counted = Counter(scenario["expect"] for _, scenario in SCENARIOS)
    assert sum(counted.values()) >= 500
    assert min(counted[word] for word in ("pass", "fail", "not shown", "does not apply")) >= 30
    assert len({(group["rule"], scenario["is"]) for group, scenario in SCENARIOS}) == len(SCENARIOS)
