"""What published checklists ask is asked by a rule, or the file says that it is not and why."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from precheck.files.missing import is_missing
from precheck.files.record import Record, read_record
from precheck.files.source import read_file
from precheck.testing import code, editions, plugins

FILE = Path(__file__).parent / "published" / "checklists.yaml"


class Question(Record):
    """One question of reviewers: how many items ask it, how many are counted under it, and the rules that ask it."""

    kind = "question"
    question: str
    asked: int
    counted: int
    rules: tuple[str, ...] = ()
    unanswered: str = ""
    where_the_office_lists_it: bool = False


class Checklists(Record):
    """The file: topics of life safety, and the rest."""

    kind = "list of questions"
    life_safety: dict[str, tuple[Question, ...]]
    the_rest: dict[str, tuple[Question, ...]]


FOUND = read_record(Checklists, read_file(FILE))
TOPICS = {**FOUND.life_safety, **FOUND.the_rest}
QUESTIONS = [(topic, question) for topic, questions in TOPICS.items() for question in questions]


def counted(topics: Mapping[str, tuple[Question, ...]], *, answered: bool) -> int:
    """Return how many items of some topics are answered, or are not."""
    return sum(q.counted for questions in topics.values() for q in questions if bool(q.rules) is answered)


def share(topics: Mapping[str, tuple[Question, ...]]) -> float:
    """Return the share of items that rules answer."""
    yes = counted(topics, answered=True)
    return yes / (yes + counted(topics, answered=False))


def test_each_item_is_counted_once() -> None:
    """165 items of life safety and 369 others, each under one question."""
    sums = [
        counted(group, answered=True) + counted(group, answered=False) for group in (FOUND.life_safety, FOUND.the_rest)
    ]
    assert sums == [165, 369]
    assert [q.question for _, q in QUESTIONS if not 0 <= q.counted <= q.asked] == []


def test_each_question_has_rules_or_a_reason() -> None:
    """Never neither or both; no topic asks the same thing twice."""
    assert [q.question for _, q in QUESTIONS if bool(q.rules) == bool(q.unanswered)] == []
    assert len({(topic, q.question) for topic, q in QUESTIONS}) == len(QUESTIONS)


@pytest.mark.parametrize("name", sorted({name for _, q in QUESTIONS for name in q.rules}))
def test_each_rule_that_is_named_exists(name: str) -> None:
    """A rule that is renamed is renamed here too."""
    assert name in {rule.name for rule in plugins().rules}


def test_what_an_office_lists_is_asked_by_rules_that_read_a_list_or_wait_for_their_limit() -> None:
    """Rules of the package or of permits read lists that the office writes; others have a limit that no edition sets."""
    named = [name for _, q in QUESTIONS if q.where_the_office_lists_it for name in q.rules]
    assert named
    assert [q.question for _, q in QUESTIONS if q.where_the_office_lists_it and not _waits(q.rules)] == []


def test_what_no_model_code_asks_is_marked_as_waiting_for_the_office() -> None:
    """A question whose rules all say nothing under every edition counts only where a ruleset sets their limits."""
    silent = {name for name in LIMITS_OF if LIMITS_OF[name] and all(_is_void(limit) for limit in LIMITS_OF[name])}
    unmarked = [
        q.question for _, q in QUESTIONS if q.rules and set(q.rules) <= silent and not q.where_the_office_lists_it
    ]
    assert silent
    assert unmarked == []


LIMITS_OF = {rule.name: rule.limit_names for rule in plugins().rules}


def _is_void(limit: str) -> bool:
    return all(code(edition).limits[limit].value is None for edition in editions())


def _is_unset(limit: str) -> bool:
    return _is_void(limit) or all(is_missing(code(edition).limits[limit].value) for edition in editions())


def _waits(rules: tuple[str, ...]) -> bool:
    reads_a_list = any(name.startswith("package.") or name == "permits.on-site" for name in rules)
    return reads_a_list or any(_is_unset(limit) for name in rules for limit in LIMITS_OF[name])


def test_nearly_all_that_reviewers_ask_about_life_safety_is_answered() -> None:
    """At least 95 of a hundred items."""
    assert share(FOUND.life_safety) >= 0.95


def test_nearly_all_else_that_reviewers_ask_is_answered() -> None:
    """At least 95 of a hundred items; the file says why the others are not, and which wait for a ruleset."""
    assert share(FOUND.the_rest) >= 0.95
