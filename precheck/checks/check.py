"""The outcome of comparisons with what it rests on. A passing check keeps references only; words are made on demand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import Any, NamedTuple, TypeVar

from precheck.checks.outcome import Bound, Decision, Look, NewValue, Outcome, Text, WorkStep, words, worked_out
from precheck.checks.relation import Relation
from precheck.files.missing import Missing, Need

T = TypeVar("T")


class Check(NamedTuple):
    """The outcome of one or more comparisons and what it rests on. Made by the functions of `compare`.

    A named tuple and not a frozen dataclass, because a run makes thousands of them and a tuple is made four times as fast.
    """

    outcome: Outcome
    relation: Relation | None = None
    measured: Any = None
    bound: Bound | None = None
    derived: Text = ""
    parts: tuple[Check, ...] = ()
    look: Look | None = None
    missing: Missing | None = None
    why_text: Text = ""
    remedy_text: Text = ""
    work_of: Callable[[], Iterable[WorkStep]] | None = None
    changes_of: Callable[[], Iterable[NewValue]] | None = None
    is_choice: bool = False  # one of the parts will do
    left_open: Decision = ""

    def or_fix(
        self, remedy: Text, changes: Callable[[], Iterable[NewValue]] | None = None, decide: Decision = ""
    ) -> Check:
        """Return this check with `remedy`, which is worked out only where the check is not met.

        `changes` gives the remedy as data, where it is one: which values of which records become what. Made in the file,
        they must clear the finding and break nothing else. `decide` is what a person has to decide first, where nothing
        can be changed before; where `changes` gives nothing it is how the plan changes, unless `decide` says otherwise.
        """
        return self._replace(remedy_text=remedy, changes_of=changes, left_open=decide)

    def because(self, why: Text) -> Check:
        """Return this check with the reason why it is made of this part; shown with the finding."""
        return self._replace(why_text=why)

    def with_work(self, work: Callable[[], Iterable[WorkStep]]) -> Check:
        """Return this check with its calculation, which is written out only when somebody asks for it."""
        return self._replace(work_of=work)

    def citing(self, bound: Bound) -> Check:
        """Return this check, whose parts that are no comparison with a limit cite `bound` instead of all that is read."""
        if self.parts:
            return self._replace(parts=tuple(part.citing(bound) for part in self.parts))
        return self if self.bound is not None else self._replace(bound=bound)

    @property
    def work(self) -> tuple[WorkStep, ...]:
        """The calculation behind the check, step by step as an engineer would go through it; none for most checks."""
        own = worked_out(self.work_of)
        return own or next((w for part in (*self._telling(), *self.parts) if (w := part.work)), ())

    def leaves(self) -> Iterator[Check]:
        """Yield the single comparisons of this check that bear on its outcome, in order."""
        if self.parts:
            for part in self.parts:
                yield from part.leaves()
        else:
            yield self

    @property
    def is_met(self) -> bool:
        """Whether it is met, if only with a warning, or asks nothing of this part."""
        return self.outcome >= Outcome.WARN

    @property
    def why(self) -> str:
        """Why the check was made, or why it does not apply or needs a look."""
        own = words(self.why_text)
        return own or next((w for part in self._telling() if (w := part.why)), "")

    @property
    def remedy(self) -> str:
        """What would meet the limit, where that could be worked out; nothing for a check that is met."""
        if self.outcome not in (Outcome.FAIL, Outcome.WARN) or self.looks == (Look.CLOSE,):
            return ""
        own = words(self.remedy_text)
        return own or "; ".join(dict.fromkeys(self._of_parts(r for part in self._telling() if (r := part.remedy))))

    @property
    def changes(self) -> tuple[NewValue, ...]:
        """The remedy as data; nothing where it has none, where it does not clear all that is not met, or where all is met."""
        if not self.remedy:
            return ()
        own = worked_out(self.changes_of)
        of_parts = [part.changes for part in self._telling()]
        if own or (not self.is_choice and not all(of_parts)):
            return own
        return tuple(change for changes in self._of_parts(c for c in of_parts if c) for change in changes)

    @property
    def decide(self) -> Decision:
        """What a person has to decide before the remedy changes a value; nothing where it is data, or says nothing."""
        if not self.remedy or self.changes:
            return ""
        of_parts: Iterator[Decision] = (d for part in self._telling() if (d := part.decide))
        worked_out: Decision = "how the plan changes" if self.changes_of is not None else ""
        return self.left_open or worked_out or next(of_parts, "")

    @property
    def needs(self) -> tuple[Need, ...]:
        """The values that the project should give before all of this can be decided."""
        found = [n for leaf in self.leaves() if leaf.missing is not None for n in leaf.missing.needs]
        return tuple(dict.fromkeys(found))

    @property
    def looks(self) -> tuple[Look, ...]:
        """Why a person should look, for a warning."""
        own = (self.look,) if self.look and self.outcome is Outcome.WARN else ()
        return tuple(dict.fromkeys([*own, *(look for part in self._telling() for look in part.looks)]))

    def _of_parts(self, said: Iterable[T]) -> Iterator[T]:
        """Return what is said of all parts; of one, where one of them will do."""
        return islice(said, 1) if self.is_choice else iter(said)

    def _telling(self) -> list[Check]:
        return [part for part in self.parts if part.outcome is self.outcome]
