"""How what is measured must stand to a limit: one record each, with its word, its test and how it is said.

The words are those in which the rulesets give the sense of a limit, so that the two can be held together.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import Any, NamedTuple


class Relation(NamedTuple):
    """One way to stand to a limit, called `word`. `holds` is its test; in the texts ``{}`` is the limit."""

    word: str
    holds: Callable[[Any, Any], bool]
    asked: str
    asked_count: str = ""  # of a limit on how many there are of a thing, where that is said otherwise
    condition: str = ""  # where a ruleset makes it a condition of a requirement
    lead: str = ""  # stands before what is measured
    wrong_side: int = (
        0  # 1 where what is above the limit does not comply, -1 where what is below; 0: there is no margin
    )
    tells_margin: bool = False  # in its sentence
    yes_and_no: tuple[str, str] = ("yes", "no")  # what is said of a fact

    @property
    def is_ordered(self) -> bool:
        """Whether it compares measures or counts, so that there is a margin."""
        return self.wrong_side != 0

    def text_of(self, value: Any) -> str:
        """Return a value, or a list of choices, in words."""
        if isinstance(value, bool):
            return self.yes_and_no[0 if value else 1]
        if type(value) is not tuple:  # a size, width by height, is one too
            return str(value)
        *first, last = map(str, value)
        return f"{', '.join(first)} or {last}" if first else last


def _is_among(choice: Any, choices: Any) -> bool:
    return choice == choices if isinstance(choices, str) else choice in choices


def _is_there(fact: Any, _: Any) -> bool:
    return bool(fact)


MAXIMUM = Relation("maximum", operator.le, "{} maximum", "", "{} or less", "", 1, True)
MINIMUM = Relation("minimum", operator.ge, "{} minimum", "{} required", "{} or more", "", -1, True)
UNDER = Relation("under", operator.lt, "must be under {}", "", "under {}", "", 1)
OVER = Relation("over", operator.gt, "must be over {}", "", "over {}", "", -1)
ONE_OF = Relation("one of", _is_among, "must be {}")
REQUIRED = Relation("required", _is_there, "required", yes_and_no=("shown", "none"))
AGREES = Relation("agrees", operator.eq, "comes to {}", lead="given as ")

RELATIONS = {one.word: one for one in (MAXIMUM, MINIMUM, UNDER, OVER, ONE_OF, REQUIRED, AGREES)}
