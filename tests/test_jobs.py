"""Ten small jobs, each as its bare statement: none is ready, and what the published handouts ask for is requested."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from precheck.checks import Outcome
from precheck.files.record import Record, read_record
from precheck.files.source import Block, read_file
from precheck.project import project_from
from precheck.review.finding import CORRECTIONS, Review
from precheck.review.run import review
from precheck.testing import code, plugins

JOBS = sorted((Path(__file__).parent / "jobs").glob("*.yaml"))


class Handout(Record):
    """A published handout: whose it is, what it is called and where it stands."""

    kind = "handout"
    who: str
    title: str
    url: str


class Asked(Record):
    """One thing that a handout asks for: rules one of which requests it, or why this job does not take it."""

    kind = "thing asked"
    item: str
    by: tuple[str, ...] = ()
    left_out: str = ""


class Job(Record):
    """One job: its handouts, its bare statement, and what the handouts ask for."""

    kind = "job"
    handouts: tuple[Handout, ...]
    bare: Any
    asks: tuple[Asked, ...]


@cache
def job(path: Path) -> Job:
    """Return the job that a file holds."""
    return read_record(Job, read_file(path))


@cache
def reviewed(path: Path) -> Review:
    """Return the review of the bare statement of a job."""
    statement = job(path).bare
    assert isinstance(statement, Block)
    return review(project_from(statement), code("irc-2021"), plugins())


def requests(path: Path) -> set[str]:
    """Return the rules that ask something of the bare statement: to be shown, mended or looked at."""
    return {finding.rule.name for finding in reviewed(path).findings if finding.outcome < Outcome.PASS}


def test_there_are_ten_jobs() -> None:
    """One for each kind of small job."""
    assert len(JOBS) == 10


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_handout_item_is_requested_by_a_rule_or_left_out_with_a_reason(path: Path) -> None:
    """Never both and never neither; each handout has its address."""
    assert [ask.item for ask in job(path).asks if bool(ask.by) == bool(ask.left_out)] == []
    assert all(one.url.startswith(("https://", "http://")) for one in job(path).handouts)


def test_each_rule_that_a_job_names_exists() -> None:
    """A rule that is renamed is renamed here too."""
    known = {rule.name for rule in plugins().rules}
    assert sorted({name for path in JOBS for ask in job(path).asks for name in ask.by} - known) == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_bare_statement_is_not_ready(path: Path) -> None:
    """What is not shown holds it up, and nothing errs."""
    found = reviewed(path)
    assert found.verdict == CORRECTIONS
    assert [finding.error for finding in found.findings if finding.outcome is Outcome.ERROR] == []
    assert found.works


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_bare_statement_is_asked_for_each_thing_of_its_handouts(path: Path) -> None:
    """Each item that applies is requested by one of the rules that it names."""
    asked = requests(path)
    assert [(ask.item, ask.by) for ask in job(path).asks if ask.by and not asked.intersection(ask.by)] == []
