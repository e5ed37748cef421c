"""Lines of what a work takes: rules about a work, due for the kinds of work that a ruleset lists.

A line says whether what a work takes is shown. Its function returns `shown(part)` where a part of the project really
serves (a header in that opening, a footing under that wall), `to_show(...)` where nothing does, and `does_not_apply` where
this very work does not take it. For which works it is due, on which sheet one looks for it and how early an office asks
stands in the rulesets, under `takes`, and is amended like a limit.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any, NamedTuple

from precheck.checks import Check, met, not_shown
from precheck.files.missing import Missing, Need, is_missing
from precheck.immutable import fixed
from precheck.project import Part
from precheck.rules.rule import Rule, Signature, Stage
from precheck.survey import House
from precheck.survey.works import Work

__all__ = ["Line", "line", "shown", "to_show"]


class Due(NamedTuple):
    """The limit of a line: the kinds of work for which it is due."""

    works: Any  # a Limit, whose value is a tuple of kinds of work


@fixed
class Line(Rule):
    """One thing that works take. Its function takes the work and the house."""

    @property
    def limit_name(self) -> str:
        """The name of the limit that lists for which works it is due."""
        return f"{self.name}.works"

    @cached_property
    def signature(self) -> Signature:
        """A work, the kinds of work for which the line is due, and the house."""
        return Signature(Work, Due, (self.limit_name,), True, ("works",))

    def concerns(self, subject: Any, limits: Any) -> bool:
        """Return whether the line is due for a work of this kind; no finding is made where it is not."""
        works = limits.works.value
        return is_missing(works) or subject.kind in (works or ())


def line(name: str, *, stage: Stage = "plan") -> Callable[[Callable[[Work, House], Check]], Line]:
    """Make a function of a work and its house a line called `name`, such as ``framing.header-in-opening``.

    The ruleset lists under that name, in `takes`, for which works it is due.
    """

    def made(function: Callable[[Work, House], Check]) -> Line:
        def due(work: Work, _: Due, house: House) -> Check:
            return function(work, house)

        due.__doc__, due.__module__ = function.__doc__, function.__module__
        return Line(name, due, stage, "must comply")

    return made


def shown(*parts: Part | str) -> Check:
    """Return the check of a line that `parts` show."""
    return met(", ".join(part if isinstance(part, str) else part.label for part in parts))


def to_show(what: str, work: Work, *missing: Missing) -> Check:
    """Return the check of a line that nothing shows: `what` is missing of `work`, or the values that are `missing`."""
    return not_shown(*missing) if missing else not_shown(Missing(Need(work.about.label, what, work.place)))
