"""What is asked can be answered: each request opens a field or the form of a part to add, and a filled form is taken.

Walked are the examples, the ten small jobs in each stage, and every kind of job as it begins, alone and with all other works.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from job_files import FOLDER, job, review_of
from sampled import long_save

from precheck.board.typed import A_LENGTH
from precheck.files.edit import Change, with_changes
from precheck.files.missing import Need
from precheck.files.source import Block, Unusable, read_text
from precheck.project import project_from
from precheck.questions.answer import flow
from precheck.questions.by_example import changes_by_example, form_by_example
from precheck.questions.question import Question, Questions
from precheck.questions.starter import KINDS, MORE, WITH_A_ROOM, Job, project_text
from precheck.reports.order import in_turn
from precheck.units import Length

EXAMPLES = Path(__file__).parents[1] / "examples"
REASONS = {"what the other work is of the project": "any part may show it, so no form fits; the plan shows what it is"}
"""What is asked without a field, and why."""


def begun(kind: str, more: tuple[str, ...], drawn_next: bool) -> str:
    """Return the file of a job of a kind as it begins."""
    others = tuple(one for one in more if one != kind)
    room = "bedroom" if kind in WITH_A_ROOM else ""
    return project_text(Job("p", "irc-2021", "2026-03-02", kind, others, room, to_be_drawn=drawn_next))


def _texts() -> dict[str, str]:
    files = [*EXAMPLES.glob("alder-court/*.yaml"), *EXAMPLES.glob("sketch/*.yaml"), *FOLDER.glob("*.*.yaml")]
    found = {path.stem: path.read_text(encoding="utf-8") for path in files}
    for kind in KINDS:
        found[f"{kind}, begun"] = begun(kind, (), drawn_next=True)
        found[f"{kind}, with all other works"] = begun(kind, MORE, drawn_next=False)
    return found


TEXTS = _texts()
BARE = sorted(path.stem for path in FOLDER.glob("*.yaml") if "." not in path.stem)


@cache
def asked(name: str) -> tuple[Questions, tuple[Need, ...]]:
    """Return what a file is asked for."""
    block = job(FOLDER / f"{name}.yaml").bare if name in BARE else read_text(TEXTS[name], name)
    assert isinstance(block, Block)
    review = review_of(block)
    return Questions(review.project), tuple(need for need, _ in in_turn(review))


@pytest.mark.parametrize("name", long_save([*TEXTS, *BARE], *list(TEXTS)[:3], *list(BARE)[:3]))
def test_each_request_opens_a_field_or_a_form_or_has_a_reason(name: str) -> None:
    """On the page and in the terminal alike, for both ask with the same questions."""
    questions, needs = asked(name)
    without = {str(need) for need in needs if not questions.question(need) and not form_by_example(questions, need)}
    assert sorted(without - set(REASONS)) == []


@pytest.mark.long
def test_each_reason_is_for_something_that_is_asked_and_has_no_field() -> None:
    told = {
        str(need)
        for questions, needs in map(asked, [*TEXTS, *BARE])
        for need in needs
        if not questions.question(need) and not form_by_example(questions, need)
    }
    assert set(REASONS) <= told


def _typed(field: Question) -> str:
    """Return what a person may type into a field: its example, or the first of its choices; nothing where there is none."""
    if "by its id" in field.form and not field.choices:
        return ""
    if field.several:
        return field.example or ", ".join(field.choices)
    return field.choices[0] if field.choices else field.example or "as drawn"


def _changes(questions: Questions, need: Need) -> list[Change]:
    """Return the changes of a form that is filled in."""
    question = questions.question(need)
    if question is None:
        parts = form_by_example(questions, need)
        values = {f"{n}/{field.label}": _typed(field) for n, part in enumerate(parts) for field in part.fields}
        return changes_by_example(parts, values, lambda _, value: value)
    given = [f"{key}: {value}" for key, value in question.known]
    given += [f"{field.label}: {flow(field.spelled(told))}" for field in question.fields if (told := _typed(field))]
    return [Change(question.path, "{" + ", ".join(given) + "}")]


def _forms(name: str) -> Iterator[Need]:
    """Yield what is asked for with the form of a part to add."""
    questions, needs = asked(name)
    for need in needs:
        question = questions.question(need)
        if (question is None and form_by_example(questions, need)) or (question is not None and question.known):
            yield need


@pytest.mark.parametrize("name", long_save(TEXTS, *list(TEXTS)[:3]))
def test_a_form_that_is_filled_in_makes_a_file_that_reads(name: str) -> None:
    questions, _ = asked(name)
    refused = []
    for need in _forms(name):
        try:
            project_from(read_text(with_changes(TEXTS[name], _changes(questions, need)), name))
        except Unusable as why:
            refused.append(f"{need}: {why}")
    assert refused == []


@pytest.mark.long
def test_a_length_that_is_asked_for_has_an_example_of_its_own() -> None:
    """A span is not shown as a riser is: the example of all lengths stands for what is asked of no form here."""
    fields = {
        field.label: field.example
        for questions, needs in map(asked, TEXTS)
        for need in needs
        for field in _fields(questions, need)
        if field.form == A_LENGTH
    }
    assert "span" in fields
    assert sorted(key for key, example in fields.items() if example == Length.example) == []


def _fields(questions: Questions, need: Need) -> list[Question]:
    question = questions.question(need)
    if question is None:
        return [field for part in form_by_example(questions, need) for field in part.fields]
    return list(question.fields)
