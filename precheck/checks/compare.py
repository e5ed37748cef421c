"""The comparisons that rules are written with."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from precheck.checks.check import Check
from precheck.checks.outcome import Bound, Look, Outcome, Text, as_reported, capital
from precheck.checks.relation import AGREES, MAXIMUM, MINIMUM, ONE_OF, OVER, REQUIRED, UNDER, Relation
from precheck.files.missing import Missing
from precheck.immutable import fixed
from precheck.units import Length, Measure

FINEST = Length.parse("1/64 in")  # nobody draws or builds a house to less


def at_most(measured: Any, limit: Bound, derived: Text = "") -> Check:
    """Check that `measured` is no more than `limit`; `derived` says how it came about (``108 1/2 in / 14 risers``)."""
    return compared(MAXIMUM, measured, limit, derived)


def at_least(measured: Any, limit: Bound, derived: Text = "") -> Check:
    """Check that `measured` is no less than `limit`."""
    return compared(MINIMUM, measured, limit, derived)


def less_than(measured: Any, limit: Bound, derived: Text = "") -> Check:
    """Check that `measured` is under `limit`, as a gap that must stop a sphere of that size."""
    return compared(UNDER, measured, limit, derived)


def more_than(measured: Any, limit: Bound, derived: Text = "") -> Check:
    """Check that `measured` is over `limit`, where the code asks for more than the number that it names."""
    return compared(OVER, measured, limit, derived)


def required(fact: bool | Missing, limit: Bound, derived: Text = "") -> Check:
    """Check that what `limit` names is there, which `fact` says, wherever the limit requires it.

    `derived` says more than the limit does, such as at which end of the stair.
    """
    return compared(REQUIRED, fact, limit, derived)


def one_of(choice: str | Measure | Missing, limit: Bound, derived: Text = "") -> Check:
    """Check that `choice` is among the choices that `limit` lists."""
    return compared(ONE_OF, choice, limit, derived)


def compared(relation: Relation, measured: Any, limit: Bound, derived: Text = "") -> Check:
    """Check that `measured` stands to `limit` as `relation` says."""
    value = limit.value
    if measured.__class__ is Missing or value.__class__ is Missing or value is None:
        return _undecided(relation, measured, limit, derived)
    if not relation.holds(measured, value) and not _complies_in_metric(relation, measured, limit):
        return _unmet(Outcome.FAIL, relation, limit, derived, measured=measured)
    tolerance = limit.tolerance
    if tolerance is None or not relation.is_ordered or abs(value - measured) >= tolerance:
        return Check(Outcome.PASS, relation, measured, limit, derived)
    return Check(Outcome.WARN, relation, measured, limit, derived, look=Look.CLOSE)


def _complies_in_metric(relation: Relation, measured: Any, limit: Bound) -> bool:
    """Whether `measured` complies with the metric figure that the code prints beside the other: either will do.

    What is drawn in inches takes only a figure that is the same to within rounding: 787 mm beside 31 1/2 in lets nobody
    draw 31 in. What must be under or over its limit takes none: 102 mm beside 4 in lets no sphere of 4 in pass.
    """
    twin = limit.metric
    if twin is None or relation in (UNDER, OVER) or not relation.is_ordered or not isinstance(measured, Measure):
        return False
    is_same = abs(twin - limit.value) <= twin.rounding
    return (is_same or measured.is_metric) and relation.holds(measured, twin)


def exceeds(measured: Measure | Missing, limit: Bound) -> bool | Missing:
    """Return whether `measured` is over a limit that calls for something; not over is what complies in metric as well.

    A void limit calls for nothing.
    """
    if limit.value is None:
        return False
    if isinstance(measured, Missing) or isinstance(limit.value, Missing):
        return measured if isinstance(measured, Missing) else limit.value
    return measured > limit.value and not _complies_in_metric(MAXIMUM, measured, limit)


def if_stated(measured: Any, compare: Callable[[Any, Bound, Text], Check], limit: Bound, derived: Text = "") -> Check:
    """Return what `compare` says of `measured`, or a check that stands aside where the project need not state it."""
    if isinstance(measured, Missing):
        return does_not_apply(lambda: f"{limit.measures}: not stated")
    return compare(measured, limit, derived)


def agrees(stated: Any, worked_out: Any, what: str, within: Measure | None = None, derived: Text = "") -> Check:
    """Check that two statements of the same thing agree (`within` a tolerance); silent where either is absent.

    Lengths that no sheet tells apart agree in any case: those of a model are rounded, and so is what they add up to.
    """
    if isinstance(stated, Missing) or isinstance(worked_out, Missing):
        return does_not_apply(f"{what} is given once, so there is nothing to hold it against")
    if within is None and isinstance(stated, Length) and isinstance(worked_out, Length):
        within = FINEST
    same = stated == worked_out or (within is not None and abs(stated - worked_out) <= within)
    return Check(
        Outcome.PASS if same else Outcome.FAIL,
        AGREES,
        stated,
        Counterpart(what, worked_out),
        derived,
        remedy_text=lambda: (
            f"correct one of the sheets: {AGREES.text_of(stated)} and {AGREES.text_of(worked_out)} conflict"
        ),
        left_open="which sheet is right",
    )


@fixed
class Counterpart:
    """What a second place says of a thing, to hold the first against as if it were a limit."""

    measures: str
    value: Any
    name: str = ""
    kind: str = ""
    advised: bool = False
    tolerance: Any = None
    metric: Any = None
    why_void: str | None = None


def all_of(*checks: Check) -> Check:
    """Return a check that is met when all `checks` are; those that do not apply stand aside. Of none, none applies."""
    if not checks:
        return does_not_apply("there is nothing to check")
    return Check(min(c.outcome for c in checks), parts=checks)


def every(checks: Iterable[Check], none: str) -> Check:
    """Return `all_of` the `checks`, or a check that does not apply, because `none`, where there are none."""
    found = tuple(checks)
    return all_of(*found) if found else does_not_apply(none)


def any_of(*checks: Check) -> Check:
    """Return a check that is met when one of `checks` is; undecided while one of them may still be met."""
    applying = tuple(c for c in checks if c.outcome is not Outcome.DOES_NOT_APPLY)
    if not applying:
        return Check(Outcome.DOES_NOT_APPLY, parts=checks, is_choice=True)
    best = max(c.outcome for c in applying)
    telling = tuple(c for c in applying if c.outcome == best)
    return Check(best, parts=telling if best >= Outcome.WARN else applying, is_choice=True)


def decide(condition: bool | Missing, then: Check, otherwise: Check) -> Check:
    """Return the check for a `condition` that the project may not state; undecided only if the answer hangs on it.

    What is met is met, whether or not it had to be: no condition is asked for then.
    """
    if not isinstance(condition, Missing):
        return then if condition else otherwise
    if then.outcome == otherwise.outcome and then.outcome is not Outcome.NOT_SHOWN:
        return then
    if {then.outcome, otherwise.outcome} == {Outcome.PASS, Outcome.DOES_NOT_APPLY}:
        return then if then.outcome is Outcome.PASS else otherwise
    return not_shown(condition)


def not_shown(*missing: Missing) -> Check:
    """Return a check that cannot be decided until the project gives what is `missing`."""
    return Check(Outcome.NOT_SHOWN, missing=Missing(*(n for m in missing for n in m.needs)))


def does_not_apply(why: Text) -> Check:
    """Return a check that says why the requirement is not about this part."""
    return Check(Outcome.DOES_NOT_APPLY, why_text=why)


def unsettled(*limits: Bound) -> Check | None:
    """Return what to say where one of `limits` is void or has yet to be set, so that nothing can be worked out from it.

    None where all of them have values. The comparisons say the same of the limit that they are given. A limit without a
    value that nothing made void is a table that a rule found no row in: it asks something, and a person has to say what.
    """
    for limit in limits:
        if limit.value is None:
            nothing_found = f"{capital(limit.measures)}: the table has no value for this one"
            return does_not_apply(limit.why_void) if limit.why_void else look_at(Look.ENGINEER, nothing_found)
        if isinstance(limit.value, Missing):
            return not_shown(limit.value)
    return None


def ask_unless_set(*limits: Bound) -> Check | None:
    """Return a warning to ask for the first of `limits` that the jurisdiction has yet to set; None where it sets all.

    Where none of them is required here, nothing is asked.
    """
    for limit in limits:
        if isinstance(limit.value, Missing):
            return look_at(Look.OFFICIAL, f"{capital(limit.measures)}: set locally, and not in this ruleset")
    if all(limit.value is None for limit in limits):
        return does_not_apply(limits[0].why_void or f"{limits[0].name} is not required here")
    return None


def met(why: str) -> Check:
    """Return a check that is met by a fact, said in `why`, that is no comparison with a limit.

    Raises `ValueError` where it says no fact: what nothing was looked at for does not apply, and is never a pass.
    """
    if not why:
        raise ValueError("`met` says by what fact; where there is none, say `does_not_apply` and why")
    return Check(Outcome.PASS, why_text=why)


def broken(why: str, *limits: Bound) -> Check:
    """Return a check that is not met, for the reason `why`; `limits` are what decided it, so that only they are cited."""
    return Check(Outcome.FAIL, why_text=why, parts=tuple(Check(Outcome.FAIL, bound=limit) for limit in limits))


def look_at(look: Look, why: str) -> Check:
    """Return a warning: a person should look, for the reason `look`, which `why` spells out."""
    return Check(Outcome.WARN, look=look, why_text=why)


def _undecided(relation: Relation, measured: Any, limit: Bound, derived: Text) -> Check:
    return unsettled(limit) or _unmet(Outcome.NOT_SHOWN, relation, limit, derived, missing=measured)


def _unmet(
    outcome: Outcome,
    relation: Relation,
    limit: Bound,
    derived: Text,
    measured: Any = None,
    missing: Missing | None = None,
) -> Check:
    reported = as_reported(outcome, advised=limit.advised)
    look = Look.PRACTICE if limit.advised else None
    return Check(reported, relation, measured, limit, derived, look=look, missing=missing)
