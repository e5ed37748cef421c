"""The topics of a review: one that says what was checked, and one for each finding that a person does something about."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple
from uuid import NAMESPACE_OID, uuid5

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.project import Space
from precheck.project.design_file import DesignFile
from precheck.reports import words
from precheck.reports.fingerprint import fingerprint
from precheck.reports.groups import group_of
from precheck.reports.in_model import PlanBox, box_of, design_file, global_id
from precheck.reports.opening import outside, verdict_line, works_told
from precheck.reports.uri import uri
from precheck.reports.worklist import in_work_order
from precheck.review.finding import Finding, Review
from precheck.survey import House, part_of

AUTHOR = "precheck"
OPEN, CLOSED = "Open", "Closed"
ABOUT = "What was checked"
TOLD = frozenset((Outcome.ERROR, Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN))
_NAMES = uuid5(NAMESPACE_OID, "precheck findings")
_UNDATED = date(1980, 1, 1)  # of a review without any date of the code; the standard wants one


class View(NamedTuple):
    """What a topic is looked at by: what is selected in the model (a space or not), and the box it stands in, in the plan."""

    guid: str
    selected: tuple[str, ...]
    of_space: bool
    box: PlanBox
    drawn: DesignFile | None


class Topic(NamedTuple):
    """One topic: what is to be done and why; `model` and `project_id` are those of the file that it is about."""

    guid: str
    number: int
    title: str
    kind: str
    status: str
    labels: tuple[str, ...]
    stage: str
    created: str
    description: str
    view: View | None
    model: str
    project_id: str


def topics_of(reviews: Sequence[Review]) -> tuple[Topic, ...]:
    """Return the topics of all reviews, numbered in the order in which they are made."""
    made = (topic for review in reviews for topic in _of(review))
    return tuple(topic._replace(number=number) for number, topic in enumerate(made))


def _of(review: Review) -> Iterator[Topic]:
    house, drawn = House(review.project), design_file(review.project)
    yield _about(review, house, drawn)
    seen: Counter[str] = Counter()
    for finding in in_work_order(f for f in review.findings if f.outcome in TOLD):
        name = fingerprint(finding)
        seen[name] += 1
        guid = str(uuid5(_NAMES, f"{name} {seen[name]}"))
        yield _about(review, house, drawn)._replace(
            guid=guid,
            title=words.message(finding),
            kind=_kind(finding),
            status=CLOSED if finding.accepted else OPEN,
            labels=(finding.outcome.word, finding.rule.topic),
            stage=finding.rule.stage,
            description=_described(finding, review),
            view=_view(finding, guid, house, drawn),
        )


def _about(review: Review, house: House, drawn: DesignFile | None) -> Topic:
    file = review.project.place.file
    guid = str(uuid5(_NAMES, uri(file)))
    works = [f"{one.name}: {one.counted}" for one in works_told(review)]
    code = [words.code_line(review), words.code_warning(review)]
    unchecked = [f"not checked: {line}" for line in (*outside(review), *review.not_checked)]
    lines = [verdict_line(review), review.understood, *works, *code, *unchecked, words.REMINDER]
    box = box_of(None, house)
    view = View(_view_guid(guid), (), False, box, drawn) if box else None
    model = drawn.file if drawn is not None else shown_name(file)
    return Topic(
        guid, 0, f"{ABOUT}: {review.project.project}", ABOUT, OPEN, (), "", _created(review),
        "\n".join(filter(None, lines)), view, model, drawn.global_id if drawn is not None else "",
    )  # fmt: skip


def _kind(finding: Finding) -> str:
    group = group_of(finding)
    return group.title if group is not None else "Accepted"


def _described(finding: Finding, review: Review) -> str:
    sources = [words.source_of(limit, review) for limit in finding.limits]
    cited = f"Source: {'; '.join(dict.fromkeys(sources))}" if sources else ""
    where = f"{shown_name(finding.place.file)}, line {finding.place.line}; rule {finding.rule.name}"
    lines = [*words.lines_of(finding), *words.to_do(finding), words.accepted_line(finding), cited, where]
    return "\n".join(filter(None, lines))


def _view(finding: Finding, topic: str, house: House, drawn: DesignFile | None) -> View | None:
    part = part_of(finding.subject)
    box = box_of(part, house) or box_of(None, house)
    selected = tuple(filter(None, [global_id(part)]))
    return View(_view_guid(topic), selected, isinstance(part, Space), box, drawn) if box else None


def _view_guid(topic: str) -> str:
    return str(uuid5(_NAMES, f"view of {topic}"))


def _created(review: Review) -> str:
    """Return the day of application as a date with time; without one, the day from which the code is in force."""
    in_force = [step.in_force for step in review.code.chain if step.in_force]
    return f"{review.code.applied_on or max(in_force, default=_UNDATED)}T00:00:00Z"


__all__ = ["AUTHOR", "Topic", "View", "topics_of"]
