"""Which changes of the file make what the page asks for, one way for each thing that may be asked."""

from __future__ import annotations

from collections.abc import Collection

from precheck.board import sketching
from precheck.board.asked import ApplyRemedy, GiveAnswer, MakeAgree, RuleOut, SayDrawn, SetValue, TakeOut
from precheck.board.asking import AskedByPage
from precheck.board.changing import Changes
from precheck.board.values import SETTLED, agreed, answered, remedied, ruled_out, set_value, story_drawn, taken_out
from precheck.questions.question import Questions
from precheck.reports.worklist import Item
from precheck.survey import House


def changes_asked(questions: Questions, asked: AskedByPage, item: Item | None, items: Collection[Item] = ()) -> Changes:
    """Return the changes of the file; `item` is what `asked` answers, one of `items`.

    Raises `ValueError` with what is wrong, for a person.
    """
    project, house = questions.project, House(questions.project)
    if isinstance(asked, GiveAnswer | ApplyRemedy):
        if item is None:
            raise ValueError(SETTLED)
        return answered(questions, item, asked, items) if isinstance(asked, GiveAnswer) else remedied(item)
    if isinstance(asked, SetValue):
        return set_value(questions, asked)
    if isinstance(asked, MakeAgree):
        return agreed(house, asked)
    if isinstance(asked, TakeOut):
        return taken_out(project, asked)
    if isinstance(asked, RuleOut):
        return ruled_out(project, asked)
    if isinstance(asked, SayDrawn):
        return story_drawn(project, asked)
    return sketching.changes_of(house, asked)
