"""Three-valued comparisons that carry their evidence.

A rule compares what the project shows with a limit and returns a `Check`. Fail beats not shown beats warn beats pass
(strong Kleene logic, with `warn` as a pass that a person should look at); what does not apply stands aside. A passing
check keeps references only; the words are made when somebody reads them.
"""

from precheck.checks.check import Check
from precheck.checks.compare import (
    agrees,
    all_of,
    any_of,
    ask_unless_set,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    every,
    exceeds,
    if_stated,
    less_than,
    look_at,
    met,
    more_than,
    not_shown,
    one_of,
    required,
    unsettled,
)
from precheck.checks.outcome import Look, NewValue, Outcome

__all__ = [
    "Check",
    "Look",
    "NewValue",
    "Outcome",
    "agrees",
    "all_of",
    "any_of",
    "ask_unless_set",
    "at_least",
    "at_most",
    "broken",
    "decide",
    "does_not_apply",
    "every",
    "exceeds",
    "if_stated",
    "less_than",
    "look_at",
    "met",
    "more_than",
    "not_shown",
    "one_of",
    "required",
    "unsettled",
]
