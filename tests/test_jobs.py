"""Ten small jobs, each as its bare statement, its complete set and its usual first drawing.

The bare statement is asked for what published handouts ask for; the complete set is ready, and is not without any of its
parts; the first drawing is asked little else than what offices list.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from job_files import FOLDER, gone_with, job, review_of, reviewed, stage, without, work_parts

from precheck.checks import Outcome
from precheck.files.source import Block, read_file
from precheck.project import Part, Sheet
from precheck.reports.groups import Group
from precheck.reports.worklist import items_of
from precheck.review.finding import CORRECTIONS, READY, Review
from precheck.testing import plugins

JOBS = sorted(path for path in FOLDER.glob("*.yaml") if "." not in path.stem)
STOPS = (Group.ERRORS, Group.FIX, Group.ADD)


@cache
def bare(path: Path) -> Review:
    """Return the review of the bare statement of a job."""
    statement = job(path).bare
    assert isinstance(statement, Block)
    return review_of(statement)


def requests(path: Path) -> set[str]:
    """Return the rules that ask something of the bare statement: to be shown, mended or looked at."""
    return {finding.rule.name for finding in bare(path).findings if finding.outcome < Outcome.PASS}


def test_there_are_ten_jobs() -> None:
    """One for each kind of small job, each with its complete set and its first drawing."""
    assert len(JOBS) == 10
    assert [path for path in JOBS if stage(path, "complete").exists() and stage(path, "first").exists()] == JOBS


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_handout_item_is_requested_by_a_rule_or_left_out_with_a_reason(path: Path) -> None:
    """Never both and never neither; each handout has its address."""
    assert [ask.item for ask in job(path).asks if bool(ask.by) == bool(ask.left_out)] == []
    handouts = (*job(path).handouts, *job(path).lists)
    assert all(one.url.startswith(("https://", "http://")) for one in handouts)


def test_each_rule_that_a_job_names_exists() -> None:
    """A rule that is renamed is renamed here too."""
    known = {rule.name for rule in plugins().rules}
    assert sorted({name for path in JOBS for name in job(path).listed} - known) == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_bare_statement_is_not_ready(path: Path) -> None:
    """What is not shown holds it up, and nothing errs."""
    found = bare(path)
    assert found.verdict == CORRECTIONS
    assert [finding.error for finding in found.findings if finding.outcome is Outcome.ERROR] == []
    assert found.works


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_bare_statement_is_asked_for_each_thing_of_its_handouts(path: Path) -> None:
    """Each item that applies is requested by one of the rules that it names."""
    asked = requests(path)
    assert [(ask.item, ask.by) for ask in job(path).asks if ask.by and not asked.intersection(ask.by)] == []


MOST_REQUESTS, LISTED_SHARE = 30, Fraction(4, 5)
CALLED = {
    "wood": "treated",
    "assembly": "insulation",
    "duct run": "ducts",
    "slab edge": "insulation",
    "window": "glazing",
    "hatch": "attic access",
    "heating": "heated",
}
"""What requests call a part of a kind, where that is not the kind's own name."""


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_complete_set_is_ready(path: Path) -> None:
    """Nothing is left to fix or add."""
    found = reviewed(stage(path, "complete"))
    assert [f"{item.label}: {item.gist}" for item in items_of(found) if item.group in STOPS] == []
    assert found.verdict == READY


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_leaving_out_any_part_of_a_complete_set_is_asked_for_by_name(path: Path) -> None:
    """Each part in turn: the set is not ready without it, and what is asked names the kind of thing."""
    block = read_file(stage(path, "complete"))
    spared = job(path).may_be_left_out
    parts = [one for one in work_parts(block) if one not in spared]
    drawn = reviewed(stage(path, "complete")).project.by_id
    gone = {one: [drawn[each] for each in gone_with(block, one)] for one in parts}
    assert [f"{one}: {said}" for one in parts if (said := unasked(block, gone[one]))] == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_each_part_that_may_be_left_out_stands_in_the_complete_set_and_is_not_asked_for(path: Path) -> None:
    """The list of what may be left out holds no part of before, and none that is asked for by now."""
    block, spared = read_file(stage(path, "complete")), job(path).may_be_left_out
    assert spared - {*work_parts(block)} == set()
    drawn = reviewed(stage(path, "complete")).project.by_id
    assert [one for one in spared if not unasked(block, [drawn[each] for each in gone_with(block, one)])] == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_first_drawing_is_asked_few_things_and_those_that_offices_list(path: Path) -> None:
    """30 requests at most, and four of five of them are on the handout or on a published list for such a job."""
    asked = [item for item in items_of(reviewed(stage(path, "first"))) if item.group in STOPS]
    listed = [item for item in asked if job(path).listed.intersection(finding.rule.name for finding in item.findings)]
    others = [f"{item.label}: {item.gist}" for item in asked if item not in listed]
    assert 0 < len(asked) <= MOST_REQUESTS
    assert len(listed) >= LISTED_SHARE * len(asked), others


def unasked(block: Block, gone: list[Part]) -> str:
    """Return what is wrong with what is asked where parts are left out; nothing where one of them is asked for by name."""
    found = review_of(without(block, {part.id for part in gone}))
    if found.verdict == READY:
        return "nothing asks for it"
    told = " ".join(f"{item.label}: {item.gist}" for item in items_of(found) if item.group in STOPS).lower()
    return "" if any(name in told for part in gone for name in names_of(part)) else f"no request names it: {told}"


def names_of(part: Part) -> set[str]:
    """Return what a request may call a part: its id, its kind, what it is or is for, and the drawings of a sheet."""
    said = [getattr(part, key, None) for key in ("what", "role", "use", "purpose", "operation")]
    titles = re.split(r", | and | with ", part.title) if isinstance(part, Sheet) else []
    drawings = [title.lower().removeprefix("proposed ") for title in titles]
    kinds = (part.id.lower(), part.kind, CALLED.get(part.kind, part.kind))
    return {*kinds, *drawings, *(one for one in said if isinstance(one, str))}
