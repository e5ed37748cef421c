"""Three-valued comparisons that carry their evidence.

A rule compares what the project shows with a limit and returns a `Check`. Fail beats not shown beats warn beats pass
(strong Kleene logic, with `warn` as a pass that a person should look at); what does not apply stands aside. A passing
check keeps references only; the words are made when somebody reads them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from enum import Enum, IntEnum
from typing import Any, NamedTuple, Protocol, TypeVar

from precheck.missing import Missing, Need
from precheck.units import Length, Measure, decimal, derived

__all__ = [
    "Check",
    "Look",
    "Outcome",
    "agrees",
    "all_of",
    "any_of",
    "at_least",
    "at_most",
    "broken",
    "decide",
    "does_not_apply",
    "every",
    "less_than",
    "look_at",
    "met",
    "not_shown",
    "one_of",
    "required",
]


T = TypeVar("T")
Text = str | Callable[[], str]


class Outcome(IntEnum):
    """What a check comes to; the lower, the more it needs attention."""

    ERROR = 0
    FAIL = 1
    NOT_SHOWN = 2
    WARN = 3
    PASS = 4
    DOES_NOT_APPLY = 5

    @property
    def word(self) -> str:
        """The outcome as reports write it."""
        return self.name.lower().replace("_", " ")


class Look(Enum):
    """Why a person should look at something that does not fail."""

    CLOSE = "close to the limit"
    PRACTICE = "good practice"
    EXISTING = "existing condition"
    ENGINEER = "engineer"
    OFFICIAL = "ask the building department"


class Bound(Protocol):
    """What a comparison needs of a limit; `precheck.limits.Limit` is one."""

    @property
    def name(self) -> str: ...
    @property
    def value(self) -> Any: ...
    @property
    def advised(self) -> bool: ...
    @property
    def tolerance(self) -> Any: ...
    @property
    def why_void(self) -> str | None: ...


class WorkStep(Protocol):
    """One value of a calculation: its symbol and meaning, how it was computed, its unit, and where it comes from."""

    @property
    def symbol(self) -> str: ...
    @property
    def meaning(self) -> str: ...
    @property
    def expression(self) -> str: ...
    @property
    def value(self) -> float: ...
    @property
    def unit(self) -> str: ...
    @property
    def source(self) -> str: ...


class Evidence(NamedTuple):
    """One comparison in words: what was measured, how it relates to which limit, how it was derived, the margin."""

    measured: str
    relation: str
    limit: str
    derived: str
    margin: str
    outcome: Outcome
    limit_name: str


class Check:
    """The outcome of one or more comparisons and what it rests on. Made by the functions of this module."""

    __slots__ = (
        "bound",
        "how",
        "look",
        "measured",
        "missing",
        "outcome",
        "parts",
        "relation",
        "remedy_text",
        "why_text",
        "work_of",
    )

    def __init__(
        self,
        outcome: Outcome,
        relation: str = "",
        measured: Any = None,
        bound: Bound | None = None,
        how: Text = "",
        parts: tuple[Check, ...] = (),
        look: Look | None = None,
        missing: Missing | None = None,
        why: Text = "",
    ) -> None:
        self.outcome = outcome
        self.relation = relation
        self.measured = measured
        self.bound = bound
        self.how = how
        self.parts = parts
        self.look = look
        self.missing = missing
        self.why_text = why
        self.remedy_text: Text = ""
        self.work_of: Callable[[], Iterable[WorkStep]] | None = None

    def or_fix(self, remedy: Text) -> Check:
        """Return this check with `remedy`, which is worked out only where the check is not met."""
        self.remedy_text = remedy
        return self

    def because(self, why: Text) -> Check:
        """Return this check with the reason why it is made of this part; shown with the finding."""
        self.why_text = why
        return self

    def with_work(self, work: Callable[[], Iterable[WorkStep]]) -> Check:
        """Return this check with its calculation, which is written out only when somebody asks for it."""
        self.work_of = work
        return self

    @property
    def work(self) -> tuple[WorkStep, ...]:
        """The calculation behind the check, step by step as an engineer would go through it; none for most checks."""
        own = tuple(self.work_of()) if self.work_of is not None else ()
        return own or next((w for part in (*self._telling(), *self.parts) if (w := part.work)), ())

    def leaves(self) -> Iterator[Check]:
        """Yield the single comparisons of this check that bear on its outcome, in order."""
        if self.parts:
            for part in self.parts:
                yield from part.leaves()
        else:
            yield self

    @property
    def why(self) -> str:
        """Why the check was made, or why it does not apply or needs a look."""
        own = _text(self.why_text)
        return own or next((w for part in self._telling() if (w := part.why)), "")

    @property
    def remedy(self) -> str:
        """What would meet the limit, where that could be worked out; nothing for a check that is met."""
        if self.outcome not in (Outcome.FAIL, Outcome.WARN) or self.looks == (Look.CLOSE,):
            return ""
        own = _text(self.remedy_text)
        return own or next((r for part in self._telling() if (r := part.remedy)), "")

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

    def evidence(self) -> list[Evidence]:
        """Return the comparisons in words."""
        return [_evidence(leaf) for leaf in self.leaves() if leaf.relation]

    def _telling(self) -> list[Check]:
        return [part for part in self.parts if part.outcome is self.outcome]


def at_most(measured: Any, limit: Bound, how: Text = "") -> Check:
    """Check that `measured` is no more than `limit`. `how` says how it was derived, such as ``108 1/2 in / 14 risers``."""
    value = limit.value
    if measured.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided("at most", measured, limit, how)
    if measured <= value:
        return _met("at most", measured, limit, how)
    return _broken("at most", measured, limit, how)


def at_least(measured: Any, limit: Bound, how: Text = "") -> Check:
    """Check that `measured` is no less than `limit`."""
    value = limit.value
    if measured.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided("at least", measured, limit, how)
    if measured >= value:
        return _met("at least", measured, limit, how)
    return _broken("at least", measured, limit, how)


def less_than(measured: Any, limit: Bound, how: Text = "") -> Check:
    """Check that `measured` is under `limit`, as a gap that must stop a sphere of that size."""
    value = limit.value
    if measured.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided("less than", measured, limit, how)
    if measured < value:
        return _met("less than", measured, limit, how)
    return _broken("less than", measured, limit, how)


def required(fact: bool | Missing, limit: Bound, what: str) -> Check:
    """Check that `fact`, which says whether `what` is there, is true wherever `limit` requires it."""
    value = limit.value
    if fact.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided("is", fact, limit, "")
    return Check(
        Outcome.PASS if fact else _missed(limit), "is", what if fact else f"no {what}", limit, look=_advice(limit)
    )


def one_of(choice: str | Missing, limit: Bound, how: Text = "") -> Check:
    """Check that `choice` is among the choices that `limit` lists."""
    value = limit.value
    if choice.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided("one of", choice, limit, how)
    return Check(Outcome.PASS if choice in value else _missed(limit), "one of", choice, limit, how, look=_advice(limit))


def agrees(stated: Any, worked_out: Any, what: str, within: Measure | None = None, how: Text = "") -> Check:
    """Check that two statements of the same thing agree (`within` a tolerance); silent where either is absent."""
    if isinstance(stated, Missing) or isinstance(worked_out, Missing):
        return does_not_apply(f"{what} is given once, so there is nothing to hold it against")
    same = stated == worked_out or (within is not None and abs(stated - worked_out) <= within)
    why = f"{what} is given as {stated}, and comes to {worked_out}{f' ({_text(how)})' if how else ''}"
    return Check(Outcome.PASS if same else Outcome.FAIL, "agrees with", stated, None, str(worked_out), why=why).or_fix(
        f"make the sheets agree: correct one of {stated} and {worked_out}"
    )


def all_of(*checks: Check) -> Check:
    """Return a check that is met when all `checks` are; those that do not apply stand aside."""
    return Check(min(c.outcome for c in checks), parts=checks)


def every(checks: Iterable[Check], none: str) -> Check:
    """Return `all_of` the `checks`, or a check that does not apply, because `none`, where there are none."""
    found = tuple(checks)
    return all_of(*found) if found else does_not_apply(none)


def any_of(*checks: Check) -> Check:
    """Return a check that is met when one of `checks` is; undecided while one of them may still be met."""
    applying = tuple(c for c in checks if c.outcome is not Outcome.DOES_NOT_APPLY)
    if not applying:
        return Check(Outcome.DOES_NOT_APPLY, parts=checks)
    best = max(c.outcome for c in applying)
    telling = tuple(c for c in applying if c.outcome == best)
    return Check(best, parts=telling if best >= Outcome.WARN else applying)


def decide(condition: bool | Missing, then: Check, otherwise: Check) -> Check:
    """Return the check for a `condition` that the project may not state; undecided only if the answer hangs on it."""
    if not isinstance(condition, Missing):
        return then if condition else otherwise
    if then.outcome == otherwise.outcome and then.outcome is not Outcome.NOT_SHOWN:
        return then
    return not_shown(condition)


def not_shown(*missing: Missing) -> Check:
    """Return a check that cannot be decided until the project gives what is `missing`."""
    return Check(Outcome.NOT_SHOWN, missing=Missing(*(n for m in missing for n in m.needs)))


def does_not_apply(why: str) -> Check:
    """Return a check that says why the requirement is not about this part."""
    return Check(Outcome.DOES_NOT_APPLY, why=why)


def met(why: str) -> Check:
    """Return a check that is met by a fact, said in `why`, that is no comparison with a limit."""
    return Check(Outcome.PASS, why=why)


def broken(why: str) -> Check:
    """Return a check that is not met, for the reason `why`."""
    return Check(Outcome.FAIL, why=why)


def look_at(look: Look, why: str) -> Check:
    """Return a warning: a person should look, for the reason `look`, which `why` spells out."""
    return Check(Outcome.WARN, look=look, why=why)


def _met(relation: str, measured: Any, limit: Bound, how: Text) -> Check:
    tolerance = limit.tolerance
    if tolerance is None or abs(limit.value - measured) >= tolerance:
        return Check(Outcome.PASS, relation, measured, limit, how)
    return Check(Outcome.WARN, relation, measured, limit, how, look=Look.CLOSE)


def _broken(relation: str, measured: Any, limit: Bound, how: Text) -> Check:
    return Check(_missed(limit), relation, measured, limit, how, look=_advice(limit))


def _missed(limit: Bound) -> Outcome:
    return Outcome.WARN if limit.advised else Outcome.FAIL


def _advice(limit: Bound) -> Look | None:
    return Look.PRACTICE if limit.advised else None


def _undecided(relation: str, measured: Any, limit: Bound, how: Text) -> Check:
    if limit.value is None:
        return does_not_apply(limit.why_void or f"{limit.name} is not required here")
    if isinstance(limit.value, Missing):
        return not_shown(limit.value)
    if limit.advised:  # good practice that is not drawn is no reason to hold a job up
        return Check(Outcome.WARN, relation, None, limit, how, look=Look.PRACTICE, missing=measured)
    return Check(Outcome.NOT_SHOWN, relation, None, limit, how, missing=measured)


def _evidence(leaf: Check) -> Evidence:
    limit = leaf.bound.value if leaf.bound is not None else leaf.how
    measured = "not shown" if leaf.missing is not None else str(leaf.measured)
    shown_limit = _shown(limit)
    if measured == shown_limit and isinstance(leaf.measured, Measure) and leaf.measured != limit:
        measured = f"{measured} ({_finely(leaf.measured)})"
    how = _text(leaf.how) if leaf.bound is not None and leaf.missing is None else ""
    name = leaf.bound.name if leaf.bound is not None else ""
    return Evidence(measured, leaf.relation, shown_limit, how, _margin(leaf, limit), leaf.outcome, name)


def _margin(leaf: Check, limit: Any) -> str:
    if leaf.missing is not None or leaf.relation not in ("at most", "at least", "less than"):
        return ""
    over = leaf.measured - limit
    if not isinstance(over, Measure | int):
        return decimal(over)
    size = over if isinstance(over, int) else over.n
    if not size:
        return "none"
    text = derived(abs(over)) if isinstance(over, Measure) else str(abs(over))
    return f"{text} {'over' if size > 0 else 'under'}"


def _finely(measure: Measure) -> str:
    return f"{decimal(measure / Length.parse('1 in'), 4)} in" if isinstance(measure, Length) else decimal(measure.n, 5)


def _shown(limit: Any) -> str:
    if limit is True:
        return "required"
    return " or ".join(limit) if isinstance(limit, tuple) else str(limit)


def _text(text: Text) -> str:
    return text if isinstance(text, str) else text()
