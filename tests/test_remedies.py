"""A remedy that says which value becomes what clears its finding and breaks nothing else, over every case of every rule."""

from __future__ import annotations

import pytest
from case_houses import TOPICS, TRIED, Tried
from remedies import is_silent, wrong_in


@TRIED
@pytest.mark.parametrize("topic", TOPICS)
def test_a_remedy_clears_its_finding_and_brings_no_new_one(topic: str, tried: Tried) -> None:
    told = [
        f"{house.case}: {one}"
        for house in tried(topic)
        if any(finding.check.changes for finding in house.findings())
        for one in wrong_in(house.fragment, house.rule.name)
    ]
    assert told == []


@TRIED
@pytest.mark.parametrize("topic", TOPICS)
def test_a_remedy_with_a_number_changes_a_value_or_says_what_a_person_decides_first(topic: str, tried: Tried) -> None:
    silent = {
        f"{house.rule.name}: {house.case}: {finding.check.remedy}"
        for house in tried(topic)
        for finding in house.findings()
        if is_silent(finding)
    }
    assert silent == set()
