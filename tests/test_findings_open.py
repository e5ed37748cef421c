"""Whatever the board lists opens something: a field, a form, a box to tick, the part it is about, or it says who settles it.

Over the houses of all cases of all rules; from day to day those of one topic.
"""

from __future__ import annotations

import pytest
from case_houses import EDITION, TOPICS, houses
from sampled import long_save

from precheck import testing
from precheck.board.forms import ask_of, fields_of_remedy, form_of_part, needs_of
from precheck.board.todo import remedy_told, todo_item
from precheck.board.twice import told_twice
from precheck.project import project_from
from precheck.questions.question import Questions
from precheck.reports.worklist import Item, items_of
from precheck.review.run import review

WAYS = ("field", "parts", "tool", "tick", "by_hand", "settled")


def opens(questions: Questions, item: Item, items: tuple[Item, ...]) -> str:
    """Return what an item opens to on the page; empty where a person stands before nothing."""
    asks = [ask_of(questions, item, number, need) for number, need in enumerate(needs_of(item))]
    if not all(any(ask[what] for what in WAYS) for ask in asks):
        return ""
    if asks:
        return "a field or form, or who settles it"
    if remedy_told(item) or fields_of_remedy(questions, item) or told_twice(questions.project, item.parts):
        return "what is wrong, to be corrected"
    if item.parts:
        form = form_of_part(questions, item.parts[0], items)
        return "the part" if form["values"] or form["more"] else ""
    return "; ".join(todo_item(item)["look"])


@pytest.mark.parametrize("topic", long_save(TOPICS, "escape"))
def test_each_thing_that_the_board_lists_opens_something(topic: str) -> None:
    nothing: dict[str, str] = {}
    for house in houses(topic):
        project = project_from(house.fragment, testing.plugins().added)
        found = review(project, testing.code(EDITION), testing.plugins(), [topic])
        items, questions = items_of(found), Questions(project)
        for item in items:
            if not opens(questions, item, items):
                rules = ", ".join(sorted({finding.rule.name for finding in item.findings}))
                nothing.setdefault(f"{rules}: {item.label}: {item.gist}", house.case)
    assert nothing == {}
