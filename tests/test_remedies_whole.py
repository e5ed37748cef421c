"""What holds for remedies by the cases of their rules holds in whole files: examples, small jobs and houses made up at random.

The small jobs are complete, so one number of a job at a time is made worse, and what then fails is mended.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from case_houses import FULL, TOPICS, changed
from case_houses import houses as case_houses
from generated_houses import as_block, houses
from house_changes import in_millimeters
from hypothesis import given, settings
from job_files import FOLDER
from remedies import found, project_of, written_in, wrong, wrong_in
from test_monotone import numbers, put, times
from test_whole_houses import EXAMPLES

from precheck.files.source import Block, Unusable, read_file, read_text
from precheck.project import Project

JOBS = sorted(path.stem.removesuffix(".complete") for path in FOLDER.glob("*.complete.yaml"))
WORSE = (Fraction(1, 2), Fraction(7, 8), Fraction(9, 8), Fraction(2))
TRIED = 400 if FULL else 12  # of the numbers of a job


@pytest.mark.long
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_remedy_of_an_example_can_be_written_into_its_file(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    before = found(project_of(read_file(path)))
    told = [
        one
        for key, finding in before.items()
        if finding.check.changes
        for one in wrong(read_text(written_in(text, finding), path.name), before, key)
    ]
    assert told == []


def altered(fragment: Block, name: str) -> Iterator[tuple[str, Block]]:
    """Yield the file with a number in it other than it is, and which; nothing where it cannot be used with it."""
    every = [
        (way, new) for way, text in numbers(fragment) for by in WORSE if (new := times(text, by)) not in (None, text)
    ]
    for way, new in Random(name).sample(every, min(TRIED, len(every))):
        other = put(fragment, way, new or "")
        try:
            project_of(other)
        except Unusable:
            continue
        yield f"{way}: {new}", other


@pytest.mark.long
@pytest.mark.parametrize("job", JOBS)
def test_a_remedy_of_what_is_made_worse_in_a_small_job_clears_it_and_breaks_nothing(job: str) -> None:
    worse = altered(read_file(FOLDER / f"{job}.complete.yaml"), job)
    assert [f"{what}: {one}" for what, fragment in worse for one in wrong_in(fragment)] == []


@pytest.mark.long
@pytest.mark.parametrize("topic", TOPICS)
def test_a_remedy_clears_its_finding_in_a_metric_file(topic: str) -> None:
    told = []
    for house in case_houses(topic):
        fragment = changed(house.fragment, Project, in_millimeters)
        if any(finding.check.changes for finding in house._replace(fragment=fragment).findings()):
            told += [f"{house.case}: {one}" for one in wrong_in(fragment, house.rule.name)]
    assert told == []


@given(fragment=houses())
@settings(max_examples=300 if FULL else 10, derandomize=True, deadline=None, database=None)
def test_a_remedy_clears_its_finding_in_any_house(fragment: Block) -> None:
    assert list(wrong_in(fragment)) == []


def test_a_remedy_changes_the_schedule_together_with_the_plan() -> None:
    house = as_block({
        "project": "a window in two places",
        "spaces": [{"id": "den", "use": "bedroom", "phase": "new"}],
        "windows": [{"id": "W1", "phase": "new", "space": "den", "sill height": "46 in"}],
        "schedule": [{"id": "row-1", "phase": "new", "of": "W1", "sill height": "46 in"}],
    })  # fmt: skip
    before = found(project_of(house))
    (key,) = [key for key in before if key[0] == "escape.sill"]
    changed = [(one.record.label, one.field, str(one.value)) for one in before[key].changes]
    assert changed == [("window W1", "sill_height", "44 in"), ("schedule row row-1", "sill_height", "44 in")]
    assert list(wrong_in(house, "escape.sill")) == []
